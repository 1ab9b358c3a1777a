"""Formulas of docstrings as MathML, which every browser shows by itself: no script, no font from elsewhere."""

import re
from typing import Any

from griffe import Extension, Object
from latex2mathml.converter import convert

FORMULA = re.compile(r"^\.\. math::(.*(?:\n +\S.*)*)", re.MULTILINE)


class Formulas(Extension):
    """Writes each `.. math::` of a docstring as MathML before it is rendered."""

    def on_object(self, *, obj: Object, **_: Any) -> None:
        """Change the docstring of one module, class or function."""
        if obj.docstring is not None:
            obj.docstring.value = FORMULA.sub(_shown, obj.docstring.value)


def _shown(match: re.Match[str]) -> str:
    return f"<div>{convert(' '.join(match[1].split()), display='block')}</div>"
