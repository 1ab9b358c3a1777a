"""One idea a file, one thought a function."""

import ast
from collections.abc import Callable
from typing import Any

FILE_LIMIT = 400
FILE_WARNING = 300
FUNCTION_LIMIT = 60


def _code_lines(function: ast.FunctionDef | ast.AsyncFunctionDef, lines: list[str]) -> int:
    numbers = set(range(function.lineno, (function.end_lineno or function.lineno) + 1))
    for node in ast.walk(function):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef) and ast.get_docstring(node, clean=False):
            docstring = node.body[0]
            numbers -= set(range(docstring.lineno, (docstring.end_lineno or docstring.lineno) + 1))
    written = [lines[number - 1].strip() for number in numbers]
    return sum(bool(line) and not line.startswith("#") for line in written)


def test_no_file_is_over_400_lines(modules: list[Any], refuse: Callable[[str, list[str]], None]) -> None:
    lengths = {module.place: len(module.text.splitlines()) for module in modules}
    if max(lengths.values()) > FILE_LIMIT:
        long = sorted(((length, place) for place, length in lengths.items() if length > FILE_WARNING), reverse=True)
        refuse(
            f"A file has at most {FILE_LIMIT} lines, and past {FILE_WARNING} it asks to be split:",
            [f"{place}: {length} lines" for length, place in long],
        )


def test_no_function_is_over_60_lines_of_code(modules: list[Any], refuse: Callable[[str, list[str]], None]) -> None:
    offenders = [
        f"{module.place}:{function.lineno} {function.name}: {length} lines"
        for module in modules
        for function in module.functions
        if (length := _code_lines(function, module.text.splitlines())) > FUNCTION_LIMIT
    ]
    refuse(f"A function has at most {FUNCTION_LIMIT} lines of code (docstring and comments not counted):", offenders)
