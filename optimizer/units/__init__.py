"""Text with a unit, as a person writes it, to a plain float; the only door to pint."""

from optimizer.units.annotation import Unit
from optimizer.units.exchange import exchanged
from optimizer.units.quantity import (
    Quantity,
    QuantityError,
    convert,
    convert_any,
    read_money,
    read_price,
    read_stock,
)

__all__ = [
    "Quantity",
    "QuantityError",
    "Unit",
    "convert",
    "convert_any",
    "exchanged",
    "read_money",
    "read_price",
    "read_stock",
]
