"""Schedules by CP-SAT: cases as JSON on standard input, proven optima as JSON on standard output.

CP-SAT gets no row of ours. A dish is one literal of its columns, a resource a cumulative of
optional intervals, and a fed fire a round trip through the pots over it: going on to the next pot
costs the idle fuel until then or a new lighting, whichever is less.
"""

import json
import sys
from collections import defaultdict

from ortools.sat.python import cp_model

UNIT = {"money": 1e6}


def by_cp_sat(columns, kitchen, goal):
    """Least of a goal, proven by CP-SAT; None where there is no schedule."""
    model = cp_model.CpModel()
    on = [model.new_bool_var(f"{n}") for n in range(len(columns))]
    for item in kitchen["items"]:
        model.add_exactly_one(y for y, c in zip(on, columns, strict=True) if c["item"] == item)
    held = defaultdict(list)
    for y, column in zip(on, columns, strict=True):
        for use in column["uses"]:
            if use["start"] < use["end"]:
                interval = model.new_optional_fixed_size_interval_var(
                    use["start"], use["end"] - use["start"], y, ""
                )
                held[use["resource"]].append(interval)
    for resource, intervals in held.items():
        model.add_cumulative(intervals, [1] * len(intervals), kitchen["capacity"][resource])
    fires = _fires(model, on, columns, kitchen)
    for fuel, stock in kitchen["stock_j"].items():
        dishes = [
            y * round(c["fuel_j"]) for y, c in zip(on, columns, strict=True) if c["fuel"] == fuel
        ]
        lit = [
            y * round(joules)
            for stove, y, joules in fires
            if kitchen["lightings"][stove]["fuel"] == fuel
        ]
        model.add(sum(dishes) + sum(lit) <= round(stock))
    unit = UNIT.get(goal, 1.0)
    told = [y * round(unit * _price(c, goal)) for y, c in zip(on, columns, strict=True)]
    told += [
        y * round(unit * _fire_price(kitchen, stove, joules, goal)) for stove, y, joules in fires
    ]
    model.minimize(sum(told))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_time_in_seconds = 60
    status = solver.solve(model)
    assert status in (cp_model.OPTIMAL, cp_model.INFEASIBLE), solver.status_name(status)
    return solver.objective_value / unit if status == cp_model.OPTIMAL else None


def _price(column, goal):
    if goal == "money":
        return column["money"]
    return column["fuel_j"] if goal in ("energy", column["fuel"]) else 0.0


def _fire_price(kitchen, stove, joules, goal):
    lighting = kitchen["lightings"][stove]
    if goal == "money":
        return joules * lighting["money_j"]
    return joules if goal in ("energy", lighting["fuel"]) else 0.0


def _fires(model, on, columns, kitchen):
    """Round trips through the pots over each fed fire: (stove, literal of an arc, joules of it)."""
    pots = defaultdict(list)
    for number, column in enumerate(columns):
        for burn in column["burns"]:
            if burn["stove"] in kitchen["lightings"]:
                pots[burn["stove"], burn["window"]].append((number, burn))
    told = []
    for (stove, _), burns in pots.items():
        lighting = kitchen["lightings"][stove]
        assert kitchen["capacity"][f"stove:{stove}"] == 1, "one pot over one fire at a time"
        empty = model.new_bool_var("")
        arcs = [(0, 0, empty)]
        for node, (number, burn) in enumerate(burns, start=1):
            first, last = model.new_bool_var(""), model.new_bool_var("")
            arcs += [(node, node, ~on[number]), (0, node, first), (node, 0, last)]
            told.append((stove, first, lighting["start_j"]))
            for after, (_, later) in enumerate(burns, start=1):
                if burn["end"] <= later["start"] and node != after:
                    arc = model.new_bool_var("")
                    idle_j = (later["start"] - burn["end"]) * 60 * lighting["idle_w"]
                    told.append((stove, arc, min(idle_j, lighting["start_j"])))
                    arcs.append((node, after, arc))
        model.add_circuit(arcs)
    return told


def main():
    cases = json.load(sys.stdin)
    json.dump([by_cp_sat(**case) for case in cases], sys.stdout)


if __name__ == "__main__":
    main()
