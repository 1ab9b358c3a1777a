"""A job's text may end anywhere: in a head, a comment, a value, with or without an end of line."""

import pytest

from toptank.shop.edit import edit_document
from toptank.shop.files.toml_file import MARK, tables_of
from toptank.shop.job.starting_file import demo_text
from toptank.shop.record.store.document import told
from toptank.units.refusal import Refusal

DEMO = demo_text().rstrip()
ENDINGS = {
    "a value": DEMO,
    "a comment": DEMO + "\n# to be asked again",
    "a bare head of the list that is added to": DEMO + "\n[[reading]]",
    "a bare head of another list": DEMO + "\n[[check]]",
    "a bare head": DEMO + "\n[log]",
    "ends of line of another system": DEMO.replace("\n", "\r\n") + "\r\n[[changed]]",
    "a mark in front": MARK + DEMO + "\n[[changed]]",
    "a head alone": "[job]",
}


@pytest.mark.parametrize("ending", ENDINGS)
def test_a_row_is_added_whatever_the_text_ends_with(ending: str) -> None:
    text = ENDINGS[ending]
    added = {"duty": "river road", "words": "hot"}
    before, after = tables_of(text), tables_of(edit_document.with_row(text, "reading", added))
    rows = after.pop("reading")
    kept = before.pop("reading", [])
    assert isinstance(rows, list)
    assert isinstance(kept, list)
    assert rows == [*kept, added]
    assert after == before


@pytest.mark.parametrize("ending", ENDINGS)
def test_a_field_is_written_whatever_the_text_ends_with(ending: str) -> None:
    after = tables_of(edit_document.with_value(ENDINGS[ending], "core.rows", "4", ""))
    assert after["core"] == {**_core(ENDINGS[ending]), "rows": 4}


def _core(text: str) -> dict[str, object]:
    core = tables_of(text).get("core", {})
    assert isinstance(core, dict)
    return core


def test_a_text_that_is_not_toml_is_refused_in_a_sentence_and_never_kept() -> None:
    with pytest.raises(Refusal, match=r"would not be TOML.*what was kept before is as it was"):
        told(DEMO + "\n[[reading]][[reading]]\n")
