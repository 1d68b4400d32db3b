"""Text with a unit to a float: the printed factors, and every hazard of free text.

Factors: NIST SP 811 (2008), Appendix B.8; those in bold there (exact) are marked so here.
"""

import subprocess
import sys
import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from optimizer.units import QuantityError, convert, convert_any, quantity, read_price, read_stock

# text, unit, printed value in that unit
PRINTED = [
    ("1 inch", "m", 2.54e-2),  # exact
    ("1 in", "m", 2.54e-2),  # exact
    ("1 ft", "m", 3.048e-1),  # exact
    ("1 lb", "kg", 4.5359237e-1),  # exact
    ("1 oz", "kg", 2.834952e-2),
    ("1 gallon", "m**3", 3.785412e-3),
    ("1 qt", "m**3", 9.463529e-4),
    ("1 cup", "m**3", 2.365882e-4),
    ("1 floz", "m**3", 2.957353e-5),
    ("1 psi", "Pa", 6.894757e3),
    ("1 kWh", "J", 3.6e6),  # exact
    ("1 mph", "m/s", 4.4704e-1),  # exact
    ("1 bar", "Pa", 1e5),  # exact
    ("32 degF", "degC", 0.0),  # exact: t/degC = (t/degF - 32)/1.8
    ("212 degF", "degC", 100.0),
    ("-40 degF", "degC", -40.0),
    ("273.15 kelvin", "degC", 0.0),  # exact
    ("1 delta_degF", "K", 0.5555556),
]


@pytest.mark.parametrize(("text", "unit", "printed"), PRINTED, ids=[p[0] for p in PRINTED])
def test_printed_factors(text, unit, printed) -> None:
    assert convert(text, unit) == pytest.approx(printed, rel=5e-7, abs=1e-9)


@pytest.mark.parametrize(
    ("text", "unit", "value"),
    [
        ("465 g", "kg", 0.465),
        ("465g", "kg", 0.465),
        ("  465   g  ", "kg", 0.465),
        ("+.5 kg", "kg", 0.5),
        ("5. kg", "kg", 5.0),
        ("4.65e2 g", "kg", 0.465),
        ("12 \u00b0C", "degC", 12.0),
        ("-3 degC", "degC", -3.0),
        ("18.5 MJ/kg", "J/kg", 18.5e6),
        ("0.04 W/(m*K)", "W/(m*K)", 0.04),
        ("0.04 W/(m K)", "W/(m*K)", 0.04),
        ("0.04 W/m/K", "W/(m*K)", 0.04),
        ("4.18 kJ/kg/degC", "J/(kg*K)", 4180.0),
        ("2 m**2 / m", "m", 2.0),
        ("2 m\u00b2/m", "m", 2.0),
        ("2 m^2/m", "m", 2.0),
        ("10 %", "dimensionless", 0.1),
        ("90 min", "min", 90.0),
        ("1.5 h", "min", 90.0),
    ],
)
def test_ways_of_writing(text, unit, value) -> None:
    assert convert(text, unit) == pytest.approx(value)


# what free text does in a reader that calculates is said beside each
HAZARDS = [
    ("1 000 g", "quantity", "1000 g"),  # 1 x 000 x g = 0 g
    ("1,000 g", "quantity", "1000 g"),
    ("4,5 kg", "quantity", "decimal comma"),
    ("4 1/2 inch", "quantity", "fraction"),  # 2 inch
    ("1/2 inch", "quantity", "fraction"),
    ('4"', "quantity", "inch or ft"),  # 4, without a unit
    ("4'", "quantity", "inch or ft"),
    ("5 fl oz", "quantity", "floz"),  # femtolitre-ounces
    ("9**9**9 g", "quantity", "nothing is calculated"),  # never ends
    ("2 * 3 g", "quantity", "nothing is calculated"),
    ("6 g + 6 g", "quantity", "nothing is calculated"),
    ("(5 g)", "quantity", "nothing is calculated"),
    ("5 g**9", "quantity", "nothing is calculated"),
    ("5 g**g", "quantity", "nothing is calculated"),
    ("5 __import__('os')", "quantity", "nothing is calculated"),
    ("2:30", "quantity", "nothing is calculated"),
    ("kg", "quantity", "nothing is calculated"),
    ("", "quantity", "nothing is calculated"),
    ("nan kg", "quantity", "nothing is calculated"),
    ("inf kg", "quantity", "nothing is calculated"),
    ("5", "unit_missing", "has no unit"),
    (" 5 ", "unit_missing", "has no unit"),
    ("1e999 kg", "finite", "finite"),
    ("1e308 Mt", "finite", "finite"),
    ("5 kq", "unit_unknown", "'kq'"),
    ("5 _", "unit_unknown", "'_'"),
    ("5 import", "unit_unknown", "'import'"),
    ("5 Cal", "unit_unknown", "kcal"),
    ("5 kgs", "unit_unknown", "write kg"),
    ("5 G", "unit_wrong", "write g"),  # gauss
    ("5 m", "unit_wrong", "is not a mass"),
    ("5 kg*kg", "unit_wrong", "is not a mass"),
    ("5" * 101 + " kg", "quantity", "too long"),
]


@pytest.mark.parametrize(("text", "code", "piece"), HAZARDS, ids=[h[0][:20] for h in HAZARDS])
def test_hazards(text, code, piece) -> None:
    start = time.perf_counter()
    with pytest.raises(QuantityError) as caught:
        convert(text, "kg")
    assert caught.value.code == code
    assert piece in str(caught.value)
    assert len(str(caught.value)) < 200
    assert time.perf_counter() - start < 2


