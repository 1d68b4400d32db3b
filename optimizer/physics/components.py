"""What food is made of: the thermal properties of each component."""

from typing import Final

Coefficients = tuple[tuple[float, float, float], ...]

# Choi and Okos 1986, "Effects of temperature and composition on the thermal properties of
# foods", as printed in ASHRAE Refrigeration 2006 ch. 9, tables 1 and 2. Order: water, protein, fat,
# carbohydrate, fibre, ash; constant, per K, per K2; t in degC, 0 to 150.
# The constant of water's specific heat is the paper's 4176.2; the handbook prints 4128.9, which
# the steam tables do not bear out. The slope of the conductivity of fat is -2.7604e-4; some
# copies print -2.7604e-3.
SPECIFIC_HEAT_J_KGK: Final[Coefficients] = (
    (4176.2, -9.0864e-2, 5.4731e-3),
    (2008.2, 1.2089, -1.3129e-3),
    (1984.2, 1.4733, -4.8008e-3),
    (1548.8, 1.9625, -5.9399e-3),
    (1845.9, 1.8306, -4.6509e-3),
    (1092.6, 1.8896, -3.6817e-3),
)
DENSITY_KG_M3: Final[Coefficients] = (
    (997.18, 3.1439e-3, -3.7574e-3),
    (1329.9, -0.5184, 0.0),
    (925.59, -0.41757, 0.0),
    (1599.1, -0.31046, 0.0),
    (1311.5, -0.36589, 0.0),
    (2423.8, -0.28063, 0.0),
)
CONDUCTIVITY_W_MK: Final[Coefficients] = (
    (0.57109, 1.7625e-3, -6.7036e-6),
    (0.17881, 1.1958e-3, -2.7178e-6),
    (0.18071, -2.7604e-4, -1.7749e-7),
    (0.20141, 1.3874e-3, -4.3312e-6),
    (0.18331, 1.2497e-3, -3.1683e-6),
    (0.32962, 1.4011e-3, -2.9069e-6),
)
