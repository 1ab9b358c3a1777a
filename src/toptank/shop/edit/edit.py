"""The verbs of changing a job bit by bit: one field, one row, the units; and of taking the last change back.

Each reads the newest revision, changes what it is asked to, and saves the next one; comments stay. Two people who
change different fields do not disturb each other; who changes the same one is told what the other wrote. A row is meant
by its name (`row_names`), not by its place, which shifts when somebody takes another one out.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from toptank.shop.answers.words import naming
from toptank.shop.edit import edit_document as edited
from toptank.shop.edit import row_names
from toptank.shop.edit.edit_groups import burst_of
from toptank.shop.edit.form import typed_text
from toptank.shop.edit.proposed_figure import ProposedFigure
from toptank.shop.files.toml_file import shortened
from toptank.shop.job.former_format import upgraded
from toptank.shop.job.write_up import KEYS as WRITE_UP
from toptank.shop.record import job_verbs
from toptank.shop.record.store import document
from toptank.shop.record.store import jobs_and_revisions as kept
from toptank.shop.record.store.jobs_and_revisions import Rewritten
from toptank.shop.record.store.kinds import back_to, revision_gone_back_to, taken_out
from toptank.shop.record.store.opening import Store, opened
from toptank.shop.record.store.record import Revision
from toptank.shop.record.store.rescue_copy import kept_if_it_fails
from toptank.shop.record.store.words import check_encodable
from toptank.units.conversion import System, system_named
from toptank.units.nearest import did_you_mean
from toptank.units.refusal import Refusal

LONGEST = 4000
"""Longest text of a field [sign]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Clash:
    """Somebody else changed the field since `base` was read: what stands there now."""

    theirs: str


def set_field(
    number: int,
    path: str,
    text: str,
    *,
    base: str | None = None,
    how: str | None = None,
    row: str | None = None,
    author: str = "",
    sitting: str = "",
) -> Revision | Clash:
    """Write one field as it was typed; an empty text takes it out, so that the typical value stands in.

    Parameters
    ----------
    path : e.g. "core.rows", "job.complaint", "duty.0.speed", "reading.1.gauge"
    base : what stood there when the person began; None writes over whatever stands there
    how : measured, plate or assumed; None leaves it as it is, measured for a new one
    row : name of the row that is meant, wherever it stands now; None means the place in `path`
    sitting : names the open page on which it was typed: what is typed there within a minute is taken back together

    Raises
    ------
    Refusal : if the text cannot be used, or the row was taken out; nothing is changed then
    """
    if len(text) > LONGEST:
        limit = f"is longer than {LONGEST:,} signs"
        raise Refusal(field=path, value=shortened(text), limit=limit, fix="put the rest into a note")
    text = _readable(text, path)
    clash: list[Clash] = []

    def write(store: Store, newest: Revision) -> Rewritten:
        here = path
        if row:
            key, name = path.partition(".")[0], path.rpartition(".")[2]
            here = f"{key}.{row_names.place_of(store, newest, key, row)}.{name}"
        note = f"{here}: {shortened(text, 40) or 'taken out'}"
        stands, stands_how = typed_text(edited.value_at(document.parsed(newest.text), here))
        if base is not None and stands not in (base.strip(), text):
            clash.append(Clash(theirs=stands))
            return Rewritten(newest.text, note)
        if stands == text and how in (None, stands_how):
            return Rewritten(newest.text, note)
        made = edited.with_value(newest.text, here, text, how if how is not None else stands_how)
        return Rewritten(made, note)

    saved = _saved(number, write, f"{path} = {text}", author=author, sitting=sitting)
    return clash[0] if clash else saved


def add_row(number: int, key: str, values: Mapping[str, str], *, author: str = "") -> Revision:
    """Add a table to a list: a duty, a reading, a check with its outcome, a change, an offer."""
    values = _readable_row(key, values)

    def write(_: Store, newest: Revision) -> Rewritten:
        told = shortened(", ".join(_told(key, values, newest.text)), 60)
        return Rewritten(edited.with_row(newest.text, key, values), f"{key}: {told}")

    return _saved(number, write, _typed_row(key, values), author=author)


def add_reading(
    number: int, place: int, values: Mapping[str, str], *, row: str | None = None, author: str = ""
) -> Revision:
    """Write down what was seen at a duty, whatever that is called by now.

    Parameters
    ----------
    place : of the duty in its list
    row : name of the row that is meant, wherever it stands now; None means the `place`
    """
    values = _readable_row("reading", values)

    def write(store: Store, newest: Revision) -> Rewritten:
        here = row_names.place_of(store, newest, "duty", row) if row else place
        duty = typed_text(edited.value_at(document.parsed(newest.text), f"duty.{here}.name"))[0]
        told = shortened(", ".join((duty, *values.values())), 60)
        made = edited.with_row(newest.text, "reading", {"duty": duty, **values})
        return Rewritten(made, f"reading: {told}")

    return _saved(number, write, _typed_row("reading", values), author=author)


def remove_row(number: int, key: str, place: int, *, row: str | None = None, author: str = "") -> Revision:
    """Take a table out of a list; with a duty go the readings that were taken at it.

    Parameters
    ----------
    row : name of the row that is meant, wherever it stands now; None means the `place`
    """

    def write(store: Store, newest: Revision) -> Rewritten:
        here = row_names.place_of(store, newest, key, row) if row else place
        note = f"{key} {here + 1} taken out"
        return Rewritten(edited.without_row(newest.text, key, here), note, taken_out(key, here))

    return _saved(number, write, f"taken out: {key}", author=author)


