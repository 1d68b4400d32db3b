"""The same integer program given whole to a solver, in a process of its own.

``python tests/benchmarks/peers.py SOLVER MODEL.mps SECONDS GAP`` prints seconds, best value and
bound as JSON. HiGHS and CP-SAT run with their own settings and two threads, as many as this
package plans days with; CBC has one.
"""

import json
import subprocess
import sys
import time
import warnings


def highs(model: str, seconds: float, gap: float) -> tuple[float | None, float | None]:
    """Solve with HiGHS as it comes."""
    import highspy

    engine = highspy.Highs()
    engine.silent()
    for option, value in {"time_limit": seconds, "mip_rel_gap": gap, "threads": 2}.items():
        engine.setOptionValue(option, value)
    engine.readModel(model)
    engine.run()
    info = engine.getInfo()
    found = info.primal_solution_status == 2
    return (info.objective_function_value if found else None), info.mip_dual_bound


def cbc(model: str, seconds: float, gap: float) -> tuple[float | None, float | None]:
    """Solve with CBC; what it proves stands in its log."""
    import pulp  # it loads highspy

    with warnings.catch_warnings():
        warnings.simplefilter("ignore", DeprecationWarning)
        path = pulp.PULP_CBC_CMD().path
    words = [path, model, "sec", str(seconds), "ratio", str(gap), "preprocess", "off", "solve"]
    log = subprocess.run(words, check=False, capture_output=True, text=True).stdout
    told = {
        key.strip(): value.split()[0]
        for key, _, value in (line.partition(":") for line in log.splitlines())
        if value.split()
    }
    best, bound = told.get("Objective value"), told.get("Lower bound")
    if best is not None and bound is None:  # it says so only where it was cut short
        bound = str(float(best) * (1 - gap))
    return (None if best is None else float(best)), (None if bound is None else float(bound))


def cp_sat(model: str, seconds: float, gap: float) -> tuple[float | None, float | None]:
    """Solve with CP-SAT."""
    from ortools.linear_solver.python import model_builder

    program = model_builder.Model()
    program.import_from_mps_file(model)
    solver = model_builder.Solver("sat")
    solver.set_time_limit_in_seconds(seconds)
    settings = f"num_workers: 2 relative_gap_limit: {gap} max_time_in_seconds: {seconds}"
    solver.set_solver_specific_parameters(settings)
    status = solver.solve(program)
    found = status in (model_builder.SolveStatus.OPTIMAL, model_builder.SolveStatus.FEASIBLE)
    return (solver.objective_value if found else None), solver.best_objective_bound


def main() -> None:
    """Solve and tell."""
    name, model, seconds, gap = sys.argv[1:]
    begin = time.perf_counter()
    best, bound = {"HiGHS": highs, "CBC": cbc, "CP-SAT": cp_sat}[name](
        model, float(seconds), float(gap)
    )
    told = {"seconds": time.perf_counter() - begin, "best": best, "bound": bound}
    print(json.dumps(told))


if __name__ == "__main__":
    main()
