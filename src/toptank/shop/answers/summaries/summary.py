"""What an answer says first: one sentence that answers the question, then the few lines that a person acts on.

Pages, command line and paper read the same summary; everything else of the answer stands behind it.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class ShortAnswer:
    """One sentence that answers the question, and what follows from it, each line a sentence or two."""

    answer: str
    lines: tuple[str, ...] = ()


def chances_in_ten(share: float) -> str:
    """Write a probability as a shop says it: "8 chances in 10"; near nought and near certain in words."""
    tenths = round(10.0 * share)
    if tenths == 0:
        return "hardly any chance" if share >= 0.01 else "no chance to speak of"
    return "almost certain" if tenths == 10 else f"{tenths} chance{'s' if tenths > 1 else ''} in 10"


def times_as_likely(factor: float) -> str:
    """Write a factor on the odds without its sign: "3 times more likely", "half as likely"."""
    if factor >= 1.0:
        return f"{factor:.0f} times more likely" if factor >= 1.75 else "a little more likely"
    part = {2: "half as likely", 3: "a third as likely", 4: "a quarter as likely"}
    less = round(1.0 / factor)
    return "a little less likely" if less < 2 else part.get(less, f"{less} times less likely")


def minutes_words(minutes: float) -> str:
    """Write working time as a shop says it: "1 minute", "15 minutes", "1.5 h"."""
    if minutes >= 90.0:
        return f"{minutes / 60.0:.1f} h"
    return f"{minutes:.0f} minute{'' if round(minutes) == 1 else 's'}"
