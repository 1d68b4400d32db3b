"""What the file names, as records: taken from the shelf, changed in place, or new."""

from collections.abc import Iterable, Mapping
from dataclasses import MISSING, fields, replace
from typing import Any, TypeVar, get_type_hints

from optimizer.model.things import Cooker, Dish, Food, Fuel, Ingredient, Material, Pot, Stove
from optimizer.scenario.document import Document, Location
from optimizer.scenario.faults import near
from optimizer.scenario.fields import NOT_WRITTEN, key_of
from optimizer.scenario.schema import Thing
from optimizer.shelf import Shelf

ROUNDING = 0.03  # of the parts in a table of foods
HOUSEHOLD = "household"  # source of what the household says of its own things
BURNING = frozenset({"gas", "liquid", "alcohol", "wood", "charcoal"})
SECTIONS = ("fuels", "stoves", "pots", "cookers", "foods", "materials", "dishes")

Record = TypeVar("Record", Fuel, Stove, Pot, Cooker, Food, Material, Dish)


class Things:
    """The things of one file; what is wrong is noted in the document."""

    def __init__(self, document: Document, shelf: Shelf, broken: Mapping[str, set[str]]) -> None:
        self.document = document
        self.shelf = shelf
        self.broken = {section: set(broken.get(section, ())) for section in SECTIONS}
        self.materials: dict[str, Material] = {}
        self.foods: dict[str, Food] = {}

    def make(
        self, record: type[Record], section: str, entries: Mapping[str, Thing]
    ) -> dict[str, Record]:
        """Make the records of one section of the file.

        Parameters
        ----------
        record
            Kind of thing.
        section
            Top key of the file, and name of the mapping on the shelf.
        entries
            What the file says of each.
        """
        made = {name: self._one(record, section, name, entry) for name, entry in entries.items()}
        self._not_described(section, entries)
        self.broken[section] |= {name for name, thing in made.items() if thing is None}
        return {name: thing for name, thing in made.items() if thing is not None}

    def _not_described(self, section: str, entries: Mapping[str, Thing]) -> None:
        """Note names not on the shelf after which stands something that describes nothing."""
        named = self.document.plain.get(section)
        for name in named if isinstance(named, dict) else ():
            if name in self.broken[section] and name not in entries:
                self._not_there(section, name, [], said=False)

    def look_up(self, section: str, name: str, own: Mapping[str, Any], at: Location) -> Any:
        """Find a thing by name, in the file and then on the shelf; None (and noted) if not there.

        Parameters
        ----------
        section
            Kind of thing.
        name
            Its name.
        own
            Things of the file.
        at
            Where it is named.
        """
        shelf: Mapping[str, Any] = getattr(self.shelf, section)
        found = own.get(name) or (None if name in self.broken[section] else shelf.get(name))
        if found is None and name not in self.broken[section]:
            what = section.removesuffix("es") if section == "dishes" else section.removesuffix("s")
            message = f"unknown {what} '{name}'{near(name, {*own, *shelf})}"
            self.document.problem(at, "unknown_name", message)
        return found

    def with_material(self, cooker: Cooker) -> Cooker:
        """Return a cooker with its packing as the file describes it.

        Parameters
        ----------
        cooker
            The cooker.
        """
        packed = cooker.material
        return replace(cooker, material=packed and self.materials.get(packed.name, packed))

    def _one(self, record: type[Record], section: str, name: str, entry: Thing) -> Record | None:
        """Make one record, or None if something is wrong with it."""
        shelf: Mapping[str, Record] = getattr(self.shelf, section)
        at: Location = (section, name)
        base = shelf.get(entry.like or name)
        if entry.like and base is None:
            message = f"unknown name '{entry.like}' on the shelf{near(entry.like, shelf)}"
            self.document.problem((*at, "like"), "unknown_name", message)
            return None
        values = self._values(record, entry, at)
        if values is None:
            return None
        if base is None:
            return self._new(record, section, name, entry, values)
        values |= _told(entry, base.source_place, values, renamed=name != base.name)
        made = replace(base, **values)
        label = entry.label or (base.label if name == base.name else _spoken(name))
        made = replace(made, name=name, label=label)
        return made if self._sound(made, base, at) else None

    def _values(self, record: type[Any], entry: Thing, at: Location) -> dict[str, Any] | None:
        """Collect the fields that the file sets; things they name are looked up."""
        values: dict[str, Any] = {}
        hints = get_type_hints(record)
        for name, hint in hints.items():
            key = key_of(name)
            if name not in NOT_WRITTEN and key in entry.model_fields_set:
                value = getattr(entry, key)
                whole = hint is int and value is not None
                listed = isinstance(value, list)
                values[name] = round(value) if whole else tuple(value) if listed else value
        if record is Cooker:
            return self._packed(entry, values, at)
        return self._mixed(entry, values, at) if record is Dish else values

    def _packed(self, entry: Any, values: dict[str, Any], at: Location) -> dict[str, Any] | None:
        """Look up the material of a cooker."""
        name, where = values.get("material"), (*at, "material")
        if entry.packing is not None:
            name, where = entry.packing.material, (*at, "packing", "material")
            values["thickness_m"] = entry.packing.thickness
        if name is None:
            return values
        values["material"] = self.look_up("materials", name, self.materials, where)
        return values if values["material"] else None

    def _mixed(self, entry: Any, values: dict[str, Any], at: Location) -> dict[str, Any] | None:
        """Look up the foods of a dish."""
        if entry.ingredients is None:
            return {key: value for key, value in values.items() if key != "ingredients"}
        foods = {
            name: self.look_up("foods", name, self.foods, (*at, "ingredients", name))
            for name in entry.ingredients
        }
        if None in foods.values():
            return None
        kg = entry.ingredients
        return {**values, "ingredients": tuple(Ingredient(foods[name], kg[name]) for name in kg)}

    def _new(
        self, record: type[Record], section: str, name: str, entry: Thing, values: dict[str, Any]
    ) -> Record | None:
        """Make a thing that is not on the shelf, if the file says all of it."""
        optional: set[str] = {
            key for key, hint in get_type_hints(record).items() if _optional(hint)
        }
        own = [field for field in fields(record) if field.name not in NOT_WRITTEN]
        missing = [
            key_of(field.name)
            for field in own
            if field.name not in {*values, *optional} and field.default is MISSING
        ]
        if missing:
            self._too_little(section, name, entry, missing, said=bool(values))
            return None
        values = {**dict.fromkeys(optional), **values}
        made = record(
            name=name,
            label=entry.label or _spoken(name),
            source_id=HOUSEHOLD,
            source_place=entry.source or "the scenario file",
            **values,
        )
        return made if self._sound(made, None, (section, name)) else None

    def _too_little(
        self, section: str, name: str, entry: Thing, missing: list[str], *, said: bool
    ) -> None:
        """Note a thing that is not wholly described, if that is not because of its faults."""
        given = self.document.plain[section][name] if name in self.broken[section] else None
        if not isinstance(given, dict):
            self._not_there(section, name, missing, said=said)
            return
        absent = [key for key in missing if key not in given]
        misspelt = [key for key in given if key not in type(entry).model_fields]
        if len(absent) > len(misspelt) and "like" not in given:
            self._not_there(section, name, absent, said=said)

    def _not_there(self, section: str, name: str, missing: list[str], *, said: bool) -> None:
        """Note a name that is not on the shelf and not wholly described."""
        shelf = getattr(self.shelf, section)
        if name in shelf:
            return
        if said:
            hint = near(name, shelf).removeprefix("; ")
            message = (
                f"'{name}' is not on the shelf{f' ({hint})' if 'mean' in hint else ''} and says "
                f"too little of itself: give {', '.join(missing)}, or like: a name on the shelf"
            )
            self.document.problem((section, name), "too_little", message)
            return
        message = f"'{name}' is not on the shelf{near(name, shelf)} (a new one needs 'like:')"
        self.document.problem((section, name), "unknown_name", message)

    def _sound(self, made: Any, base: Any, at: Location) -> bool:
        """Check what the fields of one thing say about each other."""
        told = list(_faults(made))
        if base is not None and made.name == base.name:
            told += list(_marks_taken_off(made, base))
        for key, message in told:
            if not self.document.faulty((*at, key)):
                self.document.problem((*at, key), "contradiction", message)
        return not told


