"""Who eats, as the file says: households with their people and fuel, diets, groups of people."""

from collections import defaultdict
from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import Any

from optimizer.model.eaters import MARKS, Brought, Diet, Group, House
from optimizer.model.household import Store
from optimizer.scenario.document import Document, Location
from optimizer.scenario.faults import near
from optimizer.scenario.fuels import counted

EVEN = 1e-6


def houses_of(
    document: Document, entries: Any, stores: Sequence[Store], unsure: Collection[str]
) -> tuple[House, ...]:
    """Return the households that share the kitchen.

    Parameters
    ----------
    document
        Gets what is wrong.
    entries
        The whole file.
    stores
        What there is of each fuel.
    unsure
        Keys of the file, and fuels, with faults of their own: nothing is held against them.
    """
    given = entries.households
    people = entries.people
    if isinstance(given, list):
        named: Mapping[str, Any] = dict.fromkeys(given)
        for place in (n for n, name in enumerate(given) if name in given[:n]):
            message = f"the household '{given[place]}' stands twice"
            document.problem(("households", place), "twice", message)
    else:
        named = given
    if not named:
        return ()
    told = [name for name, part in named.items() if part and _counts(part)]
    if told and len(told) < len(named):
        name = next(name for name in named if name not in told)
        message = "say how many people each household has, or of none: then they are equal"
        document.problem(("households", name), "people", message)
    elif "people" not in unsure:
        _same_people(document, [named[name] for name in told], people)
    made = []
    for name, part in named.items():
        heads = (part.adults or 0, part.children or 0) if told and part else None
        equal = people.adults / len(named), people.children / len(named)
        brought = _brought(document, name, part, stores, unsure)
        made.append(House(name, *(heads or equal), brought))
    _within_stock(document, made, stores)
    return tuple(made)


def _counts(part: Any) -> bool:
    return part.adults is not None or part.children is not None


def _same_people(document: Document, parts: Sequence[Any], people: Any) -> None:
    """Note households that do not come to all people."""
    adults = sum(part.adults or 0 for part in parts)
    children = sum(part.children or 0 for part in parts)
    if parts and (adults, children) != (people.adults, people.children):
        message = (
            f"the households come to {_heads(adults, children)}, but people says "
            f"{_heads(people.adults, people.children)}: make them agree"
        )
        document.problem(("households",), "people", message)


def _heads(adults: int, children: int) -> str:
    grown = f"{adults} {'adult' if adults == 1 else 'adults'}"
    return f"{grown} and {children} {'child' if children == 1 else 'children'}"


def _brought(
    document: Document, name: str, part: Any, stores: Sequence[Store], unsure: Collection[str]
) -> tuple[Brought, ...]:
    """Return what one household put into the store."""
    fuels = {store.fuel.name: store.fuel for store in stores}
    made = []
    for key, amount in (part.brings if part else {}).items():
        at = ("households", name, "brings", key)
        if key not in fuels:
            if not {"fuels", key} & {*unsure}:
                message = f"'{key}' is not among the fuels{near(key, fuels)}"
                document.problem(at, "unknown_name", message)
            continue
        if amount is None:
            document.problem(at, "amount", "say how much it brings, such as 10 kg")
            continue
        count = counted(document, fuels[key], amount, at)
        if count is not None:
            weighed = fuels[key].lhv_j_kg is not None
            made.append(Brought(key, count if weighed else None, None if weighed else count))
    return tuple(made)


def _within_stock(document: Document, houses: Sequence[House], stores: Sequence[Store]) -> None:
    """Note households that bring more of a fuel than there is."""
    brought: dict[str, float] = defaultdict(float)
    for house in houses:
        for each in house.brings:
            brought[each.fuel] += each.kg or each.j or 0.0
    for store in stores:
        stock = store.stock_kg if store.stock_j is None else store.stock_j
        if stock is not None and brought[store.fuel.name] > stock * (1 + EVEN):
            share = brought[store.fuel.name] / stock if stock else 0.0
            message = (
                f"the households bring more {store.fuel.name} than its stock"
                + (f", {share:.3g} times as much" if share else "")
                + ": the stock counts what they bring"
            )
            document.problem(("households",), "stock", message)


# diets


