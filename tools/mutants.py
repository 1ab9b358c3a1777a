"""Change one thing at a time in a layer and run the nearest tests: what lives is a test that is missing.

Every change is made in a copy of the tree. The same seed picks the same changes:

    uv run python tools/mutants.py --layer system --most 30 --seconds 300
"""

import argparse
import ast
import os
import random
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parents[1]
LAYERS = ("system", "catalogue", "studies", "knowledge")
OTHER = {
    ast.Lt: ast.GtE, ast.GtE: ast.Lt, ast.Gt: ast.LtE, ast.LtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.And: ast.Or, ast.Or: ast.And,
}  # fmt: skip
"""What stands in for an operator."""

LARGER = 1.5
"""By what a figure is multiplied."""


@dataclass(frozen=True, slots=True)
class Mutant:
    """A change: file, line, the line as it is and as it becomes."""

    file: Path
    line: int
    before: str
    after: str

    def __str__(self) -> str:
        place = self.file.relative_to(ROOT)
        return f"{place}:{self.line}\n    - {self.before.strip()}\n    + {self.after.strip()}"


def mutants_of(file: Path) -> Iterator[Mutant]:
    """Every change of a file that stays on one line: figures, operators, comparisons, true and false."""
    lines = file.read_text(encoding="utf-8").splitlines()
    for node in ast.walk(ast.parse("\n".join(lines))):
        for where, words in _changes(node):
            if where.lineno == where.end_lineno and where.end_col_offset is not None:
                # Offsets count bytes.
                line = lines[where.lineno - 1].encode("utf-8")
                after = line[: where.col_offset] + words.encode("utf-8") + line[where.end_col_offset :]
                yield Mutant(file, where.lineno, line.decode("utf-8"), after.decode("utf-8"))


def _changes(node: ast.AST) -> Iterator[tuple[ast.expr, str]]:
    match node:
        case ast.Constant(value=bool(value)):
            yield node, str(not value)
        case ast.Constant(value=float(value)) if value not in (0.0, 1.0):
            yield node, repr(LARGER * value)
        case ast.BinOp(left=left, op=op, right=right) if type(op) in OTHER:
            yield node, ast.unparse(ast.BinOp(left, OTHER[type(op)](), right))
        case ast.Compare(left=left, ops=[op], comparators=[right]) if type(op) in OTHER:
            yield node, ast.unparse(ast.Compare(left, [OTHER[type(op)]()], [right]))
        case ast.BoolOp(op=op, values=values):
            yield node, ast.unparse(ast.BoolOp(OTHER[type(op)](), values))
        case _:
            pass


def nearest(file: Path) -> list[str]:
    """Tests that stand nearest to a module: those of its own name, else those of its folder."""
    inside = file.relative_to(ROOT / "src" / "toptank")
    folder = ROOT / "tests" / inside.parent
    while not folder.is_dir() or not any(folder.rglob("test_*.py")):
        folder = folder.parent
    own = [one for one in folder.glob("test_*.py") if one.stem in (f"test_{file.stem}", f"test_{file.stem}s")]
    return [str(one.relative_to(ROOT)) for one in own or [folder]]


def fate(mutant: Mutant, copy: Path, seconds: float) -> str:
    """Run the nearest tests on a change: killed, lives or late."""
    place = copy / mutant.file.relative_to(ROOT)
    text = place.read_text(encoding="utf-8")
    lines = text.splitlines(keepends=True)
    lines[mutant.line - 1] = mutant.after + "\n"
    place.write_text("".join(lines), encoding="utf-8")
    command = [sys.executable, "-m", "pytest", "-q", "-x", "-n0", "-p", "no:cacheprovider", *nearest(mutant.file)]
    try:
        # The copy goes before the package that is installed.
        environment = os.environ | {"PYTHONPATH": str(copy / "src"), "PYTHONDONTWRITEBYTECODE": "1"}
        ran = subprocess.run(command, cwd=copy, env=environment, capture_output=True, timeout=seconds, check=False)
    except subprocess.TimeoutExpired:
        return "late"
    finally:
        place.write_text(text, encoding="utf-8")
    return "lives" if ran.returncode == 0 else "killed"


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("--layer", choices=LAYERS, action="append", help="all of them if none is named; again for more")
    asked.add_argument("--file", help="only files whose path holds this")
    asked.add_argument("--most", type=int, default=120, help="changes at most")
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--seconds", type=float, default=300.0, help="for the tests of one change")
    told = asked.parse_args()
    files = [file for layer in told.layer or LAYERS for file in sorted((ROOT / "src/toptank" / layer).rglob("*.py"))]
    every = [one for file in files if (told.file or "") in str(file) for one in mutants_of(file)]
    picked = random.Random(told.seed).sample(every, min(told.most, len(every)))
    fates: dict[str, int] = {"killed": 0, "lives": 0, "late": 0}
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder) / "tree"
        shutil.copytree(ROOT, copy, ignore=shutil.ignore_patterns(".git", ".venv", "__pycache__", ".hypothesis"))
        for one in picked:
            found = fate(one, copy, told.seconds)
            fates[found] += 1
            if found != "killed":
                print(f"{found}: {one}", flush=True)
    print(
        f"{fates['killed']} of {len(picked)} killed, {fates['lives']} live, {fates['late']} late ({len(every)} in all)"
    )


if __name__ == "__main__":
    main()
