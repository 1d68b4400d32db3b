"""One dish of a meal on whatever day: how much, for whom, drawn on when; and as an item."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from optimizer.model.eaters import Carrying, Helping
from optimizer.model.household import DAY_MIN, Drawing, Item, Steep
from optimizer.model.things import Dish


@dataclass(frozen=True, slots=True)
class Use:
    """What a draw of a big boil is for, and how hot it has to be."""

    dish: Dish
    need_c: float | None
    steep: Steep | None = None


@dataclass(frozen=True, slots=True)
class Serving:
    """A dish of a meal, for whom, and when it is drawn (minutes of the day, share of it)."""

    dish: Dish
    adults: float
    children: float
    helpings: tuple[Helping, ...] = ()
    carried: Carrying | None = None
    stands: tuple[int, int] | None = None  # in the menu
    drawn: tuple[tuple[int, float], ...] = ()
    uses: tuple[Use, ...] = ()  # of each draw, where it is a big boil


def item_of(each: Serving, day: int, meal: str, minute: int) -> Item:
    """Return a serving as an item of one day; one that is drawn on is served at its last draw.

    Parameters
    ----------
    each
        The dish and for whom.
    day
        From 1.
    meal
        Its name.
    minute
        Of the clock, when the meal is.
    """
    last = each.drawn[-1][0] if each.drawn else 0
    drawn = tuple(Drawing(last - at, share) for at, share in each.drawn)
    if each.uses:
        pairs = zip(drawn, each.uses, strict=True)
        drawn = tuple(
            replace(d, of=use.dish, need_c=use.need_c, steep=use.steep) for d, use in pairs
        )
    return Item(
        0,
        day,
        meal,
        each.dish,
        each.adults,
        each.children,
        (day - 1) * DAY_MIN + last if drawn else minute,
        helpings=each.helpings,
        carried=each.carried,
        stands=each.stands,
        drawn=drawn,
    )


def by_heads(helpings: Sequence[Helping], portions: float) -> tuple[Helping, ...]:
    """Share adult portions out by heads, as all draw on one pot.

    Parameters
    ----------
    helpings
        Who eats, with grown and small portions.
    portions
        In adult size, of all.
    """
    heads = sum(each.adults + each.children for each in helpings)
    return tuple(
        replace(each, adults=portions * (each.adults + each.children) / heads, children=0.0)
        for each in helpings
    )