def groups_of(
    document: Document,
    entries: Any,
    houses: Sequence[House],
    foods: Collection[str],
    unsure: Collection[str],
) -> tuple[Group, ...]:
    """Return all people by household and diet; none where all are alike.

    Parameters
    ----------
    document
        Gets what is wrong.
    entries
        The whole file.
    houses
        That share the kitchen.
    foods
        Names that a diet may leave out, beside the marks.
    unsure
        Keys of the file with faults of their own: nothing is held against them.
    """
    people = entries.people
    whole = [House("", people.adults, people.children)]
    if not houses and not entries.diets:
        return ()
    _names_apart(document, entries.diets, houses)
    for name, part in entries.diets.items():
        left_out_known(document, part.without, ("diets", name, "without"), foods)
        if "households" not in unsure:
            _houses_known(document, name, part, houses)
    return tuple(group for house in houses or whole for group in _split(document, entries, house))


def left_out_known(
    document: Document, words: Sequence[str], at: Location, foods: Collection[str]
) -> None:
    """Note what is neither a mark nor a food."""
    for place, word in enumerate(words):
        if word not in MARKS and word not in foods:
            known = {*MARKS, *foods}
            hint = near(word, known) or f"; marks are {', '.join(MARKS)}; or name a food"
            document.problem((*at, place), "unknown_name", f"unknown food '{word}'{hint}")


def _names_apart(document: Document, diets: Mapping[str, Any], houses: Sequence[House]) -> None:
    """Note a diet that is called as a household is: ``for`` would not know which is meant."""
    for name in diets:
        if name in {house.name for house in houses}:
            message = f"'{name}' is a household as well; give the diet a name of its own"
            document.problem(("diets", name), "twice", message)


def _houses_known(document: Document, name: str, part: Any, houses: Sequence[House]) -> None:
    """Note households of a diet that are not there, or that are missing."""
    known = {house.name for house in houses}
    for place, word in enumerate(part.of or ()):
        if word not in known:
            message = f"unknown household '{word}'{near(word, known)}"
            document.problem(("diets", name, "of", place), "unknown_name", message)
    if part.people is not None and known and len(part.of or ()) != 1:
        message = "say of which household they are: of: NAME"
        document.problem(("diets", name), "missing", message)


def _split(document: Document, entries: Any, house: House) -> Iterator[Group]:
    """Part one household into those with a diet of their own and the others."""
    mine = [
        (name, part) for name, part in entries.diets.items() if not part.of or house.name in part.of
    ]
    everybody = tuple(_diet(name, part) for name, part in mine if part.people is None)
    left, name_of = [house.adults, house.children], house.name or None
    for name, part in mine:
        if part.people is None:
            continue
        adults, children = part.people.adults, part.people.children
        if adults > left[0] + EVEN or children > left[1] + EVEN or not adults + children:
            whose = f"'{house.name}'" if house.name else "the people"
            message = (
                f"{_heads(adults, children)} are not among {whose}: "
                f"there are {left[0]:g} adults and {left[1]:g} children without another diet"
            )
            document.problem(("diets", name, "people"), "people", message)
            continue
        left = [left[0] - adults, left[1] - children]
        yield Group(name_of, (*everybody, _diet(name, part)), adults, children)
    if sum(left) > EVEN:
        yield Group(name_of, everybody, *left)


def _diet(name: str, part: Any) -> Diet:
    return Diet(name, tuple(part.without), part.allergy)


def chosen(
    document: Document,
    names: Sequence[str] | None,
    groups: Sequence[Group],
    at: Location,
    diets: Collection[str],
) -> list[int] | None:
    """Return the groups that an item of the menu is for; None, and noted, where a name is wrong.

    Parameters
    ----------
    document
        Gets what is wrong.
    names
        Of households and diets; None: everybody.
    groups
        All people.
    at
        Where the names stand.
    diets
        All that are named in the file, sound or not.
    """
    if names is None:
        return list(range(len(groups)))
    known = {*diets} | {name for group in groups for name in _names(group)}
    wrong = [place for place, name in enumerate(names) if name not in known]
    for place in wrong:
        message = f"no household and no diet is called '{names[place]}'{near(names[place], known)}"
        document.problem((*at, place), "unknown_name", message)
    if wrong:
        return None
    return [n for n, group in enumerate(groups) if {*names} & {*_names(group)}]


def _names(group: Group) -> tuple[str, ...]:
    own = (group.house,) if group.house else ()
    return (*own, *(diet.name for diet in group.diets))
