"""The same order as one HTML file without anything from elsewhere: it opens, is ticked and prints as it stands."""

import functools
from base64 import b64encode
from collections.abc import Iterable
from html import escape
from importlib import resources

from toptank.shop.order.record import HeadLine, Order, PartLine, Step
from toptank.shop.order.setting.pdf import Paper


def web_page(order: Order, paper: Paper, *, appendix: bool = False, alone: bool = False) -> str:
    """Write the order, with `alone` its customer's page and nothing else; what people typed is escaped here."""
    style = _faces() + resources.files("toptank.shop.order.setting").joinpath("order.css").read_text(encoding="utf-8")
    size = {"letter": "letter", "a4": "A4"}[paper]
    return "\n".join(
        (
            '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">',
            '<meta name="viewport" content="width=device-width, initial-scale=1">',
            f"<title>{escape(order.title)}</title>",
            f"<style>\n{style}@page {{ size: {size}; margin: 11mm; }}\n</style>\n</head>\n<body>",
            *(() if alone else (_bench(order),)),
            _customer(order),
            *((_appendix(order),) if appendix and not alone else ()),
            "</body>\n</html>\n",
        )
    )


FACES = (("Barlow", 400, "barlow-latin-400-normal"), ("Barlow", 600, "barlow-latin-600-normal"),
         ("Barlow Condensed", 600, "barlow-condensed-latin-600-normal"))  # fmt: skip


@functools.cache
def _faces() -> str:
    """The type of the PDF, within the file: a page that is sent looks as it does here."""
    folder = resources.files("toptank.shop.order.setting").joinpath("faces")
    rules = (
        f'@font-face {{ font-family: "{family}"; font-weight: {weight}; '
        f"src: url(data:font/ttf;base64,{b64encode(folder.joinpath(name + '.ttf').read_bytes()).decode()}); }}\n"
        for family, weight, name in FACES
    )
    return "".join(rules)


def _bench(order: Order) -> str:
    first, *rest = order.correction
    readings = (
        f'<tr><td><b>{escape(one.duty)}</b>: {escape(one.day)}</td><td class="band">{escape(one.before)}</td>'
        f'<td class="band"><b>{escape(one.after)}</b></td><td class="seen"></td></tr>'
        for one in order.readings
    )
    return "\n".join(
        (
            '<section class="bench">',
            _title("Work order", order),
            f'<p class="blanks">{"".join(_said_or_blank(one) for one in order.head)}</p>',
            '<div class="columns">',
            f"<h2>Complaint</h2><p>“{escape(order.complaint)}”</p>" if order.complaint else "",
            f"<h2>Cause</h2><p>{_cause(order)}</p>",
            f"<h2>Correction</h2><p><b>{escape(first)}</b> {escape(' '.join(rest))}</p>",
            '<div class="whole"><h2>Parts</h2><table>',
            *(_part(one, "td") for one in order.parts),
            *(_part(one, "th") for one in order.totals),
            "</table></div>",
            _list("Coolant", order.coolant),
            _list("Careful", order.cautions),
            "<h2>Steps</h2><ol>",
            *(_step(one) for one in order.steps),
            f"</ol><p>{escape(order.time_note)}</p></div>",
            '<div class="road-test"><h2>Road test</h2>',
            "<table><tr><th>Condition</th><th>gauge now</th><th>after the work</th><th>seen</th></tr>",
            *readings,
            f"</table>{_bullets(order.stop)}</div>\n</section>",
        )
    )


def _cause(order: Order) -> str:
    if order.found:
        return f"Found in the job: <b>{escape(order.cause)}</b>."
    return f"Most likely: <b>{escape(order.cause)}</b>. {escape(order.why)}"


def _appendix(order: Order) -> str:
    causes = (
        f"<li><b>{escape(one.cause)}, {escape(one.chance)}</b>: Repair if so: {escape(one.repair)}. "
        f"{escape(one.speaks)}</li>"
        for one in order.causes
    )
    return "\n".join(
        (
            '<section class="appendix">',
            _title("Appendix to the work order", order),
            f"<h2>What it may be</h2><ul>{''.join(causes)}</ul>",
            *(_list(escape(heading), lines) for heading, lines in order.appendix),
            "</section>",
        )
    )


def _customer(order: Order) -> str:
    page = order.customer
    sections = (
        f"<h2>{escape(heading)}</h2>{''.join(f'<p>{escape(words)}</p>' for words in lines)}"
        for heading, lines in page.sections
    )
    return "\n".join(
        (
            '<section class="customer">',
            _title("Your vehicle", order),
            f'<p class="blanks">{"".join(_said_or_blank(one) for one in order.customer_head)}</p>',
            *sections,
            f"<figure>{page.picture}<figcaption>{escape(page.picture_says)}</figcaption></figure>",
            f'<p class="blanks">{_blank("agreed:")}{_blank("date:")}</p>\n</section>',
        )
    )


def _title(kind: str, order: Order) -> str:
    invented = f'<p class="invented">{escape(order.invented)}</p>' if order.invented else ""
    shop = (
        f'<p class="shop"><b>{escape(order.shop[0])}</b> {escape(" ".join(order.shop[1:]))}</p>' if order.shop else ""
    )
    return f"{shop}<h1>{kind}</h1>{invented}<p><b>{escape(order.title)}</b></p>"


def _said_or_blank(one: HeadLine) -> str:
    said = f"<b>{escape(one.said)}</b>"
    return f'<span class="blank">{escape(one.label)} {said}</span>' if one.said else _blank(one.label)


def _blank(word: str) -> str:
    """A word with a line to write on; the two never part."""
    return f'<span class="blank">{word} <span class="line">&nbsp;</span></span>'


def _part(one: PartLine, cell: str) -> str:
    return (
        f'<tr><{cell}>{escape(one.part)}</{cell}><td>{escape(one.size)}</td><{cell} class="price">'
        f"{escape(one.price)}</{cell}></tr>"
    )


def _step(one: Step) -> str:
    boxes = "".join(f"<li>{_ticked(words)}</li>" for words in one.boxes)
    told = "".join(f"<li>{escape(words)}</li>" for words in one.told)
    time = f" ({escape(one.time)})" if one.time else ""
    return f"<li>{_ticked(one.words, time)}{_listed(told)}{_listed(boxes, 'boxes')}</li>"


def _listed(lines: str, kind: str = "told") -> str:
    return f'<ul class="{kind}">{lines}</ul>' if lines else ""


def _ticked(words: str, more: str = "") -> str:
    return f'<label><input type="checkbox"><span>{escape(words)}{more}</span></label>'


def _list(heading: str, lines: Iterable[str]) -> str:
    return f"<h2>{heading}</h2>{_bullets(lines)}"


def _bullets(lines: Iterable[str]) -> str:
    return f"<ul>{''.join(f'<li>{escape(words)}</li>' for words in lines)}</ul>"
