"""Hours, lengths, volumes and losses as a cook writes them, rounded to what is known."""

import math

from optimizer.planning.grid import LONGEST_MIN
from optimizer.report.measures import BTU_PER_MJ, M_PER_FOOT, Measures, Us, figures

LONGEST_H = LONGEST_MIN // 60
SHORT_H, LONG_H = 1.0, 10.0  # below the one in minutes, above the other in whole hours
L_PER_GALLON = 3.785411784
INCHES_PER_FOOT = 12
K_PER_F = 5 / 9


def hours(value_h: float, *, down: bool = False, unit: bool = True) -> str:
    """Write hours: tens of minutes below one, halves below ten, else whole ones.

    Parameters
    ----------
    value_h
        Hours; infinite beyond the longest that is planned [h]
    down
        Round down, so that no more is promised than there is.
    unit
        Write what they are.
    """
    if math.isinf(value_h):
        return f"over {LONGEST_H} h" if unit else f"over {LONGEST_H}"
    rounded = math.floor if down else round
    if value_h < SHORT_H:
        return f"{10 * rounded(6 * value_h)} min"
    if value_h >= LONG_H:
        text = f"{rounded(value_h)}"
    else:
        whole, half = divmod(rounded(2 * value_h), 2)
        text = f"{whole} 1/2" if half else f"{whole}"
    return f"{text} h" if unit else text


def hours_band(usual_h: float, low_h: float, high_h: float) -> str:
    """Write hours with the band they lie in.

    Parameters
    ----------
    usual_h
        Usual hours [h]
    low_h
        Lower edge [h]
    high_h
        Upper edge [h]
    """
    about = hours(usual_h) if math.isinf(usual_h) else f"about {hours(usual_h)}"
    return f"{about} ({hours(low_h, unit=False)} to {hours(high_h, unit=False)})"


def length(value_m: float, system: Measures) -> str:
    """Write a thickness, to half a centimetre or half an inch.

    Parameters
    ----------
    value_m
        Length [m]
    system
        The measures.
    """
    return f"{round(2 * length_number(value_m, system)) / 2:g} {length_unit(system)}"


def length_number(value_m: float, system: Measures) -> float:
    """Give a thickness as these measures count it.

    Parameters
    ----------
    value_m
        Length [m]
    system
        The measures.
    """
    if isinstance(system, Us):
        return value_m / M_PER_FOOT * INCHES_PER_FOOT
    return 100 * value_m


def length_unit(system: Measures) -> str:
    """Name the unit of a thickness.

    Parameters
    ----------
    system
        The measures.
    """
    return "inch" if isinstance(system, Us) else "cm"


def volume(value_m3: float, system: Measures) -> str:
    """Write a volume of packing.

    Parameters
    ----------
    value_m3
        Volume [m3]
    system
        The measures.
    """
    litres = 1000 * value_m3
    if isinstance(system, Us):
        return f"{figures(litres / L_PER_GALLON)} gal"
    return f"{figures(litres)} L"


def loss(value_w_k: float, system: Measures) -> str:
    """Write what is lost for each degree.

    Parameters
    ----------
    value_w_k
        Loss [W/K]
    system
        The measures.
    """
    if isinstance(system, Us):
        return f"{figures(value_w_k * K_PER_F * 3600 * BTU_PER_MJ / 1e6)} BTU/h per °F"
    return f"{figures(value_w_k)} W per °C"
