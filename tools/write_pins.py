"""Write the exact version of every package into pyproject.toml, without the name of any host.

After a change of dependencies: `uv run poe pins` keeps every pin that still fits and adds what is missing.
`uv run poe pins --newest` lets go of all pins first and takes the newest releases.
"""

import os
import re
import subprocess
import sys
import tempfile
from pathlib import Path

PROJECT = Path(__file__).parents[1] / "pyproject.toml"
BLOCK = re.compile(r"(?<=\nconstraint-dependencies = \[\n).*?(?=^\]$)", re.DOTALL | re.MULTILINE)


def resolved(project: str) -> str:
    """Return one line a package, as `uv` resolves this text of a pyproject.toml for every supported Python."""
    export = "uv export --all-groups --all-extras --no-emit-project --no-hashes --no-annotate --no-header --quiet"
    with tempfile.TemporaryDirectory() as folder:
        Path(folder, PROJECT.name).write_text(project, encoding="utf-8")
        # uv here means this folder, not the environment that poe runs in
        outside = {name: value for name, value in os.environ.items() if name != "VIRTUAL_ENV"}
        answer = subprocess.run(export.split(), cwd=folder, env=outside, check=True, stdout=subprocess.PIPE, text=True)
    return answer.stdout


def main() -> None:
    """Resolve, write, and say what moved."""
    before = PROJECT.read_text(encoding="utf-8")
    start = BLOCK.sub("", before) if "--newest" in sys.argv[1:] else before
    pins = "".join(f'    "{line}",\n' for line in resolved(start).splitlines() if line.strip())
    after = BLOCK.sub(lambda _: pins, before)
    PROJECT.write_text(after, encoding="utf-8")
    old, new = set(before.splitlines()), set(after.splitlines())
    for sign, lines in (("-", old - new), ("+", new - old)):
        print(*(f"{sign} {line.strip()}" for line in sorted(lines)), sep="\n", end="\n" if lines else "")
    print("Now: uv sync, uv run poe check")


if __name__ == "__main__":
    main()
