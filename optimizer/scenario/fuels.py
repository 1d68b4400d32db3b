"""What there is of a fuel, and where a stove that burns it may stand."""

from typing import Any

from optimizer.model.household import Store
from optimizer.model.things import Fuel, Stove
from optimizer.scenario.document import Document, Location
from optimizer.scenario.schema import INDOORS, OUTDOORS, VENTED
from optimizer.units import Quantity

NO_FLAME = frozenset({"electricity", "sun"})


def store(document: Document, fuel: Fuel, entry: Any, reserve: float) -> Store | None:
    """Make the store of one fuel, or note what is wrong and give None.

    Parameters
    ----------
    document
        The file.
    fuel
        The fuel.
    entry
        What the file says of it.
    reserve
        Share of every fuel that is not to be touched, where the fuel has none of its own.
    """
    at: Location = ("fuels", fuel.name)
    if "stock" not in entry.model_fields_set and fuel.kind != "sun":
        wanted = "1.2 kWh" if fuel.lhv_j_kg is None else "12 kg"
        message = f"'stock' is missing; write for example 'stock: {wanted}', or stock: unlimited"
        document.problem(at, "missing", message)
        return None
    fits = [_fits(document, fuel, getattr(entry, key), (*at, key)) for key in ("stock", "price")]
    if not all(fits):
        return None
    stock_kg, stock_j = _split(fuel, entry.stock)
    price_kg, price_j = _split_price(fuel, entry.price)
    package = entry.stock.package if entry.stock else None
    package_kg = None if package is None else package * _kg_in(fuel, entry.stock.unit)
    if "package" in entry.model_fields_set or fuel.lhv_j_kg is None or package is None:
        package_kg = fuel.package_kg
    own = reserve if entry.reserve is None else entry.reserve
    return Store(fuel, stock_kg, stock_j, price_kg, price_j, package_kg, own)


def counted(document: Document, fuel: Fuel, given: Quantity | None, at: Location) -> float | None:
    """Return an amount of a fuel in kg, or in J where it has no mass; None, and noted, if wrong.

    Parameters
    ----------
    document
        The file.
    fuel
        The fuel.
    given
        The amount; None is without limit.
    at
        Where it stands.
    """
    if given is None or not _fits(document, fuel, given, at):
        return None
    return given.value if given.unit == "J" else given.value * _kg_in(fuel, given.unit)


def _fits(document: Document, fuel: Fuel, given: Quantity | None, at: Location) -> bool:
    """Check that an amount counts as the fuel is counted: by mass or volume, or by energy."""
    if given is None or (given.unit == "J") == (fuel.lhv_j_kg is None):
        if given is None or given.unit != "m**3" or fuel.density_kg_m3 is not None:
            return True
        message = f"{fuel.name} is weighed here, since its density is not known; write kg"
    elif given.unit == "J":
        message = f"{fuel.name} is counted by mass or volume, not by energy; write kg or L"
    else:
        message = f"{fuel.name} has no mass; count it by energy, such as kWh"
    document.problem(at, "unit_wrong", message)
    return False


def _kg_in(fuel: Fuel, unit: str) -> float:
    """Kilograms in one of a unit."""
    return 1.0 if unit == "kg" else fuel.density_kg_m3 or 0.0


def _split(fuel: Fuel, stock: Quantity | None) -> tuple[float | None, float | None]:
    """Stock by mass and by energy; one of them at most."""
    if stock is None:
        return None, None
    if stock.unit == "J":
        return None, stock.value
    return stock.value * _kg_in(fuel, stock.unit), None


def _split_price(fuel: Fuel, price: Quantity | None) -> tuple[float | None, float | None]:
    """Price by mass and by energy; one of them at most."""
    if price is None:
        return None, None
    if price.unit == "J":
        return None, price.value
    return price.value / _kg_in(fuel, price.unit), None


def where_it_stands(document: Document, stove: Stove, fuel: Fuel, given: str | None) -> str:
    """Say where a stove stands; note a flame that may not stand there.

    Parameters
    ----------
    document
        The file.
    stove
        The stove.
    fuel
        What it burns.
    given
        What the file says: outdoors, vented hob, indoors, or nothing.
    """
    at: Location = ("stoves", stove.name, "where")
    burns = fuel.kind not in NO_FLAME
    if burns and not stove.flame:
        message = f"{fuel.name} burns: a stove for it has a flame; 'flame: false' cannot be"
        document.problem(("stoves", stove.name, "flame"), "contradiction", message)
    if burns and given == INDOORS:
        message = (
            f"{stove.name} has a flame: flames stand outdoors only (carbon monoxide, fire), save "
            f"an installed hob with its vent; write where: {OUTDOORS}, or where: {VENTED}"
        )
        document.problem(at, "flame_indoors", message)
    if fuel.kind == "charcoal" and given == VENTED:
        message = f"{stove.name} burns charcoal, which stands outdoors only, under no hob either"
        document.problem(at, "flame_indoors", message)
    return given or (OUTDOORS if burns or fuel.kind == "sun" else INDOORS)
