"""A pydantic annotation that reads text with a unit into a plain float."""

from dataclasses import dataclass
from typing import Any

from pydantic_core import PydanticCustomError, core_schema

from optimizer.units.quantity import QuantityError, convert
from optimizer.units.wording import KINDS, example, shown


@dataclass(frozen=True)
class Unit:
    """Annotation for a pydantic field that reads text with a unit into a float.

    ``Annotated[float, Unit("kg", gt=0, example="465 g")]`` reads ``"465 g"`` as ``0.465``.
    The bounds are in ``unit``.
    """

    unit: str
    gt: float | None = None
    ge: float | None = None
    le: float | None = None
    example: str | None = None

    @property
    def written(self) -> str:
        """How a value might be written."""
        return self.example or example(self.unit)

    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> core_schema.CoreSchema:
        return core_schema.no_info_plain_validator_function(
            self.read,
            serialization=core_schema.plain_serializer_function_ser_schema(
                lambda value: f"{value!r} {self.unit}", when_used="json-unless-none"
            ),
        )

    def __get_pydantic_json_schema__(self, schema: Any, handler: Any) -> dict[str, Any]:
        kind = KINDS.get(self.unit, f"a value in {self.unit}")
        return {
            "type": "string",
            "description": f"{kind} with its unit",
            "examples": [self.written],
        }

    def read(self, given: Any) -> float:
        """Read one value.

        Parameters
        ----------
        given
            What the file holds.

        Returns
        -------
        float
            The value in ``unit``.

        Raises
        ------
        PydanticCustomError
            If it is no text, no quantity of this kind, or out of bounds.
        """
        if isinstance(given, bool) or not isinstance(given, str | int | float):
            raise _custom("quantity", f"expected text such as '{self.written}'")
        if not isinstance(given, str):
            raise _custom(
                "unit_missing", f"{given} has no unit; write for example '{self.written}'"
            )
        try:
            value = convert(given, self.unit, self.written)
        except QuantityError as error:
            raise _custom(error.code, str(error)) from error
        self._within(given, value)
        return value

    def _within(self, given: str, value: float) -> None:
        """Check the bounds."""
        rule = ""
        if self.gt is not None and not value > self.gt:
            rule = f"more than {self.gt:g}"
        elif self.ge is not None and not value >= self.ge:
            rule = f"at least {self.ge:g}"
        elif self.le is not None and not value <= self.le:
            rule = f"at most {self.le:g}"
        if rule:
            raise _custom("bounds", f"{shown(given)} must be {rule} {self.unit}")


def _custom(code: str, message: str) -> PydanticCustomError:
    """Make the error that pydantic collects, with the message taken as it is."""
    return PydanticCustomError(code, "{message}", {"message": message})
