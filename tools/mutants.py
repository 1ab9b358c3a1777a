"""Change one thing at a time in a layer and run the nearest tests: what lives is a test that is missing.

Every change is made in a copy of the tree. The same seed picks the same changes:

    uv run python tools/mutants.py --layer system --most 30 --seconds 300
"""

import argparse
import ast
import multiprocessing
import os
import random
import shutil
import signal
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
FRESH = multiprocessing.get_context("forkserver")
FRESH.set_forkserver_preload(["pytest", "jax.numpy", "scipy.special", "pydantic", "rich.console"])
"""Each change is tested in a process of its own; what none of them changes is loaded once."""

LAYERS = ("system", "catalogue", "studies", "knowledge")
OTHER = {
    ast.Lt: ast.GtE, ast.GtE: ast.Lt, ast.Gt: ast.LtE, ast.LtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.And: ast.Or, ast.Or: ast.And,
}  # fmt: skip
"""What stands in for an operator."""

NEAREST = 4
"""Test files that are run on a change at most [1]."""

SLOW = {"test_calibration.py", "test_log_calibration.py", "test_told_cases.py", "test_honest_band.py", "test_sense.py"}
"""Test files that simulate for minutes; they hold what is left by the others, in the whole run."""

FAR = {"interfaces", "journeys", "house"}
"""Folders of tests that go by way of a whole answer."""

AMOUNTS = {
    "studies": [ROOT / "tests/studies/test_amounts.py"],
    "catalogue": [ROOT / "tests/studies/test_amounts.py"],
    "system": [ROOT / "tests/system/test_air_side.py", ROOT / "tests/system/test_condition.py"],
}
"""Tests of a layer that hold figures worked by hand: they are run on every change in it."""

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
    tree = ast.parse("\n".join(lines))
    # How a record is made (slots, keyword only) is held by the checker of types, not by tests.
    decorated = {id(part) for node in ast.walk(tree) for one in _decorators(node) for part in ast.walk(one)}
    for node in (one for one in ast.walk(tree) if id(one) not in decorated):
        for where, words in _changes(node):
            if where.lineno == where.end_lineno and where.end_col_offset is not None:
                # Offsets count bytes.
                line = lines[where.lineno - 1].encode("utf-8")
                after = line[: where.col_offset] + words.encode("utf-8") + line[where.end_col_offset :]
                yield Mutant(file, where.lineno, line.decode("utf-8"), after.decode("utf-8"))


def _decorators(node: ast.AST) -> list[ast.expr]:
    return node.decorator_list if isinstance(node, ast.FunctionDef | ast.ClassDef) else []


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


def _module(file: Path) -> str:
    return ".".join(file.relative_to(ROOT / "src").with_suffix("").parts)


@cache
def _imported(file: Path) -> frozenset[str]:
    """Every name of ours that a file imports, wherever in it, with the modules that give it."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        match node:
            case ast.ImportFrom(module=str(module), names=names):
                found |= {module, *(f"{module}.{name.name}" for name in names)}
            case ast.Import(names=names):
                found |= {name.name for name in names}
            case _:
                pass
    return frozenset(name for name in found if name.startswith("toptank"))


@cache
def _tests_of(module: str) -> tuple[Path, ...]:
    """Test files that import a module; those first that import least besides."""
    return tuple(sorted((one for one in _every_test() if module in _imported(one)), key=_imports))


def _imports(file: Path) -> int:
    return len(_imported(file))


def nearest(file: Path) -> list[str]:
    """The few tests that stand nearest to a module: of its own name, then such as import it, then such as its users do.

    A test that imports little besides comes first: it says most of the module and takes the least time.
    """
    module = _module(file)
    own = [one for one in _every_test() if one.stem in (f"test_{file.stem}", f"test_{file.stem}s")]
    found = [*own, *AMOUNTS.get(module.split(".")[1], ()), *_tests_of(module)]
    users = [one for one in sorted((ROOT / "src").rglob("*.py")) if module in _imported(one)]
    found += [test for user in users for test in _tests_of(_module(user))[:1]]
    kept = [one for one in dict.fromkeys(found) if one.name not in SLOW]
    return [str(one.relative_to(ROOT)) for one in kept[:NEAREST]]


@cache
def _every_test() -> tuple[Path, ...]:
    return tuple(
        one for one in sorted((ROOT / "tests").rglob("test_*.py")) if FAR.isdisjoint(one.relative_to(ROOT).parts)
    )


def fate(mutant: Mutant, copy: Path, seconds: float) -> str:
    """Run the nearest tests on a change: killed, lives or late."""
    place = copy / mutant.file.relative_to(ROOT)
    text = place.read_text(encoding="utf-8")
    lines = text.splitlines(keepends=True)
    lines[mutant.line - 1] = mutant.after + "\n"
    place.write_text("".join(lines), encoding="utf-8")
    ran = FRESH.Process(target=_tested, args=(copy, nearest(mutant.file)))
    try:
        ran.start()
        ran.join(seconds)
    finally:
        ran.kill()
        ran.join()
        place.write_text(text, encoding="utf-8")
    fates = {0: "lives", 1: "killed", 2: "killed", -signal.SIGKILL: "late"}  # 2: it could not even be imported
    return fates[ran.exitcode or 0]


def _tested(copy: Path, tests: list[str]) -> None:
    """Run tests in the copy, in a process that knows nothing of the package yet."""
    os.chdir(copy)
    sys.dont_write_bytecode = True
    sys.path.insert(0, str(copy / "src"))  # goes before the package that is installed
    with open(os.devnull, "w") as nowhere:
        os.dup2(nowhere.fileno(), 1)
        os.dup2(nowhere.fileno(), 2)
    sys.exit(int(pytest.main(["-q", "-x", "-n0", "-p", "no:cacheprovider", *tests])))


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
            print(f"{found}: {one}" if found != "killed" else f"killed: {str(one).partition(chr(10))[0]}", flush=True)
    print(
        f"{fates['killed']} of {len(picked)} killed, {fates['lives']} live, {fates['late']} late ({len(every)} in all)"
    )


if __name__ == "__main__":
    main()
