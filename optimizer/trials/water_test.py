"""A water test put together: the table of readings, what was filled, in which pot or jar."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from optimizer.errors import InputError, PhysicsError, Problem
from optimizer.model.household import Place, Weather
from optimizer.model.things import Cooker, Pot
from optimizer.planning.conditions import Conditions
from optimizer.planning.contents import pot_heat_j_k
from optimizer.planning.losses import jar_loss_w_k, packed_loss_w_k
from optimizer.planning.ways import WATER_J_KGK
from optimizer.scenario.faults import near
from optimizer.shelf import load
from optimizer.trials.box import FEWEST, BoxFit, fit
from optimizer.trials.cooling_curve import Cooling
from optimizer.trials.readings import BoxLog
from optimizer.units import QuantityError, convert, convert_any

COLD_WATER_KG_M3 = 998.0
BOILING_WATER_KG_M3 = 958.0
SPILLS = 1.1  # a pot of 2.5 L may hold a little more up to its rim
WATER_KG = (0.1, 60.0)
ROOM_C = (-40.0, 60.0)
OPTIONS = {"water": "--water", "pot": "--pot", "jar": "--jar", "room": "--room"}
HOT_C = 98.0  # surface of the pot, for the computed numbers beside the measured ones


@dataclass(frozen=True, slots=True)
class Largest:
    """The pot that loses most in a cooker, beside the one that was tested; by computation."""

    pot: Pot
    loss_times: float
    packing_times: float


@dataclass(frozen=True, slots=True)
class WaterTest:
    """A water test and what it says."""

    log: BoxLog
    water_kg: float
    pot: Pot | None
    jar: Cooker | None
    cooker: Cooker | None  # whose numbers it is to give, if it is named
    fit: BoxFit
    computed_w_k: float | None  # what a plan would have taken without the test
    largest: Largest | None = None  # a larger pot of the household that goes in

    @property
    def values(self) -> dict[str, Any]:
        """Keys of a cooker in a scenario file, as this test has them."""
        fitted, rows = self.fit, self.log.rows
        told = fitted.packing_from == "readings"
        what = self.pot or self.jar
        hours = (rows[-1].time_min - rows[0].time_min) / 60
        larger = f", reckoned up for {self.largest.pot.name}" if self.largest else ""
        more = (self.largest.loss_times, self.largest.packing_times) if self.largest else (1, 1)
        packing = f"{_rounded(more[1] * fitted.packing_j_k.value)} J/K" if told else None
        return {
            "loss": f"{_rounded(more[0] * fitted.loss_w_k.value)} W/K",
            **({"packing_heat": packing} if fitted.kind == "packed" else {}),
            "loss_spread": float(_rounded(min(0.6, fitted.loss_spread), 2)),
            "source": f"water test, {len(rows)} readings over {hours:.1f} h, "
            f"{self.water_kg:.2g} kg of water in {what.name if what else 'it'}{larger}",
        }


def _rounded(value: float, figures: int = 3) -> str:
    return f"{float(f'{value:.{figures}g}'):.10g}"


class _Said:
    """What options and notes say; an option goes before a note."""

    def __init__(self, log: BoxLog, options: Mapping[str, str | None]) -> None:
        self.log, self.options = log, options

    def text(self, key: str) -> str | None:
        """Give what is said of a thing, or None."""
        note = self.log.notes.get(key)
        return self.options.get(key) or (note.value if note else None)

    def wrong(self, key: str, code: str, message: str) -> None:
        """Note what is wrong, where it was said."""
        if self.options.get(key):
            self.log.problems.append(Problem("command line", None, OPTIONS[key], code, message))
            return
        note = self.log.notes.get(key)
        self.log.wrong(note.line if note else None, key, code, message)

    def within(self, key: str, value: float, bounds: tuple[float, float], unit: str) -> None:
        """Check bounds."""
        low, high = bounds
        if not low <= value <= high:
            self.wrong(key, "bounds", f"'{self.text(key)}' must be {low:g} to {high:g} {unit}")

    def thing(self, key: str, known: Mapping[str, Any]) -> Any:
        """Find a thing by its name or label."""
        name = self.text(key)
        if name is None:
            return None
        called = {w.casefold(): t for t in known.values() for w in (t.name, t.label)}
        found = called.get(name.strip().casefold())
        if found is None:
            self.wrong(key, "unknown_name", f"unknown {key} '{name:.40}'{near(name, known)}")
        return found


def water_test(
    log: BoxLog,
    options: Mapping[str, str | None],
    pots: Mapping[str, Pot],
    cookers: Mapping[str, Cooker],
    cooker: Cooker | None = None,
    household: Sequence[Pot] = (),
) -> WaterTest:
    """Put a water test together and fit the cooker.

    Parameters
    ----------
    log : BoxLog
        The file as it was read, with its problems [-]
    options : mapping
        What was said beside the file: water, pot, jar, room; as text [-]
    pots : mapping
        Pots that can be named [-]
    cookers : mapping
        Jars that can be named [-]
    cooker : Cooker, optional
        Whose numbers it is to give [-]
    household : sequence of Pot
        Pots that may go into it; a larger one than the tested loses more [-]

    Returns
    -------
    WaterTest
        With the fit [-]

    Raises
    ------
    InputError
        If anything is wrong with the file or what was said beside it; all of it at once.

    References
    ----------
    .. [1] definition, p 1, heat of the water and of the pot it is in.
    """
    said = _Said(log, options)
    water_kg = _water_kg(said)
    jars = {name: each for name, each in cookers.items() if each.kind == "vacuum"}
    pot, jar = said.thing("pot", pots), said.thing("jar", jars)
    if cooker is not None and cooker.kind == "vacuum" and not (said.text("pot") or jar):
        jar = cooker
    _agree(said, cooker)
    _goes_in(said, water_kg, pot, jar)
    rooms = _rooms_c(said)
    if len(log.rows) < FEWEST and not log.problems:
        log.wrong(None, "", "too_few", f"has {len(log.rows)} readings; {FEWEST} is the least")
    if log.problems:
        raise InputError(log.problems)
    try:
        found = _fitted(log, water_kg, pot, jar, cooker, rooms)
    except PhysicsError as error:
        raise InputError([Problem(log.file, None, "", "out_of_range", str(error))]) from error
    return replace(found, largest=_largest(found, household))


def _water_kg(said: _Said) -> float:
    text = said.text("water")
    if text is None:
        message = "how much water was in it? write '# water: 4.8 L' above the table, or --water"
        said.wrong("water", "missing", message)
        return 0.0
    try:
        found = convert_any(text, ("kg", "m**3"), "'4.8 L' or '4.8 kg'")
    except QuantityError as error:
        said.wrong("water", error.code, str(error))
        return 0.0
    kg = found.value if found.unit == "kg" else found.value * COLD_WATER_KG_M3
    said.within("water", kg, WATER_KG, "kg")
    return kg


def _goes_in(said: _Said, water_kg: float, pot: Pot | None, jar: Cooker | None) -> None:
    """Check that so much water goes in."""
    holds_m3 = pot.volume_m3 if pot is not None else jar.volume_m3 if jar is not None else None
    what = pot or jar
    fits = holds_m3 is None or water_kg / BOILING_WATER_KG_M3 <= SPILLS * holds_m3
    if what is not None and not fits and water_kg <= WATER_KG[1]:
        message = f"'{said.text('water')}' does not go into the {what.label}"
        said.wrong("water", "contradiction", message)


def _agree(said: _Said, cooker: Cooker | None) -> None:
    """Check that what it was in is said once, and goes with the cooker."""
    pot, jar = said.text("pot"), said.text("jar")
    if pot and jar:
        said.wrong("jar", "contradiction", "it was in a pot or in a jar, not in both")
        return
    if not pot and not jar and (cooker is None or cooker.kind == "packed"):
        message = "in which pot was it? write '# pot: pot_4l' above the table, or --pot"
        said.wrong("pot", "missing", message + ("; '# jar: jar_1l' for a jar" * (cooker is None)))
    if cooker is not None and (pot if cooker.kind == "vacuum" else jar):
        kind = "a jar that is filled" if cooker.kind == "vacuum" else "packed round a pot"
        said.wrong("pot" if pot else "jar", "contradiction", f"the {cooker.label} is {kind}")


def _rooms_c(said: _Said) -> list[float]:
    """Give the room at each reading: as it was read there, else as it is said for all."""
    rows, text = said.log.rows, said.text("room")
    read = [(row.time_min, row.room_c) for row in rows if row.room_c is not None]
    if read:
        minutes, rooms = zip(*read, strict=True)
        found = np.interp([row.time_min for row in rows], minutes, rooms)
        return [float(each) for each in found]
    if text is None:
        message = "how warm was the room? add a column room_c, or '# room: 18 degC', or --room"
        said.wrong("room", "missing", message)
        return []
    try:
        room_c = convert(text, "degC", "18 degC")
    except QuantityError as error:
        said.wrong("room", error.code, str(error))
        return []
    said.within("room", room_c, ROOM_C, "degC")
    return [room_c] * len(rows)


def _fitted(
    log: BoxLog,
    water_kg: float,
    pot: Pot | None,
    jar: Cooker | None,
    cooker: Cooker | None,
    rooms: list[float],
) -> WaterTest:
    heat = water_kg * WATER_J_KGK
    heat += pot_heat_j_k(pot) if pot is not None else jar.liner_j_k if jar is not None else 0.0
    readings = Cooling(
        time_s=np.array([60 * row.time_min for row in log.rows]),
        temp_c=np.array([row.temp_c for row in log.rows]),
        room_c=np.array(rooms),
        contents_j_k=heat,
    )
    found = fit(
        readings, "vacuum" if pot is None else "packed", _packing_j_k(cooker, pot, rooms[0])
    )
    computed = _computed_w_k(cooker, pot, rooms[0])
    return WaterTest(log, water_kg, pot, jar, cooker, found, computed)


def _largest(found: WaterTest, household: Sequence[Pot]) -> Largest | None:
    """Find the pot that loses most in the cooker, if it is not the tested one."""
    cooker, pot = found.cooker, found.pot
    if cooker is None or pot is None or found.computed_w_k is None:
        return None
    widest, highest = cooker.greatest_pot_diameter_m, cooker.greatest_pot_height_m
    others = [
        each
        for each in household
        if each.diameter_m <= (widest or math.inf) and each.height_m <= (highest or math.inf)
    ]
    room_c = float(found.fit.readings.room_c[0])
    losses = [(_computed_w_k(cooker, each, room_c) or 0.0, each) for each in others]
    most_w_k, most = max(losses, key=lambda pair: pair[0], default=(0.0, pot))
    if most_w_k <= found.computed_w_k:
        return None
    packings = [_packing_j_k(cooker, each, room_c) or 1.0 for each in (most, pot)]
    return Largest(most, most_w_k / found.computed_w_k, max(1.0, packings[0] / packings[1]))


def _packing_j_k(cooker: Cooker | None, pot: Pot | None, room_c: float) -> float | None:
    """Heat of the packing as one body, as a plan takes it for a cooker that was not measured."""
    if cooker is None or pot is None or cooker.material is None or cooker.thickness_m is None:
        return None
    return _computed(cooker, pot, room_c)[1]


def _computed_w_k(cooker: Cooker | None, pot: Pot | None, room_c: float) -> float | None:
    """Loss that a plan takes for a cooker that was not measured."""
    if cooker is None:
        return None
    if pot is None:
        return jar_loss_w_k(replace(cooker, loss_w_k=None))
    return _computed(cooker, pot, room_c)[0]


def _computed(cooker: Cooker, pot: Pot, room_c: float) -> tuple[float, float]:
    plain = replace(cooker, loss_w_k=None, packing_j_k=None)
    place = Place(0.0, room_c, room_c, room_c)
    at = Conditions(place, Weather(room_c, 0.0, rain=False, wet_sticks=False), load().rules, 0.9)
    return packed_loss_w_k(plain, pot, HOT_C, at)
