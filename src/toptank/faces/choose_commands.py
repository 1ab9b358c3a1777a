"""Commands of choosing. Each calls one verb of jobs/choose_verbs and shows its answer."""

from pathlib import Path
from typing import Annotated, Any

import typer

from toptank.faces.options import JsonOption, SeedOption, UnitsOption, print_json, working

PricesOption = Annotated[Path | None, typer.Option("--prices", help="the shop's own price book (TOML)")]
DrawsOption = Annotated[int | None, typer.Option("--draws", help="possible vehicles that every plan is tried on")]
WORK = "trying remedies on possible vehicles"


def choose(
    job: Annotated[Path, typer.Argument(help="job file (TOML)")],
    units: UnitsOption = None,
    as_json: JsonOption = False,
    seed: SeedOption = None,
    draws: DrawsOption = None,
    prices: PricesOption = None,
) -> None:
    """Forecast the customer's worst day for every remedy worth it, with its price, and say which one to take."""
    from toptank.jobs import service

    show_choice_of(service.open_job(job), units, as_json=as_json, seed=seed, draws=draws, prices=prices)


def show_choice_of(
    job: Any, units: Any, *, as_json: bool, seed: int | None, draws: int | None = None, prices: Path | None = None
) -> None:
    """Weigh remedies for a job and show the answer."""
    from toptank.jobs import choose_verbs

    system = units.value if units else job.system
    with working(WORK):
        answer = choose_verbs.choose(job, seed=seed, draws=draws, price_book=prices)
    if as_json:
        from toptank.jobs.choose_json import choose_json

        print_json(choose_json(answer, system))
    else:
        from toptank.faces.choose_table import show_choice

        show_choice(answer, system)


def prices(
    book: Annotated[Path | None, typer.Option("--prices", help="the shop's own price book (TOML)")] = None,
    as_json: JsonOption = False,
) -> None:
    """Show the price book: what parts and an hour cost the customer."""
    from toptank.jobs import choose_verbs

    answer = choose_verbs.prices(book)
    if as_json:
        from toptank.jobs.choose_json import prices_json

        print_json(prices_json(answer))
    else:
        from toptank.faces.choose_table import show_prices

        show_prices(answer)
