"""Start the server on this machine; the only place that knows Streamlit's settings."""

import os
import socket
from contextlib import suppress
from pathlib import Path

import streamlit as st

from app.state import SCENARIO
from optimizer.errors import InputError, Problem
from optimizer.scenario.file_text import read_text

HOST = "127.0.0.1"
FIRST_PORT = 8501
PORTS = 50  # tried one after the other
SETTINGS = {
    "server.address": HOST,
    "browser.serverAddress": "localhost",
    "server.allowedHosts": ["localhost", HOST],
    "server.enableXsrfProtection": True,
    "server.enableCORS": True,  # only this origin may ask
    "server.maxUploadSize": 1,
    "server.showEmailPrompt": False,
    "server.fileWatcherType": "none",
    "browser.gatherUsageStats": False,
    "runner.postScriptGC": False,  # see app.garbage
    "client.toolbarMode": "minimal",
    "client.showErrorDetails": "none",
    # Captions are drawn at three fifths of this: any paler and they fail the contrast of WCAG AA.
    "theme.light.textColor": "#000000",
    "theme.light.primaryColor": "#3d4f5c",
    "theme.dark.primaryColor": "#a9bccb",
    "theme.headingFontSizes": ["2.25rem", "1.5rem", "1.2rem", "1.1rem", "1rem", "1rem"],
    "theme.light.paddingTop": "3.5rem",
    "theme.dark.paddingTop": "3.5rem",
}


def settings(port: int, *, open_browser: bool) -> dict[str, object]:
    """Give the server's settings.

    Parameters
    ----------
    port
        A free port.
    open_browser
        Whether to open a browser.
    """
    return {
        **SETTINGS,
        "server.port": port,
        "browser.serverPort": port,
        "server.headless": not open_browser,
    }


def free_port(wanted: int | None) -> int:
    """Find a free port: the one that is wanted, or the first there is.

    Parameters
    ----------
    wanted
        The port that is asked for, if one is.

    Returns
    -------
    int
        A port nobody listens on.

    Raises
    ------
    InputError
        If it is taken.
    """
    tried = [wanted] if wanted else range(FIRST_PORT, FIRST_PORT + PORTS)
    for port in tried:
        if _is_free(port):
            return port
    named = f"port {wanted} is" if wanted else f"ports {tried[0]} to {tried[-1]} are"
    text = f"{named} taken by another program; choose another with --port"
    raise InputError([Problem("command line", None, "--port", "port_taken", text)])


def _is_free(port: int) -> bool:
    with socket.socket() as tried:
        if os.name != "nt":
            tried.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            tried.bind((HOST, port))
        except OSError:
            return False
    return True


def run(file: Path | None, *, port: int | None = None, open_browser: bool = True) -> None:
    """Serve the front end until the process is stopped.

    Parameters
    ----------
    file
        The scenario; None for a copy of the demo.
    port
        Port to listen on; None for the first free one.
    open_browser
        Whether to open a browser.

    Raises
    ------
    InputError
        If the file cannot be read as text, or the port is taken.
    """
    os.environ.pop(SCENARIO, None)
    if file is not None:
        read_text(file)
        os.environ[SCENARIO] = str(file.resolve())
    found = free_port(port)
    main = Path(__file__).resolve().with_name("main.py")
    with suppress(KeyboardInterrupt):  # Ctrl-C is how it ends
        st.App(main).run(config=settings(found, open_browser=open_browser))
