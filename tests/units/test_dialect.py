"""One English at a time: American words with US units, British ones with the others, keys as they are."""

import pytest

from toptank.knowledge.sheet import sections
from toptank.units.dialect import AMERICAN, spoken


def test_no_field_or_choice_speaks_british_where_units_are_american() -> None:
    fields = [one for section in sections().values() for one in section.values()]
    texts = [text for one in fields for text in (one.means, one.in_the_bay(), *one.choices)]
    said = " ".join(spoken(text, "us") for text in texts).lower().replace("-", " ").split()
    assert not {word.strip(".,:;()") for word in said} & (set(AMERICAN) - {"swept volume"})


@pytest.mark.parametrize(
    ("written", "us", "uk"),
    [
        ("Petrol, aluminium", "Gasoline, aluminum", "Petrol, aluminium"),
        (
            "rolling radius of the driven tyres",
            "rolling radius of the driven tires",
            "rolling radius of the driven tyres",
        ),
        ("the key `drivetrain.tyre_radius`", "the key `drivetrain.tyre_radius`", "the key `drivetrain.tyre_radius`"),
        ("hood and aluminum", "hood and aluminum", "bonnet and aluminium"),
    ],
)
def test_a_word_is_said_as_its_reader_says_it(written: str, us: str, uk: str) -> None:
    assert spoken(written, "us") == us
    assert spoken(written, "metric") == uk
    assert spoken(written, "uk") == uk
