"""A cylinder and the ring of packing round it: areas, and what conducts through the ring."""

import numpy as np
from numpy.polynomial.legendre import leggauss
from numpy.typing import NDArray

from optimizer.physics.ranges import Values

EDGE_SHAPE_FACTOR = 0.54  # of each metre of edge between two walls of equal thickness [1]
POINTS, WEIGHTS = ((each + shift) / 2 for each, shift in zip(leggauss(16), (1, 0), strict=True))


def shape_factor_m(
    diameter_m: Values, height_m: Values, thickness_m: Values
) -> NDArray[np.float64]:
    """Conduction through a ring of packing over its conductivity: a shell, two ends, two edges.

    Parameters
    ----------
    diameter_m : float or array
        Of the cylinder inside. [m]
    height_m : float or array
        Of the cylinder inside. [m]
    thickness_m : float or array
        Of the ring, the same on side, top and bottom, above 0. [m]

    Returns
    -------
    float or array
        Shape factor. [m]

    Raises
    ------
    ValueError
        If arrays do not broadcast.

    Notes
    -----
    The printed edge is straight; the length of a round one is taken a sixth of the packing's
    thickness outside of the pot.

    References
    ----------
    .. [1] INCROPERA_DEWITT, table 4.1, cases 8 and 9, edge 0.54 w, corner 0.15 L (from memory).
    """
    radius = np.divide(diameter_m, 2.0)
    shell = 2.0 * np.pi * height_m / np.log1p(thickness_m / radius)
    ends = 2.0 * np.pi * np.square(radius) / thickness_m
    edges = 2.0 * EDGE_SHAPE_FACTOR * np.pi * np.add(diameter_m, np.divide(thickness_m, 3.0))
    return np.asarray(shell + ends + edges)


def surface_m2(diameter_m: Values, height_m: Values) -> NDArray[np.float64]:
    """Surface of a cylinder with its ends.

    Parameters
    ----------
    diameter_m : float or array
        Diameter. [m]
    height_m : float or array
        Height. [m]

    Returns
    -------
    float or array
        Area. [m2]

    Raises
    ------
    ValueError
        If arrays do not broadcast.

    References
    ----------
    .. [1] definition, p 1, a shell and two circles.
    """
    return np.asarray(np.pi * np.multiply(diameter_m, np.add(height_m, np.divide(diameter_m, 2.0))))