def confirm_figure(number: int, figure: ProposedFigure, *, author: str = "") -> Revision:
    """Write down a figure that the complaint tells, now that somebody has confirmed it."""
    return _changed(number, figure.written, author=author, note=shortened(f"confirmed: {figure.told}", 60))


def set_write_up(number: int, said: Mapping[str, str], *, author: str = "") -> Revision:
    """Write who came with what, of `write_up.KEYS` what is named; an empty text takes an entry out.

    Raises
    ------
    Refusal : if an entry is none of a job, or cannot be used; nothing is changed then
    """
    for key in said:
        if key not in WRITE_UP:
            fix = did_you_mean(key, WRITE_UP, f"write one of {', '.join(WRITE_UP)}")
            raise Refusal(field="entry", value=shortened(key), limit="is not asked for at the counter", fix=fix)
    told = {key: _readable(text, f"write_up.{key}") for key, text in said.items()}
    note = shortened("; ".join(f"write_up.{key}: {text or 'taken out'}" for key, text in told.items()), 60)

    def write(text: str) -> str:
        for key, typed in told.items():
            text = edited.with_value(text, f"write_up.{key}", typed, "")
        return text

    return _changed(number, write, author=author, note=note)


def set_log_columns(number: int, columns: Sequence[str], decimal: str, *, author: str = "") -> Revision:
    """Write what columns of logs mean, and the sign before decimals; empty ones are taken out."""
    told = [_readable(column, "log.columns") for column in columns]

    def write(text: str) -> str:
        return edited.with_value(edited.with_list(text, "log.columns", told), "log.decimal", decimal, "")

    note = f"columns of logs: {shortened(', '.join(told), 60) or 'as their heads say'}"
    return _changed(number, write, author=author, note=note)


def set_units(number: int, system: System, *, author: str = "") -> Revision:
    """Show the job in other units; bare numbers get the unit that they were typed in first."""
    return _changed(number, lambda text: edited.with_units(text, system), author=author, note=f"units: {system}")


def set_worst_day(number: int, rows: Iterable[Mapping[str, str]], *, author: str = "") -> Revision:
    """Write the customer's worst day; without rows the one that is offered stands in."""
    told = [_readable_row("worst_day", row) for row in rows]
    return _changed(number, lambda text: edited.with_rows(text, "worst_day", told), author=author, note="worst day")


def undo(number: int, *, author: str = "") -> Revision:
    """Take the last change back, or the last burst of typing; again takes back the one before.

    Nothing is lost: every revision stays.

    Raises
    ------
    Refusal : if there is nothing to take back, or somebody saved meanwhile: his change is not taken back
    """
    newest = job_verbs.record(number).shown
    undone = revision_gone_back_to(newest.change)
    last = newest.number if undone is None else undone
    target = burst_of(job_verbs.history(number), last)[0].number - 1
    if target < 1:
        fix = "the record lists every revision"
        raise Refusal(field="undo", value=str(newest.number), limit="there is nothing left to take back", fix=fix)
    text = job_verbs.record(number, revision=target).shown.text
    note = f"undone: back to revision {target}"
    job_verbs.check_signature(author, note)
    with opened() as store:
        at = job_verbs.now()
        return kept.save(
            store, number, text, based_on=newest.number, author=author, note=note, at=at, change=back_to(target)
        )


def _changed(number: int, write: Callable[[str], str], *, author: str, note: str) -> Revision:
    """Save what `write` makes of the newest text."""
    return _saved(number, lambda _, newest: Rewritten(write(newest.text), note), note, author=author)


def _typed_row(key: str, values: Mapping[str, str]) -> str:
    return "\n".join((f"[[{key}]]", *(f"{name} = {text}" for name, text in values.items())))


def _saved(
    number: int, write: Callable[[Store, Revision], Rewritten], typed: str, *, author: str, sitting: str = ""
) -> Revision:
    """Save the text and the note that `write` makes of the newest revision; others wait meanwhile.

    Where the record cannot take it, what was `typed` is kept in a file elsewhere.
    """
    job_verbs.check_signature(author, "")
    with kept_if_it_fails(f"job {number}\n{typed}\n", ".txt"), opened() as store:
        return kept.rewrite(
            store,
            number,
            lambda newest: _of_today(store, newest, write),
            author=author,
            at=job_verbs.now,
            sitting=sitting,
        )


def _of_today(store: Store, newest: Revision, write: Callable[[Store, Revision], Rewritten]) -> Rewritten:
    """Write on in the format of today; where nothing is changed nothing is brought along either."""
    job_verbs.refuse_closed(newest)
    made = write(store, dataclasses.replace(newest, text=upgraded(newest.text)))
    return made if made.text != upgraded(newest.text) else made._replace(text=newest.text)


def _told(key: str, values: Mapping[str, str], text: str) -> tuple[str, ...]:
    """Say a row in words: what stands in it by an id is named."""
    system = system_named(document.parsed(text).get("units"))
    if key == "check":
        rest = (text for name, text in values.items() if name not in ("name", "outcome"))
        return *naming.finding(values.get("name", ""), values.get("outcome", ""), system), *rest
    if key == "changed":
        rest = (text for name, text in values.items() if name != "part")
        return naming.written_work(values.get("part", ""), system), *rest
    return tuple(values.values())


def _readable(text: str, field: str) -> str:
    check_encodable(text, field)
    return text.strip()


def _readable_row(key: str, values: Mapping[str, str]) -> dict[str, str]:
    told = {name: _readable(text, f"{key}.{name}") for name, text in values.items()}
    return {name: text for name, text in told.items() if text}
