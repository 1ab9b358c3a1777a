"""Find Chromium for the browser tests; where it is missing and may be installed (root on Debian), install it."""

import fcntl
import os
import shutil
import subprocess
import tempfile
from pathlib import Path

NAMES = ("chromium", "chromium-browser", "google-chrome")


def found() -> str | None:
    """Return where Chromium is, or None."""
    named = os.environ.get("CHROMIUM_PATH")
    if named and Path(named).exists():
        return named
    return next((path for name in NAMES if (path := shutil.which(name))), None)


def found_or_installed() -> str | None:
    """Return where Chromium is, installed if need be and allowed, or None."""
    # several processes of one test run may ask at once
    with (Path(tempfile.gettempdir()) / "toptank-chromium.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if found() is None and hasattr(os, "geteuid") and os.geteuid() == 0 and shutil.which("apt-get"):
            quiet = os.environ | {"DEBIAN_FRONTEND": "noninteractive"}
            for command in (["apt-get", "update", "-q"], ["apt-get", "install", "-y", "-q", "chromium"]):
                subprocess.run(command, env=quiet, check=False, stdout=subprocess.DEVNULL)
        return found()


if __name__ == "__main__":
    print(found_or_installed() or "there is no Chromium here, and it cannot be installed")
