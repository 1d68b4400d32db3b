"""``fuelthrift box``: how long an insulated cooker keeps a pot hot, and what would help."""

import re
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Annotated

import typer

from optimizer.cli.measuring import Options
from optimizer.cli.options import Choices, File, Json, UnitsOption, read_scenario
from optimizer.cli.outlet import Outlet, failures_told
from optimizer.errors import InputError

if TYPE_CHECKING:
    from collections.abc import Sequence

    from optimizer.model.household import Scenario
    from optimizer.model.things import Cooker, Dish, Material
    from optimizer.report.measures import Units
    from optimizer.studies.box import BoxQuestion
    from optimizer.studies.laying import Heap

POT_FILL, JAR_FILL = 0.8, 0.95
CM, INCH = 0.01, 0.0254
BAG_M3 = (0.0005, 1.0)
_HEAP = re.compile(r"\s*(.*?\S)[\s=:]+([\d.,]+\s*[^\d\s].*?)\s*")
THICK_CM, THICK_INCH = (2, 4, 6, 8, 10, 12, 15, 20), (1, 2, 3, 4, 5, 6, 8)

CookerName = Annotated[
    str | None,
    typer.Option("--cooker", metavar="NAME", help="A cooker of the file, or any that is known."),
]
PotName = Annotated[
    str | None,
    typer.Option("--pot", metavar="NAME", help="The pot in it (else the largest that goes in)."),
]
MaterialName = Annotated[
    str | None, typer.Option("--material", metavar="NAME", help="Pack it with this instead.")
]
Thickness = Annotated[
    str | None,
    typer.Option("--thickness", metavar="LENGTH", help="So thick, such as '10 cm' or '4 inch'."),
]
Gap = Annotated[
    float | None,
    typer.Option("--gap", help="Share of the pot that the packing misses, 0 to 0.5."),
]
Damp = Annotated[
    bool | None,
    typer.Option("--damp/--dry", help="The packing is damp, or dry.", show_default=False),
]
Blankets = Annotated[
    int | None, typer.Option("--blankets", metavar="N", help="Blankets laid over it.")
]
Fill = Annotated[float | None, typer.Option("--fill", help="How full the pot is, such as 0.8.")]
Kitchen = Annotated[
    str | None,
    typer.Option("--kitchen", metavar="TEMP", help="Where it stands, such as '12 degC'."),
]
BagOption = Annotated[
    str | None,
    typer.Option("--bag", metavar="VOLUME", help="Packing there is, such as '60 L': how to use."),
]
Have = Annotated[
    list[str] | None,
    typer.Option(
        "--have",
        metavar="'NAME AMOUNT'",
        help="Packing at hand, such as 'newspaper 60 L' or 'wool_blanket 3 kg' (up to four times): "
        "what to take, in which order.",
    ),
]
DishNames = Annotated[
    list[str] | None,
    typer.Option("--dish", metavar="NAME", help="Hours to done of any dish (else of the menu)."),
]
BoilTime = Annotated[
    str | None,
    typer.Option("--boil", metavar="TIME", help="Boil it so long first, such as '10 min'."),
]


@dataclass(frozen=True, slots=True)
class Asked:
    """The options of the command."""

    cooker: str | None
    pot: str | None
    material: str | None
    thickness: str | None
    gap: float | None
    damp: bool | None
    blankets: int | None
    fill: float | None
    kitchen: str | None
    bag: str | None
    have: tuple[str, ...]
    dishes: tuple[str, ...]
    boil: str | None

    @property
    def repacks(self) -> list[str]:
        """Options that make the packing another one."""
        given = {
            "--material": self.material,
            "--thickness": self.thickness,
            "--gap": self.gap,
            "--damp or --dry": self.damp,
            "--blankets": self.blankets,
            "--bag": self.bag,
            "--have": self.have or None,
        }
        return [option for option, value in given.items() if value is not None]


def box(
    file: File = None,
    cooker: CookerName = None,
    pot: PotName = None,
    material: MaterialName = None,
    thickness: Thickness = None,
    gap: Gap = None,
    damp: Damp = None,
    blankets: Blankets = None,
    fill: Fill = None,
    kitchen: Kitchen = None,
    bag: BagOption = None,
    have: Have = None,
    dish: DishNames = None,
    boil: BoilTime = None,
    json: Json = None,
    units: UnitsOption = "metric",
) -> None:
    """Say how long an insulated cooker keeps a pot hot, what cooks in it, and what would help."""
    asked = Asked(
        cooker, pot, material, thickness, gap, damp, blankets, fill, kitchen, bag,
        tuple(have or ()), tuple(dish or ()), boil,
    )  # fmt: skip
    outlet = Outlet(json, file)
    with failures_told(outlet):
        scenario = read_scenario(outlet, Choices())
        from optimizer.planning.conditions import Refused
        from optimizer.report.box import box_text
        from optimizer.report.box_result import json_text
        from optimizer.studies.box import answer

        options = Options()
        question = question_of(scenario, asked, units, options)
        found = answer(question)
        if isinstance(found, Refused):
            label = question.cooker.label
            options.wrong("--pot", found.code, f"{found.reason}: the {label} takes smaller ones")
            raise InputError(options.problems)
        outlet.say(box_text(found, scenario.title, units))
        outlet.write(json_text(found))


