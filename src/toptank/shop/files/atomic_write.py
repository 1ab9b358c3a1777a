"""Writing a file whole or not at all, with the rights that the person's own files have."""

import contextlib
from pathlib import Path

from toptank.shop.files.leftovers import partial_beside, swept
from toptank.shop.files.toml_file import shortened
from toptank.units.refusal import Refusal


def check_place(path: Path, *, replace: bool) -> None:
    """Refuse a file that exists and may not be replaced, or whose folder does not, before any work is done."""
    if path.exists() and not replace:
        raise Refusal(
            field="out", value=shortened(path), limit="exists already", fix="choose another name, or add --force"
        )
    if path.is_dir():
        raise Refusal(
            field="out", value=shortened(path), limit="cannot be written: it is a folder", fix="name a file in it"
        )
    if not path.absolute().parent.is_dir():
        limit = "cannot be written: its folder does not exist"
        raise Refusal(field="out", value=shortened(path), limit=limit, fix="make the folder first")


def write_whole(path: Path, content: bytes, *, replace: bool) -> None:
    """Write a file beside its place and put it there when it is whole.

    Raises
    ------
    Refusal : if it exists and may not be replaced, or cannot be written
    """
    check_place(path, replace=replace)
    partial = partial_beside(path)  # made by plain opening, so that the umask sets its rights
    swept(path.absolute().parent)
    try:
        with partial.open("xb") as file:
            file.write(content)
        partial.replace(path)
    except OSError as error:
        fix = error.strerror or "check it"
        raise Refusal(field="out", value=shortened(path), limit="cannot be written", fix=fix) from error
    finally:
        with contextlib.suppress(OSError):
            partial.unlink(missing_ok=True)
