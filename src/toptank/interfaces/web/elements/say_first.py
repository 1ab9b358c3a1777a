"""The answer first: one sentence twice the size, and what follows from it, before anything else of a page."""

from toptank.interfaces.web.elements.tags import tag
from toptank.shop.door import ShortAnswer


def say_first(short: ShortAnswer) -> None:
    """Put the sentence that answers the page's question here, and the lines that a person acts on."""
    tag("p", short.answer, "answer")
    for line in short.lines:
        tag("p", line, "quiet")
