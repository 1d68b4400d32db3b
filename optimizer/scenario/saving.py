"""Writing a changed scenario back: comments kept, whole or not at all, the last version kept."""

import os
import shutil
import tempfile
from contextlib import suppress
from glob import escape
from io import StringIO
from pathlib import Path

from ruamel.yaml.comments import CommentedMap, CommentedSeq
from ruamel.yaml.error import YAMLError

from optimizer.errors import InputError, SaveError
from optimizer.scenario.document import parse_document
from optimizer.scenario.file_text import read_text
from optimizer.scenario.locking import alone
from optimizer.scenario.yaml12 import round_trip


def load_document(path: str | Path) -> CommentedMap:
    """Load a scenario file as a tree that can be changed and saved with its comments.

    Parameters
    ----------
    path
        The file.

    Returns
    -------
    CommentedMap
        Its tree.

    Raises
    ------
    InputError
        If it is no readable YAML, or a key stands twice.
    """
    document = parse_document(read_text(Path(path)), str(path), own=True)
    if document.problems:
        raise InputError(document.problems)
    return document.tree


def save(path: str | Path, document: CommentedMap) -> None:
    """Save a tree in place of a file; what was there before is kept as ``NAME.yaml~``.

    The text is written beside the file, brought to the disk and only then put in its place: an
    interruption leaves the old file or the new one, never a part. A link is followed.

    Parameters
    ----------
    path
        The file.
    document
        The tree, as ``load_document`` gave it, changed.

    Raises
    ------
    SaveError
        If it cannot be written; the file is as it was.
    """
    try:
        text = text_of(document)
    except (ValueError, YAMLError) as error:
        raise SaveError(f"{path}: could not be saved, it is as it was: {error}") from error
    save_text(path, text)


def save_text(path: str | Path, text: str) -> None:
    """Save a text in place of a file; what was there before is kept as ``NAME.yaml~``.

    Parameters
    ----------
    path
        The file.
    text
        The whole of it.

    Raises
    ------
    SaveError
        If it cannot be written; the file is as it was.
    """
    try:
        _put(Path(path).resolve(), text)
    except (OSError, ValueError) as error:
        raise SaveError(f"{path}: could not be saved, it is as it was: {error}") from error


def text_of(document: CommentedMap) -> str:
    """Write a tree as YAML.

    Parameters
    ----------
    document
        The tree.
    """
    written = StringIO()
    yaml = round_trip()
    dash = _set_in(document, CommentedSeq)
    yaml.indent(mapping=max(_set_in(document, CommentedMap), 2), sequence=dash + 2, offset=dash)
    yaml.dump(document, written)
    return written.getvalue()


def _set_in(document: CommentedMap, kind: type[CommentedMap] | type[CommentedSeq]) -> int:
    """Find how far the first mapping or list of this file is set in, to keep it so."""
    for value in document.values():
        if isinstance(value, kind) and value and not value.fa.flow_style():
            return min(int(value.lc.col or 0), 8)
    return 2


def write_whole(path: str | Path, text: str) -> None:
    """Write an answer whole or not at all; a link is followed, nothing is kept of what was there.

    Parameters
    ----------
    path
        The file; what is no plain file, such as a pipe, is written to as it is.
    text
        The whole of it.

    Raises
    ------
    SaveError
        If it cannot be written; what was there is as it was.
    """
    try:
        target = Path(path).resolve()
        if target.exists() and not target.is_file():
            target.write_text(text, encoding="utf-8", newline="\n")
        else:
            _put_beside(target, text, keep=False)
    except (OSError, ValueError) as error:
        told = getattr(error, "strerror", None) or error
        raise SaveError(f"{path}: cannot be written: {told}") from error


def _put(target: Path, text: str) -> None:
    """Write a text in place of a file and keep what was there, one writer at a time."""
    with alone(target):
        for left in target.parent.glob(f".{escape(target.name)}.????????.part"):
            left.unlink(missing_ok=True)  # whoever wrote it was killed: only one writes at a time
        _put_beside(target, text, keep=True)


def _put_beside(target: Path, text: str, *, keep: bool) -> None:
    """Write a text beside a file, bring it to the disk, and only then put it in its place."""
    handle, name = tempfile.mkstemp(dir=target.parent, prefix=f".{target.name}.", suffix=".part")
    part = Path(name)
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as opened:
            opened.write(text)
            opened.flush()
            os.fsync(opened.fileno())
        _keep_mode(part, target)
        if keep:
            _keep_last(target)
        part.replace(target)
    except BaseException:
        with suppress(OSError):
            part.unlink()
        raise
    sync_folder(target.parent)


def _keep_mode(part: Path, target: Path) -> None:
    """Give the new file the permissions of the old one, or those of any new file."""
    if target.exists():
        shutil.copymode(target, part)
        return
    mask = os.umask(0)
    os.umask(mask)
    part.chmod(0o666 & ~mask)


def _keep_last(target: Path) -> None:
    """Keep the version that is about to be replaced, put in place whole as well."""
    if not target.exists():
        return
    part = target.with_name(f".{target.name}~.part")
    try:
        with target.open("rb") as last, part.open("wb") as opened:
            shutil.copyfileobj(last, opened)
            opened.flush()
            os.fsync(opened.fileno())
        shutil.copystat(target, part)
        part.replace(target.with_name(f"{target.name}~"))
    except BaseException:
        with suppress(OSError):
            part.unlink()
        raise


def sync_folder(folder: Path) -> None:
    """Bring a new name in a folder to the disk, where the system lets a folder be synced.

    Parameters
    ----------
    folder
        The folder.
    """
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
