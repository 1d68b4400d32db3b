"""``fuelthrift record``: what was really burned, cooked and measured goes into the log."""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from optimizer.cli.measuring import Options
from optimizer.cli.options import Choices, Json, UnitsOption, read_scenario
from optimizer.cli.outlet import Outlet, failures_told
from optimizer.cli.record_options import (
    AddedOption,
    AdultsOption,
    At,
    ChildrenOption,
    CookerOption,
    DishOption,
    EmptyOption,
    HowOption,
    InsteadOption,
    LeftOption,
    MealOption,
    NewOption,
    NoteOption,
    PotOption,
    StoveOption,
    TakeOption,
    TargetFile,
    TempOption,
    UntilOption,
    WetOption,
    WhenOption,
    WithdrawOption,
)
from optimizer.errors import InputError

if TYPE_CHECKING:
    from optimizer.model.household import Scenario
    from optimizer.scenario.logbook import Log
    from optimizer.trials.record import Record


@dataclass(frozen=True, slots=True)
class Asked:
    """The options that become entries."""

    left: tuple[str, ...]
    added: tuple[str, ...]
    empty: str | None
    meal: str | None
    dish: str | None
    how: str | None
    stove: str | None
    pot: str | None
    cooker: str | None
    temp: str | None
    when: str | None
    adults: int | None
    children: int | None
    wet: bool | None
    until: str | None
    withdraw: int | None


def record(
    file: TargetFile = None,
    at: At = None,
    left: LeftOption = None,
    added: AddedOption = None,
    empty: EmptyOption = None,
    meal: MealOption = None,
    dish: DishOption = None,
    how: HowOption = None,
    stove: StoveOption = None,
    pot: PotOption = None,
    cooker: CookerOption = None,
    temp: TempOption = None,
    when: WhenOption = None,
    adults: AdultsOption = None,
    children: ChildrenOption = None,
    wet: WetOption = None,
    until: UntilOption = None,
    note: NoteOption = None,
    instead_of: InsteadOption = None,
    withdraw: WithdrawOption = None,
    take: TakeOption = None,
    new: NewOption = False,
    json: Json = None,
    units: UnitsOption = "metric",
) -> None:
    """Write down what was burned, cooked or measured; without options, show what was."""
    outlet = Outlet(json, file)
    asked = Asked(
        tuple(left or ()), tuple(added or ()), empty, meal, dish, how, stove, pot, cooker, temp,
        when, adults, children, wet, until, withdraw,
    )  # fmt: skip
    with failures_told(outlet):
        options = Options()
        if file is None:
            options.wrong("FILE", "missing", "record writes: name the scenario the log is of")
            raise InputError(options.problems)
        scenario = read_scenario(outlet, Choices())
        from optimizer.scenario.appending import put_aside
        from optimizer.scenario.logbook import log_path

        if new and (kept := put_aside(log_path(file))):
            outlet.say(f"The old log is kept as {kept.name}; a new one begins.")
        common = {"note": note, "instead_of": instead_of}
        said = list(entries_of(asked, scenario, moment(at, scenario, options), options))
        _append(log_path(file), said, common, scenario, options)
        log, found = record_beside(file, scenario)
        if take:
            _take(file, take, found, options)
            log, found = record_beside(file, read_scenario(outlet, Choices()))
            outlet.say(f"Written into {file}: " + ", ".join(take))
        from optimizer.report.record import record_text
        from optimizer.report.record_result import record_json

        outlet.say(record_text(log, found, units))
        if outlet.json is not None:
            outlet.write(record_json(log, found))


def moment(text: str | None, scenario: "Scenario", options: Options) -> int | None:
    """Read --at; without it, now, where the scenario has a date."""
    from optimizer.trials.moment import EXAMPLE, MomentError, moment_of

    if text is None and scenario.start is None:
        return None
    try:
        found = moment_of(text or "now", scenario)
    except MomentError as error:
        options.wrong("--at", "moment", str(error))
        return None
    if text is None and not 0 <= found <= scenario.days * 1440:
        return None
    if found < 0:
        options.wrong("--at", "moment", f"'{text}' is before the first day; write {EXAMPLE}")
    return found


