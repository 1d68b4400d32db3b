"""How long a piece of food takes to heat through."""

import math
from typing import Final, NamedTuple

import numpy as np
import numpy.typing as npt

from optimizer.errors import PhysicsError
from optimizer.model.things import Shape
from optimizer.physics.ranges import NOT_NEGATIVE, POSITIVE

Floats = npt.NDArray[np.float64]

LEAST_FOURIER: Final = 0.2  # the first term alone holds from here on


class FirstTerm(NamedTuple):
    """First term of the series for a body's centre: its root and its coefficient."""

    root: float
    coefficient: float


# The limit of a surface held at the water's temperature. Slab: pi/2 and 4/pi. Cylinder: first
# zero of J0, and 2/(root J1(root)). Sphere: pi and 2.
HELD_SURFACE: Final[dict[str, FirstTerm]] = {
    "slab": FirstTerm(math.pi / 2, 4 / math.pi),
    "cylinder": FirstTerm(2.404825557695773, 1.6019746968),
    "sphere": FirstTerm(math.pi, 2.0),
}


def first_root(biot: float, shape: Shape) -> float:
    """First root of the equation of a body heated through a film.

    Parameters
    ----------
    biot : float
        Film coefficient times half-size over conductivity; infinite for a held surface [-]
    shape : str
        "slab", "cylinder" or "sphere" [-]

    Returns
    -------
    float
        Root [-]

    Raises
    ------
    PhysicsError
        If the Biot number is not positive or the shape has no centre to heat.

    Notes
    -----
    Slab: r tan r = Bi. Cylinder: r J1(r) = Bi J0(r). Sphere: 1 - r cot r = Bi.

    References
    ----------
    .. [1] INCROPERA_DEWITT, table 5.1 (from memory)
    """
    if shape not in HELD_SURFACE:
        raise PhysicsError(f"shape must be slab, cylinder or sphere, not {shape!r}")
    POSITIVE.check(biot=biot)
    most = HELD_SURFACE[shape].root
    if math.isinf(biot):
        return most
    from scipy.optimize import brentq
    from scipy.special import j0, j1

    equations = {
        "slab": lambda r: r * math.sin(r) - biot * math.cos(r),
        "cylinder": lambda r: r * j1(r) - biot * j0(r),
        "sphere": lambda r: (1 - biot) * math.sin(r) - r * math.cos(r),
    }
    least = 1e-6 * most if shape == "sphere" else 0.0
    return float(brentq(equations[shape], least, most, xtol=1e-13))


def first_term(biot: float, shape: Shape) -> FirstTerm:
    """Root and coefficient of the first term for a body's centre.

    Parameters
    ----------
    biot : float
        Film coefficient times half-size over conductivity; infinite for a held surface [-]
    shape : str
        "slab", "cylinder" or "sphere" [-]

    Returns
    -------
    FirstTerm
        Root and coefficient [-]

    Raises
    ------
    PhysicsError
        If the Biot number is not positive or the shape has no centre to heat.

    References
    ----------
    .. [1] INCROPERA_DEWITT, table 5.1 (from memory)
    """
    root = first_root(biot, shape)
    if math.isinf(biot):
        return HELD_SURFACE[shape]
    if shape == "cylinder":
        from scipy.special import j0, j1

        return FirstTerm(root, float(2 * j1(root) / (root * (j0(root) ** 2 + j1(root) ** 2))))
    if shape == "slab":
        return FirstTerm(root, 4 * math.sin(root) / (2 * root + math.sin(2 * root)))
    turned = math.sin(root) - root * math.cos(root)
    return FirstTerm(root, 4 * turned / (2 * root - math.sin(2 * root)))


