"""What an import costs: every module stands alone, and the front door is light."""

import ast
import json
import random
import subprocess
import sys
from collections.abc import Callable
from graphlib import CycleError, TopologicalSorter
from typing import Any

import pytest

# One process for all of them: before each, it forgets every module of ours, so that no earlier import can help.
EACH_ALONE = """
import importlib, json, sys, traceback
asked = json.loads(sys.stdin.read())
failed = {}
for name in asked["names"]:
    if asked["alone"]:
        for known in [known for known in sys.modules if known.partition(".")[0] == "toptank"]:
            del sys.modules[known]
    try:
        importlib.import_module(name)
    except BaseException as refusal:
        failed[name] = traceback.format_exception_only(refusal)[-1].strip()
print(json.dumps(failed))
"""

ALONE = 8
"""How many modules of them all are imported one by one [1]."""

WHAT_COMES_ALONG = """
import importlib, json, sys
before = set(sys.modules)
importlib.import_module(sys.stdin.read())
print(json.dumps(sorted({name.partition(".")[0] for name in set(sys.modules) - before})))
"""

SCREEN = {"fastapi", "nicegui", "starlette", "matplotlib", "rich", "typer"}
HEAVY = {"jax", "jaxlib", "matplotlib", "scipy", "CoolProp", "fastapi", "nicegui", "pydantic", "sqlalchemy", "rich"}


def _fresh_process(script: str, text: str) -> Any:
    answer = subprocess.run([sys.executable, "-c", script], input=text, capture_output=True, check=False, text=True)
    assert answer.returncode == 0, answer.stderr
    return json.loads(answer.stdout)


def _name(module: Any) -> str:
    name = module.place.removeprefix("src/").removesuffix(".py").replace("/", ".")
    return name.removesuffix(".__init__")


@pytest.fixture(scope="module")
def imports(package: list[Any]) -> dict[str, set[str]]:
    """Every module of ours with those of ours that its import brings in at once."""
    ours = {_name(module) for module in package}
    return {_name(module): _imported(module.tree.body, ours) - {_name(module)} for module in package}


def _imported(body: list[ast.stmt], ours: set[str]) -> set[str]:
    """Modules that statements import when they are run: not what a function imports, nor what is there for types."""
    found: set[str] = set()
    for one in body:
        match one:
            case ast.Import(names=names):
                found |= {_owner(name.name, ours) for name in names}
            case ast.ImportFrom(module=str(module), names=names):
                found |= {_owner(f"{module}.{name.name}", ours) for name in names}
            case ast.If(test=test, body=inner, orelse=other):
                found |= _imported([*([] if ast.unparse(test) == "TYPE_CHECKING" else inner), *other], ours)
            case ast.Try(body=inner, handlers=handlers, orelse=other, finalbody=last):
                found |= _imported([*inner, *other, *last, *(line for each in handlers for line in each.body)], ours)
            case ast.With(body=inner) | ast.ClassDef(body=inner):
                found |= _imported(inner, ours)
            case _:
                pass
    return found - {""}


def _owner(name: str, ours: set[str]) -> str:
    """The module that gives a name, or nothing if it is none of ours."""
    while name and name not in ours:
        name = name.rpartition(".")[0]
    return name


def test_no_module_needs_itself(imports: dict[str, set[str]]) -> None:
    """Without a ring, what a module brings in does not depend on who was imported before it."""
    try:
        list(TopologicalSorter(imports).static_order())
    except CycleError as ring:
        pytest.fail(" needs ".join(ring.args[1]))


def test_every_module_imports_and_some_of_them_alone(
    imports: dict[str, set[str]], refuse: Callable[[str, list[str]], None]
) -> None:
    """All in one process, those first that nobody needs; where there is no ring, each then imports alone too."""
    ordered = reversed(list(TopologicalSorter(imports).static_order()))
    names = [name for name in ordered if not name.endswith("__main__")]
    assert len(names) > 400
    for chosen, alone in ((names, False), (random.Random(3).sample(names, ALONE), True)):
        failed = _fresh_process(EACH_ALONE, json.dumps({"names": chosen, "alone": alone}))
        refuse("These do not import in a fresh process:", [f"{name}: {why}" for name, why in failed.items()])


def test_the_front_door_brings_in_nothing_but_the_language_itself() -> None:
    assert set(_fresh_process(WHAT_COMES_ALONG, "toptank")) - sys.stdlib_module_names == {"toptank"}


def test_the_vehicle_brings_in_no_screen() -> None:
    assert SCREEN & set(_fresh_process(WHAT_COMES_ALONG, "toptank.system.steady")) == set()


def test_the_help_page_brings_in_no_heavy_library() -> None:
    assert HEAVY & set(_fresh_process(WHAT_COMES_ALONG, "toptank.interfaces.cli.main")) == set()


ASKED = """
import json, sys
import toptank
toptank.boil(), toptank.freeze()
print(json.dumps(sorted({name.partition(".")[0] for name in sys.modules})))
"""


def test_a_boiling_point_waits_for_no_model_and_no_record() -> None:
    """Under 0.7 s of processor time cold is what is asked; what takes the time is what is loaded (requirement)."""
    assert {"jax", "polars", "sqlalchemy", "matplotlib", "nicegui"} & set(_fresh_process(ASKED, "")) == set()
