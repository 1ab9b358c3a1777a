"""One declaration for one field.

A field of a part, a duty or a doubt is declared once, here, with all that anybody will ever ask about it. The file
format, its validation, the JSON schema, the list of assumptions and the reference page are all made from it.
"""

import dataclasses
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from toptank.units.dimension import CHOICE, YES_NO, Dimension


@dataclass(frozen=True, slots=True, kw_only=True)
class Declaration:
    """All that is known of a field before any vehicle is seen. All numbers in SI.

    Parameters
    ----------
    means : what it is, in the words of the trade
    dimension : its kind of quantity (gives the SI unit and the shop units)
    hard : limits outside which the value is refused
    plausible : limits outside which the value is accepted with a remark
    typical : value taken when nothing is known
    spread : one standard deviation of what is found in the trade when nothing is known;
        for a choice, the probability that it is another one
    relative : the spread multiplies (log-normal draws) instead of being added (normal draws)
    measure : how to find it in the bay; begins with "not measured" if that cannot be done there
    choices : the words of a choice, in the order of their codes 0, 1, 2, ...
    """

    means: str
    dimension: Dimension
    hard: tuple[float, float]
    plausible: tuple[float, float]
    typical: float
    spread: float
    relative: bool = False
    measure: str
    choices: tuple[str, ...] = ()

    def measurable(self) -> bool:
        """Whether there is a way to find it in the bay."""
        return not self.measure.startswith(_NOT_MEASURED)

    def in_the_bay(self) -> str:
        """How to find it in the bay, or that there it cannot be found, and what is known of it anyway."""
        if self.measurable():
            return self.measure
        known = self.measure.removeprefix(_NOT_MEASURED).lstrip(":;, ")
        return f"cannot be measured in the shop{'; ' if known else ''}{known}"


_NOT_MEASURED = "not measured"
"""What `measure` begins with where nothing in a bay measures the field."""


def declare(
    means: str,
    dimension: Dimension,
    *,
    hard: tuple[float, float],
    plausible: tuple[float, float],
    typical: float,
    spread: float,
    measure: str,
    relative: bool = False,
) -> Any:
    """Declare a field that is a quantity; it is also the dataclass default. All numbers in SI."""
    return _declared(
        Declaration(
            means=means,
            dimension=dimension,
            hard=hard,
            plausible=plausible,
            typical=typical,
            spread=spread,
            relative=relative,
            measure=measure,
        )
    )


def declare_choice(means: str, choices: tuple[str, ...], *, typical: str, doubt: float = 0.0, measure: str) -> Any:
    """Declare a field that is one of a few words; inside, its code (0, 1, 2, ...) as a number."""
    limits = (0.0, float(len(choices) - 1))
    return _declared(
        Declaration(
            means=means,
            dimension=CHOICE,
            hard=limits,
            plausible=limits,
            typical=float(choices.index(typical)),
            spread=doubt,
            measure=measure,
            choices=choices,
        )
    )


def declare_yes_no(means: str, *, typical: bool, doubt: float = 0.0, measure: str) -> Any:
    """Declare a field that is yes (1.0) or no (0.0)."""
    return _declared(
        Declaration(
            means=means,
            dimension=YES_NO,
            hard=(0.0, 1.0),
            plausible=(0.0, 1.0),
            typical=float(typical),
            spread=doubt,
            measure=measure,
            choices=("no", "yes"),
        )
    )


def declarations(owner: Any) -> Iterator[tuple[str, Declaration]]:
    """Yield (field name, declaration) of a dataclass or of one of its instances, in order."""
    for field in dataclasses.fields(owner):
        declaration = field.metadata.get("declaration")
        if declaration is not None:
            yield field.name, declaration


def _declared(declaration: Declaration) -> Any:
    return dataclasses.field(default=declaration.typical, metadata={"declaration": declaration})
