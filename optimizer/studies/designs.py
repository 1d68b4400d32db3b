"""Other designs of a packed cooker: thickness, packing, gaps, damp, blankets, a bag to spread."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

import numpy as np

from optimizer.errors import PhysicsError
from optimizer.model.things import Cooker, Dish, Material, Pot
from optimizer.planning.conditions import Conditions, Refused
from optimizer.planning.grid import LONGEST_MIN
from optimizer.studies.insulation import FullPot, Holding, filled, holding, round_pot_m3

FINE_M, STEP_M = 0.01, 0.005  # thinnest packing that is tried, and the steps from there
NEARLY = 0.95  # of the most hours is as good as all of them
COMPUTED_SPREAD = 0.20  # of a box that was not measured as it is: as the packed box's, judgement
TIGHT, LOOSE = 0.05, 0.25  # gap of a box packed with care; how much wider a careless one gapes


@dataclass(frozen=True, slots=True)
class Bag:
    """A bag of packing spread round a pot."""

    packing_m3: float
    most_m: float  # all of it, the same on every side
    best: Holding
    enough: Holding  # thinnest packing that keeps hot nearly as long


@dataclass(frozen=True, slots=True)
class Change:
    """One thing done differently, and what comes of it."""

    name: str
    holding: Holding


def rebuilt(cooker: Cooker, **changes: object) -> Cooker:
    """Return a packed cooker made differently: computed again, and as wide as its pot needs.

    Parameters
    ----------
    cooker : Cooker
        A packed cooker.
    changes
        Fields that are to be different.

    Returns
    -------
    Cooker
        Without measured numbers and without limits on the pot.
    """
    free: dict[str, object] = {"loss_w_k": None, "packing_j_k": None}
    if cooker.loss_w_k is not None:
        free["loss_spread"] = max(cooker.loss_spread, COMPUTED_SPREAD)
    free |= {"greatest_pot_diameter_m": None, "greatest_pot_height_m": None}
    # Names given as words are not held against the fields; replace itself refuses a wrong one.
    return replace(cooker, **free, **changes)  # type: ignore[arg-type]  # as said above


def computed(cooker: Cooker, full: FullPot) -> Holding:
    """Return how long a cooker that any pot goes into keeps one hot.

    Parameters
    ----------
    cooker : Cooker
        Without limits on the pot.
    full : FullPot
        The pot, and where.

    Returns
    -------
    Holding
        Hours hot and loss.

    Raises
    ------
    PhysicsError
        If the pot does not go in all the same.
    """
    made = holding(cooker, full.pot, full.load, full.at)
    if isinstance(made, Refused):
        raise PhysicsError(f"{cooker.label}: {made.reason}")
    return made


def thicknesses(cooker: Cooker, full: FullPot, thick_m: Iterable[float]) -> tuple[Holding, ...]:
    """Return the same cooker with thinner and thicker packing, one for each thickness [m]."""
    return tuple(computed(rebuilt(cooker, thickness_m=each), full) for each in thick_m)


def materials(
    cooker: Cooker, full: FullPot, packings: Iterable[Material]
) -> tuple[tuple[Holding, Holding], ...]:
    """Return the same cooker with every packing, dry and damp, the longest hot first."""
    pairs = [
        (
            computed(rebuilt(cooker, material=each, damp=False), full),
            computed(rebuilt(cooker, material=each, damp=True), full),
        )
        for each in packings
    ]
    return tuple(sorted(pairs, key=lambda pair: (-pair[0].usual_h, pair[0].loss_w_k)))


def changes(
    cooker: Cooker, pot: Pot, dish: Dish, fill: float, at: Conditions
) -> tuple[Change, ...]:
    """Return what would make a packed cooker better or worse, for a pot so full (a share)."""
    full, half = (
        FullPot(pot, filled(dish, fill * pot.volume_m3 * part, at), at) for part in (1.0, 0.5)
    )
    found = [
        ("no gaps", rebuilt(cooker, gap=TIGHT), full),
        ("gaps", rebuilt(cooker, gap=min(1.0, cooker.gap + LOOSE)), full),
        ("blanket", rebuilt(cooker, blankets=cooker.blankets + 1), full),
        ("dry" if cooker.damp else "damp", rebuilt(cooker, damp=not cooker.damp), full),
        ("half full", rebuilt(cooker), half),
    ]
    return tuple(Change(name, computed(box, what)) for name, box, what in found)


def bag(cooker: Cooker, full: FullPot, packing_m3: float) -> Bag:
    """Return how a bag of packing of a given volume is best spread round a pot.

    Parameters
    ----------
    cooker : Cooker
        A packed cooker, for its packing, gaps and blankets.
    full : FullPot
        The pot, and where.
    packing_m3 : float
        Packing there is, as it lies in the box [m3]

    Returns
    -------
    Bag
        The thickness with the most hours, and the thinnest with nearly as many.

    Raises
    ------
    PhysicsError
        If it does not even make a thin packing all round.
    """
    most_m = thickness_of(full.pot, packing_m3)
    if most_m < FINE_M:
        raise PhysicsError(
            f"{packing_m3 * 1000:.1f} L do not go 1 cm thick round the {full.pot.label}; it takes "
            f"{round_pot_m3(full.pot, FINE_M) * 1000:.1f} L"
        )
    tried = [*np.arange(FINE_M, most_m, STEP_M).tolist(), most_m]
    made = thicknesses(cooker, full, tried)
    best = max(made, key=merit)
    nearly_h = NEARLY * min(best.usual_h, LONGEST_MIN / 60)
    enough = next(each for each in made if each.usual_h >= nearly_h)
    return Bag(packing_m3, most_m, best, enough)


def merit(made: Holding) -> tuple[float, float]:
    """Say how good a cooker is: more hours, or where they are beyond counting less loss."""
    return made.usual_h, -made.loss_w_k


def thickness_of(pot: Pot, packing_m3: float) -> float:
    """Return how thick a volume of packing lies round a pot.

    Parameters
    ----------
    pot : Pot
        The pot.
    packing_m3 : float
        Volume, above 0 [m3]

    Returns
    -------
    float
        Thickness on side, top and bottom [m]
    """
    from scipy.optimize import brentq  # 0.2 s that other studies need not pay

    def missing_m3(thick_m: float) -> float:
        return round_pot_m3(pot, thick_m) - packing_m3

    return float(brentq(missing_m3, 0.0, 1.0 + packing_m3, xtol=1e-6))
