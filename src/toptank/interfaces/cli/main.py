"""The command line. Every command calls one verb of `shop/ask` and shows its answer."""

import sys
from collections.abc import Callable
from concurrent.futures import Future
from inspect import Parameter, Signature, signature
from pathlib import Path
from tempfile import mkdtemp
from typing import TYPE_CHECKING, Annotated, Any, TypeAlias

import typer

from toptank.interfaces.cli import late
from toptank.interfaces.cli.commands import (
    choose_commands,
    coolant_commands,
    diagnose_commands,
    drive_commands,
    fit_commands,
    job_attachment_commands,
    log_commands,
    mix_commands,
    order_commands,
    serve_commands,
    what_if_commands,
)
from toptank.interfaces.cli.options import JobArgument, JsonOption, SeedOption, Units, UnitsOption, print_json, working
from toptank.interfaces.cli.screen import run, write
from toptank.shop import door
from toptank.units.conversion import System

if TYPE_CHECKING:
    from toptank.shop.door import Job

app = typer.Typer(
    name="toptank",
    help="Where will the gauge settle, how surely, and what does that rest on?",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
)
sheet = typer.Typer(help="Starting files for a job.", no_args_is_help=True)
app.add_typer(sheet, name="sheet")
app.add_typer(job_attachment_commands.job, name="job")
for _command in (
    diagnose_commands.diagnose,
    diagnose_commands.checks,
    diagnose_commands.causes,
    diagnose_commands.evaluate,
    choose_commands.choose,
    choose_commands.prices,
    fit_commands.fit,
    mix_commands.mix,
    coolant_commands.water,
    coolant_commands.cap,
    coolant_commands.bleed,
    order_commands.order,
    serve_commands.serve,
    drive_commands.drive,
    log_commands.log,
    log_commands.verify,
    what_if_commands.what_if,
):
    app.command()(_command)


OutOption = Annotated[Path | None, typer.Option("--out", help="write a chart of the bands: .png or .svg")]
DrawsOption = Annotated[int | None, typer.Option("--draws", help="number of possible vehicles drawn")]
ForceOption = Annotated[bool, typer.Option("--force", help="replace a file that exists")]
GlycolOption = Annotated[str, typer.Option("--glycol", help="ethylene or propylene")]
MixOption = Annotated[str, typer.Option("--mix", help='share of concentrate by volume, e.g. "50/50" or "40 %"')]

Command: TypeAlias = Callable[..., None]


def _forecast(
    job: "Job",
    units: UnitsOption = None,
    as_json: JsonOption = False,
    out: OutOption = None,
    draws: DrawsOption = None,
    seed: SeedOption = None,
    force: ForceOption = False,
    *,
    diagnosed: bool = False,
    check_drive: bool = False,
) -> None:
    """Forecast a job; what stands between the job and the star are the options of every command that forecasts one."""
    system = units.value if units else job.system
    if out is not None:
        late.check_chart_file(out, replace=force)
    with working(f"drawing possible vehicles and settling {len(job.duties)} duties"):
        answer = door.service.forecast(job, draws=draws, seed=seed)
    meanwhile = log_commands.compiled_meanwhile(job) if check_drive and not as_json else None
    if out is not None:
        late.write_chart(answer, out, system, replace=force)
    if as_json:
        said = door.forecast_answer(answer)
        print_json(
            door.demo_answer(said, door.diagnosis_answer(door.diagnose_verbs.diagnose(job))) if diagnosed else said,
            system,
        )
    else:
        late.show_forecast(answer, system)
        if out is not None:
            write(f"Chart written to {out}.")
        if diagnosed:
            _show_the_rest(job, units, meanwhile)


def _show_the_rest(job: "Job", units: Units | None, meanwhile: Future[None] | None) -> None:
    """From the causes to the paper, and the check drive if it is compiled meanwhile: what comes after the forecast."""
    write("")
    diagnosed = diagnose_commands.show_diagnosis_of(job, units, None)
    write("")
    chosen = choose_commands.show_choice_of(job, units, diagnosed=diagnosed)
    write("")
    fit_commands.show_fit_of(job, units)
    folder = Path(mkdtemp(prefix="toptank-demo-"))
    order_commands.write_order_of(
        job, units, pdf=folder / "order.pdf", html=folder / "order.html", diagnosed=diagnosed, chosen=chosen
    )
    if meanwhile is not None:
        write("")
        log_commands.show_simulated(job, units, chosen, meanwhile)


