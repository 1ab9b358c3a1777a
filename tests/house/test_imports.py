"""What an import costs: every module stands alone, and the front door is light."""

import json
import subprocess
import sys
from collections.abc import Callable
from typing import Any

# One process for all modules: before each, it forgets every module of ours, so that no earlier import can help.
EACH_ALONE = """
import importlib, json, sys, traceback
failed = {}
for name in json.loads(sys.stdin.read()):
    for known in [known for known in sys.modules if known.partition(".")[0] == "toptank"]:
        del sys.modules[known]
    try:
        importlib.import_module(name)
    except BaseException as refusal:
        failed[name] = traceback.format_exception_only(refusal)[-1].strip()
print(json.dumps(failed))
"""

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


def test_each_module_imports_alone(package: list[Any], refuse: Callable[[str, list[str]], None]) -> None:
    names = [module.place.removeprefix("src/").removesuffix(".py").replace("/", ".") for module in package]
    names = [name.removesuffix(".__init__") for name in names if not name.endswith("__main__")]
    failed = _fresh_process(EACH_ALONE, json.dumps(names))
    refuse("These do not import in a fresh process:", [f"{name}: {why}" for name, why in failed.items()])


def test_the_front_door_brings_in_nothing_but_the_language_itself() -> None:
    assert set(_fresh_process(WHAT_COMES_ALONG, "toptank")) - sys.stdlib_module_names == {"toptank"}


def test_the_vehicle_brings_in_no_screen() -> None:
    assert SCREEN & set(_fresh_process(WHAT_COMES_ALONG, "toptank.system.steady")) == set()


def test_the_help_page_brings_in_no_heavy_library() -> None:
    assert HEAVY & set(_fresh_process(WHAT_COMES_ALONG, "toptank.interfaces.cli.main")) == set()
