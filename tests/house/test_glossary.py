"""One symbol, one meaning, one unit; and no equation without its source."""

import ast
import re
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

from toptank.units.glossary import SYMBOLS

ROOT = Path(__file__).parents[2]
EQUATIONS = ROOT / "src" / "toptank" / "equations"
VALIDATION = ROOT / "tests" / "validation"
REGISTERS = (EQUATIONS / "sources.toml", ROOT / "src" / "toptank" / "media" / "sources.toml")

SECTION = re.compile(r"^(Parameters|Returns)\n-+\n((?:.+\n?)+)", re.MULTILINE)
ENTRY = re.compile(r"^(\w+) : (.+) \[([^\]]+)\]$", re.MULTILINE)
HEAD = re.compile(r"^(Source|Range|Scatter) {2,}(\S.*(?:\n {9,}\S.*)*)", re.MULTILINE)


def _sources() -> dict[str, dict[str, Any]]:
    found: dict[str, dict[str, Any]] = {}
    for register in REGISTERS:
        if register.exists():
            found |= tomllib.loads(register.read_text(encoding="utf-8"))
    return found


def _heads() -> dict[str, dict[str, str]]:
    trees = [(path.stem, ast.parse(path.read_text(encoding="utf-8"))) for path in sorted(EQUATIONS.glob("[!_]*.py"))]
    return {name: dict(HEAD.findall(ast.get_docstring(tree) or "")) for name, tree in trees}


def _named_sources(head: dict[str, str]) -> list[str]:
    return [re.split(r"[,\s]", place.strip())[0] for place in head.get("Source", "").split(";")]


def _public_functions() -> list[tuple[str, ast.FunctionDef]]:
    trees = [(path.stem, ast.parse(path.read_text(encoding="utf-8"))) for path in sorted(EQUATIONS.glob("[!_]*.py"))]
    return [
        (f"{name}.{node.name}", node)
        for name, tree in trees
        for node in tree.body
        if isinstance(node, ast.FunctionDef) and not node.name.startswith("_")
    ]


def _entries(function: ast.FunctionDef, section: str) -> list[tuple[str, str, str]]:
    text = ast.get_docstring(function) or ""
    return [entry for name, block in SECTION.findall(text) if name == section for entry in ENTRY.findall(block)]


def test_every_equation_describes_its_arguments_in_their_order(refuse: Callable[[str, list[str]], None]) -> None:
    offenders = [
        f"{name}: has {arguments}, describes {described}"
        for name, function in _public_functions()
        if (arguments := [argument.arg for argument in function.args.args])
        != (described := [symbol for symbol, _, _ in _entries(function, "Parameters")])
    ]
    refuse("An argument without a meaning and a unit, or a description without an argument:", offenders)


def test_every_equation_describes_what_it_returns(refuse: Callable[[str, list[str]], None]) -> None:
    refuse(
        "No symbol, meaning and unit under Returns:",
        [name for name, function in _public_functions() if len(_entries(function, "Returns")) != 1],
    )


def test_every_symbol_has_the_unit_of_the_glossary(refuse: Callable[[str, list[str]], None]) -> None:
    offenders = [
        f"{name}: {symbol} [{unit}], in the glossary {SYMBOLS.get(symbol, ('', 'not at all'))[1]}"
        for name, function in _public_functions()
        for section in ("Parameters", "Returns")
        for symbol, _, unit in _entries(function, section)
        if symbol not in SYMBOLS or SYMBOLS[symbol][1] != unit
    ]
    refuse("One symbol, one unit (src/toptank/units/glossary.py):", offenders)


def test_the_glossary_holds_no_symbol_that_nobody_uses(refuse: Callable[[str, list[str]], None]) -> None:
    used = {
        symbol
        for _, function in _public_functions()
        for section in ("Parameters", "Returns")
        for symbol, _, _ in _entries(function, section)
    }
    refuse("Used by no equation:", sorted(set(SYMBOLS) - used))


def test_every_equation_module_states_source_range_and_scatter(refuse: Callable[[str, list[str]], None]) -> None:
    offenders = [
        f"{name}: no {line}"
        for name, head in _heads().items()
        for line in ("Source", "Range", "Scatter")
        if line not in head
    ]
    refuse("The head of an equation module states all three:", offenders)


def test_every_source_named_by_an_equation_is_in_the_register(refuse: Callable[[str, list[str]], None]) -> None:
    known = _sources()
    offenders = [
        f"{name}: {key}" for name, head in _heads().items() for key in _named_sources(head) if key not in known
    ]
    refuse("Named in a head, missing in sources.toml:", offenders)


def test_every_source_says_who_when_what_where_and_whether_it_was_read(
    refuse: Callable[[str, list[str]], None],
) -> None:
    asked = {"authors": str, "year": int, "title": str, "where": str, "read": bool}
    offenders = [
        f"{key}: {field}"
        for key, source in _sources().items()
        for field, kind in asked.items()
        if not isinstance(source.get(field), kind)
    ]
    offenders += [
        f"{key}: not read, and no note says how it is known"
        for key, source in _sources().items()
        if not source.get("read") and not source.get("note")
    ]
    refuse("A source is incomplete:", offenders)


def test_every_source_is_used(refuse: Callable[[str, list[str]], None]) -> None:
    texts = [path.read_text(encoding="utf-8") for path in (ROOT / "src").rglob("*.py")]
    texts += [path.read_text(encoding="utf-8") for path in VALIDATION.glob("*.py")]
    offenders = [key for key in _sources() if not any(re.search(rf"\b{key}\b", text) for text in texts)]
    refuse("In sources.toml, used by nothing:", offenders)


def test_every_source_is_validated_or_says_why_not(refuse: Callable[[str, list[str]], None]) -> None:
    excused = tomllib.loads((VALIDATION / "not_validated.toml").read_text(encoding="utf-8"))
    texts = [path.read_text(encoding="utf-8") for path in VALIDATION.glob("test_*.py")]
    files = "\n".join(text for text in texts if "published(" in text)
    validated = {key for key in _sources() if f'"{key}"' in files}
    known = set(_sources())
    offenders = [f"{key}: no file names it" for key in sorted(known - validated - set(excused))]
    offenders += [f"{key}: excused and validated" for key in sorted(validated & set(excused))]
    offenders += [f"{key}: excused, not in the register" for key in sorted(set(excused) - known)]
    offenders += [
        f"{key}: no reason" for key, reason in excused.items() if not isinstance(reason, str) or len(reason) < 10
    ]
    refuse("tests/validation/ and not_validated.toml share the sources between them:", offenders)
