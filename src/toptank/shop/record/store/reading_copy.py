"""Reading goes on where nothing can be written: on a full disk, in a folder for reading only, from a copy."""

import contextlib
import dataclasses
import shutil
import tempfile
from collections.abc import Generator
from pathlib import Path

from toptank.shop.record.store.opening import Store, opened, store_file
from toptank.shop.record.store.record import CannotWrite


@contextlib.contextmanager
def opened_to_read(file: Path | None = None) -> Generator[Store]:
    """Open a store for reading alone.

    SQLite needs a table of contents beside a log that is written ahead; where that cannot be made, the record and its
    log are copied to the place for passing files, and read there. Attachments stay where they are.

    Raises
    ------
    StoreTrouble : if it cannot be read, or there is no room for a copy either
    """
    with contextlib.ExitStack() as stack:
        try:
            store = stack.enter_context(opened(file))
        except CannotWrite as trouble:
            found = file or store_file()
            if not found.is_file() or found.stat().st_size == 0:
                raise
            store = stack.enter_context(_copied(found, trouble))
        yield store


@contextlib.contextmanager
def _copied(file: Path, trouble: CannotWrite) -> Generator[Store]:
    with contextlib.ExitStack() as stack:
        try:
            folder = Path(stack.enter_context(tempfile.TemporaryDirectory(prefix="toptank-reads-")))
            for one in (file, file.with_name(file.name + "-wal")):
                if one.is_file():
                    shutil.copyfile(one, folder / one.name)
            copy = stack.enter_context(opened(folder / file.name))
        except (OSError, CannotWrite):
            raise trouble from None
        yield dataclasses.replace(copy, attachments=file.with_name(copy.attachments.name))
