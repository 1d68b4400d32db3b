"""The sliders of a dish under the hand, in the measures that a person reads."""

from dataclasses import dataclass

from optimizer.report.measures import M_PER_FOOT, Units

# Exact by definition: the inch, and the mile of 1609.344 m in an hour.
CM_PER_INCH = 2.54
M_S_PER_MPH = 0.44704


@dataclass(frozen=True, slots=True)
class Slide:
    """A slider: its ends and its step are in the unit written on it."""

    label: str
    low: float
    high: float
    step: float
    metric: float = 1.0  # of the unit that the dials are in, one of its own

    def shown(self, value: float) -> float:
        """Give where it stands for a value of the dials, within its ends.

        Parameters
        ----------
        value
            In the unit of the dials: cm, m/s, m or %.
        """
        steps = round(value / self.metric / self.step)
        return min(self.high, max(self.low, steps * self.step))

    def value(self, shown: float) -> float:
        """Give the value for the dials where it stands.

        Parameters
        ----------
        shown
            Where it stands.
        """
        return shown * self.metric


PERCENT = {
    "fill": Slide("Filling, % of the pot", 20, 90, 5),
    "wet": Slide("Moisture of wood, %", 5, 50, 1),
}
METRIC = {
    "thick": Slide("Packing on every side, cm", 1, 20, 1),
    "wind": Slide("Wind outdoors, m/s", 0, 10, 1),
    "high": Slide("Height above the sea, m", 0, 4000, 100),
}
US = {
    "thick": Slide("Packing on every side, inches", 0.5, 8.0, 0.5, CM_PER_INCH),
    "wind": Slide("Wind outdoors, mph", 0, 22, 1, M_S_PER_MPH),
    "high": Slide("Height above the sea, ft", 0, 13000, 250, M_PER_FOOT),
}


def slides(units: Units) -> dict[str, Slide]:
    """Give the sliders of a system of measures: thick, wind, high, fill and wet.

    Parameters
    ----------
    units
        The system.
    """
    return PERCENT | (US if units == "us" else METRIC)
