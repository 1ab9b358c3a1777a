"""Backups that the app makes by itself: one a day and one a week, and never one with fewer jobs over one with more."""

import contextlib
import os
import re
import shutil
from datetime import datetime
from pathlib import Path

from toptank.shop.files.leftovers import partial_beside, swept
from toptank.shop.record.store.backup import back_up, jobs_in
from toptank.shop.record.store.opening import BACKUPS_ENDING, SETTINGS_FILES, Store

SETTING = "TOPTANK_BACKUPS"
OFF = "off"
DAYS, WEEKS = 7, 5
"""Generations that are kept."""

_NAME = re.compile(r"(?:day-\d{4}-\d{2}-\d{2}|week-\d{4}-W\d{2})\.zip")


def folder_of(store_file: Path) -> Path | None:
    """Return where backups go: what TOPTANK_BACKUPS names, or a folder beside the record; None where that says off."""
    named = os.environ.get(SETTING, "").strip()
    if named.lower() == OFF:
        return None
    return Path(os.path.expanduser(named)) if named else store_file.with_name(store_file.name + BACKUPS_ENDING)


def keep(store: Store, now: datetime) -> Path | None:
    """Bring today's backup up to date, and the week's; return its file, or None where nothing has changed.

    Raises
    ------
    Refusal : if it cannot be written, or the record holds fewer jobs than the newest backup; nothing is replaced then
    """
    folder = folder_of(store.file)
    if folder is None or jobs_in(store) == 0:
        return None
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    swept(folder)
    newest = newest_in(folder)
    if newest is not None and _changed(store.file) <= newest.stat().st_mtime:
        return None
    day = folder / f"day-{now:%Y-%m-%d}.zip"
    back_up(store, day, at=now.isoformat(timespec="milliseconds"), replace=True, not_fewer_than=newest)
    _copied(day, folder / f"week-{now:%G-W%V}.zip")
    for kind, most in (("day", DAYS), ("week", WEEKS)):
        for old in sorted(folder.glob(f"{kind}-*.zip"), reverse=True)[most:]:
            with contextlib.suppress(OSError):
                old.unlink()
    return day


def newest_in(folder: Path) -> Path | None:
    """Return the newest backup that the app has made in a folder."""
    made = [one for one in folder.glob("*.zip") if _NAME.fullmatch(one.name)] if folder.is_dir() else []
    return max(made, key=lambda one: (one.stat().st_mtime, one.name), default=None)


def _changed(file: Path) -> float:
    """When the record or a setting of the shop was last written [s since 1970]; the log ahead of it is a part of it."""
    beside = (file, file.with_name(file.name + "-wal"), *(file.with_name(name) for name in SETTINGS_FILES))
    return max(one.stat().st_mtime for one in beside if one.exists())


def _copied(source: Path, target: Path) -> None:
    partial = partial_beside(target)
    try:
        shutil.copyfile(source, partial)
        partial.chmod(0o600)
        partial.replace(target)
    except OSError:  # the day's is whole; the week's is tried again with the next
        with contextlib.suppress(OSError):
            partial.unlink(missing_ok=True)
