"""What was typed, put into a file elsewhere when the store cannot take it."""

import contextlib
import os
import tempfile
from collections.abc import Generator
from pathlib import Path

from toptank.shop.files.toml_file import shortened
from toptank.shop.record.store.record import StoreTrouble


@contextlib.contextmanager
def kept_if_it_fails(typed: str, ending: str) -> Generator[None]:
    """Put what was typed into a file elsewhere if the store is in the way, and say where."""
    try:
        yield
    except StoreTrouble as trouble:
        said = f"{trouble.limit}; {_put_elsewhere(typed, ending)}"
        raise StoreTrouble(field=trouble.field, value=trouble.value, limit=said, fix=trouble.fix) from trouble


def _put_elsewhere(typed: str, ending: str) -> str:
    for folder in (Path(tempfile.gettempdir()), Path.home(), Path.cwd()):
        name = ""
        try:
            handle, name = tempfile.mkstemp(prefix="toptank-kept-", suffix=ending, dir=folder)
            with os.fdopen(handle, "w", encoding="utf-8", newline="") as file:
                file.write(typed)
                file.flush()
                os.fsync(file.fileno())
        except OSError:
            with contextlib.suppress(OSError):
                Path(name).unlink()  # what does not fit is no use
            continue
        return f"what was typed is kept in {name}"
    return f"what was typed could not be kept anywhere else either: {shortened(typed, 2000)}"
