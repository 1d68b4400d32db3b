"""What a water boiling test says of a stove: by the protocol, and as a plan takes it.

The protocol's efficiency is net: heat into the water, for fuel less the char that is left. A plan
reckons the pot's warming and its losses apart, so they are added back; and it counts fuel that is
gone, so char counts as burned unless the household keeps it for another fire.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Final, Literal

import numpy as np

from optimizer.model.things import Fuel, Pot, Stove
from optimizer.trials import stove
from optimizer.trials.boiling_test import BoilingTest

Phase = Literal["cold", "hot", "simmer"]

STARTS: Final[tuple[Phase, ...]] = ("cold", "hot")
PHASES: Final[tuple[Phase, ...]] = ("cold", "hot", "simmer")
AGAIN: Final = 0.08  # relative, from one lighting to the next beyond what was tested: judgement
Z90: Final = 1.6448536269514722
MOST_SPREAD: Final = 0.5


@dataclass(frozen=True, slots=True)
class PhaseResult:
    """One phase, by the protocol; and what a plan takes of it."""

    phase: Phase
    place: int  # among the repeats, from 0
    time_s: float
    dry_kg: float | None  # equivalent dry fuel; None: nothing was weighed (electricity)
    fuel_j: float  # of the equivalent dry fuel: the char is paid back
    burned_j: float  # of all that was put on
    net: float  # thermal efficiency
    power_w: float
    boiled_kg: float
    consumption: float | None  # dry fuel for each kg of water
    energy_j_kg: float  # for each kg of water; a start for a rise of 75 K
    time_75_s: float | None
    into_water_j: float
    into_pot_j: float  # the pot itself warmed, and lost from side and lid
    measured_spread: (
        float  # relative standard deviation of the efficiency, by scale and thermometer
    )

    def efficiency(self, *, char_kept: bool) -> float:
        """Heat into water and pot over fuel, before the pot's losses."""
        fuel_j = self.fuel_j if char_kept else self.burned_j
        return stove.efficiency_before_losses(
            net=self.into_water_j / fuel_j, pot_losses_j=self.into_pot_j, fuel_j=fuel_j
        )

    def power(self, *, char_kept: bool) -> float:
        """Fuel that a plan counts, as power [W]."""
        return (self.fuel_j if char_kept else self.burned_j) / self.time_s


@dataclass(frozen=True, slots=True)
class StoveTest:
    """All of a test, and the numbers for a plan."""

    test: BoilingTest
    fuel: Fuel
    pot: Pot
    boils_c: float
    phases: tuple[PhaseResult, ...]
    stove: Stove | None = None  # whose numbers it is to give, if it is named

    def of(self, *phases: Phase) -> list[PhaseResult]:
        """Return the runs of some phases."""
        return [each for each in self.phases if each.phase in phases]

    @property
    def efficiency(self) -> float:
        """Before the pot's losses: the mean of cold and hot starts."""
        return self._mean([self._efficiencies("cold"), self._efficiencies("hot")])

    @property
    def net(self) -> float:
        """Thermal efficiency of the starts, by the protocol."""
        return self._mean([[each.net for each in self.of(phase)] for phase in STARTS])

    @property
    def power_w(self) -> float:
        """Fuel burned at full power."""
        return self._mean([self._powers("cold"), self._powers("hot")])

    @property
    def low_power_w(self) -> float | None:
        """Fuel burned at a simmer; None if that was not tested."""
        found = self._powers("simmer")
        return min(float(np.mean(found)), self.power_w) if found else None

    @property
    def turn_down(self) -> float | None:
        """Firepower of the cold (else the hot) start over that of the simmer."""
        simmer, starts = self.of("simmer"), self.of("cold") or self.of("hot")
        if not simmer:
            return None
        low_w = float(np.mean([each.power_w for each in simmer]))
        return float(np.mean([each.power_w for each in starts])) / low_w

    @property
    def task_j(self) -> float | None:
        """Fuel for five litres boiled and simmered for 45 min; None if a phase is missing."""
        cold, hot, simmer = (
            float(np.mean([each.energy_j_kg for each in self.of(phase)]))
            if self.of(phase)
            else None
            for phase in PHASES
        )
        if cold is None or hot is None or simmer is None:
            return None
        return stove.task_energy_j(cold_j_kg=cold, hot_j_kg=hot, simmer_j_kg=simmer)

    @property
    def spread(self) -> float:
        """Relative standard deviation of the efficiency from one lighting to the next."""
        found = self._efficiencies("cold") + self._efficiencies("hot")
        between = float(np.std(found, ddof=1)) / self.efficiency if len(found) > 1 else 0.0
        measured = max(each.measured_spread for each in self.of(*STARTS))
        return min(MOST_SPREAD, math.hypot(between, measured, AGAIN))

    @property
    def band(self) -> tuple[float, float]:
        """Efficiency of ninety lightings in a hundred."""
        half = Z90 * self.spread
        return self.efficiency * max(0.0, 1 - half), min(1.0, self.efficiency * (1 + half))

    @property
    def values(self) -> dict[str, Any]:
        """Keys of a stove in a scenario file, as this test has them."""
        starts, low_w = len(self.of(*STARTS)), self.low_power_w
        simmered = ", one simmer" if low_w is not None else ""
        return {
            "efficiency": float(f"{self.efficiency:.3g}"),
            "efficiency_spread": float(f"{self.spread:.2g}"),
            "power": f"{float(f'{self.power_w:.3g}'):g} W",
            **({} if low_w is None else {"low_power": f"{float(f'{low_w:.3g}'):g} W"}),
            "source": f"water boiling test, {starts} start{'' if starts == 1 else 's'}{simmered}, "
            f"{self.pot.name}; pot's losses added back",
        }

    def _efficiencies(self, phase: Phase) -> list[float]:
        return [each.efficiency(char_kept=self.test.char_kept) for each in self.of(phase)]

    def _powers(self, phase: Phase) -> list[float]:
        return [each.power(char_kept=self.test.char_kept) for each in self.of(phase)]

    @staticmethod
    def _mean(groups: Sequence[Sequence[float]]) -> float:
        """Mean of the means of the groups that hold anything."""
        return float(np.mean([np.mean(group) for group in groups if group]))
