"""What changes the days that the store lasts, and how they range, as rows of tables."""

from optimizer.studies.endurance.changes import Case, Tried
from optimizer.studies.endurance.study import Endurance

Row = dict[str, str]

WEATHER = {
    "colder": "5 °C (9 °F) colder, inside and out",
    "windier": "wind 3 m/s stronger",
    "damp": "sticks damp every day",
    "all": "colder, windier and damp sticks at once",
    "mild": "no wind, no rain, sticks dry",
}


def change_rows(known: Endurance) -> list[Row]:
    """Set out what the household might do otherwise, the most days first.

    Parameters
    ----------
    known
        The study.
    """
    ordered = sorted(known.changes, key=lambda each: (-each.days, -(each.mix_days or 0.0)))
    return [{"what changes it": changed(e.case), "lasts": lasts(e, known)} for e in ordered]


def told_changes(known: Endurance) -> list[Row]:
    """Set out the changes that change the whole days, or may.

    Parameters
    ----------
    known
        The study.
    """
    rows = change_rows(known)
    same = {changed(each.case) for each in known.changes if _same(each, known)}
    return [row for row in rows if row["what changes it"] not in same]


def no_gain_told(known: Endurance) -> list[str]:
    """Name the changes that gain no whole day by themselves.

    Parameters
    ----------
    known
        The study.
    """
    same = [changed(each.case) for each in known.changes if _same(each, known)]
    return [f"No whole day by itself: {'; '.join(same)}."] if same else []


def _same(each: Tried, known: Endurance) -> bool:
    return each.days == each.most == known.lasting.days


def case_rows(known: Endurance) -> list[Row]:
    """Set out other people and other weather, the fewest days first.

    Parameters
    ----------
    known
        The study.
    """
    as_it_is = {"people and weather": "as it is", "lasts": whole_days(known.lasting.days)}
    rows = [
        (each.days, {"people and weather": changed(each.case), "lasts": lasts(each, known)})
        for each in known.cases
    ]
    rows.append((known.lasting.days, as_it_is))
    return [row for _, row in sorted(rows, key=lambda pair: pair[0])] if known.cases else []


def range_told(known: Endurance) -> list[str]:
    """Say how the days range over people and weather.

    Parameters
    ----------
    known
        The study.
    """
    low, high = known.low, known.high
    days = whole_days(low) if low == high else f"{low} to {whole_days(high)}"
    told = [f"Other people, weather or stoves: {days}"]
    stuck = [changed(each.case) for each in known.cases if each.ends_by_things]
    if stuck:
        told.append(f"(fuel apart, not all of the menu can be cooked with {'; '.join(stuck)})")
    return told


def changed(case: Case) -> str:
    """Say in a few words what is otherwise.

    Parameters
    ----------
    case
        The case.
    """
    if case.sort == "dish":
        instead = f"{case.instead} instead of" if case.instead else "a thriftier one for"
        return f"{instead} {case.what}"
    if case.sort == "people":
        return _people(int(case.count or 0))
    if case.sort == "washing":
        left = f"{case.count:g}" if case.count else "no"
        return f"{left} {case.what} in a round of the menu"
    words = {
        "cooker": f"one more {case.what}",
        "drop": f"without {case.what}",
        "held": f"with the fuel for {case.what} held back",
        "weather": WEATHER.get(case.what, case.what),
        "stoves": "every stove poorer, as one in six is",
    }
    return words[case.sort]


def _people(more: int) -> str:
    count = {1: "one", 2: "two"}.get(abs(more), str(abs(more)))
    who = "adult" if abs(more) == 1 else "adults"
    return f"{count} {who} {'more' if more > 0 else 'fewer'}"


def lasts(each: Tried, known: Endurance) -> str:
    """Say how many days it lasts, and how many that is more or fewer.

    Parameters
    ----------
    each
        What was tried.
    known
        The study.
    """
    text = f"over {whole_days(each.days)}" if each.beyond else whole_days(each.days)
    if each.most > each.days and not each.beyond:
        text = f"{text}, perhaps {each.most}"
    more = each.days - known.lasting.days
    parts = [f"{more:+d}"] if more > 0 or each.most < known.lasting.days else []
    if each.ends_by_things:
        parts.append("not for want of fuel")
    return f"{text} ({', '.join(parts)})" if parts else text


def whole_days(count: int) -> str:
    """Say so many days."""
    return f"{count} {'day' if count == 1 else 'days'}"
