"""The insulated finish: what a packed pot or a vacuum jar loses, and how its contents cool.

Contents and pot are one body; the packing is a second one that warms at their cost, so the
early fall is faster than the late one.
"""

import numpy as np
from numpy.typing import NDArray

from optimizer.physics.ranges import (
    NOT_NEGATIVE,
    POSITIVE,
    SHARE,
    TEMPERATURE_C,
    Values,
    plain,
)

EDGE_SHAPE_FACTOR = 0.54  # of each metre of edge between two walls of equal thickness [1]


def packed_loss_w_k(
    *,
    diameter_m: Values,
    height_m: Values,
    thickness_m: Values,
    conductivity_w_mk: Values,
    gap: Values,
    room_film_w_m2k: Values,
    bare_w_m2k: Values,
) -> Values:
    """Heat a packed pot loses to the room for each kelvin it is hotter.

    Parameters
    ----------
    diameter_m : float or array
        Outer diameter of the pot, above 0. [m]
    height_m : float or array
        Outer height of the pot, above 0. [m]
    thickness_m : float or array
        Packing, the same on side, top and bottom, above 0. [m]
    conductivity_w_mk : float or array
        Of the packing as it lies there, above 0. [W/(m K)]
    gap : float or array
        Share of the pot's surface that the packing misses, 0 to 1. [-]
    room_film_w_m2k : float or array
        From the outside of the packing to the room, above 0. [W/(m2 K)]
    bare_w_m2k : float or array
        From the pot's bare surface through the gap, above 0. [W/(m2 K)]

    Returns
    -------
    float or array
        Loss for each kelvin between contents and room. [W/K]

    Raises
    ------
    PhysicsError
        A quantity lies outside the range named above.

    Notes
    -----
    Through the packing: a shell, two ends and two edges side by side, then the film over the
    whole outside. The gap bypasses the packing: bare surface and film in series. The printed
    edge is straight; the length of a round one is taken a sixth of the packing's thickness
    outside of the pot, where this agrees with a finite-volume solution of the same problem: 1 %
    below to 5 % above for packings of 0.05 to 2 radii and pots of 0.4 to 1.2 diameters.

    References
    ----------
    .. [1] Incropera-DeWitt, table 4.1, cases 8 and 9, edge 0.54 w, corner 0.15 L (from memory).
    """
    POSITIVE.check(diameter_m=diameter_m, height_m=height_m, thickness_m=thickness_m)
    POSITIVE.check(conductivity_w_mk=conductivity_w_mk, bare_w_m2k=bare_w_m2k)
    POSITIVE.check(room_film_w_m2k=room_film_w_m2k)
    SHARE.check(gap=gap)
    shape_m = _shape_factor(diameter_m, height_m, thickness_m)
    outside_m2 = _surface(
        np.add(diameter_m, np.multiply(2.0, thickness_m)),
        np.add(height_m, np.multiply(2.0, thickness_m)),
    )
    packed = 1.0 / (1.0 / (conductivity_w_mk * shape_m) + 1.0 / (room_film_w_m2k * outside_m2))
    missed_w_m2k = 1.0 / (1.0 / np.asarray(bare_w_m2k) + 1.0 / np.asarray(room_film_w_m2k))
    missed = missed_w_m2k * _surface(diameter_m, height_m)
    return plain(np.subtract(1.0, gap) * packed + gap * missed)


