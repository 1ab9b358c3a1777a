"""The verb of the fleet: many vehicles on one day, what each comes to, and what they come to together."""

from __future__ import annotations

import re
import time
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from toptank.shop.answers.answer import degC
from toptank.shop.answers.fleet import DOUBTFUL, SURE, FleetAnswer, FleetLine, at_some_hour, left_out, ranked
from toptank.shop.ask.diagnose import checked_seed
from toptank.shop.ask.fleet import engines
from toptank.shop.ask.fleet.done_file import DoneFile
from toptank.shop.ask.fleet.fleet_file import check_fleet_file, write_fleet
from toptank.shop.ask.fleet.item import COOLED_FROM, FleetItem, FleetQuestion
from toptank.shop.ask.fleet.lines import lines_of
from toptank.shop.ask.fleet.source import read_source
from toptank.shop.files.typed_figure import between
from toptank.shop.job.price_book import built_in, read_prices
from toptank.shop.record import own_prices
from toptank.studies.fleet.hours import USUAL_RANGE
from toptank.system.balance import EQUATIONS_VERSION
from toptank.system.numerics.where_run import running, where_run
from toptank.units.cancellation import CancelCheck, never_cancelled
from toptank.units.dimension import TEMPERATURE
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from toptank.units.conversion import System

DRAWS, FEWEST, MOST = 256, 64, 4096
AT_ONCE = 32
"""Vehicles that go together: enough to fill the kernels, few enough to be lost when the power goes."""

AT_ONCE_ON_GPU = 256
"""The same on a GPU."""

LEAVE = "06:00..20:00"
NOTE = (
    "Hours are by the sun, on a clear day; the air is taken to be as hot at the top of the road as at its foot. "
    "A chance rests on what is known of a vehicle: measure the ones that are close."
)

COOLED = (
    "A/C is taken to be on where a vehicle has it and its row does not say otherwise: write no under air_conditioning "
    "for one that goes without."
)


class Progress(NamedTuple):
    """How far it is: vehicles done and in all, and the time that is left at this pace [s]."""

    done: int
    of: int
    left: float


Told = Callable[[Progress], None]


def _untold(_: Progress) -> None:
    return


def fleet(
    source: str | Path,
    *,
    day: str,
    route: Path | None = None,
    speed: str | None = None,
    leave: str | None = None,
    plans: bool = False,
    price_book: Path | None = None,
    out: Path | None = None,
    replace: bool = False,
    draws: int | None = None,
    seed: int | None = None,
    system: System = "us",
    workers: int | None = None,
    scheduler: str | None = None,
    device: str | None = None,
    progress: Told = _untold,
    go_on: CancelCheck = never_cancelled,
) -> FleetAnswer:
    """Ask what a day would do to every vehicle of a fleet.

    Parameters
    ----------
    source : folder of job files, a job file, a table (.csv, .parquet), or "record"
    day : hottest air of the day, "105 F", or coolest and hottest, "78 F to 105 F"
    route, speed : a road as a GPX file, and how fast it is driven; left out: each vehicle's own worst day
    leave : hours of leaving, "06:00..20:00"
    plans, price_book : also seek the cheapest work for those that do not hold, with the prices of this file; left out:
        those that the shop has set, else the built-in ones
    out, replace : file of the vehicles (.csv, .parquet, .jsonl); whether one that is there may be replaced. A run that
        was stopped goes on from what stands beside it
    draws, seed : simulations of each vehicle
    system : unit system of bare figures and of the words in the output
    workers, scheduler : so many processes of this machine, or the address of a Dask scheduler; left out: this process
    device : "cpu" or "gpu"; left out: the GPU where JAX sees one and this process does the work
    progress : is told how far it is
    go_on : is called between lots, and may stop the work
    """
    where = engines.place(device, alone=workers is None and scheduler is None)
    asked = _question(day, route, speed, leave, plans, price_book, draws, seed, system)
    if out is not None:
        check_fleet_file(out, replace=replace)
    items, bad, remarks = read_source(str(source), Path(source))
    done = DoneFile(out, asked, system)
    open_ones = [item for item in items if done.line(item) is None]
    with running(where):
        pieces = _answered(open_ones, asked, workers, scheduler, go_on)
        for some, lines in _timed(pieces, len(items), open_ones, progress):
            done.add(some, lines)
    lines = [line for item in items if (line := done.line(item)) is not None]
    if asked.day >= COOLED_FROM and any(one.kind == "row" and "air_conditioning" not in one.told for one in items):
        remarks = (*remarks, COOLED)
    told = {item.line: left_out(item, refusal) for item, refusal in bad}
    whole = _answer(asked, [*lines, *(told[key] for key in sorted(told))], remarks)
    if out is not None:
        write_fleet(whole, out, system, replace=replace)
        done.finished()
    return whole


