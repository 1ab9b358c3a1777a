"""What several commands of the record share: the telling of a sentence or an answer, a revision, a kept answer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.interfaces.cli.options import print_json
from toptank.interfaces.cli.screen import write
from toptank.shop import door

if TYPE_CHECKING:
    from toptank.shop.door import Answer, KeptAnswer, Revision


def tell(answer: Answer, sentence: str, as_json: bool) -> None:
    """Print an answer as JSON, or the sentence."""
    if as_json:
        print_json(answer)
    else:
        write(sentence)


def tell_revision(revision: Revision, sentence: str, as_json: bool) -> None:
    """Print a revision without its text, or the sentence."""
    tell(door.revision_answer(revision), sentence, as_json)


def tell_answer(number: int, kept: KeptAnswer, as_json: bool) -> None:
    """Print an answer that was kept as JSON, or say that it was kept."""
    tell(door.kept_answer(number, kept), f"{kept.kind.capitalize()} saved with job {number}.", as_json)
