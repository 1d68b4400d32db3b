"""Shares and rota of households as they stand in the result file."""

from typing import Literal

from pydantic import ConfigDict, with_config
from typing_extensions import TypedDict

from optimizer.model.plan import Plan
from optimizer.model.sharing import Share, Turn

_strict = with_config(ConfigDict(extra="forbid"))


@_strict
class FuelPartShape(TypedDict):
    """One household's part of a fuel, in kg, or MJ where there is no mass."""

    name: str
    unit: Literal["kg", "MJ"]
    used: float
    brought: float
    back: float
    owed: float
    cost: float


@_strict
class ShareShape(TypedDict):
    """One household's share; ``settlement`` is money that it gets, below 0 that it pays."""

    household: str
    adults: float
    children: float
    portions: float
    fuels: list[FuelPartShape]
    cost: float
    settlement: float


@_strict
class TurnShape(TypedDict):
    """A stretch of cook hours and the household that cooks then."""

    household: str
    day: int
    start: int
    end: int
    minutes: float
    meals: list[str]


def shares_told(plan: Plan | None) -> list[ShareShape] | None:
    """Give the shares; None where no households share the kitchen.

    Parameters
    ----------
    plan
        The plan, if there is one.
    """
    return [_share(each) for each in plan.shares] if plan and plan.shares else None


def _share(share: Share) -> ShareShape:
    return {
        "household": share.household,
        "adults": share.adults,
        "children": share.children,
        "portions": share.portions,
        "fuels": [
            {
                "name": part.name,
                "unit": part.unit,
                "used": part.used,
                "brought": part.brought,
                "back": part.back,
                "owed": part.owed,
                "cost": part.cost,
            }
            for part in share.fuels
        ],
        "cost": share.cost,
        "settlement": share.settlement,
    }


def rota_told(plan: Plan | None) -> list[TurnShape] | None:
    """Give who cooks when; None where no households take turns.

    Parameters
    ----------
    plan
        The plan, if there is one.
    """
    return [_turn(each) for each in plan.rota] if plan and plan.rota else None


def _turn(turn: Turn) -> TurnShape:
    return {
        "household": turn.household,
        "day": turn.day,
        "start": turn.start,
        "end": turn.end,
        "minutes": turn.minutes,
        "meals": list(turn.meals),
    }
