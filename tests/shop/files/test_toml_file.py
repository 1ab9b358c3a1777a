"""A text of a person is read within bounds: no form of it takes memory or time out of proportion to its size."""

import time
import tracemalloc

import pytest

from toptank.shop.files.toml_file import LARGEST, document_of, tables_of
from toptank.units.refusal import Refusal

MOST_MEGABYTES = 40.0
MOST_SECONDS = 3.0
"""Of processor time while memory is traced, which makes it slow; without the check the first of these took a minute."""

HOSTILE = {
    "a dotted name": "a" + ".a" * 60_000 + " = 1",
    "a dotted name of quoted parts": "'a'" + '."a"' * 40_000 + " = 1",
    "a dotted name in an inline table": "x = {a" + ".a" * 60_000 + " = 1}",
    "a dotted head": "[a" + ".a" * 60_000 + "]",
    "a dotted head with blanks": "[[a" + " . a" * 60_000 + "]]",
    "lists in lists": "x = " + "[" * 200_000,
    "tables in tables": "x = " + "{a = " * 50_000,
    "nothing but quotation marks": "x = " + '"' * 250_000,
    "nothing but apostrophes": "x = " + "'" * 250_000,
    "a text that never ends": 'x = """' + '""a' * 80_000,
    "nothing but backslashes": 'x = "' + "\\" * 250_000,
    "one long word": "x" * 250_000,
    "a number of many digits": "x = " + "1" * 250_000,
    "blanks": "x" + " " * 250_000,
}


@pytest.mark.parametrize("form", HOSTILE)
def test_a_hostile_text_is_refused_within_memory_and_time(form: str) -> None:
    raw = HOSTILE[form].encode()
    assert len(raw) <= LARGEST
    started = time.process_time()
    tracemalloc.start()
    try:
        with pytest.raises(Refusal):
            document_of(raw, "job.toml")
        assert tracemalloc.get_traced_memory()[1] < MOST_MEGABYTES * 1e6
    finally:
        tracemalloc.stop()
    assert time.process_time() - started < MOST_SECONDS


@pytest.mark.parametrize(
    "line",
    [
        'complaint = "a.b.c.d.e.f.g.h.i.j. . . . and so on"',
        "complaint = 'a.b.c.d.e.f.g.h.i.j'",
        'complaint = """it said "a.b.c.d.e.f.g.h.i.j" twice"""',
        'complaint = "fine"  # a.b.c.d.e.f.g.h.i.j',
        "x.a.b.c.d.e.f = 1.5",
        "version = 1979-05-27T07:32:00.999999",
    ],
)
def test_points_that_part_no_names_do_no_harm(line: str) -> None:
    assert tables_of(line)


def test_a_byte_order_mark_in_front_is_no_part_of_the_first_name() -> None:
    assert tables_of("\ufeffrows = 2") == {"rows": 2}
    assert document_of("\ufeffrows = 2".encode(), "job.toml") == {"rows": 2}