@pytest.mark.parametrize(
    ("text", "piece"), [("140 F", "degF"), ("60 C", "degC"), ("5 delta_degC", "temperature")]
)
def test_temperatures_written_wrong(text, piece) -> None:
    with pytest.raises(QuantityError, match=piece):
        convert(text, "degC")


@pytest.mark.parametrize("text", ["20 degC", "20 degF", "20 \u00b0C"])
def test_a_thermometer_reading_is_no_difference(text) -> None:
    """It would come out as 293 K, silently."""
    with pytest.raises(QuantityError, match="difference"):
        convert(text, "K")


def test_the_first_unit_that_fits_is_taken() -> None:
    units = ("kg", "m**3", "J")
    assert [convert_any(text, units).unit for text in ("1 g", "1 L", "1 MJ")] == list(units)
    with pytest.raises(QuantityError, match="a mass or a volume or an energy"):
        convert_any("1 m", units)


@pytest.mark.parametrize(
    ("text", "value", "unit", "package"),
    [
        ("12 kg", 12, "kg", None),
        ("2 x 465 g", 0.93, "kg", 0.465),
        ("2x465g", 0.93, "kg", 0.465),
        ("3 \u00d7 1 L", 3e-3, "m**3", 1e-3),
        ("0 x 465 g", 0, "kg", 0.465),
        ("1.2 kWh", 4.32e6, "J", None),
        ("0 kg", 0, "kg", None),
    ],
)
def test_stock(text, value, unit, package) -> None:
    found = read_stock(text)
    assert (found.value, found.unit) == (pytest.approx(value), unit)
    assert found.package == (package if package is None else pytest.approx(package))


@pytest.mark.parametrize(
    "text",
    ["-1 kg", "2 x -465 g", "1.5 x 465 g", "2 x", "x 465 g", "2 x 3 x 465 g", "9999999 x 1 g"],
)
def test_what_is_no_stock(text) -> None:
    with pytest.raises(QuantityError):
        read_stock(text)


@pytest.mark.parametrize(
    ("text", "value", "unit"),
    [
        ("4.50 EUR / 465 g", 4.50 / 0.465, "kg"),
        ("2 EUR/kg", 2, "kg"),
        ("2 eur / kg", 2, "kg"),
        ("2 \u20ac/kg", 2, "kg"),
        ("0.30 EUR / kWh", 0.30 / 3.6e6, "J"),
        ("2 EUR / L", 2e3, "m**3"),
        ("0 EUR / kg", 0, "kg"),
    ],
)
def test_price(text, value, unit) -> None:
    found = read_price(text, "EUR")
    assert (found.value, found.unit) == (pytest.approx(value), unit)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("2 USD / kg", "currency"),
        ("2 $ / kg", "currency"),
        ("2 EUR", "price"),
        ("2 / kg", "price"),
        ("EUR 2 / kg", "price"),
        ("2 EURO / kg", "price"),
        ("-2 EUR / kg", "bounds"),
        ("2 EUR / 0 kg", "bounds"),
        ("2 EUR / day", "unit_wrong"),
        ("2 EUR / -3 kg", "quantity"),
        ("2 EUR / 9**9**9 g", "quantity"),
        ("1e308 EUR / 1e-9 g", "bounds"),
    ],
)
def test_what_is_no_price(text, code) -> None:
    with pytest.raises(QuantityError) as caught:
        read_price(text, "EUR")
    assert caught.value.code == code


@given(st.floats(-1e12, 1e12), st.sampled_from(["kg", "m", "J", "W", "Pa", "degC", "K", "min"]))
def test_a_number_in_the_fixed_unit_comes_back(number, unit) -> None:
    assert convert(f"{number!r} {unit}", unit) == pytest.approx(number, rel=1e-12, abs=1e-9)


@given(st.floats(1e-6, 1e6))
def test_pounds_and_kilograms_agree(number) -> None:
    assert convert(f"{number!r} lb", "kg") * 1000 == pytest.approx(
        convert(f"{number * 453.59237!r} g", "kg") * 1000
    )


PIECES = st.lists(
    st.sampled_from(["5", "1e3", ".", "-", " ", "kg", "g", "m", "/", "*", "**", "^", "(", ")", "2",
                     "%", "\u00b2", "_", "degC", "x", "EUR", "if", "lambda", "'", "\u00b0", "9"]),
    max_size=12,
).map("".join)  # fmt: skip


@given(PIECES | st.text(max_size=120))
def test_any_text_is_a_quantity_or_an_error_with_words(text) -> None:
    for read in (
        lambda: convert(text, "kg"),
        lambda: convert(text, "K"),
        lambda: read_stock(text),
        lambda: read_price(text, "EUR"),
    ):
        try:
            read()
        except QuantityError as error:
            assert error.code  # noqa: PT017  (any error will do, but it says so)
            assert str(error)  # noqa: PT017  (as above)


def test_importing_units_does_not_import_pint() -> None:
    code = "import sys, optimizer.units; sys.exit('pint' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


def test_a_disk_that_cannot_be_written_only_costs_time(monkeypatch) -> None:
    import pint

    made = pint.UnitRegistry

    def refuse(*given, **options):
        if options.get("cache_folder"):
            raise OSError(30, "Read-only file system")
        return made(*given, **options)

    monkeypatch.setattr(pint, "UnitRegistry", refuse)
    registry = quantity._registry.__wrapped__()
    assert registry.Quantity(1, "inch").m_as("m") == pytest.approx(0.0254)
