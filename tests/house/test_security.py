"""What docs/security.md says of the code, held to the code."""

import ast
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

from toptank.interfaces.web.access import passphrase

ROOT = Path(__file__).parents[2]
PAGE = ROOT / "docs" / "security.md"

# OWASP ASVS 5.0.0: how many requirements of a section are of level 1; they are the first of their section.
OF_LEVEL_ONE = {
    "1.2": 5, "1.3": 2, "1.5": 1, "2.1": 1, "2.2": 2, "2.3": 1, "3.2": 2, "3.3": 1, "3.4": 2, "3.5": 3,
    "4.1": 1, "4.4": 1, "5.2": 2, "5.3": 2, "6.1": 1, "6.2": 8, "6.3": 2, "6.4": 2, "7.2": 4, "7.4": 2,
    "8.1": 1, "8.2": 2, "8.3": 1, "9.1": 3, "9.2": 1, "10.4": 5, "11.3": 2, "11.4": 1, "12.1": 1, "12.2": 2,
    "13.4": 1, "14.2": 1, "14.3": 1, "15.1": 1, "15.2": 1, "15.3": 1,
}  # fmt: skip
LEVEL_ONE = [f"{section}.{number}" for section, most in OF_LEVEL_ONE.items() for number in range(1, most + 1)]

ROW = re.compile(r"^\| (\d+\.\d+\.\d+) \| (.+?) \| (.+?) \| (.+?) \|$", re.MULTILINE)
NAMED = re.compile(r"`(tests/[\w/]+\.py)::(\w+)`")
STARTS = {"subprocess", "pty", "multiprocessing", "pickle", "marshal", "shelve", "dill", "cloudpickle", "code", "runpy"}
BUILT_IN = {"eval", "exec", "compile", "__import__"}
OF_THE_SYSTEM = {"system", "popen", "execv", "execve", "execvp", "spawnl", "spawnv", "posix_spawn", "startfile"}
WRITES = {
    "open_new", "open_text", "open_like", "open_told", "open_example", "import_job", "import_whole",
    "save", "save_text", "revert", "close", "reopen", "add_note", "attach", "restore", "back_up",
    "add_row", "note_after", "keep_log", "set_write_up",
}  # fmt: skip


def _rows() -> list[tuple[str, str, str, str]]:
    return ROW.findall(PAGE.read_text(encoding="utf-8"))


def test_every_requirement_of_level_one_stands_in_the_table_once_and_in_order() -> None:
    assert len(LEVEL_ONE) == 70
    assert [number for number, *_ in _rows()] == LEVEL_ONE


def test_every_requirement_is_met_by_a_test_that_is_there_or_says_why_not(
    modules: list[Any], refuse: Callable[[str, list[str]], None]
) -> None:
    there = {(one.place, function.name) for one in modules for function in one.functions}
    offenders: list[str] = []
    for number, _, state, shown in _rows():
        named = NAMED.findall(shown)
        offenders += [f"{number}: {place}::{name} is not there" for place, name in named if (place, name) not in there]
        if state not in ("met", "not applicable", "open"):
            offenders.append(f"{number}: {state} is no state")
        told = re.sub(r"<br>|\s", "", NAMED.sub("", shown))
        if state != "met" and len(told) < 20:
            offenders.append(f"{number}: {state}, and no reason is given")
        if state == "met" and not named and "](#" not in shown:
            offenders.append(f"{number}: met, and neither a test nor a place on this page shows it")
    refuse("The table of docs/security.md:", offenders)


def test_the_figures_of_the_page_are_those_of_the_code() -> None:
    said = " ".join(PAGE.read_text(encoding="utf-8").split())
    for figure in (
        f"at least {passphrase.SHORTEST} characters",
        f"fewer than {passphrase.FEWEST_GUESSES / 1e6:.0f} million tries",
        f"After {passphrase.TRIES} wrong ones within {passphrase.WINDOW:.0f} s",
        f"after {passphrase.TRIES_OF_ALL} from all strangers",
        f"up to {passphrase.LASTS // 86400} days",
    ):
        assert figure in said, figure


def test_the_package_starts_no_program_and_runs_no_text(
    package: list[Any], refuse: Callable[[str, list[str]], None]
) -> None:
    offenders: list[str] = []
    for module in package:
        for node in ast.walk(module.tree):
            imported: list[str] = []
            if isinstance(node, ast.Import):
                imported = [one.name for one in node.names]
            elif isinstance(node, ast.ImportFrom):
                imported = [node.module or ""]
            offenders += [f"{module.place}: {one}" for one in imported if one.partition(".")[0] in STARTS]
            if isinstance(node, ast.Call) and _called(node) in (
                BUILT_IN if isinstance(node.func, ast.Name) else OF_THE_SYSTEM
            ):
                offenders.append(f"{module.place}:{node.lineno} {_called(node)}()")
    refuse("Input must never be run, and no other program started:", offenders)


def test_only_sound_hashes_are_used(package: list[Any], refuse: Callable[[str, list[str]], None]) -> None:
    weak = re.compile(r"\b(?:md5|sha1|md4|ripemd160)\b", re.IGNORECASE)
    offenders = [f"{module.place}: {found[0]}" for module in package if (found := weak.search(module.text))]
    refuse("SHA-256 for what is checked or signed, argon2id for a passphrase:", offenders)


def test_an_address_that_is_asked_changes_no_job(package: list[Any], refuse: Callable[[str, list[str]], None]) -> None:
    asked = [
        (module, function)
        for module in package
        if module.place.startswith(("src/toptank/interfaces/rest/", "src/toptank/interfaces/web/"))
        for function in module.functions
        if any(isinstance(one, ast.Call) and _called(one) == "get" for one in function.decorator_list)
    ]
    assert len(asked) > 25
    offenders = [
        f"{module.place}: {function.name} names {named}"
        for module, function in asked
        for node in ast.walk(function)
        if (named := getattr(node, "attr", getattr(node, "id", ""))) in WRITES
    ]
    refuse("What changes a job is posted or put:", offenders)


def test_no_address_gives_out_or_takes_a_backup(package: list[Any], refuse: Callable[[str, list[str]], None]) -> None:
    whole = {"back_up", "restore", "import_whole", "export_whole"}
    offenders = [
        f"{module.place}:{node.lineno} {_called(node)}"
        for module in package
        if module.place.startswith(("src/toptank/interfaces/rest/", "src/toptank/interfaces/web/"))
        for node in ast.walk(module.tree)
        if isinstance(node, ast.Call) and _called(node) in whole
    ]
    refuse("The whole record is carried by the command line alone:", offenders)


def _called(call: ast.Call) -> str:
    function = call.func
    return (
        function.id if isinstance(function, ast.Name) else function.attr if isinstance(function, ast.Attribute) else ""
    )
