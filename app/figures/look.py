"""How every chart looks: one colour for each thing a pot does, and the same said without colour.

The colours are of the Okabe-Ito set, which people with the common kinds of colour blindness tell
apart; a hatch or a shape and a word repeat each of them, so that charts also read in grey.
"""

from dataclasses import dataclass
from typing import Any, Literal

FONT = "Liberation Sans, Arial, Helvetica, sans-serif"
SMALL, USUAL = 11, 12
WORD_PX = 6.2  # a letter of the usual size, on the wide side

Hatch = Literal["none", "slanted", "upright", "thin", "dashed"]


@dataclass(frozen=True, slots=True)
class Mark:
    """What a thing is drawn with: colour, and what repeats it in grey."""

    colour: str
    hatch: Hatch
    word: str


DOES: dict[str, Mark] = {
    "fire": Mark("#d55e00", "none", "on the fire"),
    "boil": Mark("#e69f00", "slanted", "held at the boil"),
    "cooker": Mark("#0072b2", "upright", "in the cooker"),
    "wait": Mark("#888888", "thin", "set aside, lid on"),
    "soak": Mark("#888888", "dashed", "soaking"),
}
SERVED = "served"
WRONG = "#c1121f"  # only for what is wrong


@dataclass(frozen=True, slots=True)
class Look:
    """Ink on paper, by day or by night."""

    ink: str
    soft: str  # lesser words
    line: str  # lines of the clock
    shade: str  # areas behind
    fuel: str  # neutral: fuels have no colours of their own
    paper: str


LIGHT = Look("#111111", "#555555", "#d9d9d9", "#f1f1f1", "#6b6b6b", "#ffffff")
DARK = Look("#fafafa", "#b8b8b8", "#45433f", "#26241f", "#a3a3a3", "#171614")


def config(look: Look) -> dict[str, Any]:
    """Give the settings that all charts share.

    Parameters
    ----------
    look
        By day or by night.
    """
    words = {
        "labelColor": look.ink,
        "titleColor": look.ink,
        "labelFontSize": USUAL,
        "titleFontSize": USUAL,
        "titleFontWeight": "normal",
    }
    return {
        "background": "transparent",
        "font": FONT,
        "view": {"stroke": None},
        "axis": {
            **words,
            "gridColor": look.line,
            "domainColor": look.soft,
            "tickColor": look.soft,
        },
        "text": {"color": look.ink, "font": FONT, "fontSize": USUAL},
        "rule": {"color": look.ink},
        "padding": 2,
    }