def packing_heat_j_k(
    *,
    diameter_m: Values,
    height_m: Values,
    thickness_m: Values,
    density_kg_m3: Values,
    specific_heat_j_kgk: Values,
) -> Values:
    """Heat capacity of the packing around a pot.

    Parameters
    ----------
    diameter_m : float or array
        Outer diameter of the pot, above 0. [m]
    height_m : float or array
        Outer height of the pot, above 0. [m]
    thickness_m : float or array
        Packing, the same on side, top and bottom, at least 0. [m]
    density_kg_m3 : float or array
        Of the packing as it lies there, at least 0. [kg/m3]
    specific_heat_j_kgk : float or array
        Of the packing, at least 0. [J/(kg K)]

    Returns
    -------
    float or array
        Of the whole packing: a cylinder around the pot, less the pot. [J/K]

    Raises
    ------
    PhysicsError
        A quantity lies outside the range named above.

    References
    ----------
    .. [1] judgement, p 1, volume of a cylinder less that of another.
    """
    POSITIVE.check(diameter_m=diameter_m, height_m=height_m)
    NOT_NEGATIVE.check(thickness_m=thickness_m, density_kg_m3=density_kg_m3)
    NOT_NEGATIVE.check(specific_heat_j_kgk=specific_heat_j_kgk)
    twice_m = np.multiply(2.0, thickness_m)
    outside_m3 = np.square(np.add(diameter_m, twice_m)) * np.add(height_m, twice_m)
    packing_m3 = np.pi / 4.0 * (outside_m3 - np.square(diameter_m) * height_m)
    return plain(packing_m3 * density_kg_m3 * specific_heat_j_kgk)


def jar_loss_w_k(
    *,
    rated_c: Values,
    hours: Values,
    start_c: Values,
    room_c: Values,
    contents_j_k: Values,
) -> Values:
    """Heat a vacuum jar loses for each kelvin, from its rating.

    Parameters
    ----------
    rated_c : float or array
        Still so hot after the hours of the rating. [degC]
    hours : float or array
        Hours of the rating, above 0. [h]
    start_c : float or array
        Filled and closed at this, above ``rated_c``. [degC]
    room_c : float or array
        In a room of this, below ``rated_c``. [degC]
    contents_j_k : float or array
        Heat capacity of the water it was rated with, above 0. [J/K]

    Returns
    -------
    float or array
        Loss for each kelvin between contents and room. [W/K]

    Raises
    ------
    PhysicsError
        ``hours`` or ``contents_j_k`` is not above 0, a temperature lies outside -60 to 300, or
        the rating does not fall from start towards the room.

    Notes
    -----
    A rating is a least value, so the loss is a greatest value: the food is hotter than computed.

    References
    ----------
    .. [1] EN-12546-1, table of least temperatures after 6 h from 95 degC in a room of 20 degC.
    """
    POSITIVE.check(hours=hours, contents_j_k=contents_j_k)
    TEMPERATURE_C.check(rated_c=rated_c, start_c=start_c, room_c=room_c)
    POSITIVE.check(fall_k=np.subtract(start_c, rated_c), excess_k=np.subtract(rated_c, room_c))
    ratio = np.subtract(start_c, room_c) / np.subtract(rated_c, room_c)
    return plain(contents_j_k * np.log(ratio) / np.multiply(3600.0, hours))


def two_body_c(
    *,
    time_s: Values,
    contents_j_k: Values,
    packing_j_k: Values,
    loss_w_k: Values,
    start_c: Values,
    packing_start_c: Values,
    room_c: Values,
) -> tuple[Values, Values]:
    """Temperature of contents and packing a time after the cooker was closed.

    Parameters
    ----------
    time_s : float or array
        Time since it was closed, at least 0. [s]
    contents_j_k : float or array
        Heat capacity of contents and pot, above 0. [J/K]
    packing_j_k : float or array
        Heat capacity of the packing, at least 0; 0 for a jar. [J/K]
    loss_w_k : float or array
        Loss from contents to room once the packing is warm, at least 0. [W/K]
    start_c : float or array
        Contents when it was closed. [degC]
    packing_start_c : float or array
        Packing when it was closed. [degC]
    room_c : float or array
        Temperature of the room. [degC]

    Returns
    -------
    tuple of float or array
        Contents and packing; without packing the second is the middle between contents
        and room. [degC]

    Raises
    ------
    PhysicsError
        A quantity lies outside the range named above, or a temperature outside -60 to 300.

    Notes
    -----
    The packing sits at the middle of two equal resistances, each of conductance
    ``g = 2 loss_w_k``: ``C dT/dt = -g (T - Tp)`` and ``Cp dTp/dt = g (T - Tp) - g (Tp - Tr)``.
    Closed form by the two decay rates, both real because ``a**2 + 4 b**2 > 0``.

    References
    ----------
    .. [1] Boyce-DiPrima, eq 7.5, linear systems with real different eigenvalues (from memory).
    """
    POSITIVE.check(contents_j_k=contents_j_k)
    NOT_NEGATIVE.check(time_s=time_s, packing_j_k=packing_j_k, loss_w_k=loss_w_k)
    TEMPERATURE_C.check(start_c=start_c, packing_start_c=packing_start_c, room_c=room_c)
    given = (time_s, contents_j_k, packing_j_k, loss_w_k, start_c, packing_start_c, room_c)
    time, contents, packing, loss, start, packing_start, room = np.broadcast_arrays(*given)
    a = 2.0 * loss / contents
    excess, packing_excess = start - room, packing_start - room
    one = excess * np.exp(-a / 2.0 * time)
    two = (packing > 0.0) & (loss > 0.0)
    b = np.where(two, 2.0 * loss / np.where(two, packing, 1.0), 1.0)
    first, second = _decay(np.where(two, a, 1.0), b, excess, packing_excess, time)
    alone = np.where(packing > 0.0, packing_excess, one / 2.0)  # no loss: stays; no packing: middle
    return plain(room + np.where(two, first, one)), plain(room + np.where(two, second, alone))


