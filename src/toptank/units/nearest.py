"""Which known word somebody meant: only one that a slip or two of the fingers away could have become."""

from collections.abc import Iterable

LETTERS_A_SLIP = 4
"""One slip is forgiven for so many letters, and one in any word; at two thirds alike, "weather" would be "heater"."""


def nearest(word: str, known: Iterable[str], *, most: int = 1) -> tuple[str, ...]:
    """Return the known words that a person may have meant, the nearest first; capitals and hyphens do not matter."""
    wanted = _plain(word)
    allowed = max(1, len(wanted) // LETTERS_A_SLIP)
    found = [(_slips(wanted, _plain(one)), one) for one in known if abs(len(one) - len(wanted)) <= allowed]
    near = sorted((slips, one) for slips, one in found if slips <= allowed and slips < len(wanted))
    return tuple(one for _, one in near[:most])


def did_you_mean(word: str, known: Iterable[str], otherwise: str) -> str:
    """Return the end of a refusal: the words that were meant, or what else to do."""
    return meant_one_of(nearest(word, known, most=3), otherwise)


def meant_one_of(names: Iterable[str], otherwise: str) -> str:
    """Return the end of a refusal: which of these was meant, or what else to do where there is none."""
    near = [repr(one) for one in names]
    if not near:
        return otherwise
    return f"did you mean {' or '.join(filter(None, (', '.join(near[:-1]), near[-1])))}?"


def _plain(word: str) -> str:
    return word.strip().lower().replace("-", "_").replace(" ", "_")


def _slips(first: str, second: str) -> int:
    """Letters left out, put in, taken for another or swapped with their neighbour (optimal string alignment)."""
    before: list[int] = []
    above = list(range(len(second) + 1))
    for i, letter in enumerate(first, start=1):
        row = [i]
        for j, other in enumerate(second, start=1):
            slips = min(above[j] + 1, row[j - 1] + 1, above[j - 1] + (letter != other))
            if i > 1 and j > 1 and letter == second[j - 2] and first[i - 2] == other:
                slips = min(slips, before[j - 2] + 1)
            row.append(slips)
        before, above = above, row
    return above[-1]
