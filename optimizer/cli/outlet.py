"""Where answers go, and how failures end: text, a JSON file, or JSON alone; exit codes."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from enum import IntEnum
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import typer

from optimizer.errors import InputError, LimitError, PhysicsError, Problem, SaveError

if TYPE_CHECKING:
    from optimizer.model.plan import Plan, Status

STDOUT = Path("-")
DEMO = "outage_weekend.yaml"


class Exit(IntEnum):
    """What the exit code says."""

    DONE = 0
    NO_PLAN = 1
    BAD_INPUT = 2
    LIMIT = 3
    NOT_WRITTEN = 4
    INTERRUPTED = 130


@dataclass(frozen=True, slots=True)
class Outlet:
    """Where the answer goes: text, a JSON file, or JSON alone on standard output."""

    json: Path | None
    file: Path | None  # the scenario, or the demo
    sheet: Path | None = None  # a page to print

    @property
    def overwrites(self) -> bool:
        """An answer would be written over the scenario."""
        file = self.file or demo_file()
        wanted = [path for path in (self.json, self.sheet) if path is not None and path != STDOUT]
        return file.exists() and any(path.exists() and path.samefile(file) for path in wanted)

    def say(self, text: str) -> None:
        """Print text, unless standard output is for JSON alone."""
        if self.json != STDOUT:
            typer.echo(text)

    def give(
        self, plan: "Plan | None", problems: Sequence[Problem] = (), status: "Status | None" = None
    ) -> None:
        """Write the result file where one is wanted."""
        from optimizer.report.result import json_text, to_json

        if self.json is not None:
            self.write(json_text(to_json(plan, problems, status)))

    def write(self, text: str) -> None:
        """Write JSON where it is wanted, never over the scenario."""
        from optimizer.scenario.saving import write_whole

        if self.json is None or self.overwrites:
            return
        if self.json == STDOUT:
            typer.echo(text, nl=False)
        else:
            write_whole(self.json, text)

    def fail(
        self, code: "Exit", problems: Sequence[Problem], status: "Status | None" = None
    ) -> NoReturn:
        """Say what went wrong, give what there is to give, and end."""
        typer.echo("\n".join(str(problem) for problem in problems), err=True)
        try:
            self.give(None, problems, status)
        except SaveError as error:
            typer.echo(str(error), err=True)
        raise typer.Exit(code)


def demo_file() -> Path:
    """Find the scenario that is shipped; it is only read."""
    from optimizer.shelf import data_folder

    return Path(str(data_folder() / "scenarios" / DEMO))


@contextmanager
def failures_told(outlet: Outlet) -> Iterator[None]:
    """Turn what can go wrong into a message and an exit code."""
    try:
        yield
    except InputError as error:
        outlet.fail(Exit.BAD_INPUT, error.problems)
    except PhysicsError as error:
        outlet.fail(Exit.BAD_INPUT, [Problem("scenario", None, "", "out_of_range", str(error))])
    except LimitError as error:
        outlet.fail(Exit.LIMIT, [Problem("search", None, "", "limit", str(error))], "time_limit")
    except KeyboardInterrupt:
        found = Problem("search", None, "", "stopped", "stopped before there was a plan")
        outlet.fail(Exit.INTERRUPTED, [found], "stopped")
    except SaveError as error:
        typer.echo(str(error), err=True)
        raise typer.Exit(Exit.NOT_WRITTEN) from error
