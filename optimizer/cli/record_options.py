"""The options of ``fuelthrift record``."""

from pathlib import Path
from typing import Annotated

import typer

TargetFile = Annotated[
    Path | None,
    typer.Argument(metavar="FILE", help="The scenario; its log stands beside it."),
]
At = Annotated[
    str | None,
    typer.Option("--at", metavar="MOMENT", help="When, such as 'day 2 12:00' or 'day 2 supper'."),
]
LeftOption = Annotated[
    list[str] | None,
    typer.Option("--left", metavar="FUEL=AMOUNT", help="Weighed: 'sticks=8.4 kg'."),
]
AddedOption = Annotated[
    list[str] | None,
    typer.Option("--added", metavar="FUEL=AMOUNT", help="Came in: 'propane=1 x 465 g'."),
]
EmptyOption = Annotated[
    str | None,
    typer.Option("--empty", metavar="WEIGHT", help="Weight of the empty packages on the scale."),
]
MealOption = Annotated[
    str | None, typer.Option("--meal", metavar="NAME", help="A meal of the day of --at.")
]
DishOption = Annotated[
    str | None, typer.Option("--dish", metavar="NAME", help="One dish of it (else all of it).")
]
HowOption = Annotated[
    str | None,
    typer.Option(
        "--how", help="eaten, 'left out', 'in the cooker', soaking or 'not begun'.", metavar="WORD"
    ),
]
StoveOption = Annotated[
    str | None, typer.Option("--stove", metavar="NAME", help="The stove it was really on.")
]
PotOption = Annotated[str | None, typer.Option("--pot", metavar="NAME", help="The pot it is in.")]
CookerOption = Annotated[
    str | None, typer.Option("--cooker", metavar="NAME", help="The cooker it is in.")
]
TempOption = Annotated[
    str | None, typer.Option("--temp", metavar="TEMP", help="What was read, such as '61 degC'.")
]
WhenOption = Annotated[
    str | None,
    typer.Option("--when", metavar="WORD", help="Read at the move, at serving, or of the room."),
]
AdultsOption = Annotated[
    int | None, typer.Option("--adults", metavar="N", help="So many adults eat from --at on.")
]
ChildrenOption = Annotated[
    int | None, typer.Option("--children", metavar="N", help="And so many children.")
]
WetOption = Annotated[
    bool | None,
    typer.Option("--wet/--dry", help="Sticks are wet, or dry, from --at on.", show_default=False),
]
UntilOption = Annotated[
    str | None, typer.Option("--until", metavar="MOMENT", help="Until then (else to the end).")
]
NoteOption = Annotated[str | None, typer.Option("--note", metavar="TEXT", help="A word to keep.")]
InsteadOption = Annotated[
    int | None, typer.Option("--instead-of", metavar="N", help="Corrects entry N of the log.")
]
WithdrawOption = Annotated[
    int | None, typer.Option("--withdraw", metavar="N", help="Entry N does not count any more.")
]
TakeOption = Annotated[
    list[str] | None,
    typer.Option("--take", metavar="STOVE", help="Write this stove's measured burn into FILE."),
]
NewOption = Annotated[
    bool, typer.Option("--new", help="Begin a new log; the old one is kept beside it.")
]
