"""The text of a file, if it is a file, small enough and UTF-8."""

import stat
from pathlib import Path

from optimizer.errors import InputError, Problem

LARGEST_BYTES = 1_000_000


def read_text(path: Path) -> str:
    """Read a file as text, if it is a file, small enough and UTF-8.

    Parameters
    ----------
    path
        The file.

    Raises
    ------
    InputError
        If it is none of these, or cannot be read.
    """
    shown = str(path)
    try:
        found = path.stat()
        if stat.S_ISDIR(found.st_mode):
            raise refused(shown, None, "folder", "is a folder; name a file in it")
        if not stat.S_ISREG(found.st_mode):
            raise refused(shown, None, "not_a_file", "is not a plain file")
        if found.st_size > LARGEST_BYTES:
            raise too_large(shown)
        with path.open("rb") as opened:
            content = opened.read(LARGEST_BYTES + 1)
    except FileNotFoundError as error:
        raise refused(shown, None, "missing_file", "there is no such file") from error
    except (OSError, ValueError) as error:
        raise refused(shown, None, "unreadable", f"cannot be read: {error}") from error
    return decoded(shown, content)


def decoded(file: str, content: bytes) -> str:
    """Text of the bytes of a file.

    Parameters
    ----------
    file
        Its name, for messages.
    content
        All of it.

    Raises
    ------
    InputError
        If it is too large or not UTF-8.
    """
    if len(content) > LARGEST_BYTES:
        raise too_large(file)
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        message = "is not UTF-8 text; save it as UTF-8"
        raise refused(file, line, "not_utf8", message) from error


def refused(file: str, line: int | None, code: str, message: str) -> InputError:
    """Give the one reason for which a file is not read.

    Parameters
    ----------
    file
        Its name.
    line
        Where, from 1; None: in all of it.
    code
        Short word for the kind of fault.
    message
        What was expected, what was given.
    """
    return InputError([Problem(file, line, "", code, message)])


def too_large(file: str) -> InputError:
    """Refuse a file for its size.

    Parameters
    ----------
    file
        Its name.
    """
    return refused(file, None, "too_large", "is larger than 1 MB; not read")