def centre_rise(
    *,
    half_size_m: float,
    shape: Shape,
    diffusivity_m2_s: float,
    time_s: npt.ArrayLike,
    biot: float = math.inf,
) -> Floats:
    """Share of its rise that the centre of a piece has made.

    Parameters
    ----------
    half_size_m : float
        Smallest half-size of the piece [m]
    shape : str
        "liquid", "slab", "cylinder" or "sphere" [-]
    diffusivity_m2_s : float
        Thermal diffusivity of the food [m2/s]
    time_s : float or ndarray
        Time since the piece came into the hot water [s]
    biot : float
        Film coefficient times half-size over conductivity; infinite for a held surface [-]

    Returns
    -------
    ndarray
        Share of the step from its first temperature to the water's [-]

    Raises
    ------
    PhysicsError
        If a size or time is negative, the diffusivity or the Biot number is not positive, or the
        shape is unknown.

    Notes
    -----
    The first term of the series. Below a Fourier number of 0.2 it is rough, and says too little
    for a held surface; where it would fall below 0 the share is 0. A liquid has no centre: 1.

    References
    ----------
    .. [1] INCROPERA_DEWITT, eq. 5.49 to 5.53 (from memory)
    """
    seconds = np.asarray(time_s, dtype=np.float64)
    NOT_NEGATIVE.check(time_s=seconds)
    if _no_centre(half_size_m=half_size_m, shape=shape, diffusivity_m2_s=diffusivity_m2_s):
        return np.ones_like(seconds)
    term = first_term(biot, shape)
    fourier = diffusivity_m2_s * seconds / half_size_m**2
    return np.maximum(0.0, 1.0 - term.coefficient * np.exp(-(term.root**2) * fourier))


def heated_through_s(
    *,
    half_size_m: float,
    shape: Shape,
    diffusivity_m2_s: float,
    share: float,
    ramp_s: float = 0.0,
    biot: float = math.inf,
) -> float:
    """Time until the centre of a piece has made a share of its rise.

    Parameters
    ----------
    half_size_m : float
        Smallest half-size of the piece [m]
    shape : str
        "liquid", "slab", "cylinder" or "sphere" [-]
    diffusivity_m2_s : float
        Thermal diffusivity of the food [m2/s]
    share : float
        Share of the rise from its first temperature to that of the hot water [-]
    ramp_s : float
        Time in which the water rose evenly to its heat, the piece in it; 0 for hot water [s]
    biot : float
        Film coefficient times half-size over conductivity; infinite for a held surface [-]

    Returns
    -------
    float
        Time from when the water is hot; 0 for a liquid, or if it was through by then [s]

    Raises
    ------
    PhysicsError
        If the size or the ramp is negative, the diffusivity or the Biot number is not positive,
        the shape is unknown, or the share lies outside 0 to 1 or so low that the first term does
        not hold.

    Notes
    -----
    The first term of the series, solved for time; it holds from a Fourier number of 0.2 on
    (a share of about 0.22 for a slab, 0.50 for a cylinder, 0.72 for a sphere). A ramp is a row of
    small steps, each with its own term; early steps make that a little too slow, never too fast.

    References
    ----------
    .. [1] INCROPERA_DEWITT, eq. 5.49 to 5.53 (from memory)
    """
    if not 0 < share < 1:
        raise PhysicsError(f"share must lie between 0 and 1, not {share:g}")
    NOT_NEGATIVE.check(ramp_s=ramp_s)
    if _no_centre(half_size_m=half_size_m, shape=shape, diffusivity_m2_s=diffusivity_m2_s):
        return 0.0
    term = first_term(biot, shape)
    lack = 1 - share
    if term.coefficient * math.exp(-(term.root**2) * LEAST_FOURIER) < lack:
        raise PhysicsError(f"share is too small for the first term of a {shape}: {share:g}")
    speed_s = term.root**2 * diffusivity_m2_s / half_size_m**2
    ramp = speed_s * ramp_s
    after_ramp = -math.expm1(-ramp) / ramp if ramp > 0 else 1.0
    return max(0.0, math.log(term.coefficient * after_ramp / lack) / speed_s)


def _no_centre(*, half_size_m: float, shape: Shape, diffusivity_m2_s: float) -> bool:
    """Check a piece; True if there is nothing to heat through."""
    if shape not in {"liquid", *HELD_SURFACE}:
        raise PhysicsError(f"shape must be liquid, slab, cylinder or sphere, not {shape!r}")
    NOT_NEGATIVE.check(half_size_m=half_size_m)
    POSITIVE.check(diffusivity_m2_s=diffusivity_m2_s)
    return shape == "liquid" or half_size_m == 0