def _with_options_of_forecast(command: Command) -> Command:
    """Give a command the options of `_forecast` behind its own arguments; it takes them as `**options`."""
    own = [one for one in signature(command).parameters.values() if one.kind is not Parameter.VAR_KEYWORD]
    shared = [
        one for one in list(signature(_forecast).parameters.values())[1:] if one.kind is not Parameter.KEYWORD_ONLY
    ]
    vars(command)["__signature__"] = Signature([*own, *shared])  # typer reads this before the function itself
    command.__annotations__ |= {one.name: one.annotation for one in shared}
    return command


@app.command()
@_with_options_of_forecast
def demo(
    check_drive: Annotated[
        bool, typer.Option("--check-drive/--no-check-drive", help="end with a simulated check drive")
    ] = True,
    **options: Any,
) -> None:
    """Take the built-in example from complaint to check drive: an invented orchard minibus on its ridge road."""
    _forecast(door.service.demo_job(), **options, diagnosed=True, check_drive=check_drive)


@app.command()
@_with_options_of_forecast
def forecast(job: JobArgument, **options: Any) -> None:
    """Forecast the gauge at every duty of a job, with a band and what widens it."""
    _forecast(door.service.open_job(job), **options)


@app.command()
def core(
    file: Annotated[Path, typer.Argument(help="core file (TOML)")],
    coolant_flow: Annotated[str, typer.Option(help='e.g. "40 gpm"')] = "40 gpm",
    coolant_in: Annotated[str, typer.Option(help='e.g. "200 F"')] = "200 F",
    air_in: Annotated[str, typer.Option(help='e.g. "90 F"')] = "90 F",
    face_velocity: Annotated[str, typer.Option(help='e.g. "4 m/s"')] = "4 m/s",
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """Rate one core as on a bench: heat, outlet temperatures, pressure drops, conductance, regime of the tubes."""
    system = _system(units)
    answer = door.service.core_rating(
        file,
        coolant_flow=coolant_flow,
        coolant_in=coolant_in,
        air_in=air_in,
        face_velocity=face_velocity,
        system=system,
    )
    _show("core", answer, system, as_json)


@app.command()
def boil(
    cap: Annotated[str, typer.Option(help='pressure stamped on the cap, e.g. "15 psi"; 0 for open')] = "15 psi",
    glycol: GlycolOption = "ethylene",
    mix: MixOption = "50/50",
    altitude: Annotated[str, typer.Option(help='e.g. "5000 ft"')] = "0 ft",
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """Boiling point under a cap, a table over caps, and what each psi of cap is really worth."""
    system = _system(units)
    answer = door.boiling.boil(cap=cap, glycol=glycol, mix=mix, altitude=altitude, system=system)
    _show("boil", answer, system, as_json)


@app.command()
def freeze(
    glycol: GlycolOption = "ethylene",
    mix: MixOption = "50/50",
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """Freeze point of a mix."""
    system = _system(units)
    _show("freeze", door.boiling.freeze(glycol=glycol, mix=mix, system=system), system, as_json)


@app.command()
def vehicles(units: UnitsOption = None, as_json: JsonOption = False) -> None:
    """List the typical vehicles that a sheet can start from."""
    _show("vehicles", door.service.vehicles(), _system(units), as_json)


@app.command()
def explain(
    quantity: Annotated[str, typer.Argument(help="a figure, e.g. air_to_boil, or a field, e.g. core.rows")],
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """Say which equations a figure rests on, from which sources, and what is assumed; or what a field is."""
    system = _system(units)
    _show("explain", door.service.explain(quantity), system, as_json)


@sheet.command("new")
def sheet_new(
    like: Annotated[str, typer.Option("--like", help="a typical vehicle; `toptank vehicles` lists them")],
    out: Annotated[Path | None, typer.Option("--out", help="write to a file instead of the screen")] = None,
    units: UnitsOption = None,
    as_json: JsonOption = False,
    force: ForceOption = False,
) -> None:
    """Make a filled, commented starting file like a typical vehicle."""
    text = door.starting_file.new_sheet(like, system=_system(units))
    if out is not None:
        door.write_whole(out, text.encode("utf-8"), replace=force)
    if as_json:
        print_json(door.SheetAnswer(like=like, file=str(out) if out else None, text=text))
    elif out is not None:
        write(f"Starting file written to {out}: put in what is known, then `toptank forecast {out}`.")
    else:
        write(text)


def _system(units: Units | None) -> System:
    return "us" if units is None else units.value


def _show(kind: str, answer: Any, system: System, as_json: bool) -> None:
    if as_json:
        print_json(getattr(door.bench_answers, f"{kind}_answer")(answer), system)
    else:
        getattr(late.table, f"show_{kind}")(answer, system)


def main() -> None:
    """Run a command; what cannot be used is told in one sentence, with exit code 2."""
    sys.exit(run(app))


if __name__ == "__main__":
    main()
