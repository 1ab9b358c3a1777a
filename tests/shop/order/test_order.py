"""The work order: what must stand on the paper, and that nothing people type can break it.

What it must hold is the requirement of the project: complaint, cause, correction, parts, quantities, steps, cautions,
readings; one page for the bench and one for the customer at 10 pt or more, the rest in an appendix that is asked for;
letter or A4; the same bytes twice.
"""

import dataclasses
import html
import re
import zlib
from importlib import resources
from pathlib import Path
from typing import Any

import pytest
import typst

from toptank.shop.order.record import HeadLine, Order
from toptank.shop.order.setting import pdf
from toptank.shop.order.setting.web_page import web_page
from toptank.units.refusal import Refusal

NASTY = "It said: #[]$\\<> \"quotes\" 'single' `code` *b* _i_ @ref ~ // /* */ &amp; #panic() </p><script>x</script>"
POINTS = {"letter": (612.0, 792.0), "a4": (595.276, 841.89)}
"""Sizes of paper [pt]: 8.5 by 11 in; 210 by 297 mm (ISO 216)."""

_PLAIN = rb"\\.|[^\\()]"
_NESTED = rb"\((?:" + _PLAIN + rb"|\((?:" + _PLAIN + rb")*\))*\)"
OPERATORS = re.compile(rb"/(f\d+) [\d.]+ Tf|\(((?:" + _PLAIN + rb"|" + _NESTED + rb")*)\)|\bET\b", re.DOTALL)
"""What picks a face, a text in brackets that may hold brackets in pairs, and the end of a text."""


def _streams(content: bytes) -> dict[int, bytes]:
    """Every stream by the number of its object, unpacked."""
    found: dict[int, bytes] = {}
    for match in re.finditer(rb"(\d+) 0 obj\s*<<(.*?)>>\s*stream\r?\n", content, re.DOTALL):
        packed = content[match.end() : content.index(b"endstream", match.end())]
        found[int(match[1])] = zlib.decompressobj().decompress(packed) if b"FlateDecode" in match[2] else packed
    return found


def _letters(table: bytes) -> dict[int, str]:
    """Signs by the number of their glyph, from a table of the PDF."""
    pairs = re.findall(rb"^<([0-9A-F]{4})> <([0-9A-F]+)>$", table, re.MULTILINE)
    return {int(code, 16): bytes.fromhex(text.decode()).decode("utf-16-be") for code, text in pairs}


def _read(content: bytes) -> list[str]:
    """Text of every page that shows any, blanks made single; enough of a reader for what typst writes."""
    streams = _streams(content)
    tables = dict(re.findall(rb"(\d+) 0 obj\s*<<[^>]*?/Type/Font/Subtype/Type0.*?/ToUnicode (\d+) 0 R", content))
    pages: list[str] = []
    for own, drawn in re.findall(rb"/Type/Page/Resources (\d+) 0 R[^>]*?/Contents (\d+) 0 R", content):
        named = re.search(rb"\n" + own + rb" 0 obj\s*<<.*?/Font<<(.*?)>>", content, re.DOTALL)
        faces = re.findall(rb"/(f\d+) (\d+) 0 R", named[1]) if named else []
        fonts = {name: _letters(streams[int(tables[number])]) for name, number in faces}
        letters: dict[int, str] = {}
        text: list[str] = []
        for match in OPERATORS.finditer(streams[int(drawn)]):
            if match[1]:
                letters = fonts[match[1]]
            elif match[0] == b"ET":
                text.append(" ")
            else:
                codes = _unescaped(match[2])
                text += [letters.get(codes[i] << 8 | codes[i + 1], "") for i in range(0, len(codes) - 1, 2)]
        if any(sign.strip() for sign in text):
            pages.append(" ".join("".join(text).split()))
    return pages


def _unescaped(text: bytes) -> bytes:
    signs = {b"n": b"\n", b"r": b"\r", b"t": b"\t", b"b": b"\b", b"f": b"\f"}

    def one(match: re.Match[bytes]) -> bytes:
        return bytes([int(match[1], 8)]) if match[1].isdigit() else signs.get(match[1], match[1])

    return re.sub(rb"\\([0-7]{1,3}|.)", one, text, flags=re.DOTALL)