def _answered(
    items: Sequence[FleetItem], asked: FleetQuestion, workers: int | None, scheduler: str | None, go_on: CancelCheck
) -> Iterator[tuple[Sequence[FleetItem], list[FleetLine]]]:
    """Pieces of the fleet with what they come to, as they are done."""
    at_once = AT_ONCE if where_run().device is None else AT_ONCE_ON_GPU
    pieces = [items[start : start + at_once] for start in range(0, len(items), at_once)]
    if not pieces:
        return
    if workers is None and scheduler is None:
        for piece in pieces:
            go_on()
            yield piece, lines_of(piece, asked, go_on)
    else:
        yield from engines.on_cluster(pieces, asked, workers=workers, scheduler=scheduler, go_on=go_on)


def _timed(
    pieces: Iterator[tuple[Sequence[FleetItem], list[FleetLine]]],
    of: int,
    open_ones: Sequence[FleetItem],
    progress: Told,
) -> Iterator[tuple[Sequence[FleetItem], list[FleetLine]]]:
    begun, before, done = time.monotonic(), of - len(open_ones), 0
    progress(Progress(before, of, float("nan")))
    for some, lines in pieces:
        done += len(some)
        yield some, lines
        left = (time.monotonic() - begun) / done * (len(open_ones) - done)
        progress(Progress(before + done, of, left))


def _answer(asked: FleetQuestion, lines: Sequence[FleetLine], remarks: Sequence[str]) -> FleetAnswer:
    vehicles, out = ranked(lines)
    held = [one.holds_pct for one in vehicles]
    book = built_in() if asked.price_book is None else read_prices(asked.price_book)
    return FleetAnswer(
        equations_version=EQUATIONS_VERSION,
        day_degC=degC(asked.day),
        coolest_degC=degC(asked.coolest),
        road="" if asked.route is None else asked.route.name,
        draws=asked.draws,
        seed=asked.seed,
        hold=sum(chance >= SURE for chance in held),
        doubtful=sum(DOUBTFUL <= chance < SURE for chance in held),
        do_not_hold=sum(chance < DOUBTFUL for chance in held),
        hold_at_some_hour=sum(at_some_hour(one) for one in vehicles),
        expected_to_hold=round(0.01 * sum(held), 1),
        work_cost=round(sum(one.work.cost for one in vehicles if one.work is not None), 2),
        currency=book.currency,
        vehicles=vehicles,
        left_out=out,
        remarks=(*remarks, NOTE),
    )


def _question(
    day: str,
    route: Path | None,
    speed: str | None,
    leave: str | None,
    plans: bool,
    price_book: Path | None,
    draws: int | None,
    seed: int | None,
    system: System,
) -> FleetQuestion:
    draws = DRAWS if draws is None else draws
    if not FEWEST <= draws <= MOST:
        limit = f"must lie between {FEWEST} and {MOST:,}"
        raise Refusal(field="draws", value=str(draws), limit=limit, fix=f"{DRAWS} is usual")
    for path, field in ((route, "route"), (price_book, "prices")):
        if path is not None and not path.is_file():
            raise Refusal(field=field, value=str(path), limit="is not a file that can be read", fix="check the name")
    coolest, hottest = _day(day, system)
    return FleetQuestion(
        day=hottest,
        coolest=coolest,
        route=None if route is None else route.resolve(),
        speed=speed,
        leave=_leave(leave or LEAVE),
        plans=plans,
        price_book=_prices(price_book),
        draws=draws,
        seed=checked_seed(seed),
        system=system,
    )


def _prices(named: Path | None) -> Path | None:
    """The file of prices that counts: the one that is named, else the shop's own; None where it has none.

    Processes of a cluster are told of the file: their own record is another, or none.
    """
    own = own_prices.place()
    path = named if named is not None or not own.is_file() else own
    return None if path is None else path.resolve()


def _day(text: str, system: System) -> tuple[float, float]:
    """Coolest and hottest air of the day [K]."""
    ends = [between("day", end, TEMPERATURE, 233.15, 328.15, system, []) for end in re.split(r"\s+to\s+", text.strip())]
    if len(ends) > 2 or ends != sorted(ends):
        fix = 'write "105 F", or "78 F to 105 F"'
        raise Refusal(field="day", value=text, limit="must be the hottest air, or the coolest and the hottest", fix=fix)
    return (ends[0], ends[1]) if len(ends) == 2 else (ends[0] - USUAL_RANGE, ends[0])


def _leave(text: str) -> tuple[int, int]:
    """First and last hour of leaving."""
    match = re.fullmatch(r"\s*(\d{1,2})(?::00)?\s*(?:\.\.|-|to)\s*(\d{1,2})(?::00)?\s*", text)
    hours = (int(match[1]), int(match[2])) if match else (0, -1)
    if not 0 <= hours[0] <= hours[1] <= 23:
        limit = "must be two full hours of one day, the earlier first"
        raise Refusal(field="leave", value=text, limit=limit, fix=f"write it as {LEAVE}")
    return hours
