"""The words of the class worksheets. Steps and cautions of a class: common practice, no source."""

from dataclasses import dataclass
from types import MappingProxyType

KIT = (
    "a small pot with its lid, about 1.5 L, and a middle one, about 2.5 L",
    "a thermometer that reads to the boil",
    "a clock, and scales that weigh to a gram",
    "a cardboard box a hand wider than the pot on every side, and old newspapers",
    "two or three thick blankets",
    "a stove outdoors and a wind shield that is made for it",
)
SUPERVISION = (
    "A grown person lights the stove, moves hot pots and stays with every group from the first "
    "flame until all is cold.",
    "Hot water scalds: long sleeves, closed shoes, dry pot holders, nobody runs, no table that "
    "can be pushed. Cold running water is at hand for burns.",
    "Flames stay outdoors, on bare level ground, away from paper, blankets and dry grass; water "
    "or sand stands ready.",
    "A shield stands as its maker says and never round a gas canister: it must stay cool to the "
    "hand.",
    "Wipe the pot, see that nothing glows, then pack it. Paper and blankets never come near the "
    "flame.",
    "The water of these tests is not drunk and nothing is cooked in it.",
)


@dataclass(frozen=True, slots=True)
class TestWords:
    """What a class reads about one test."""

    title: str
    question: str
    steps: tuple[str, ...]
    compare: tuple[str, ...]


SETUPS = MappingProxyType(
    {
        "lid_on": "lid on",
        "lid_off": "lid off",
        "shielded": "behind the shield",
        "in_the_wind": "in the wind",
        "bare": "on the table, lid on",
        "in_blankets": "in thick blankets",
        "in_paper": "in the box with crumpled paper",
        "two_fifths": "1 L in the 2.5 L pot (40 % full)",
        "four_fifths": "2 L in the 2.5 L pot (80 % full)",
        "to_the_boil": "1 L to the boil",
        "held": "held at the boil for 20 min",
    }
)

WORDS = MappingProxyType(
    {
        "lid": TestWords(
            "Lid on, lid off",
            "How much longer does a litre of water take to boil without its lid?",
            (
                "Measure 1 L of cold water into the small pot. Read its temperature.",
                "Lid on. Put it on the stove, full flame, and start the clock.",
                "Stop the clock when it boils with large bubbles all over.",
                "Let a grown person pour it away. Let the pot cool, then do the same with no lid.",
            ),
            (
                "Where does the heat go when the lid is off?",
                "How much longer, as a share of the time with the lid?",
            ),
        ),
        "wind": TestWords(
            "The wind and the shield",
            "What does the wind take from the flame?",
            (
                "Do this on a breezy day (leaves and twigs move all the time).",
                "1 L of cold water in the small pot, lid on, stove in the open. Start the clock.",
                "Stop it at the boil. Cool the pot and do the same behind the shield.",
                "Write down which day and how windy it was.",
            ),
            (
                "What did the shield save: how many minutes in every ten?",
                "What would happen on a day with no wind at all?",
            ),
        ),
        "box": TestWords(
            "What keeps heat",
            "How hot is a litre after two hours on the table, in blankets, in a box of paper?",
            (
                "Bring 1 L to the boil in the small pot, lid on. A grown person takes it off.",
                "Set it on the table, or wrap it at once, closed on every side, or push it into "
                "the box with crumpled paper a hand thick all round and on top.",
                "Read the middle of the pot at the minutes in the table; open it as short as you "
                "can, and close it again.",
                "Do it three times, or have three groups with the same pots.",
            ),
            (
                "Draw the three rows as curves: minutes across, temperature up.",
                "Food should stay at {hot} or hotter until it is eaten. For how long did each of "
                "the three do that?",
            ),
        ),
        "filling": TestWords(
            "A full pot and a half-empty one",
            "Which stays hot longer in the same box: one litre or two?",
            (
                "Bring 1 L to the boil in the middle pot, lid on. It fills 40 % of it.",
                "A grown person packs it into the box of paper. Read it after one and two hours.",
                "Do the same with 2 L. It fills 80 %.",
            ),
            (
                "Draw the two rows as curves. The box is the same: why do they cool differently?",
                "What would you cook in the small pot, and what in the middle one?",
            ),
        ),
        "holding": TestWords(
            "Boil on, or box it",
            "How much fuel does it take to boil a litre, and how much to hold it at the boil?",
            (
                "Weigh the fuel: the canister or bottle, or the pile of sticks.",
                "Bring 1 L to the boil in the small pot, lid on. Flame out; weigh again.",
                "Bring it back to the boil and weigh. Now hold it there for 20 min, the flame as "
                "low as it will go, lid on. Flame out; weigh again.",
            ),
            (
                "A stew boils for an hour and a half. What would a box save?",
                "With which of your numbers would you plan for three days?",
            ),
        ),
    }
)
