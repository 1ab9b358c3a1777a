"""The command line. Every command calls one verb of `shop/ask` and shows its answer."""

import sys
from importlib.metadata import version
from pathlib import Path
from typing import Annotated

import typer

from toptank.interfaces.cli import late
from toptank.interfaces.cli.commands import (
    choose_commands,
    coolant_commands,
    diagnose_commands,
    drive_commands,
    fit_commands,
    fleet_commands,
    forecast_commands,
    job_evidence_commands,
    key_commands,
    log_commands,
    mix_commands,
    order_commands,
    serve_commands,
    what_if_commands,
)
from toptank.interfaces.cli.options import JsonOption, Units, UnitsOption, print_json
from toptank.interfaces.cli.screen import run, write
from toptank.shop import door
from toptank.units.conversion import System

app = typer.Typer(
    name="toptank",
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
)
sheet = typer.Typer(help="Starting files for a job.", no_args_is_help=True)
app.add_typer(sheet, name="sheet")
app.add_typer(key_commands.job, name="job")
for _command in (job_evidence_commands.check, job_evidence_commands.driver):
    key_commands.job.command()(_command)
for _command in (
    forecast_commands.demo,
    diagnose_commands.diagnose,
    diagnose_commands.checks,
    diagnose_commands.causes,
    diagnose_commands.evaluate,
    forecast_commands.forecast,
    choose_commands.choose,
    choose_commands.prices,
    fit_commands.fit,
    fleet_commands.fleet,
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


ForceOption = Annotated[bool, typer.Option("--force", help="replace a file that exists")]
GlycolOption = Annotated[str, typer.Option("--glycol", help="ethylene or propylene")]
MixOption = Annotated[str, typer.Option("--mix", help='coolant strength, antifreeze by volume, e.g. "50/50" or "40 %"')]


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
    """Bench-rate a core: heat, outlet temperatures, pressure drops, laminar or turbulent flow in the tubes."""
    system = _system(units)
    answer = door.core(
        file, coolant_flow=coolant_flow, coolant_in=coolant_in, air_in=air_in, face_velocity=face_velocity, units=system
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
    """Show the boiling point under a cap, and what each pound of cap is really worth."""
    system = _system(units)
    answer = door.boil(cap=cap, glycol=glycol, mix=mix, altitude=altitude, units=system)
    _show("boil", answer, system, as_json)


@app.command()
def freeze(
    glycol: GlycolOption = "ethylene",
    mix: MixOption = "50/50",
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """Show the freeze point of a mix."""
    system = _system(units)
    _show("freeze", door.freeze(glycol=glycol, mix=mix, units=system), system, as_json)


@app.command()
def vehicles(units: UnitsOption = None, as_json: JsonOption = False) -> None:
    """List the typical vehicles that a job can start from."""
    _show("vehicles", door.vehicles(), _system(units), as_json)


@app.command()
def explain(
    quantity: Annotated[str, typer.Argument(help="a figure, e.g. air_to_boil, or a field, e.g. core.rows")],
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """Show where a figure comes from: equations, sources, what is assumed; or what a field means."""
    system = _system(units)
    _show("explain", door.explain(quantity), system, as_json)


@sheet.command("new")
def sheet_new(
    like: Annotated[str, typer.Option("--like", help="a typical vehicle; `toptank vehicles` lists them")],
    out: Annotated[Path | None, typer.Option("--out", help="save to a file instead of showing it")] = None,
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
        write(f"Saved {out}. Enter what you know, then run `toptank diagnose {out}`.")
    else:
        write(text)


def _version(asked: bool) -> None:
    if asked:
        write(f"toptank {version('toptank')}")
        raise typer.Exit


VersionOption = Annotated[bool, typer.Option("--version", help="show the version", callback=_version, is_eager=True)]


@app.callback()
def toptank(_asked: VersionOption = False) -> None:
    """Find out why a vehicle runs hot, and what repair will hold. Start with: demo, job new, diagnose."""


def _system(units: Units | None) -> System:
    return "us" if units is None else units.value


def _show(kind: str, answer: "door.Answer", system: System, as_json: bool) -> None:
    if as_json:
        print_json(answer, system)
    else:
        getattr(late.table, f"show_{kind}")(answer, system)


def main() -> None:
    """Run a command; what cannot be used is told in one sentence, with exit code 2."""
    sys.exit(run(app))


if __name__ == "__main__":
    main()