def _optional(hint: Any) -> bool:
    return type(None) in getattr(hint, "__args__", ())


def _spoken(name: str) -> str:
    return name.replace("_", " ")


def _told(entry: Thing, place: str, values: Mapping[str, Any], *, renamed: bool) -> dict[str, str]:
    """Say where the numbers of a changed thing stand."""
    if entry.source is not None:
        return {"source_id": HOUSEHOLD, "source_place": entry.source}
    if not values:
        return {}
    keys = ", ".join(key_of(name) for name in values)
    new = "; a thing of the household" if renamed else ""
    return {"source_place": f"{place}{new}; changed in the scenario file: {keys}"}


def _faults(made: Any) -> Iterable[tuple[str, str]]:
    """Find fields of a thing that contradict each other."""
    if isinstance(made, Stove) and made.low_power_w > made.power_w:
        yield "low_power", "the least power is more than the full power"
    if (
        isinstance(made, Cooker)
        and made.kind == "packed"
        and not (made.material and made.thickness_m)
    ):
        yield "packing", "a packed cooker needs packing: {material: ..., thickness: ...}"
    if isinstance(made, Cooker) and made.kind == "vacuum":
        needed = ("volume_m3", "rated_c", "rated_h", "rated_start_c", "rated_room_c")
        missing = [key_of(name) for name in needed if getattr(made, name) is None]
        if missing:
            yield missing[0], f"a vacuum jar needs {', '.join(missing)}"
    if isinstance(made, Fuel) and made.kind in BURNING and made.lhv_j_kg is None:
        yield "lhv", "a fuel that burns needs lhv, its lower heating value"
    if isinstance(made, Dish) and made.serve == "at" and made.serve_c is None:
        yield "serve_at", "serve: at needs serve_at, a temperature"
    if isinstance(made, Food):
        yield from _whole(made)


