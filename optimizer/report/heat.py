"""Where the heat of each way of a dish goes, set out for a chart and a table."""

from collections.abc import Sequence
from dataclasses import dataclass

from optimizer.model.household import Scenario
from optimizer.report.measures import Measures, duration
from optimizer.report.names import Names
from optimizer.report.ways import PARTS, heat_shares
from optimizer.studies.comparison import Comparison, DishWay, HeatFlow

Row = dict[str, str]


@dataclass(frozen=True, slots=True)
class HeatBar:
    """One way: its name, what it takes, and its heat in MJ by part."""

    name: str
    told: str
    parts: tuple[tuple[str, float], ...]  # part and MJ

    @property
    def total_mj(self) -> float:
        """All of it."""
        return sum(mj for _, mj in self.parts)


def bar_of(name: str, told: str, heat: HeatFlow) -> HeatBar:
    """Set out the heat of one way.

    Parameters
    ----------
    name
        What the way is called.
    told
        What it takes.
    heat
        Where its heat goes.
    """
    return HeatBar(name, told, tuple((word, getattr(heat, p) / 1e6) for p, word in PARTS.items()))


def heat_bars(found: Comparison, scenario: Scenario, system: Measures) -> tuple[HeatBar, ...]:
    """Set out the heat of every way that burns fuel.

    Parameters
    ----------
    found
        Every way of a dish.
    scenario
        Its household.
    system
        The measures.
    """
    return tuple(
        bar_of(way_name(way, scenario), _takes(way, scenario, system), way.heat)
        for way in found.ways
        if way.fuel_mj
    )


def way_name(way: DishWay, scenario: Scenario) -> str:
    """Name a way: stove, pot and cooker.

    Parameters
    ----------
    way
        A way.
    scenario
        Its household.
    """
    names = Names(scenario)
    finish = f", then {names.cooker(way.cooker)}" if way.cooker else ", no cooker"
    return f"{names.stove(way.stove)}, {names.pot(way.pot)}{finish}"


def _takes(way: DishWay, scenario: Scenario, system: Measures) -> str:
    money = f"{way.cost:.2f} {scenario.currency}"
    return f"{system.energy(way.fuel_mj)}, {money}, {duration(way.tending_minutes)} tended"


def heat_rows(bars: Sequence[HeatBar], found: Comparison) -> list[Row]:
    """Set the ways out as a table, the heat in whole per cent.

    Parameters
    ----------
    bars
        The ways.
    found
        The comparison they are of.
    """
    burning = [way for way in found.ways if way.fuel_mj]
    return [
        {
            "way": bar.name,
            "takes": bar.told,
            **{part: f"{share} %" for part, share in heat_shares(way.heat).items()},
        }
        for bar, way in zip(bars, burning, strict=True)
    ]
