"""Reading a file of a person as bytes: what cannot be read is told in a sentence, and no more than so much is read."""

import stat
from pathlib import Path

from toptank.units.refusal import Refusal


def content(path: Path, *, largest: int, too_large: Refusal, missing: str) -> bytes:
    """Read a whole file.

    Parameters
    ----------
    path : the file
    largest : most bytes that are read
    too_large : what is said of a larger one
    missing : what to do where there is none

    Raises
    ------
    Refusal : if it is missing, a folder, a pipe, a device, cannot be read or is too large
    """
    named = shortened(path)
    try:
        found = path.stat()
        if stat.S_ISDIR(found.st_mode):
            raise Refusal(field="file", value=named, limit="is a folder", fix="name the file in it")
        if not stat.S_ISREG(found.st_mode):  # reading a pipe or a device may wait without end
            fix = "save what comes out of it in a file, and name that"
            raise Refusal(field="file", value=named, limit="is a pipe or a device, not a file", fix=fix)
        if found.st_size > largest:
            raise too_large
        with path.open("rb") as file:
            raw = file.read(largest + 1)
    except FileNotFoundError as error:
        raise Refusal(field="file", value=named, limit="does not exist", fix=missing) from error
    except (OSError, ValueError) as error:  # a name with a NUL in it is a ValueError
        if isinstance(error, Refusal):
            raise
        fix = (error.strerror if isinstance(error, OSError) else None) or "check it"
        raise Refusal(field="file", value=named, limit="cannot be read", fix=fix) from error
    if len(raw) > largest:
        raise too_large
    return raw


def shortened(value: object, most: int = 60) -> str:
    """Return a value as text that fits into a sentence."""
    text = "".join(sign if sign.isprintable() else "?" for sign in " ".join(str(value).split()))
    return text if len(text) <= most else text[: most - 3] + "..."
