"""Commands of choosing. Each calls one verb of shop/ask/choose and shows its answer."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from toptank.interfaces.cli import late
from toptank.interfaces.cli.options import (
    DrawsOption,
    FullOption,
    JobArgument,
    JsonOption,
    SeedOption,
    Units,
    UnitsOption,
    print_json,
    working,
)
from toptank.interfaces.cli.screen import write
from toptank.shop import door
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from toptank.shop.door import Chosen, Diagnosed, Job

PricesOption = Annotated[Path | None, typer.Option("--prices", help="the shop's own price book (TOML)")]
ChartOption = Annotated[Path | None, typer.Option("--out", help="save a chart of price against chance: .svg or .png")]
ForceOption = Annotated[bool, typer.Option("--force", help="replace a file that exists")]
WORK = "trying each repair on the worst day"


def choose(
    job: JobArgument,
    units: UnitsOption = None,
    as_json: JsonOption = False,
    seed: SeedOption = None,
    draws: DrawsOption = None,
    prices: PricesOption = None,
    out: ChartOption = None,
    force: ForceOption = False,
    full: FullOption = False,
) -> None:
    """Compare repairs by price and by the chance to stay cool on the customer's worst day; say which to take."""
    opened = door.service.open_job(job)
    system = units.value if units else opened.system
    if out is not None:
        late.check_picture_file(out, replace=force)
    if as_json:
        with working(WORK):
            answer = door.choose_verbs.choose(opened, seed=seed, draws=draws, price_book=prices)
        print_json(door.choice_answer(answer), system)
    else:
        answer = show_choice_of(opened, units, seed=seed, draws=draws, prices=prices, full=full)
    if out is not None:
        late.write_picture(late.trade_off(door.choice_answer(answer), system), out, replace=force)
        if not as_json:
            write(f"Chart saved: {out}")


def show_choice_of(
    job: "Job",
    units: Units | None,
    *,
    seed: int | None = None,
    draws: int | None = None,
    prices: Path | None = None,
    diagnosed: "Diagnosed | None" = None,
    full: bool = False,
) -> "Chosen":
    """Weigh remedies for a job, print the answer and return it."""
    system = units.value if units else job.system
    with working(WORK):
        answer = door.choose_verbs.choose(job, seed=seed, draws=draws, price_book=prices, diagnosed=diagnosed)
    show = late.show_choice if full else late.show_choice_summary
    show(answer, system)
    return answer


def prices(
    book: Annotated[Path | None, typer.Option("--prices", help="the shop's own price book (TOML)")] = None,
    keep: Annotated[bool, typer.Option("--keep", help="make the file the shop's own from now on")] = False,
    as_json: JsonOption = False,
) -> None:
    """Show the price book: what parts and an hour of labor cost the customer."""
    if keep and book is None:
        fix = "name the file with --prices"
        raise Refusal(field="keep", value="(no file)", limit="needs a price book", fix=fix)
    answer = door.own_prices.keep(book) if keep and book is not None else door.choose_verbs.prices(book)
    if as_json:
        print_json(door.prices_answer(answer))
    else:
        late.show_prices(answer)