def entries_of(
    asked: Asked, scenario: "Scenario", at: int | None, options: Options
) -> Iterator[dict[str, Any]]:
    """Yield what the options say, an entry each."""
    from optimizer.scenario.clock import moment_written

    day = None if at is None else at // 1440 + 1
    stamp = {"at": None if at is None else moment_written(at)}
    for key, given in (("left", asked.left), ("added", asked.added)):
        for text in given:
            yield {**stamp, "kind": "fuel", **_fuel(key, text, asked, options)}
    if asked.temp is not None:
        yield {**stamp, "kind": "temperature", **_reading(asked, day)}
    if asked.meal is not None and (asked.temp is None or asked.how is not None):
        things = {"dish": asked.dish, "stove": asked.stove, "pot": asked.pot}
        how = {"how": asked.how or "eaten", "cooker": asked.cooker}
        yield {**stamp, "kind": "meal", "day": day, "meal": asked.meal, **things, **how}
    if asked.adults is not None or asked.children is not None:
        heads = {"adults": asked.adults or 0, "children": asked.children or 0}
        yield {**stamp, "kind": "people", **heads}
    if asked.wet is not None:
        until = _until(asked.until, scenario, options)
        yield {**stamp, "kind": "sticks", "wet": asked.wet, "until": until}
    if asked.withdraw is not None:
        yield {**stamp, "kind": "withdrawn", "instead_of": asked.withdraw}


def _fuel(key: str, text: str, asked: Asked, options: Options) -> dict[str, Any]:
    name, sign, amount = text.partition("=")
    if not sign:
        options.wrong(
            f"--{key}", "fuel", f"expected FUEL=AMOUNT such as 'sticks=8.4 kg', given {text!r:.60}"
        )
    return {"fuel": name.strip(), key: amount.strip(), "empty": asked.empty}


def _reading(asked: Asked, day: int | None) -> dict[str, Any]:
    when = asked.when or "serving"
    if when == "room":
        return {"read": asked.temp, "when": when}
    return {"read": asked.temp, "when": when, "day": day, "meal": asked.meal, "dish": asked.dish}


def _until(text: str | None, scenario: "Scenario", options: Options) -> str | None:
    from optimizer.scenario.clock import moment_written
    from optimizer.trials.moment import MomentError, moment_of

    if text is None:
        return None
    try:
        return moment_written(max(0, moment_of(text, scenario)))
    except MomentError as error:
        options.wrong("--until", "moment", str(error))
        return None


def _append(
    path: Path,
    said: list[dict[str, Any]],
    common: dict[str, Any],
    scenario: "Scenario",
    options: Options,
) -> None:
    """Check all entries, then add them, all or none."""
    from optimizer.trials.diary import problems_of, write_all

    whole = [{**common, **each} for each in said]
    if common["instead_of"] is not None and len(said) != 1:
        options.wrong("--instead-of", "contradiction", "corrects one entry by one; give one")
    if said and said[0]["at"] is None and not any(p.key == "--at" for p in options.problems):
        options.wrong("--at", "missing", "say when, such as --at 'day 2 12:00'")
    known_at = bool(said) and said[0]["at"] is not None
    options.problems += problems_of(path, whole, scenario) if known_at else []
    if options.problems:
        raise InputError(options.problems)
    if whole:
        write_all(path, whole)


def record_beside(file: Path, scenario: "Scenario") -> "tuple[Log, Record]":
    """Read the log beside a scenario, with the plan that was followed, or would be."""
    from optimizer.scenario.logbook import log_path, read_log
    from optimizer.trials.record import followed_in
    from optimizer.trials.replan import follow, record_from

    log = read_log(log_path(file))
    marked = followed_in([entry for entry, _ in log.standing], scenario)
    return log, record_from(log, scenario, marked or follow(scenario))


def _take(file: Path, take: list[str], found: "Record", options: Options) -> None:
    """Write measured numbers into the scenario; all that is asked, or nothing."""
    from optimizer.scenario.measured import write_all_measured
    from optimizer.trials.burn import measured_values, of_stove, ratios

    known = ratios(found)
    wanted = []
    for name in take:
        ratio = of_stove(known, name)
        if name not in {own.stove.name for own in found.scenario.stoves}:
            options.thing("--take", name, {o.stove.name: o.stove for o in found.scenario.stoves})
        elif ratio is None:
            why = "nothing was weighed while it burned alone; weigh before and after a meal on it"
            options.wrong("--take", "too_few", f"{name}: {why}")
        elif ratio.why_not:
            options.wrong("--take", "too_uncertain", f"{name}: {ratio.why_not}")
        else:
            wanted.append(ratio)
    if options.problems:
        raise InputError(options.problems)
    numbers = {str(r.stove): measured_values(r, found.scenario) for r in wanted}
    write_all_measured(file, "stoves", numbers)
