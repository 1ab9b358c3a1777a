"""What a program that was killed leaves behind: half-written files and folders of a copy, known by its number."""

import contextlib
import functools
import os
import re
import shutil
from pathlib import Path

_OF_A_PROCESS = re.compile(r"\.(?:backup-|restore-)?(\d{1,10})(?:-\w+)?(?:\.part)?")


def partial_beside(path: Path) -> Path:
    """Name a file that is written beside its place and put there when it is whole."""
    return path.with_name(f".{os.getpid()}-{os.urandom(4).hex()}.part")


def copy_prefix(verb: str) -> str:
    """Name a folder in which a backup or a restore is made ready."""
    return f".{verb}-{os.getpid()}-"


@functools.cache
def swept(folder: Path) -> int:
    """Take away what programs that live no more have left in a folder, once in a process; return how many."""
    gone = 0
    with contextlib.suppress(OSError):
        for entry in list(os.scandir(folder)):
            found = _OF_A_PROCESS.fullmatch(entry.name)
            if found is None or not _is_ours(entry.name) or _lives(int(found[1])):
                continue
            with contextlib.suppress(OSError):
                if entry.is_dir(follow_symlinks=False):
                    shutil.rmtree(entry.path)
                else:
                    Path(entry.path).unlink()
                gone += 1
    return gone


def _is_ours(name: str) -> bool:
    return name.endswith(".part") or name.startswith((".backup-", ".restore-"))


def _lives(process: int) -> bool:
    if process == os.getpid():
        return True
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except (OSError, OverflowError):  # somebody else's process: it is there
        return True
    return True
