"""What a job tells of who came with what, as lists and the search need it: kept beside each revision."""

import dataclasses
import re
import tomllib
from collections.abc import Mapping
from typing import NamedTuple, cast

from toptank.knowledge.typical import as_told
from toptank.shop.files.toml_file import MARK
from toptank.shop.job.job import Job

_APART = re.compile(r"[\s\-./()]+")
"""What people put between the signs of a number, and leave out when they search for it."""


class Counter(NamedTuple):
    """Who came with what, in the words of one revision; `words` is all that the search looks at, in small letters."""

    customer: str = ""
    registration: str = ""
    vehicle: str = ""
    promised: str = ""
    waiting_for: str = ""
    words: str = ""


def counter_of(job: Job) -> Counter:
    """Return what a job tells."""
    like = job.sheet.like
    return _counter(dataclasses.asdict(job.write_up), like, as_told(like).title if like else "")


def former_counter(text: str) -> Counter:
    """Return what the text of a revision tells that was saved before this was kept; nothing where it cannot be read.

    A step of the store calls it: it is never changed.
    """
    try:
        document = tomllib.loads(text.removeprefix(MARK))
    except (tomllib.TOMLDecodeError, RecursionError):
        return Counter()
    return _counter(_texts(document.get("write_up")), _texts(document.get("vehicle")).get("like", ""), "")


def _counter(said: Mapping[str, str], like: str, title: str) -> Counter:
    def told(key: str) -> str:
        return said.get(key, "")

    numbers = [told(key) for key in ("registration", "phone", "vin")]
    every = (told("customer"), told("mechanic"), like, title, *numbers, *(bare(one) for one in numbers))
    return Counter(
        customer=told("customer"),
        registration=told("registration"),
        vehicle=like,
        promised=told("promised"),
        waiting_for=told("waiting_for"),
        words="\n".join(dict.fromkeys(one.casefold() for one in every if one)),
    )


def bare(number: str) -> str:
    """Return a number of a plate or a phone without what parts its signs."""
    return _APART.sub("", number)


def _texts(table: object) -> dict[str, str]:
    if not isinstance(table, dict):
        return {}
    found = cast("dict[str, object]", table)
    return {key: " ".join(value.split()) for key, value in found.items() if isinstance(value, str)}
