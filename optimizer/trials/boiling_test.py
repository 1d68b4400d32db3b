"""The file of a water boiling test: what was weighed, read and timed, with units beside it."""

from pathlib import Path
from typing import Annotated, Any, Final

from pydantic import BeforeValidator, Field, PlainValidator, ValidationError

from optimizer.scenario.document import Document, parse_document
from optimizer.scenario.faults import note
from optimizer.scenario.fields import Part, fault, number
from optimizer.scenario.file_text import read_text
from optimizer.units import Quantity, QuantityError, Unit, convert_any, read_stock

COLD_WATER_KG_M3: Final = 998.0
WATER_KG: Final = (0.1, 60.0)
HOLDS: Final = "fuel, pot, air, cold, hot, simmer"


def _fuel(given: Any) -> Quantity:
    """Read fuel burned: a weight, a volume, or electricity."""
    if not isinstance(given, str):
        raise fault("unit_missing", f"expected text such as '280 g', given {given!r:.60}")
    try:
        found = read_stock(given)
    except QuantityError as error:
        raise fault(error.code, str(error)) from error
    if not found.value > 0:
        raise fault("bounds", f"must be more than nothing, given {given!r:.60}")
    return found


def _water(given: Any) -> float:
    """Read a weight of water, or its volume when cold."""
    if not isinstance(given, str):
        raise fault("unit_missing", f"expected text such as '2.5 kg', given {given!r:.60}")
    try:
        found = convert_any(given, ("kg", "m**3"), "'2.5 kg' or '2.5 L'")
    except QuantityError as error:
        raise fault(error.code, str(error)) from error
    kg = found.value if found.unit == "kg" else found.value * COLD_WATER_KG_M3
    low, high = WATER_KG
    if not low <= kg <= high:
        raise fault("bounds", f"must be {low:g} to {high:g} kg, given {given!r:.60}")
    return kg


def _listed(given: Any) -> Any:
    """Let one run stand for a list of one."""
    return [given] if isinstance(given, dict) else given


Fuel = Annotated[Quantity, PlainValidator(_fuel, json_schema_input_type=str)]
Water = Annotated[float, PlainValidator(_water, json_schema_input_type=str)]
Degrees = Annotated[float, Unit("degC", ge=-5, le=115, example="18 degC")]
Minutes = Annotated[float, Unit("min", ge=1, le=600, example="17 min")]
Char = Annotated[float, Unit("kg", ge=0, le=10, example="28 g")]


class Start(Part):
    """Water brought to the boil at full power, the stove cold or hot."""

    fuel: Fuel
    char: Char = 0.0
    water: Water
    water_left: Water
    water_from: Degrees
    water_to: Degrees
    time: Minutes


class Simmer(Part):
    """Water kept near the boil."""

    fuel: Fuel
    char: Char = 0.0
    water: Water
    water_left: Water
    time: Minutes


class BoilingTest(Part):
    """One test of a stove; each phase once, or a list of repeats."""

    title: Annotated[str, Field(max_length=200)] | None = None
    fuel: Annotated[str, Field(min_length=1, max_length=60)]
    lhv: Annotated[float, Unit("J/kg", ge=5e6, le=60e6, example="19 MJ/kg")] | None = None
    moisture: Annotated[float, number(0, 0.6)] | None = None
    pot: Annotated[str, Field(min_length=1, max_length=60)]
    air: Annotated[float, Unit("degC", ge=-40, le=50, example="18 degC")]
    wind: Annotated[float, Unit("m/s", ge=0, le=25, example="1 m/s")] = 0.0
    boils_at: Annotated[float, Unit("degC", ge=80, le=101, example="99 degC")] | None = None
    altitude: Annotated[float, Unit("m", ge=-430, le=5000, example="600 m")] | None = None
    scale: Annotated[float, Unit("kg", gt=0, le=0.5, example="5 g")] = 0.005
    char_kept: bool = False
    cold: Annotated[list[Start], BeforeValidator(_listed)] = Field(default=[], max_length=50)
    hot: Annotated[list[Start], BeforeValidator(_listed)] = Field(default=[], max_length=50)
    simmer: Annotated[list[Simmer], BeforeValidator(_listed)] = Field(default=[], max_length=50)


def read_test(path: Path) -> tuple[Document, BoilingTest | None]:
    """Read the file of a boiling test.

    Parameters
    ----------
    path : Path
        The file [-]

    Returns
    -------
    tuple of Document and BoilingTest or None
        What it says, and what is wrong with it; None if too little can be read [-]

    Raises
    ------
    InputError
        If it is no readable YAML.

    References
    ----------
    .. [1] WBT_4_2_3, p 1, what is weighed, read and timed.
    """
    return parse_test(read_text(path), str(path))


def parse_test(text: str, file: str) -> tuple[Document, BoilingTest | None]:
    """Read the text of a boiling test.

    Parameters
    ----------
    text : str
        The whole file [-]
    file : str
        Its name, for messages [-]

    Returns
    -------
    tuple of Document and BoilingTest or None
        What it says, and what is wrong with it; None if too little can be read [-]

    Raises
    ------
    InputError
        If it is no readable YAML.

    References
    ----------
    .. [1] WBT_4_2_3, p 1, what is weighed, read and timed.
    """
    document = parse_document(text, file, HOLDS)
    try:
        test = BoilingTest.model_validate(document.plain)
    except ValidationError as error:
        note(document, BoilingTest, error.errors(include_url=False))
        return document, None
    _check(document, test)
    return document, test


def _check(document: Document, test: BoilingTest) -> None:
    """Note what one number says against another."""
    if not (test.cold or test.hot):
        document.problem(
            (), "missing", "there is neither a 'cold' nor a 'hot' start; one is needed"
        )
    if test.boils_at is not None and test.altitude is not None:
        document.problem(("altitude",), "contradiction", "say boils_at or altitude, not both")
    for phase in ("cold", "hot", "simmer"):
        listed = isinstance(document.plain.get(phase), list)
        for place, run in enumerate(getattr(test, phase)):
            at = (phase, place) if listed else (phase,)
            if run.water_left > run.water:
                message = "more water is left than there was"
                document.problem((*at, "water_left"), "contradiction", message)
            if isinstance(run, Start) and run.water_to < run.water_from + 10:
                message = "the water has to get at least 10 K hotter"
                document.problem((*at, "water_to"), "contradiction", message)
