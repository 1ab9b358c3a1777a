"""A name says what a thing is, in the trade's words, and carries its unit where that is not SI."""

import ast
import re
from collections.abc import Callable, Iterator
from pathlib import PurePosixPath
from typing import Any

BANNED = {"util", "helper", "common", "base", "manager", "handler", "processor", "data", "misc"}
BANNED |= {word + "s" for word in BANNED}
GIVEN = {"data_received"}
"""Names that a library calls: of a protocol of asyncio."""

WORD = re.compile(r"[A-Z]+(?![a-z])|[A-Z]?[a-z]+")
UNIT_SUFFIX = re.compile(
    r"_(?:degF|degC|deg|degrees?|percent|pct"
    r"|inch|inches|feet|ft|yd|miles?|mph|kmh|kph|mm|cm|km"
    r"|psi|psig|psia|inHg|bar|mbar|kPa|MPa|hPa"
    r"|gal|gallons?|qt|quarts?|pints?|gpm|lpm|cfm|liters?|litres?|cc"
    r"|lb|lbs|lbf|lbm|oz|kW|kJ|MJ|hp|bhp|btu|Btu|BTU|rpm|minutes?|hours?|kg_per_h)$"
)
# `_in` is the inlet in T_air_in and the inch in face_width_in: the word before it tells which
INCHES = re.compile(r"(?:width|height|depth|length|thickness|pitch|diameter|radius|gap|clearance|bore|stroke|size)_in$")


def _identifiers(tree: ast.Module) -> Iterator[tuple[int, str]]:
    for node in ast.walk(tree):
        match node:
            case ast.FunctionDef(name=name) | ast.AsyncFunctionDef(name=name) | ast.ClassDef(name=name):
                yield node.lineno, name
            case ast.arg(arg=name) | ast.Name(id=name) | ast.Attribute(attr=name):
                yield node.lineno, name
            case ast.keyword(arg=str(name)):
                yield node.value.lineno, name
            case _:
                pass


def _banned_words(name: str) -> set[str]:
    return {word.lower() for word in WORD.findall(name)} & BANNED


def test_no_file_or_folder_has_a_name_without_a_job(
    modules: list[Any], refuse: Callable[[str, list[str]], None]
) -> None:
    offenders = [
        module.place
        for module in modules
        if any(_banned_words(part) for part in PurePosixPath(module.place).with_suffix("").parts)
    ]
    refuse("If nothing better comes to mind, the file has no job yet:", offenders)


def test_no_function_or_class_has_a_name_without_a_job(
    modules: list[Any], refuse: Callable[[str, list[str]], None]
) -> None:
    offenders = [
        f"{module.place}:{node.lineno} {node.name}"
        for module in modules
        for node in ast.walk(module.tree)
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef)
        and not node.name.startswith("test_")
        and node.name not in GIVEN
        and _banned_words(node.name)
    ]
    refuse(f"Banned in names: {', '.join(sorted(BANNED))}:", offenders)


def test_between_units_and_shop_every_name_is_in_si(pure: list[Any], refuse: Callable[[str, list[str]], None]) -> None:
    offenders = sorted(
        {
            f"{module.place}:{line} {name}"
            for module in pure
            for line, name in _identifiers(module.tree)
            if UNIT_SUFFIX.search(name) or INCHES.search(name)
        }
    )
    refuse("SI has no suffix, and nothing else lives between units and shop; convert at the edge:", offenders)
