"""Names that a module gives and imports only when they are asked for: a boiling point must not wait for a compiler.

A door lists what it gives under `if TYPE_CHECKING:`, where a type checker reads it, and takes its `__getattr__` and
`__dir__` from here. This is the one way in which a library is put off; everywhere else an import stands at the head of
its file.
"""

import ast
from collections.abc import Callable
from functools import cache
from importlib import import_module
from pathlib import Path


def late_names(file: str, of: str) -> tuple[Callable[[str], object], Callable[[], list[str]]]:
    """Return `__getattr__` and `__dir__` of the module in a file, whose name in a complaint is `of`."""

    @cache
    def places() -> dict[str, tuple[str, str]]:
        """Where each name is from, as the imports say."""
        body = ast.parse(Path(file).read_text(encoding="utf-8")).body
        (listed,) = (one for one in body if isinstance(one, ast.If))
        return {
            name.asname or name.name: (one.module or "", name.name)
            for one in listed.body
            if isinstance(one, ast.ImportFrom)
            for name in one.names
        }

    def get(name: str) -> object:
        if name not in places():
            raise AttributeError(f"{of} has no {name!r}")
        module, inside = places()[name]
        found = getattr(import_module(module), inside, None)
        return import_module(f"{module}.{inside}") if found is None else found

    return get, lambda: sorted(places())
