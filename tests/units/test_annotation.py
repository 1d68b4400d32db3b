"""A field of a pydantic model that reads text with a unit."""

from typing import Annotated

import pytest
from pydantic import BaseModel, ValidationError

from optimizer.units import Unit


class Sample(BaseModel):
    mass: Annotated[float, Unit("kg", gt=0, le=50, example="465 g")] = 1.0
    warm: Annotated[float, Unit("degC", ge=-60)] | None = None


def fault(**given):
    with pytest.raises(ValidationError) as caught:
        Sample(**given)
    (error,) = caught.value.errors()
    return error["type"], error["msg"], error["loc"]


def test_it_reads_a_float_in_its_unit() -> None:
    assert Sample(mass="465 g").mass == pytest.approx(0.465)
    assert Sample(warm="32 degF").warm == pytest.approx(0)
    assert Sample(warm=None).warm is None


@pytest.mark.parametrize(
    ("given", "kind", "piece"),
    [
        (5, "unit_missing", "write for example '465 g'"),
        (5.0, "unit_missing", "write for example '465 g'"),
        (True, "quantity", "expected text such as '465 g'"),
        (None, "quantity", "expected text such as '465 g'"),
        ([], "quantity", "expected text such as '465 g'"),
        ("5", "unit_missing", "has no unit"),
        ("5 m", "unit_wrong", "a mass"),
        ("0 kg", "bounds", "more than 0 kg"),
        ("-1 g", "bounds", "more than 0 kg"),
        ("51 kg", "bounds", "at most 50 kg"),
        ("{x} kg", "quantity", "'{x} kg'"),
    ],
)
def test_it_refuses_with_what_to_write(given, kind, piece) -> None:
    found, message, place = fault(mass=given)
    assert (found, place) == (kind, ("mass",))
    assert piece in message


def test_least() -> None:
    assert fault(warm="-61 degC")[1] == "'-61 degC' must be at least -60 degC"


def test_it_writes_what_it_reads() -> None:
    made = Sample(mass="1 lb", warm="20 degC")
    assert made.model_dump() == {"mass": made.mass, "warm": made.warm}
    assert Sample.model_validate_json(made.model_dump_json()) == made


def test_its_schema_is_text_with_an_example() -> None:
    schema = Sample.model_json_schema()["properties"]["mass"]
    assert schema["type"] == "string"
    assert schema["examples"] == ["465 g"]
    assert schema["description"] == "a mass with its unit"
