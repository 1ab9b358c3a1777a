"""What no workshop says stands nowhere that a person reads: in no word of the catalogue, no template, no sentence."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any, get_args

import pytest

from toptank.catalogue.words.words import words_of
from toptank.units.dialect import BRITISH, KEPT, Dialect, in_british, spoken

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "src/toptank"
DIALECTS: tuple[Dialect, ...] = get_args(Dialect)

NOT_SAID = re.compile(
    r"\bmend(?:s|ed|ing)?\b|\breckon|\bfalse air\b|\blook again:|\bfrom memory\b|\bpossible vehicles?\b"
    r"|\bvehicles drawn\b|\bof the draws\b|\bseed of the draws\b|\bthe draws\b|[×÷] ?\d|\(x\d|\bpropeller shaft\b"
    r"|\bsweats\b|\bair of (?:the road|speed)\b|\bbottom hose\b|\bMind:|\bsheet stands\b"
    r"|\bgauge lies\b|\bfilled anew\b|\bmix anew\b|\bcheck drive\b|\bpoisons people\b|\bwithout cooled air\b",
    re.IGNORECASE,
)
"""Words of no workshop, of statistics, of the inside of the program (issue 14, WORDING)."""

AMERICAN = re.compile(
    r"\b(?:hood|windshield|muffler|gasoline|(?<!torque )wrench(?:es)?|flashlight|color|aluminum|liters?|louvers?|tires?"
    r"|carburetor|labor|transmission|A/C)\b",
    re.IGNORECASE,
)
BRITISH_ONLY = re.compile(
    r"\b(?:bonnet|windscreen|silencer|petrol|spanners?|torch|colour|aluminium|litres?|louvres?|tyres?|gearbox"
    r"|carburettor|labour|air con)\b",
    re.IGNORECASE,
)


def _texts(tree: Any) -> Iterator[str]:
    if isinstance(tree, str):
        yield tree
    elif hasattr(tree, "items"):
        for value in tree.values():
            yield from _texts(value)
    elif hasattr(tree, "__slots__"):
        for key in type(tree).__slots__:
            yield from _texts(getattr(tree, key))
    elif isinstance(tree, list):
        for value in tree:
            yield from _texts(value)


def _sentences(file: Path) -> Iterator[str]:
    """Every string of a Python file that may be read by a person: with a space in it, and no docstring."""
    tree = ast.parse(file.read_text(encoding="utf-8"))
    told = {
        id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
    }
    for node in ast.walk(tree):
        if (
            isinstance(node, ast.Constant)
            and isinstance(node.value, str)
            and " " in node.value
            and id(node) not in told
        ):
            yield node.value


FOR_ENGINEERS = ("validation.md", "calibration.md")
"""Pages that speak of models and statistics, and say where a figure was taken from memory."""

READ_BACK = ("words/aliases.toml", "symptoms/symptoms.toml", "equations/sources.toml", "media/sources.toml")
"""What people once wrote, how drivers speak, and where a source was quoted from memory: read, or shown to engineers."""


def _toml(text: str) -> str:
    """A TOML file without its comments."""
    return "\n".join(line for line in text.splitlines() if not line.lstrip().startswith("#"))


def test_no_sentence_of_the_program_says_what_no_workshop_says() -> None:
    said = [
        f"{file.relative_to(ROOT)}: {text}"
        for file in sorted(PACKAGE.rglob("*.py"))
        for text in _sentences(file)
        if NOT_SAID.search(text) and "CREATE TABLE" not in text
    ]
    assert said == []


def test_no_template_and_no_table_of_words_says_what_no_workshop_says() -> None:
    files = [file for kind in ("*.toml", "*.typ", "*.js") for file in sorted(PACKAGE.rglob(kind))]
    said = {
        str(file.relative_to(ROOT)): found[0]
        for file in files
        if not str(file).endswith(READ_BACK) and (found := NOT_SAID.search(_toml(file.read_text(encoding="utf-8"))))
    }
    assert said == {}


def test_no_page_for_people_says_what_no_workshop_says() -> None:
    pages = [ROOT / "README.md", *sorted((ROOT / "docs").glob("*.md"))]
    said = [
        f"{page.name}: {line}"
        for page in pages
        if page.name not in FOR_ENGINEERS
        for line in page.read_text(encoding="utf-8").splitlines()
        if NOT_SAID.search(line) and not line.startswith("> ")  # a customer's own words
    ]
    assert said == []


@pytest.mark.parametrize("dialect", DIALECTS)
def test_no_word_of_the_catalogue_is_one_that_no_workshop_says(dialect: Dialect) -> None:
    assert [text for text in _texts(words_of(dialect)) if NOT_SAID.search(text)] == []


def test_american_units_bring_american_words_and_metric_units_british_ones() -> None:
    assert [text for text in _texts(words_of("us")) if BRITISH_ONLY.search(text)] == []
    assert [text for text in _texts(words_of("uk")) if AMERICAN.search(text)] == []


def test_american_units_stay_out_of_british_texts() -> None:
    foreign = re.compile(r"\d °?F\b|\bpsi\b|\d in\b|\bmiles?\b|\bquarts?\b|\bgallons?\b")
    assert [text for text in _texts(words_of("uk")) if foreign.search(text)] == []


def test_every_cause_is_told_to_the_customer_in_short_plain_words() -> None:
    """A reading age of about twelve: short sentences, short words, none that only the trade knows."""
    trade = re.compile(r"\b(?:core|fins|vanes|viscous|retarded|lean|condenser|divider|pusher|relay|sediment)\b")
    for id_, cause in words_of("us").cause.items():
        said = re.findall(r"[A-Za-z/']+", cause.customer)
        assert 5 <= len(said) <= 20, id_
        assert sum(map(len, said)) / len(said) < 5.5, id_
        assert id_ == "fins_loose" or not trade.search(cause.customer), id_


@pytest.mark.parametrize(
    ("american", "british"),
    [
        ("Under the hood, by the muffler.", "Under the bonnet, by the silencer."),
        ("Hood louvers: install them; torque wrench at hand.", "Bonnet louvres: fit them; torque wrench at hand."),
        ("the A/C off, a vacuum leak, on level ground", "the air con off, an air leak, on level ground"),
        ("`hood_louvers` and hood_louvers stay, remedy.hood.", "`hood_louvers` and hood_louvers stay, remedy.bonnet."),
        ("Colorado is no color.", "Colorado is no colour."),
    ],
)
def test_a_sentence_is_said_in_the_english_of_its_units(american: str, british: str) -> None:
    assert spoken(american, "us") == american
    assert spoken(american, "metric") == british
    assert in_british(british) == british


def test_no_british_word_is_turned_twice() -> None:
    assert [word for word in (*BRITISH.values(), *KEPT) if in_british(word) != word] == []
