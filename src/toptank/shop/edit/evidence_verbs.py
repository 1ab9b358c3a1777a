"""The verbs of writing down what was found: a check with what it showed, what the driver says when he is asked.

Names are those of the screens, in any dialect, or ids; what was nearly written is offered.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from toptank.catalogue.checks.check import checks
from toptank.catalogue.symptoms.symptom import symptoms
from toptank.catalogue.words.aliases import id_of
from toptank.shop.edit import edit
from toptank.shop.edit import edit_document as edited
from toptank.shop.edit.check_figure import figure_kept
from toptank.shop.files.toml_file import shortened
from toptank.shop.job.former_format import upgraded
from toptank.shop.job.job_file import job_of
from toptank.shop.record import job_verbs
from toptank.shop.record.store import document
from toptank.units.nearest import did_you_mean, meant_one_of
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from toptank.shop.record.store.record import Revision

MOST_TOLD = 3
"""Symptoms that a refusal offers."""


def add_check(
    number: int, name: str, outcome: str, *, note: str = "", decisive: bool = False, author: str = ""
) -> Revision:
    """Write down a check with what it showed: an outcome in words, or a figure such as "10 psi".

    Parameters
    ----------
    name : of the check, as `toptank checks` lists it
    outcome : what it showed
    decisive : the fault itself was seen
    """
    id_ = id_of("check", name)
    if id_ is not None and checks()[id_].dimension is not None:
        outcome = figure_kept(id_, outcome, job_verbs.stored_job(number))
    values = {"name": id_ or name, "outcome": outcome, "note": note}
    if decisive:
        values["decisive"] = "true"
    return _added(number, "check", values, author)


def add_answer(number: int, said: str, *, denied: bool = False, note: str = "", author: str = "") -> Revision:
    """Write down what the driver says, or denies, when he is asked.

    Parameters
    ----------
    said : a symptom, as docs/symptoms.md lists it
    denied : he says it is not so
    """
    values = {"id": _symptom(said), "told": "denied" if denied else "", "note": note}
    return _added(number, "symptom", values, author)


def _added(number: int, key: str, values: dict[str, str], author: str) -> Revision:
    """Add a row, once the job with it has been read: what cannot be used is refused before anything is kept."""
    told = {name: text for name, text in values.items() if text.strip()}
    job_of(document.parsed(edited.with_row(upgraded(job_verbs.record(number).shown.text), key, told)))
    return edit.add_row(number, key, told, author=author)


def _symptom(said: str) -> str:
    """The id of a symptom by its words, or by its id."""
    wanted = _plain(said)
    known = {_plain(one.words): id_ for id_, one in symptoms().items()} | {id_: id_ for id_ in symptoms()}
    if wanted in known:
        return known[wanted]
    asked = _longer_words(wanted)
    sharing = sorted(known, key=lambda name: -len(asked & _longer_words(name)))[:MOST_TOLD]
    near = [name for name in sharing if asked & _longer_words(name)]
    fix = did_you_mean(said, known, meant_one_of(near, "docs/symptoms.md lists them"))
    raise Refusal(field="symptom", value=shortened(said), limit="is not a known symptom", fix=fix)


def _plain(said: str) -> str:
    return " ".join(said.split()).lower()


def _longer_words(said: str) -> set[str]:
    return {word for word in re.findall(r"[a-z]{4,}", said) if word not in ("when", "with", "that", "where")}