def mixed_c(*, hot_j_k: Values, hot_c: Values, cold_j_k: Values, cold_c: Values) -> Values:
    """Temperature of two bodies after they have shared their heat.

    A jar that was not preheated takes its liner's heat from the food before anything else.

    Parameters
    ----------
    hot_j_k : float or array
        Heat capacity of the one, above 0. [J/K]
    hot_c : float or array
        Its temperature. [degC]
    cold_j_k : float or array
        Heat capacity of the other, at least 0. [J/K]
    cold_c : float or array
        Its temperature. [degC]

    Returns
    -------
    float or array
        The temperature of both. [degC]

    Raises
    ------
    PhysicsError
        A quantity lies outside the range named above, or a temperature outside -60 to 300.

    References
    ----------
    .. [1] judgement, p 1, heat given is heat taken.
    """
    POSITIVE.check(hot_j_k=hot_j_k)
    NOT_NEGATIVE.check(cold_j_k=cold_j_k)
    TEMPERATURE_C.check(hot_c=hot_c, cold_c=cold_c)
    heat_j = np.multiply(hot_j_k, hot_c) + np.multiply(cold_j_k, cold_c)
    return plain(heat_j / np.add(hot_j_k, cold_j_k))


def _shape_factor(diameter: Values, height: Values, thickness: Values) -> NDArray[np.float64]:
    """Conduction through the packing over its conductivity, in metres."""
    radius = np.divide(diameter, 2.0)
    shell = 2.0 * np.pi * height / np.log1p(thickness / radius)
    ends = 2.0 * np.pi * np.square(radius) / thickness
    edges = 2.0 * EDGE_SHAPE_FACTOR * np.pi * np.add(diameter, np.divide(thickness, 3.0))
    return np.asarray(shell + ends + edges)


def _surface(diameter: Values, height: Values) -> NDArray[np.float64]:
    return np.asarray(np.pi * np.multiply(diameter, np.add(height, np.divide(diameter, 2.0))))


def _decay(
    a: NDArray[np.float64],
    b: NDArray[np.float64],
    x: NDArray[np.float64],
    y: NDArray[np.float64],
    time: NDArray[np.float64],
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Excess of contents and packing: ``x' = -a x + a y``, ``y' = b x - 2 b y``."""
    root = np.hypot(a, 2.0 * b)
    fast = (a + 2.0 * b + root) / 2.0
    slow = a * b / fast  # the product of the rates is a b; no difference of near equals
    late, early = np.exp(-slow * time), np.exp(-fast * time)
    first = late * ((fast - a) * x + a * y) - early * ((slow - a) * x + a * y)
    second = late * (b * x + (fast - 2.0 * b) * y) - early * (b * x + (slow - 2.0 * b) * y)
    return first / root, second / root
