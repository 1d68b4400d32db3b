"""The command line: ``fuelthrift plan``, ``compare``, ``record``, ``check`` and ``app``.

Only the parser is imported here; the rest is imported inside the commands, so that help is quick.

Exit codes: 0 done; 1 no plan is possible; 2 bad input; 3 a limit was hit before there was a plan;
4 a file could not be written; 130 interrupted.
"""

import gc
import sys

import typer

from optimizer.cli.boxing import box
from optimizer.cli.buying import buy
from optimizer.cli.checking import check
from optimizer.cli.comparing import compare
from optimizer.cli.lasting import days
from optimizer.cli.planning import plan
from optimizer.cli.recording import record
from optimizer.cli.serving import app as serve
from optimizer.cli.sweeping import sweep
from optimizer.cli.testing import box_test, stove_test

__all__ = ["app", "main"]

GARBAGE_AT = 50_000  # records are many and live long: at Python's 700 a plan takes a tenth longer

app = typer.Typer(
    name="fuelthrift",
    help="Hot food on the table, on time, from the fuel that is in the shed.",
    add_completion=False,
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
)
app.command()(plan)
app.command()(compare)
app.command()(days)
app.command()(buy)
app.command()(box)
app.command("test-box")(box_test)
app.command("test-stove")(stove_test)
app.command()(record)
app.command()(sweep)
app.command()(check)
app.command("app")(serve)


def main() -> None:
    """Run the command line."""
    gc.set_threshold(GARBAGE_AT)
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")  # a terminal that knows no degree sign
    app()
