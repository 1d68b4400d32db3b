"""``fuelthrift box``: how long an insulated cooker keeps a pot hot, and what would help."""

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Annotated

import typer

from optimizer.cli.measuring import Options
from optimizer.cli.options import Choices, File, Json, UnitsOption, read_scenario
from optimizer.cli.outlet import Outlet, failures_told
from optimizer.errors import InputError

if TYPE_CHECKING:
    from optimizer.model.household import Scenario
    from optimizer.model.things import Cooker, Dish, Material, Pot
    from optimizer.report.measures import Units
    from optimizer.studies.box import BoxQuestion

POT_FILL, JAR_FILL = 0.8, 0.95
CM, INCH = 0.01, 0.0254
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
    dish: DishNames = None,
    boil: BoilTime = None,
    json: Json = None,
    units: UnitsOption = "metric",
) -> None:
    """Say how long an insulated cooker keeps a pot hot, what cooks in it, and what would help."""
    asked = Asked(
        cooker, pot, material, thickness, gap, damp, blankets, fill, kitchen, bag,
        tuple(dish or ()), boil,
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
    from optimizer.studies.box import BoxQuestion

    shelf, at = load(), conditions(scenario, 1)
    cooker = _cooker(scenario, asked, options)
    pot = _pot(scenario, asked, cooker, options)
    kitchen_c = options.quantity("--kitchen", asked.kitchen, "degC", (-30, 50), "12 degC")
    bag_m3 = options.quantity("--bag", asked.bag, "m**3", (0.0005, 1.0), "60 L")
    boil_min = options.quantity("--boil", asked.boil, "min", (0, 600), "10 min")
    options.number("--fill", asked.fill, (0.1, 1.0))
    dishes = _dishes(scenario, asked, options)
    if options.problems:
        raise InputError(options.problems)
    if kitchen_c is not None:
        at = replace(at, place=replace(at.place, kitchen_c=kitchen_c))
    inch = units == "us"
    steps = [n * INCH for n in THICK_INCH] if inch else [n * CM for n in THICK_CM]
    return BoxQuestion(
        cooker=cooker,
        pot=pot,
        water=shelf.dishes["drinking_water"],
        fill=asked.fill or (JAR_FILL if cooker.kind == "vacuum" else POT_FILL),
        at=at,
        thick_m=tuple(steps),
        packings=_packings(scenario),
        dishes=dishes,
        boil_min=boil_min or 0.0,
        bag_m3=bag_m3,
    )


def _cooker(scenario: "Scenario", asked: Asked, options: Options) -> "Cooker":
    """Find the cooker and pack it as the options say."""
    from optimizer.shelf import load
    from optimizer.studies.designs import rebuilt

    own = [each.cooker for each in scenario.cookers]
    known = {**load().cookers, **{each.name: each for each in own}}
    packed = [each for each in own if each.kind == "packed"]
    first = (packed or [load().cookers["packed_box"]])[0]
    found = options.thing("--cooker", asked.cooker, known) or first
    thick_m = options.quantity("--thickness", asked.thickness, "m", (0.01, 0.5), "10 cm")
    packings = {each.name: each for each in _packings(scenario)}
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


def _packings(scenario: "Scenario") -> "tuple[Material, ...]":
    """Give every packing that is known, those of the file first."""
    from optimizer.shelf import load

    own = [own.cooker.material for own in scenario.cookers if own.cooker.material]
    known = {each.name: each for each in own}
    return tuple(
        {**known, **{n: m for n, m in load().materials.items() if n not in known}}.values()
    )


def _pot(scenario: "Scenario", asked: Asked, cooker: "Cooker", options: Options) -> "Pot":
    """Find the pot, else the largest of the household that goes in."""
    from optimizer.shelf import load

    own = [each.pot for each in scenario.pots]
    found = options.thing("--pot", asked.pot, {**load().pots, **{p.name: p for p in own}})
    if found is not None:
        return found
    plain = [pot for pot in own if not pot.gauge_pa] or own or [load().pots["pot_4l"]]
    goes_in = [
        pot
        for pot in plain
        if pot.diameter_m <= (cooker.greatest_pot_diameter_m or 1.0)
        and pot.height_m <= (cooker.greatest_pot_height_m or 1.0)
    ]
    return max(goes_in or plain, key=lambda pot: pot.volume_m3)


def _dishes(scenario: "Scenario", asked: Asked, options: Options) -> "tuple[Dish, ...]":
    """Find the dishes that are asked for, else the hot ones of the menu."""
    from optimizer.shelf import load

    own = {item.dish.name: item.dish for item in scenario.items}
    if not asked.dishes:
        return tuple(d for d in own.values() if d.serve == "hot" and d.boil_min > 0)
    known = {**load().dishes, **own}
    found = [options.thing("--dish", name, known) for name in asked.dishes]
    return tuple(each for each in found if each is not None)
