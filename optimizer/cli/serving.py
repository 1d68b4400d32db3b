"""``fuelthrift app``: the front end on this machine."""

from importlib import import_module
from typing import Annotated

import typer

from optimizer.cli.options import File
from optimizer.cli.outlet import Outlet, failures_told

Port = Annotated[
    int | None,
    typer.Option(
        "--port", min=1024, max=65535, metavar="N", help="Port; without it, the first free one."
    ),
]
NoBrowser = Annotated[bool, typer.Option("--no-browser", help="Do not open a browser.")]


def app(file: File = None, port: Port = None, no_browser: NoBrowser = False) -> None:
    """Open the front end in a browser; it listens on this machine only."""
    with failures_told(Outlet(None, file)):
        import_module("app.launch").run(file, port=port, open_browser=not no_browser)