def _pages(content: bytes) -> list[tuple[float, float]]:
    boxes = re.findall(rb"/Type/Page\b(?!s).*?/MediaBox\[0 0 ([\d.]+) ([\d.]+)\]", content, re.DOTALL)
    return [(float(width), float(height)) for width, height in boxes]


def _close(text: str) -> str:
    """A text without blanks and hyphens, as lines are broken anywhere."""
    return re.sub(r"[\s\u00ad-]", "", text)


def _words(page: str) -> str:
    """Words of an HTML page; a sign that was not escaped would be taken for a tag."""
    return html.unescape(re.sub(r"<[^>]*>", "", page))


def _tags(page: str) -> set[str]:
    return set(re.findall(r"<(\w+)", page))


def _said(order: Order) -> list[str]:
    """Everything that the record says, but the picture."""
    said: list[str] = []

    def gather(value: object) -> None:
        match value:
            case str():
                said.append(value)
            case dict():
                for key, one in value.items():
                    if key not in ("picture", "plan"):
                        gather(one)
            case list() | tuple():
                for one in value:
                    gather(one)
            case _:
                raise TypeError("words are wanted")

    gather(dataclasses.asdict(order))
    return [words for words in said if words]


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_the_example_takes_one_page_for_the_bench_and_one_for_the_customer(order: Order, paper: Any) -> None:
    content = pdf.pdf(order, paper)
    assert content.startswith(b"%PDF")
    assert len(_pages(content)) == 2
    for size in _pages(content):
        assert size == pytest.approx(POINTS[paper], abs=0.1)


def test_no_letter_of_the_two_pages_but_the_foot_is_smaller_than_ten_points(order: Order) -> None:
    """Read from the file: every size of type that is set. The foot repeats title and page in 8 pt."""
    content = pdf.pdf(order, "letter")
    drawn = b"".join(_streams(content)[int(number)] for number in re.findall(rb"/Contents (\d+) 0 R", content))
    sizes = {float(size) for size in re.findall(rb"/f\d+ ([\d.]+) Tf", drawn)}
    assert min(sizes - {8.0}) >= 10.0
    assert [float(size) for size in pdf.SIZES] == sorted((float(size) for size in pdf.SIZES), reverse=True)


def test_what_is_behind_the_two_pages_comes_only_where_it_is_asked_for(order: Order) -> None:
    plain, whole = _read(pdf.pdf(order, "letter")), _read(pdf.pdf(order, "letter", appendix=True))
    assert len(whole) > len(plain) == 2
    for heading, lines in order.appendix:
        assert _close(heading) not in _close("".join(plain))
        assert all(_close(words) in _close("".join(whole)) for words in lines)
    assert "Appendix" not in web_page(order, "letter")


def test_shop_and_customer_head_the_paper(order: Order) -> None:
    """What nobody has said is a line to write on; the shop's head stands on both pages."""
    shop = ("Ridge Road Garage", "12 Mill Lane · 555 0142")
    named = tuple(HeadLine(label=one.label, said="A. Grower" if one.label == "Customer" else "") for one in order.head)
    made = dataclasses.replace(order, shop=shop, head=named)
    bench, customer = _read(pdf.pdf(made, "letter"))
    for words in shop:
        assert _close(words) in _close(bench)
        assert _close(words) in _close(customer)
    assert "A. Grower" in bench
    assert {"Customer", "Phone", "License plate", "Odometer", "Promised"} <= {one.label for one in order.head}
    assert {one.label: one.said for one in order.head}["Odometer"] == "148,000 mi"


def test_the_same_order_gives_the_same_bytes(order: Order) -> None:
    assert pdf.pdf(order, "letter") == pdf.pdf(order, "letter")


def test_the_faces_are_those_that_typst_carries(order: Order) -> None:
    """A missing face is replaced without a word, above all within a picture: so look at what is in the file."""
    faces = set(re.findall(rb"/BaseFont/[A-Z]{6}\+([A-Za-z]+)", pdf.pdf(order, "letter")))
    assert faces
    assert faces == {b"Barlow", b"BarlowCondensed"}


