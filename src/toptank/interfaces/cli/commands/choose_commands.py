"""Commands of choosing. Each calls one verb of shop/ask/choose and shows its answer."""

from pathlib import Path
from typing import Annotated, Any

import typer

from toptank.interfaces.cli.options import JobArgument, JsonOption, SeedOption, UnitsOption, print_json, working
from toptank.interfaces.cli.screen import write

PricesOption = Annotated[Path | None, typer.Option("--prices", help="the shop's own price book (TOML)")]
DrawsOption = Annotated[int | None, typer.Option("--draws", help="possible vehicles that every plan is tried on")]
ChartOption = Annotated[Path | None, typer.Option("--out", help="write price against chance to hold: .svg or .png")]
ForceOption = Annotated[bool, typer.Option("--force", help="replace a file that exists")]
WORK = "trying remedies on possible vehicles"


def choose(
    job: JobArgument,
    units: UnitsOption = None,
    as_json: JsonOption = False,
    seed: SeedOption = None,
    draws: DrawsOption = None,
    prices: PricesOption = None,
    out: ChartOption = None,
    force: ForceOption = False,
) -> None:
    """Forecast the customer's worst day for every remedy worth it, with its price, and say which one to take."""
    from toptank.shop.door import service

    opened = service.open_job(job)
    system = units.value if units else opened.system
    if out is not None:
        from toptank.interfaces.web.drawing.picture_file import check_picture_file

        check_picture_file(out, replace=force)
    if as_json:
        from toptank.shop.door import choice_answer, choose_verbs

        with working(WORK):
            answer = choose_verbs.choose(opened, seed=seed, draws=draws, price_book=prices)
        print_json(choice_answer(answer), system)
    else:
        answer = show_choice_of(opened, units, seed=seed, draws=draws, prices=prices)
    if out is not None:
        from toptank.interfaces.web.drawing.picture_file import write_picture
        from toptank.interfaces.web.drawing.trade_off import trade_off
        from toptank.shop.door import choice_answer

        write_picture(trade_off(choice_answer(answer), system), out, replace=force)
        if not as_json:
            write(f"Chart written to {out}.")


def show_choice_of(
    job: Any,
    units: Any,
    *,
    seed: int | None = None,
    draws: int | None = None,
    prices: Path | None = None,
    diagnosed: Any = None,
) -> Any:
    """Weigh remedies for a job, print the answer and return it."""
    from toptank.interfaces.cli.tables.choose_table import show_choice
    from toptank.shop.door import choose_verbs

    system = units.value if units else job.system
    with working(WORK):
        answer = choose_verbs.choose(job, seed=seed, draws=draws, price_book=prices, diagnosed=diagnosed)
    show_choice(answer, system)
    return answer


def prices(
    book: Annotated[Path | None, typer.Option("--prices", help="the shop's own price book (TOML)")] = None,
    as_json: JsonOption = False,
) -> None:
    """Show the price book: what parts and an hour cost the customer."""
    from toptank.shop.door import choose_verbs

    answer = choose_verbs.prices(book)
    if as_json:
        from toptank.shop.door import prices_answer

        print_json(prices_answer(answer))
    else:
        from toptank.interfaces.cli.tables.choose_table import show_prices

        show_prices(answer)
