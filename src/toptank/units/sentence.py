"""Sentences that carry figures: made when they are shown, in the units of whoever reads them, never before.

A text that an answer holds is a plain string where it has no figure, and a `Sentence` where it has one.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from toptank.units.conversion import System
from toptank.units.dialect import spoken
from toptank.units.dimension import Dimension
from toptank.units.display import show


@dataclass(frozen=True, slots=True)
class Quantity:
    """A figure in a sentence: its value in SI, its kind, its decimals (None: as many as it is worth)."""

    value: float
    dimension: Dimension
    digits: int | None = None


@dataclass(frozen=True, slots=True)
class Sentence:
    """A sentence that is made when it is shown: by a function, from what it tells of and the units that are asked."""

    made_by: Callable[..., str]
    of: tuple[object, ...] = ()

    def said(self, system: System) -> str:
        """Return the sentence in the units of the shop."""
        return self.made_by(*self.of, system)

    def __str__(self) -> str:
        return self.said("us")


@dataclass(frozen=True, slots=True)
class Sentences:
    """Several sentences that are made when they are shown, by one function."""

    made_by: Callable[..., Iterable[str]]
    of: tuple[object, ...] = ()

    def said(self, system: System) -> tuple[str, ...]:
        """Return the sentences in the units of the shop."""
        return tuple(self.made_by(*self.of, system))


Text: TypeAlias = "str | Sentence"


def sentence(pattern: str, figures: Mapping[str, Quantity | Text]) -> Sentence:
    """Return a sentence from its pattern: "{taken} is less than {least}", with the figures or words by name."""
    return Sentence(_filled, (pattern, tuple(figures.items())))


def _filled(pattern: str, figures: tuple[tuple[str, Quantity | Text], ...], system: System) -> str:
    return pattern.format(**{name: _shown(one, system) for name, one in figures})


def _shown(one: Quantity | Text, system: System) -> str:
    return show(one.value, one.dimension, system, one.digits) if isinstance(one, Quantity) else said(one, system)


def said(text: Text, system: System) -> str:
    """Return a text in the units and the English of the shop."""
    return spoken(text if isinstance(text, str) else text.said(system), system)


def said_each(texts: Iterable[Text] | Sentences, system: System) -> tuple[str, ...]:
    """Return texts in the units of the shop."""
    each = texts.said(system) if isinstance(texts, Sentences) else texts
    return tuple(said(one, system) for one in each)


def joined(names: Sequence[str]) -> str:
    """Return names as one says them: "idle", "idle and town", "idle, town and hill"."""
    *most, last = names
    return f"{', '.join(most)} and {last}" if most else last
