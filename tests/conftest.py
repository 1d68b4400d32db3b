"""Settings that hold for every test."""

from hypothesis import settings

# No deadline: the first call of a function loads its library, and machines differ.
settings.register_profile("fuelthrift", deadline=None)
settings.load_profile("fuelthrift")