def question_of(
    scenario: "Scenario", asked: Asked, units: "Units", options: Options
) -> "BoxQuestion":
    """Put the options into a question, or tell everything that is wrong with them."""
    from optimizer.planning.ways import conditions
    from optimizer.shelf import load
    from optimizer.studies.box import BoxQuestion, known_packings, known_pots, usual_pot

    shelf, at = load(), conditions(scenario, 1)
    cooker = _cooker(scenario, asked, options)
    found = options.thing("--pot", asked.pot, known_pots(scenario))
    pot = found or usual_pot(scenario, cooker)
    kitchen_c = options.quantity("--kitchen", asked.kitchen, "degC", (-30, 50), "12 degC")
    bag_m3 = options.quantity("--bag", asked.bag, "m**3", BAG_M3, "60 L")
    boil_min = options.quantity("--boil", asked.boil, "min", (0, 600), "10 min")
    heaps = heaps_of(scenario, asked.have, options)
    options.number("--fill", asked.fill, (0.1, 1.0))
    dishes = _dishes(scenario, asked, options)
    if options.problems:
        raise InputError(options.problems)
    if kitchen_c is not None:
        at = replace(at, place=replace(at.place, kitchen_c=kitchen_c))
    return BoxQuestion(
        cooker=cooker,
        pot=pot,
        water=shelf.dishes["drinking_water"],
        fill=asked.fill or (JAR_FILL if cooker.kind == "vacuum" else POT_FILL),
        at=at,
        thick_m=thick_steps_m(units),
        packings=known_packings(scenario),
        dishes=dishes,
        boil_min=boil_min or 0.0,
        bag_m3=bag_m3,
        heaps=heaps,
    )


def thick_steps_m(units: "Units") -> tuple[float, ...]:
    """Give the thicknesses that are told: whole centimetres, or inches."""
    if units == "us":
        return tuple(n * INCH for n in THICK_INCH)
    return tuple(n * CM for n in THICK_CM)


def _cooker(scenario: "Scenario", asked: Asked, options: Options) -> "Cooker":
    """Find the cooker and pack it as the options say."""
    from optimizer.studies.box import known_cookers, known_packings, usual_cooker
    from optimizer.studies.designs import rebuilt

    known = known_cookers(scenario)
    found = options.thing("--cooker", asked.cooker, known) or usual_cooker(scenario)
    thick_m = options.quantity("--thickness", asked.thickness, "m", (0.01, 0.5), "10 cm")
    packings = {each.name: each for each in known_packings(scenario)}
    material = options.thing("--material", asked.material, packings)
    options.number("--gap", asked.gap, (0, 0.5))
    options.number("--blankets", asked.blankets, (0, 10))
    if found.kind == "vacuum" and asked.repacks:
        options.wrong(asked.repacks[0], "contradiction", f"a {found.label} has no packing")
    given = {
        "thickness_m": thick_m,
        "material": material,
        "gap": asked.gap,
        "damp": asked.damp,
        "blankets": asked.blankets,
    }
    changed = {name: value for name, value in given.items() if value is not None}
    return rebuilt(found, **changed) if changed and not options.problems else found


def heaps_of(scenario: "Scenario", have: "Sequence[str]", options: Options) -> "tuple[Heap, ...]":
    """Find what a house has: each a name and an amount."""
    from optimizer.studies.box import known_packings
    from optimizer.studies.laying import MOST_HEAPS

    packings = {each.name: each for each in known_packings(scenario)}
    found: dict[str, Heap] = {}
    for text in have:
        split = _HEAP.fullmatch(text)
        if split is None:
            written = "write a name and an amount, such as 'newspaper 60 L'"
            options.wrong("--have", "unit_missing", f"'{text}': {written}")
            continue
        material = options.thing("--have", split[1], packings)
        heap = heap_of(material, split[2], options) if material else None
        found |= {heap.material.name: heap} if heap else {}
    if len(have) > MOST_HEAPS:
        options.wrong("--have", "bounds", f"at most {MOST_HEAPS} kinds, given {len(have)}")
    return tuple(found.values())


def heap_of(material: "Material", text: str, options: Options) -> "Heap | None":
    """Read how much of a packing there is; None (and noted) if that makes no sense."""
    from optimizer.studies.laying import Heap

    amount = options.amount("--have", text, ("m**3", "kg"), "'60 L' or '3 kg'")
    if amount is None:
        return None
    volume = amount.value / (material.density_kg_m3 if amount.unit == "kg" else 1.0)
    if not BAG_M3[0] <= volume <= BAG_M3[1]:
        least, most = (1000 * each for each in BAG_M3)
        options.wrong("--have", "bounds", f"'{text}' must be {least:g} to {most:g} L")
        return None
    return Heap(material, volume)


def _dishes(scenario: "Scenario", asked: Asked, options: Options) -> "tuple[Dish, ...]":
    """Find the dishes that are asked for, else the hot ones of the menu."""
    from optimizer.shelf import load

    own = {item.dish.name: item.dish for item in scenario.items}
    if not asked.dishes:
        return tuple(d for d in own.values() if d.serve == "hot" and d.boil_min > 0)
    known = {**load().dishes, **own}
    found = [options.thing("--dish", name, known) for name in asked.dishes]
    return tuple(each for each in found if each is not None)
