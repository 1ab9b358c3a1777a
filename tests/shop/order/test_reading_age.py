"""The customer's page is read without effort: at an age of about twelve.

Source  J. P. Kincaid, R. P. Fishburne, R. L. Rogers, B. S. Chissom: Derivation of new readability formulas for Navy
        enlisted personnel, Research Branch Report 8-75, 1975: grade = 0.39 words a sentence + 11.8 syllables a word
        - 15.59. A child in the sixth or seventh grade is about twelve (grade and five or six years).
Scatter syllables are counted by groups of vowels: some 5 % of the words are off by one, as many up as down
"""

import re
from typing import Any

import pytest

from toptank.shop.order import writing
from toptank.shop.order.record import Order

TWELVE = 7.0
"""Highest grade."""


def _syllables(word: str) -> int:
    letters = re.sub(r"[^a-z]", "", word.lower())
    silent = letters.endswith("e") and not letters.endswith(("le", "ee")) and len(letters) > 3
    return max(len(re.findall(r"[aeiouy]+", letters)) - silent, 1)


def grade(text: str) -> float:
    """Grade of a text by Kincaid's formula; figures are read as one syllable a digit, as they are spoken."""
    sentences = [one for one in re.split(r"(?<=[.!?:])\s+", text) if re.search(r"[A-Za-z]", one)]
    words = re.findall(r"[A-Za-z0-9'/-]+", text)
    syllables = sum(len(re.sub(r"\D", "", word)) or _syllables(word) for word in words)
    return 0.39 * len(words) / len(sentences) + 11.8 * syllables / len(words) - 15.59


def test_the_formula_gives_what_its_makers_give() -> None:
    """Six words of one syllable in a sentence: 0.39 x 6 + 11.8 - 15.59."""
    assert grade("The cat sat on the mat.") == pytest.approx(-1.45, abs=0.01)
    assert grade("Unprecedented hydrodynamic considerations necessitate comprehensive recalibration.") > 20.0


@pytest.mark.parametrize("system", ["us", "metric"])
def test_the_customer_reads_it_at_twelve(answers: tuple[Any, Any], system: Any) -> None:
    diagnosed, chosen = answers
    order: Order = writing.order(chosen.job, system=system, diagnosed=diagnosed, chosen=chosen)
    told = [
        line for heading, lines in order.customer.sections for line in lines if heading != "What you told us"
    ]  # his own words are his
    assert grade(" ".join(told)) <= TWELVE
