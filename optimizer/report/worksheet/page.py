"""The worksheets of a class, and the teacher's page with what the planner expects."""

from dataclasses import dataclass

from optimizer import shelf
from optimizer.model.household import Scenario
from optimizer.physics import water
from optimizer.report.measures import Measures, Units, in_measures, measures
from optimizer.report.names import Names
from optimizer.report.paper.press import printed
from optimizer.report.worksheet.rows import Reading, readings
from optimizer.report.worksheet.words import KIT, SUPERVISION, WORDS, TestWords
from optimizer.studies.classroom import WINDY_M_S, class_stove, class_tests

M_S_PER_MPH = 0.44704  # exact, of the international mile
GRID_C = (100, 80, 60, 40, 20)  # lines of the paper that curves are drawn on
CAUTIONS = ("makers_word", "flames_outdoors", "soot_in_packing", "children_scald")


@dataclass(frozen=True, slots=True)
class Sheet:
    """One test on paper."""

    words: TestWords
    rows: tuple[Reading, ...]

    @property
    def cools(self) -> bool:
        """Something cools, so that curves can be drawn."""
        return any(row.minute for row in self.rows)


def worksheet_html(scenario: Scenario, units: Units = "metric") -> str:
    """Write the worksheets of a class, without what the planner expects.

    Parameters
    ----------
    scenario
        The household whose place and stove they are for.
    units
        ``metric`` or ``us``.

    Returns
    -------
    str
        HTML that needs nothing beside it: a first page, then a page a test.
    """
    system = measures(units)
    return printed(
        "worksheet.html",
        title="Heat that stays: five tests with a litre of water",
        place=_place(scenario, system),
        kit=KIT,
        supervision=SUPERVISION,
        cautions=_cautions(system),
        hot=system.temperature(scenario.rules.hot_c),
        marks=[system.degrees(c) for c in GRID_C],
        sheets=_sheets(scenario, system),
    )


def teacher_html(scenario: Scenario, units: Units = "metric") -> str:
    """Write the teacher's page: what the planner expects of every test.

    Parameters
    ----------
    scenario
        The household whose place and stove it is for.
    units
        ``metric`` or ``us``.

    Returns
    -------
    str
        HTML that needs nothing beside it.
    """
    system = measures(units)
    boils_c = water.boiling_point_c(water.air_pressure_pa(scenario.place.altitude_m))
    return printed(
        "teacher.html",
        title="For the teacher: what the planner expects",
        place=_place(scenario, system),
        boils=system.temperature(boils_c),
        hot=system.temperature(scenario.rules.hot_c),
        wind=_speed(WINDY_M_S, units),
        sheets=_sheets(scenario, system),
    )


def _speed(m_s: float, units: Units) -> str:
    """Write the speed of the wind."""
    return f"{m_s / M_S_PER_MPH:.0f} mph" if units == "us" else f"{m_s:.0f} m/s"


def _sheets(scenario: Scenario, system: Measures) -> list[Sheet]:
    return [
        Sheet(WORDS[test.name], tuple(readings(test, system))) for test in class_tests(scenario)
    ]


def _cautions(system: Measures) -> list[str]:
    return [in_measures(shelf.load().cautions[code].text, system) for code in CAUTIONS]


def _place(scenario: Scenario, system: Measures) -> str:
    """Say where, and on which stove."""
    own, fuel = class_stove(scenario)
    known = {store.fuel.name for store in scenario.stores}
    label = Names(scenario).fuel(fuel.name) if fuel.name in known else fuel.label
    place = scenario.place
    return (
        f"{system.height(place.altitude_m)} above the sea; "
        f"room {system.temperature(place.kitchen_c)}, "
        f"outdoors {system.temperature(place.outdoors_c)}, cold water "
        f"{system.temperature(place.water_c)}; {own.stove.label} with {label}"
    )
