"""The insulated finish: what a packed pot or a vacuum jar loses, and how its contents cool.

Contents and pot are one body; the packing is a second one that warms at their cost, so the
early fall is faster than the late one. What a packed pot loses stands in ``packing`` and is
offered here as well, so that a caller needs this module only.
"""

import numpy as np
from numpy.typing import NDArray

from optimizer.physics.packing import (
    covered_film_w_m2k,
    packed_loss_w_k,
    packing_heat_j_k,
    packing_share,
)
from optimizer.physics.ranges import (
    NOT_NEGATIVE,
    POSITIVE,
    TEMPERATURE_C,
    Values,
    plain,
)

__all__ = [
    "covered_film_w_m2k",
    "jar_loss_w_k",
    "late_time_constant_s",
    "mixed_c",
    "packed_loss_w_k",
    "packing_heat_j_k",
    "packing_share",
    "two_body_c",
]

NO_PACKING = 1e-9  # of the contents' heat: as good as none


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
    .. [1] EN_12546_1, table of least temperatures after 6 h from 95 degC in a room of 20 degC.
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
    .. [1] BOYCE_DIPRIMA, eq 7.5, linear systems with real different eigenvalues (from memory).
    """
    POSITIVE.check(contents_j_k=contents_j_k)
    NOT_NEGATIVE.check(time_s=time_s, packing_j_k=packing_j_k, loss_w_k=loss_w_k)
    TEMPERATURE_C.check(start_c=start_c, packing_start_c=packing_start_c, room_c=room_c)
    given = (time_s, contents_j_k, packing_j_k, loss_w_k, start_c, packing_start_c, room_c)
    time, contents, packing, loss, start, packing_start, room = (
        np.asarray(each, dtype=np.float64) for each in given
    )
    a = 2.0 * loss / contents
    excess, packing_excess = start - room, packing_start - room
    warms = packing > NO_PACKING * contents
    two = warms & (loss > 0.0)
    one = excess * (0.0 if np.all(two) else np.exp(-a / 2.0 * time))
    first = second = packing_excess
    if np.any(two):
        b = np.where(two, 2.0 * loss / np.where(two, packing, 1.0), 1.0)
        first, second = _decay(np.where(two, a, 1.0), b, excess, packing_excess, time)
    alone = np.where(warms, packing_excess, one / 2.0)  # no loss: stays; no packing: the middle
    return plain(room + np.where(two, first, one)), plain(room + np.where(two, second, alone))


def late_time_constant_s(*, contents_j_k: Values, packing_j_k: Values, loss_w_k: Values) -> Values:
    """Time in which the excess over the room falls to 37 %, once the packing is warm.

    Parameters
    ----------
    contents_j_k : float or array
        Heat capacity of contents and pot, above 0. [J/K]
    packing_j_k : float or array
        Heat capacity of the packing, at least 0. [J/K]
    loss_w_k : float or array
        Loss from contents to room, above 0. [W/K]

    Returns
    -------
    float or array
        Time constant of the slower of the two decays. [s]

    Raises
    ------
    PhysicsError
        A quantity lies outside the range named above.

    References
    ----------
    .. [1] BOYCE_DIPRIMA, eq 7.5, linear systems with real different eigenvalues (from memory).
    """
    POSITIVE.check(contents_j_k=contents_j_k, loss_w_k=loss_w_k)
    NOT_NEGATIVE.check(packing_j_k=packing_j_k)
    single_s = np.divide(contents_j_k, loss_w_k)
    share = np.divide(packing_j_k, contents_j_k)
    return plain(single_s * (2.0 + share + np.hypot(2.0, share)) / 4.0)


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
    .. [1] definition, p 1, heat given is heat taken.
    """
    POSITIVE.check(hot_j_k=hot_j_k)
    NOT_NEGATIVE.check(cold_j_k=cold_j_k)
    TEMPERATURE_C.check(hot_c=hot_c, cold_c=cold_c)
    heat_j = np.multiply(hot_j_k, hot_c) + np.multiply(cold_j_k, cold_c)
    return plain(heat_j / np.add(hot_j_k, cold_j_k))


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
