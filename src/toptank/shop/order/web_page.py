"""The same order as one HTML file without anything from elsewhere: it opens, is ticked and prints as it stands."""

from collections.abc import Iterable
from html import escape
from importlib import resources

from toptank.shop.order.pdf import Paper
from toptank.shop.order.record import Order, PartLine, Step

BLANKS = ("order no.", "date", "mechanic", "odometer")


def web_page(order: Order, paper: Paper) -> str:
    """Write the order; what people typed is escaped here."""
    style = resources.files("toptank.shop.order").joinpath("order.css").read_text(encoding="utf-8")
    size = {"letter": "letter", "a4": "A4"}[paper]
    return "\n".join(
        (
            '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">',
            '<meta name="viewport" content="width=device-width, initial-scale=1">',
            f"<title>{escape(order.title)}</title>",
            f"<style>\n{style}@page {{ size: {size}; margin: 12mm; }}\n</style>\n</head>\n<body>",
            _bench(order),
            _customer(order),
            "</body>\n</html>\n",
        )
    )


def _bench(order: Order) -> str:
    confirmed = f"<p><b>Confirmed in the job:</b> {escape(order.found)}. Before that it looked so:</p>"
    causes = (
        f"<li><b>{escape(one.cause)}, {escape(one.chance)}</b>: repair if so: {escape(one.repair)}. "
        f"<i>{escape(one.speaks)}</i></li>"
        for one in order.causes
    )
    first, *rest = order.correction
    readings = (
        f"<tr><td><b>{escape(one.duty)}</b>: {escape(one.day)}</td><td>{escape(one.before)}</td>"
        f'<td><b>{escape(one.after)}</b></td><td class="seen"></td></tr>'
        for one in order.readings
    )
    return "\n".join(
        (
            '<section class="bench">',
            _title("Work order: bench", order),
            '<p class="blanks">' + "".join(_blank(word) for word in BLANKS) + "</p>",
            f"<h2>Complaint</h2><blockquote>“{escape(order.complaint)}”</blockquote>" if order.complaint else "",
            f"<h2>Cause</h2>{confirmed if order.found else ''}<ul>{''.join(causes)}</ul>",
            f"<p>{escape(order.cause_note)}</p>",
            f"<h2>Correction</h2><p><b>{escape(first)}</b> {escape(' '.join(rest))}</p>",
            "<h2>Parts, sizes, prices</h2><table>",
            *(_part(one, "td") for one in order.parts),
            *(_part(one, "th") for one in order.totals),
            "</table>",
            _list("Coolant and water", order.coolant),
            _list("Cautions", order.cautions),
            _list("Assumptions that matter", (*order.assumptions, *order.remarks)),
            "<h2>Steps</h2><ol>",
            *(_step(one) for one in order.steps),
            f"</ol><p><i>{escape(order.time_note)}</i></p>",
            "<h2>Road test: what the gauge should show</h2>",
            "<table><tr><th>duty</th><th>without work</th><th>after it</th><th>seen</th></tr>",
            *readings,
            f"</table>{_bullets(order.stop)}\n</section>",
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
            _title("For you, the customer", order),
            *sections,
            f"<figure>{page.picture}<figcaption>{escape(page.picture_says)}</figcaption></figure>",
            f'<p class="blanks">{_blank("agreed:")}{_blank("date:")}</p>\n</section>',
        )
    )


def _title(kind: str, order: Order) -> str:
    invented = f'<p class="invented">{escape(order.invented)}</p>' if order.invented else ""
    return f"<h1>{kind}</h1>{invented}<p>{escape(order.title)}</p>"


def _blank(word: str) -> str:
    """A word with a line to write on; the two never part."""
    return f'<span class="blank">{word} <span>&nbsp;</span></span>'


def _part(one: PartLine, cell: str) -> str:
    return (
        f'<tr><{cell}>{escape(one.part)}</{cell}><td>{escape(one.size)}</td><{cell} class="price">'
        f"{escape(one.price)}</{cell}></tr>"
    )


def _step(one: Step) -> str:
    boxes = "".join(f"<li>{_ticked(words)}</li>" for words in one.boxes)
    told = "".join(f"<li>{escape(words)}</li>" for words in one.told)
    notes = "".join(f'<p class="note">{escape(words)}</p>' for words in one.notes)
    time = f" <i>({escape(one.time)})</i>" if one.time else ""
    return f"<li>{_ticked(one.words, time)}{_listed(told)}{_listed(boxes, 'boxes')}{notes}</li>"


def _listed(lines: str, kind: str = "told") -> str:
    return f'<ul class="{kind}">{lines}</ul>' if lines else ""


def _ticked(words: str, more: str = "") -> str:
    return f'<label><input type="checkbox">{escape(words)}{more}</label>'


def _list(heading: str, lines: Iterable[str]) -> str:
    return f"<h2>{heading}</h2>{_bullets(lines)}"


def _bullets(lines: Iterable[str]) -> str:
    return f"<ul>{''.join(f'<li>{escape(words)}</li>' for words in lines)}</ul>"
