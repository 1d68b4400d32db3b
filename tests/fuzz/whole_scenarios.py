"""Strategies for whole scenario files: those that are right, and those that are mangled."""

from io import StringIO
from typing import Any

from hypothesis import strategies as st
from ruamel.yaml import YAML

from optimizer import shelf

THINGS = shelf.load()
WHERE = ("outdoors", "vented hob")
HOURS = ("04:30-05:10", "06:00-09:00", "11:00-13:30", "15:00-19:00", "19:07-20:13")
CLOCKS = {
    "breakfast": ("07:30", "08:13", "09:00"),
    "lunch": ("12:30", "13:30"),
    "supper": ("18:00", "19:00", "23:30"),
}
MOST_MEALS = 3

ODD = st.sampled_from(
    ["", "null", "[]", "{}", "-1", "0", "1e999", ".nan", "true", "!!int x", "*a", "&a b", "'", '"',
     "- ", "? ", ": ", "{a: ", "\t", "\n", "%", "@", "|", "<<: ", "9**9**9 g", "12 kg", "140 F",
     "25:00", "day 400", "0x10", "2027-02-30", "\u2028", "\ufeff", "\x07", "1e-300 kg", "1e15 J",
     "999999999999", "0 m", "50 degC", "-50 degC", "0 min", "00:00-24:00", "1000", "0.5 kg"]
) | st.text(max_size=12)  # fmt: skip
ODD_VALUE = st.none() | st.booleans() | st.integers() | st.floats() | ODD


def written(tree: Any) -> str:
    """Give a tree as YAML."""
    out = StringIO()
    YAML(typ="safe", pure=True).dump(tree, out)
    return out.getvalue()


def _some(names: Any, least: int, most: int) -> st.SearchStrategy[list[str]]:
    return st.lists(st.sampled_from(sorted(names)), min_size=least, max_size=most, unique=True)


def _where(stove: str) -> st.SearchStrategy[str]:
    """Draw a place that the file admits: no flame indoors, no charcoal under a hob."""
    own = THINGS.stoves[stove]
    return st.sampled_from(WHERE[:1] if own.fuel == "charcoal" else WHERE)


@st.composite
def _store(draw: st.DrawFn, fuel: str) -> dict[str, str]:
    if THINGS.fuels[fuel].lhv_j_kg is None:
        stock, price = f"{draw(st.integers(0, 400))} MJ", f"{draw(st.integers(0, 3))} EUR / kWh"
    else:
        stock = f"{draw(st.sampled_from((0.0, 0.4, 2.55, 20.0, 60.0))):.2f} kg"
        price = f"{draw(st.integers(0, 500)) / 100} EUR / kg"
    told = {"price": price, "reserve": f"{draw(st.integers(0, 30))} %"}
    return told | {"stock": stock if draw(st.booleans()) else "unlimited"}


@st.composite
def _weather(draw: st.DrawFn) -> dict[str, Any]:
    return {
        "outdoors": f"{draw(st.integers(-25, 38))} degC",
        "wind": f"{draw(st.sampled_from((0, 1, 3, 8, 15)))} m/s",
        "rain": draw(st.booleans()),
        "wet_sticks": draw(st.booleans()),
        "sun": f"{draw(st.sampled_from((0, 300, 900)))} W/m^2",
    }


@st.composite
def _meal(draw: st.DrawFn, days: int) -> dict[str, Any]:
    dishes: list[Any] = [
        {"dish": name, "portions": draw(st.sampled_from((1, 2, 5)))}
        if draw(st.booleans())
        else name
        for name in draw(_some(THINGS.dishes, 1, 2))
    ]
    on = draw(st.none() | st.integers(1, days))
    name = draw(st.sampled_from(sorted(CLOCKS)))
    meal = {"meal": name, "at": draw(st.sampled_from(CLOCKS[name]))}
    return meal | {"dishes": dishes} | ({} if on is None else {"on": on})


@st.composite
def trees(draw: st.DrawFn) -> dict[str, Any]:
    """Draw a scenario that breaks no rule of the file; whether it has a plan is another matter."""
    days = draw(st.integers(1, 2))
    roomy = draw(st.sampled_from((True, True, False)))  # the others mostly have no plan
    stoves = sorted({*draw(_some(THINGS.stoves, 1, 2)), *(("kerosene_wick",) if roomy else ())})
    fuels = sorted({THINGS.stoves[name].fuel for name in stoves})
    goals = ["money", "energy", "tending", *fuels]
    return {
        "title": draw(st.text(st.characters(categories=("L", "N")), min_size=1, max_size=20)),
        "people": {"adults": draw(st.integers(1, 6)), "children": draw(st.integers(0, 4))},
        "days": days,
        "place": {
            "altitude": f"{draw(st.sampled_from((-100, 0, 200, 600, 1524, 1600, 4000)))} m",
            "kitchen": f"{draw(st.integers(0, 34))} degC",
            "outdoors": f"{draw(st.integers(-20, 36))} degC",
            "water": f"{draw(st.integers(1, 25))} degC",
        },
        "weather": [draw(_weather()) for _ in range(days)],
        "cook_hours": ["04:00-21:00"] if roomy else draw(_some(HOURS, 1, 5)),
        "cooks": draw(st.integers(1, 2)),
        "fuels": {fuel: draw(_store(fuel)) for fuel in fuels},
        "stoves": {
            name: {"count": draw(st.integers(1, 2)), "where": draw(_where(name))} for name in stoves
        },
        "pots": {name: draw(st.integers(1, 2)) for name in draw(_some(THINGS.pots, 1, 4))}
        | ({"pot_4l": 3, "pot_8l": 2} if roomy else {}),
        "cookers": {name: draw(st.integers(0, 2)) for name in draw(_some(THINGS.cookers, 0, 3))},
        "cold": {"ice_box": {"until": f"day {days} 23:00"}} if draw(st.integers(0, 4)) else {},
        "menu": [draw(_meal(days)) for _ in range(draw(st.integers(1, MOST_MEALS)))],
        "goal": draw(_some(goals, 1, 2)),
        "confidence": draw(st.sampled_from((0.5, 0.9, 0.99))),
    }


def _places(tree: Any) -> list[tuple[Any, Any]]:
    """List every place in a tree: what holds it, and its key there."""
    keys = list(tree) if isinstance(tree, dict) else range(len(tree))
    here = [(tree, key) for key in keys]
    inner = [tree[key] for key in keys if isinstance(tree[key], dict | list)]
    return here + [place for each in inner for place in _places(each)]


@st.composite
def mangled(draw: st.DrawFn) -> str:
    """Draw the text of a scenario with some of its values or its letters spoilt."""
    tree = draw(trees())
    for _ in range(draw(st.integers(0, 2))):
        holder, key = draw(st.sampled_from(_places(tree)))
        how = draw(st.sampled_from(("drop", "odd", "twin")))
        if how == "odd":
            holder[key] = draw(ODD_VALUE)
        elif how == "drop":
            del holder[key]
        else:
            other, its = draw(st.sampled_from(_places(tree)))
            holder[key] = None if isinstance(other[its], dict | list) else other[its]
    text = written(tree)
    for _ in range(draw(st.sampled_from((0, 0, 1, 2)))):
        at = draw(st.integers(0, len(text)))
        upto = draw(st.integers(at, min(at + 20, len(text))))
        text = text[:at] + draw(ODD) + text[upto:]
    return text
