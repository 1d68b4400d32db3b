"""Heating through, against worked examples and a table of textbooks; all from memory."""

import pytest

from optimizer.physics import conduction


# From memory: Cengel, Heat Transfer, ch. 4, "boiling eggs": a ball of 5 cm, 5 degC, into water of
# 95 degC, h 1200 W/(m2 K), k 0.627 W/(m K), diffusivity 0.151e-6 m2/s; the centre reaches
# 70 degC after 865 s (14.4 min). Tolerance 0.5 %: the book rounds the Fourier number to 0.209.
def test_a_boiled_egg_takes_as_long_as_in_the_book():
    found = conduction.heated_through_s(
        half_size_m=0.025,
        shape="sphere",
        diffusivity_m2_s=0.151e-6,
        share=(70 - 5) / (95 - 5),
        biot=1200 * 0.025 / 0.627,
    )
    assert found == pytest.approx(865, rel=5e-3)


# From memory: same book, same chapter, "cooling of a long shaft": a cylinder of 20 cm,
# 600 degC, in air of 200 degC, h 80 W/(m2 K), k 14.9 W/(m K), diffusivity 3.95e-6 m2/s; the centre
# is at 364 degC after 45 min. Tolerance 2 K: the book rounds the share left to 0.41 of 400 K.
def test_a_shaft_cools_as_far_as_in_the_book():
    share = conduction.centre_rise(
        half_size_m=0.1,
        shape="cylinder",
        diffusivity_m2_s=3.95e-6,
        time_s=45 * 60,
        biot=80 * 0.1 / 14.9,
    )
    assert 600 + (200 - 600) * share == pytest.approx(364, abs=2)


# From memory: Incropera and DeWitt, table 5.1, first root and coefficient. Tolerance 1e-4: four
# digits are printed.
@pytest.mark.parametrize(
    ("shape", "biot", "root", "coefficient"),
    [
        ("slab", 0.1, 0.3111, 1.0161),
        ("slab", 1.0, 0.8603, 1.1191),
        ("slab", 10.0, 1.4289, 1.2620),
        ("cylinder", 0.1, 0.4417, 1.0246),
        ("cylinder", 1.0, 1.2558, 1.2071),
        ("cylinder", 10.0, 2.1795, 1.5677),
        ("sphere", 0.1, 0.5423, 1.0298),
        ("sphere", 1.0, 1.5708, 1.2732),
        ("sphere", 10.0, 2.8363, 1.9249),
    ],
)
def test_first_terms_of_the_table(shape, biot, root, coefficient):
    assert conduction.first_root(biot, shape) == pytest.approx(root, abs=1e-4)
    assert conduction.first_term(biot, shape).coefficient == pytest.approx(coefficient, abs=1e-4)