def _whole(food: Food) -> Iterable[tuple[str, str]]:
    """Find a composition that does not come to the whole food."""
    parts = (food.water, food.protein, food.fat, food.carbohydrate, food.fibre, food.ash)
    if abs(sum(parts) - 1) > ROUNDING:
        yield (
            "water",
            f"water, protein, fat, carbohydrate, fibre and ash come to {sum(parts):.3g} of the "
            "food; they must come to 1 within 0.03",
        )


def _marks_taken_off(made: Any, base: Any) -> Iterable[tuple[str, str]]:
    """Find marks of safety that the file takes off a thing of the shelf."""
    for name in ("phaseolus", "disinfects", "flammable", "flame"):
        if getattr(base, name, False) and not getattr(made, name):
            yield (
                name,
                f"this mark of safety cannot be taken off '{base.name}'; give a different thing "
                "its own name, with like:",
            )
    gone = {*(getattr(base, "contains", None) or ())} - {*(getattr(made, "contains", None) or ())}
    if gone:
        yield (
            "contains",
            f"'{base.name}' contains {' and '.join(sorted(gone))}; give a different thing its own "
            "name, with like:",
        )
    least = getattr(base, "endpoint_c", None)
    if least is not None and (made.endpoint_c is None or made.endpoint_c < least):
        yield "endpoint", f"'{base.name}' has to reach {least:g} degC inside; it cannot be less"
    if isinstance(base, Dish) and base.disinfects and _cooler(made, base):
        yield "serve_at", f"'{base.name}' is wanted at {base.serve_c:g} degC or hotter"


def _cooler(made: Dish, base: Dish) -> bool:
    """Tell whether a dish that is wanted at a temperature is wanted cooler than on the shelf."""
    if base.serve_c is None:
        return False
    return made.serve != "at" or made.serve_c is None or made.serve_c < base.serve_c
