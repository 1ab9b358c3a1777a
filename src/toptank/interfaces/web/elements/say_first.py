"""The answer first: one sentence twice the size, and what follows from it, before anything else of a page."""

from toptank.interfaces.web.elements.tags import Tag, tag
from toptank.shop.door import ShortAnswer


def dimmed(stale: bool) -> Tag:
    """Return a place for an answer that stands while it is worked out anew: dimmed where the job has changed since."""
    return tag("div", classes="stack stale", inert=True) if stale else tag("div", classes="stack")


def say_first(short: ShortAnswer) -> None:
    """Put the sentence that answers the page's question here, and the lines that a person acts on."""
    tag("p", short.answer, "answer")
    for line in short.lines:
        tag("p", line, "quiet")
