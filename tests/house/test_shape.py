"""How a module is built: empty front doors, arguments by name, no silenced checker without a reason."""

import ast
import re
from collections.abc import Callable
from typing import Any

SILENCED = re.compile(r"#\s*(?:type:\s*ignore|noqa|pyright:\s*(?:ignore|basic|report))([^#\n]*)(#.*)?$", re.MULTILINE)
CODES = re.compile(r"^\s*[:=]?\s*(?:\[[^\]]*\]|[A-Z]+[0-9]+(?:\s*,\s*[A-Z]+[0-9]+)*|\w+\s*=\s*\w+)?")
SHORTEST_REASON = 10
MOST_HIDDEN_IMPORTS = 20
"""In all of the package (issue 12); what is slow to load comes through a door of `units/late.py` instead."""


def test_every_init_file_is_empty(modules: list[Any], refuse: Callable[[str, list[str]], None]) -> None:
    door = "src/toptank/__init__.py"  # the public Python API, which names what is imported when it is asked for
    files = [module for module in modules if module.path.name == "__init__.py" and module.place != door]
    offenders = [module.place for module in files if module.text.strip()]
    refuse("An __init__.py stays empty, so that a name is imported from the one file that holds it:", offenders)


def test_keyword_bags_live_in_interfaces_only(package: list[Any], refuse: Callable[[str, list[str]], None]) -> None:
    offenders = [
        f"{module.place}:{function.lineno} {function.name}(**{function.args.kwarg.arg})"
        for module in package
        if module.layer != "interfaces"
        for function in module.functions
        if function.args.kwarg
    ]
    refuse("Outside interfaces every argument has its own name; no **kwargs:", offenders)


def test_a_silenced_checker_has_its_reason_beside_it(
    modules: list[Any], refuse: Callable[[str, list[str]], None]
) -> None:
    offenders: list[str] = []
    for module in modules:
        for found in SILENCED.finditer(module.text):
            number = module.text.count("\n", 0, found.start()) + 1
            above = module.text.splitlines()[number - 2].strip() if number > 1 else ""
            beside = CODES.sub("", found[1]) + (found[2] or "")
            reasons = [beside.strip(" #-:.,"), above.strip(" #") if above.startswith("#") else ""]
            if max(map(len, reasons)) < SHORTEST_REASON:
                offenders.append(f"{module.place}:{number} {found[0]}")
    refuse("A silenced checker says why, after another # on its line or in a comment just above:", offenders)


def test_few_imports_hide_inside_functions(package: list[Any]) -> None:
    hidden = sorted(
        f"{module.place}:{node.lineno}"
        for module in package
        for function in module.functions
        for node in ast.walk(function)
        if isinstance(node, ast.Import | ast.ImportFrom)
    )
    assert len(set(hidden)) <= MOST_HIDDEN_IMPORTS, hidden
    assert not [place for place in hidden if "/interfaces/cli/" in place]