def test_a_warning_of_the_typesetter_is_a_failure(
    order: Order, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """A face that is not there is a warning, and the paper must not come out in another one."""
    template = resources.files("toptank.shop.order.setting").joinpath("order.typ").read_text(encoding="utf-8")
    assert template.count('font: ("Barlow", "Libertinus Serif")') == 1
    real = typst.Compiler

    def without_the_face(path: Path, **words: Any) -> Any:
        spoilt = path.read_text(encoding="utf-8").replace('("Barlow", "Libertinus Serif")', '"No Such Face"')
        file = tmp_path / path.name
        file.write_text(spoilt, encoding="utf-8")
        return real(file, **words)

    monkeypatch.setattr(typst, "Compiler", without_the_face)
    with pytest.raises(Refusal, match="unknown font family"):
        pdf.pdf(order, "letter")


def test_both_papers_and_the_page_say_all_of_the_record(order: Order, metric: Order) -> None:
    for record in (order, metric):
        on_paper = _close("".join(_read(pdf.pdf(record, "letter", appendix=True))))
        on_page = _close(_words(web_page(record, "letter", appendix=True)))
        missing = [words for words in _said(record) if _close(words) not in on_paper or _close(words) not in on_page]
        assert missing == []


def test_the_bench_page_holds_what_the_issue_asks_for(drained: Order) -> None:
    *sheet, _customer = _read(pdf.pdf(drained, "letter"))
    bench = " ".join(sheet)
    for words in (
        "needle climbs past the mark", "Cause", "Correction", "concentrate", "distilled", "Cool down", "Drain",
        "bleed", "Leak test", "Road test", "Pull over at", "Never open a hot system", "poisonous to people and pets",
        "belts", "Axle stands", "manual and local codes",
    ):  # fmt: skip
        assert _close(words) in _close(bench), words
    assert drained.cause in bench
    assert all(_close(part.part) in _close(bench) and part.price in bench for part in drained.parts)


def test_both_pages_say_that_an_example_is_invented(order: Order) -> None:
    pages = _read(pdf.pdf(order, "letter"))
    assert all(_close("Invented example") in _close(page) for page in pages)
    assert web_page(order, "letter").count("Invented example") == 2
    real = dataclasses.replace(order, invented="")
    assert not any(_close("Invented example") in _close(page) for page in _read(pdf.pdf(real, "letter")))


@pytest.mark.parametrize("field", ["title", "complaint"])
def test_signs_that_people_type_are_set_as_they_stand(order: Order, field: str) -> None:
    nasty = dataclasses.replace(order, complaint="") if field == "title" else order
    nasty = dataclasses.replace(nasty, **{field: NASTY})
    assert _close(NASTY) in _close("".join(_read(pdf.pdf(nasty, "letter"))))
    page = web_page(nasty, "letter")
    assert NASTY in _words(page)
    assert "script" not in _tags(page)


def test_a_duty_with_signs_is_set_as_it_stands(order: Order) -> None:
    readings = (dataclasses.replace(order.readings[0], duty=NASTY), *order.readings[1:])
    nasty = dataclasses.replace(order, readings=readings)
    assert _close(NASTY) in _close("".join(_read(pdf.pdf(nasty, "a4"))))
    assert "script" not in _tags(web_page(nasty, "a4"))


def test_a_long_story_is_set_whole(order: Order) -> None:
    """It may take a page more, but nothing is cut and the last word is there."""
    story = "It ran hot on the hill again. " * 120 + "And that was the last word."
    pages = _read(pdf.pdf(dataclasses.replace(order, complaint=story), "letter"))
    assert _close("And that was the last word.") in _close("".join(pages))
    assert _close(order.stop[-1]) in _close("".join(pages))


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_the_customers_page_goes_out_alone_on_one_page_with_nothing_of_the_bench(order: Order, paper: Any) -> None:
    _, customer = _read(pdf.pdf(order, paper))
    (alone,) = _read(pdf.pdf(order, paper, alone=True))
    assert alone.replace("1 / 1", "") == customer.replace("2 / 2", "")
    page = web_page(order, paper, alone=True)
    assert web_page(order, paper, alone=True, appendix=True) == page  # the shop's own notes never go out with it
    assert _read(pdf.pdf(order, paper, alone=True, appendix=True)) == [alone]
    assert page.count("<section") == 1
    assert '<section class="customer">' in page
    assert order.totals[-1].price in page
    assert html.escape(order.steps[0].words) not in page
