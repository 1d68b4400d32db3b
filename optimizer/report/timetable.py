"""A plan as a cook follows it: what to do, in the order of the clock."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from optimizer.model.household import Item, Scenario
from optimizer.model.plan import Amount, Drawn, Fire, Plan, Reboil, Steeped, Step
from optimizer.report.doings import (
    END,
    LIGHT,
    MOVE,
    OFF,
    ON,
    SERVE,
    SOAK,
    Doing,
    nearest,
    rounded,
    shown,
)
from optimizer.report.measures import Measures, served_at
from optimizer.report.names import Names
from optimizer.scenario.clock import clock

SOLID = frozenset({"wood", "charcoal"})  # takes fuel to get going, and can be put out and kept
TOGETHER_MIN = 5  # two doings so close are told in one line


def timetable(plan: Plan, scenario: Scenario, measures: Measures) -> list[Doing]:
    """List everything that has to be done, by the clock."""
    return told(plan, Teller(plan, scenario, measures))


def told(plan: Plan, teller: "Teller") -> list[Doing]:
    """List everything that has to be done, by the clock, in the words of this teller."""
    doings = [replace(d, of=fire) for fire in plan.fires for d in teller.fire(fire)]
    steps = (*plan.steps, *plan.under_way)
    doings += [replace(d, of=step) for step in steps for d in teller.step(step)]
    return shown([doing for doing in doings if plan.begins <= max(0, doing.minute)])


class Teller:
    """Puts the steps of one plan into words."""

    def __init__(self, plan: Plan, scenario: Scenario, measures: Measures) -> None:
        self.names = Names(scenario)
        self.measures = measures
        self.hot_c, self.children = scenario.rules.hot_c, scenario.children
        under_way = [each.item for each in scenario.under_way]
        self.items: dict[int, Item] = {i.number: i for i in (*scenario.items, *under_way)}
        self.diets = {
            item.number: " and ".join(diet.name for diet in scenario.diets_of(item))
            for item in scenario.items
            if scenario.is_apart(item)
        }
        self.kg_per_mj = {f.name: f.used_kg / f.used_mj for f in plan.fuels if f.used_kg}
        self.pots = (*plan.steps, *plan.under_way)

    # fires

    def fire(self, fire: Fire) -> Iterator[Doing]:
        """Tell when a fire is lit and when it is done with."""
        stove = self.names.stoves.get(fire.stove)
        label = self.names.stove(fire.stove)
        kind = self.fuel_kind(fire.stove)
        if kind == "sun":
            yield Doing(fire.start, LIGHT, "down", "", f"Turn the {label} to the sun.")
            return
        flame = stove is None or stove.flame
        begin = f"Light the {label}{self.where(fire.stove)}" if flame else f"Switch on the {label}"
        yield Doing(fire.start, LIGHT, "down", "", begin + self.starter(fire) + ".")
        yield Doing(fire.end, END, "up", "", self.ending(label, kind))

    def ending(self, label: str, kind: str | None) -> str:
        """Tell how a fire ends."""
        if kind in SOLID:
            return f"Done with the {label}: put it out, keep what has not burned."
        return f"Done with the {label}: turn it off."

    def fuel_kind(self, stove: str) -> str | None:
        """Give the kind of fuel that a stove burns."""
        own = self.names.stoves.get(stove)
        fuel = self.names.fuels.get(own.fuel) if own else None
        return fuel.kind if fuel else None

    def where(self, stove: str) -> str:
        """Say that a flame stands outdoors."""
        return " outdoors" if self.names.places.get(stove) == "outdoors" else ""

    def starter(self, fire: Fire) -> str:
        """Say what it takes to light a fire."""
        stove = self.names.stoves.get(fire.stove)
        if stove is None or self.fuel_kind(fire.stove) not in SOLID or fire.start_mj <= 0:
            return ""
        fuel = self.names.fuel(stove.fuel)
        kg = fire.start_mj * self.kg_per_mj.get(stove.fuel, 0.0)
        amount = self.measures.fuel(kg) if kg else self.measures.energy(fire.start_mj)
        return f": {amount} of {fuel} to start it"

    # dishes

    def step(self, step: Step) -> Iterator[Doing]:
        """Tell one dish from the soaking to the table."""
        dish = self.names.dish(step, self.pots)
        if step.soak_from is not None:
            yield Doing(step.soak_from, SOAK, "down", dish, self.soaking(step))
        yield Doing(step.on, ON, "down", dish, self.setting_on(step))
        yield from (replace(d, dish=dish) for d in self.leaving(step))
        for i, again in enumerate(step.reboil):
            last = i == len(step.reboil) - 1
            yield from (replace(d, dish=dish) for d in self.reboiling(step, again, last=last))
        yield from (replace(d, dish=dish) for d in self.carrying(step))
        if step.drawn:
            for draw in step.drawn:
                text = self.drawing(draw, last=draw is step.drawn[-1])
                yield Doing(draw.at, SERVE, "exact", dish, text)
                if draw.steeped is not None:
                    ready = self.steeped(step, draw, draw.steeped)
                    yield Doing(draw.steeped.serve, SERVE, "exact", draw.use, ready)
            return
        yield Doing(step.serve, SERVE, "exact", dish, self.serving(step))

    def drawing(self, draw: Drawn, *, last: bool) -> str:
        """Tell one draw: how much, for what, and how hot it is."""
        about = served_at(self.measures, "hot", draw.usual_c, draw.careful_c, self.hot_c)
        use = f" for {draw.use}" if draw.use else ""
        if draw.steeped is not None:
            return self.pouring(draw, draw.steeped, about)
        if draw.ingredients:
            use += f", onto {self.amounts(draw.ingredients)}"
        if draw.most_c is not None and draw.usual_c > draw.most_c:
            most = self.measures.temperature(draw.most_c)
            about += f"; let it cool to {most} before you use it"
        end = "that is the last of it" if last else "shut it at once"
        return f"Draw {self.measures.water(draw.litres)}{use}, {about}; {end}."

    def amounts(self, amounts: Sequence[Amount]) -> str:
        """List foods."""
        return ", ".join(f"{self.measures.food(a.kg)} {self.names.food(a.food)}" for a in amounts)

    def soaking(self, step: Step) -> str:
        """Tell what to put to soak: the beans, or else the heaviest dry food."""
        beans = [a for a in step.ingredients if self.names.is_bean(a.food)]
        dry = [a for a in step.ingredients if self.names.is_dry(a.food)]
        heaviest = sorted(dry or step.ingredients, key=lambda a: a.kg)[-1:]
        return f"Soak {self.amounts(beans or heaviest)} in plenty of cold water."

    def setting_on(self, step: Step) -> str:
        """Tell what goes into which pot, and onto which stove."""
        poured = "Pour the soaking water off. " if step.soak_from is not None else ""
        contents = f"{self.contents(step)}. {self.placing(step)} {self.heating(step)}"
        return f"{self.apart(step)}{poured}{contents}"

    def apart(self, step: Step) -> str:
        """Say that a dish for people with a diet has a pot of its own."""
        diets = self.diets.get(step.number)
        return f"For {diets}: clean pot, lid and spoon. " if diets else ""

    def contents(self, step: Step) -> str:
        """List what goes into the pot."""
        parts = [self.amounts(step.ingredients)] if step.ingredients else []
        if step.water_kg > 0:
            parts.append(self.water(step))
        return ", ".join(parts)

    def water(self, step: Step) -> str:
        """Tell how much water goes into the pot."""
        fresh = "fresh water" if step.soak_from is not None else "water"
        return f"{self.measures.water(step.water_kg)} {fresh}"

    def placing(self, step: Step) -> str:
        """Tell which pot goes onto which stove."""
        lid = "lid locked" if step.pressure else "lid on"
        place = f"{self.names.pot(step.pot)}, {lid}, on the {self.names.stove(step.stove)}"
        return f"{capital(place)}."

    def heating(self, step: Step) -> str:
        """Tell when it boils, and for how long it must."""
        item = self.items.get(step.number)
        about = nearest(step.boil)
        if item is not None and item.dish.heat_c is not None:
            return f"Reaches {self.measures.temperature(item.dish.heat_c)} about {about}."
        if step.pressure:
            begins, keeps = f"Full pressure about {about}", "keep it there"
        else:
            begins, keeps = f"Boils about {about}", "keep it boiling"
        hold = step.hold_minutes
        return f"{begins}; {keeps} {hold} min." if hold > 0 else f"{begins}."

    def pouring(self, draw: Drawn, steeped: Steeped, about: str) -> str:
        """Tell what is poured on what is steeped."""
        water, jar = self.measures.water(draw.litres), self.names.cooker(steeped.cooker)
        own = self.names.cookers.get(steeped.cooker)
        rinsed = ", rinsed hot first" if own is not None and own.preheated else ""
        return (
            f"For {draw.use}: pour {water}, {about}, onto {self.amounts(draw.ingredients)} in the "
            f"{jar}{rinsed}. Stir, shut it at once, leave it shut until {clock(steeped.serve)}."
        )

    def steeped(self, step: Step, draw: Drawn, steeped: Steeped) -> str:
        """Tell what was steeped, at the table."""
        about = served_at(self.measures, "hot", steeped.usual_c, steeped.careful_c, self.hot_c)
        cool = " Let it cool for children." if self.children else ""
        return f"{capital(step.meal)}. Serve the {draw.use}, {about}.{cool}"

    def leaving(self, step: Step) -> Iterator[Doing]:
        """Tell how a pot leaves the stove, and where it goes."""
        if step.cooker is None or step.move is None:
            if step.serve - step.off > TOGETHER_MIN:
                yield Doing(step.off, OFF, "up", "", "Off the stove; leave the lid on.")
            return
        into = self.into(step, step.cooker)
        if step.move - step.off <= TOGETHER_MIN:
            yield Doing(step.off, OFF, "up", "", f"Off the stove and at once into {into}")
            return
        wait = "let the pressure fall by itself" if step.pressure else "leave the lid on"
        yield Doing(step.off, OFF, "up", "", f"Off the stove; {wait}.")
        yield Doing(step.move, MOVE, "up", "", f"Into {into}")

    def into(self, step: Step, cooker: str) -> str:
        """Tell which cooker takes it, and how long it stays shut."""
        own = self.names.cookers.get(cooker)
        label = f"the {self.names.cooker(cooker)}"
        if own is not None and own.kind == "vacuum" and own.preheated:
            label += ", rinsed hot first"
        again = step.reboil[0].on if step.reboil else step.serve
        again = step.drawn[0].at if step.drawn else again
        return f"{label}. Leave it shut until {clock(rounded(again, 'down'))}."

    def reboiling(self, step: Step, again: Reboil, *, last: bool) -> Iterator[Doing]:
        """Tell how a pot comes out of its cooker to boil again."""
        hold = again.off - again.boil
        keep = f"; keep it boiling {hold} min" if hold > 0 else ""
        text = (
            f"Out of the cooker and onto the {self.names.stove(step.stove)}, lid on. "
            f"Boils again about {nearest(again.boil)}{keep}."
        )
        yield Doing(again.on, ON, "down", "", text)
        if not last:
            yield Doing(again.off, OFF, "up", "", "Off the stove and at once back into the cooker.")
        elif step.serve - again.off > TOGETHER_MIN:
            yield Doing(again.off, OFF, "up", "", "Off the stove; leave the lid on.")

    def carrying(self, step: Step) -> Iterator[Doing]:
        """Tell when a dish is carried to where it is eaten, and when its carrier is back."""
        item = self.items.get(step.number)
        carried = item.carried if item is not None else None
        if carried is None:
            return
        to = f" to {carried.to}" if carried.to else " to where it is eaten"
        way = f"Carry it{to}, {carried.minutes} min, shut and level."
        back = f"Have the carrier and pot back by {clock(step.serve + carried.back_min)}."
        yield Doing(step.serve - carried.minutes, MOVE, "down", "", f"{way} {back}")

    def serving(self, step: Step) -> str:
        """Tell what comes to the table, and how hot."""
        count = f"{step.portions:.3g} portion{'' if step.portions == 1 else 's'}"
        if step.serve_c <= 0:  # packed otherwise than planned
            return f"{capital(step.meal)}. Serve {count}. How hot is not known: measure it first."
        about = served_at(
            self.measures, step.serve_rule, step.serve_c, step.serve_c_low, self.hot_c
        )
        begin = "Serve" if step.serve_rule == "hot" else "Ready:"
        text = f"{capital(step.meal)}. {begin} {count}, {about}."
        item = self.items.get(step.number)
        if item is not None and item.children > 0 and step.serve_c >= self.hot_c:
            text += " Let it cool for children."
        return text


def capital(text: str) -> str:
    """Write the first letter large."""
    return text[:1].upper() + text[1:]
