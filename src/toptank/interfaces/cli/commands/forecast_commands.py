"""The commands of forecasting a job and of the built-in example. Each calls verbs of shop/ask."""

from collections.abc import Callable
from inspect import Parameter, Signature, signature
from pathlib import Path
from tempfile import mkdtemp
from typing import TYPE_CHECKING, Annotated, Any, TypeAlias

import typer

from toptank.interfaces.cli import late
from toptank.interfaces.cli.commands import (
    choose_commands,
    diagnose_commands,
    fit_commands,
    log_commands,
    order_commands,
)
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

if TYPE_CHECKING:
    from toptank.shop.door import Chosen, Diagnosed, Forecast, Job

OutOption = Annotated[Path | None, typer.Option("--out", help="save a chart of the ranges: .png or .svg")]
ForceOption = Annotated[bool, typer.Option("--force", help="replace a file that exists")]
RoadTestOption = Annotated[
    bool, typer.Option("--road-test/--no-road-test", help="with --full: end with a simulated road test")
]

Command: TypeAlias = Callable[..., None]


def _forecast(
    job: "Job",
    units: UnitsOption = None,
    as_json: JsonOption = False,
    full: FullOption = False,
    out: OutOption = None,
    draws: DrawsOption = None,
    seed: SeedOption = None,
    force: ForceOption = False,
) -> "Forecast":
    """Forecast a job; what stands behind the job are the options of every command that forecasts one."""
    system = units.value if units else job.system
    if out is not None:
        late.check_chart_file(out, replace=force)
    with working(f"forecasting {len(job.duties)} conditions"):
        answer = door.service.forecast(job, draws=draws, seed=seed)
    if out is not None:
        late.write_chart(answer, out, system, replace=force)
    if not as_json:
        (late.show_forecast if full else late.show_forecast_summary)(answer, system)
        if out is not None:
            write(f"Chart saved: {out}")
    return answer


def _with_options_of_forecast(command: Command) -> Command:
    """Give a command the options of `_forecast` behind its own arguments; it takes them as `**options`."""
    own = [one for one in signature(command).parameters.values() if one.kind is not Parameter.VAR_KEYWORD]
    shared = list(signature(_forecast).parameters.values())[1:]
    vars(command)["__signature__"] = Signature([*own, *shared])  # typer reads this before the function itself
    command.__annotations__ |= {one.name: one.annotation for one in shared}
    return command


@_with_options_of_forecast
def forecast(job: JobArgument, **options: Any) -> None:
    """Forecast the gauge at every condition of a job: the likely range, and the chance that it boils."""
    opened = door.service.open_job(job)
    answer = _forecast(opened, **options)
    if options["as_json"]:
        print_json(door.forecast_answer(answer), options["units"].value if options["units"] else opened.system)


@_with_options_of_forecast
def demo(road_test: RoadTestOption = True, **options: Any) -> None:
    """See the built-in example go from complaint to work order: an invented orchard minibus on its ridge road."""
    job, units = door.service.demo_job(), options["units"]
    if options["as_json"]:
        said = door.forecast_answer(_forecast(job, **options))
        diagnosed = door.diagnosis_answer(door.diagnose_verbs.diagnose(job))
        print_json(door.demo_answer(said, diagnosed), units.value if units else job.system)
    elif options["full"]:
        _whole_demo(job, units, options, road_test=road_test)
    else:
        _short_demo(job, units, options)


def _short_demo(job: "Job", units: Units | None, options: dict[str, Any]) -> None:
    """The answer first: what is wrong, what to check, what to do, where the papers are; a screen and a half."""
    system = units.value if units else job.system
    if options["out"] is not None:
        late.check_chart_file(options["out"], replace=options["force"])
        forecasted = door.service.forecast(job, draws=options["draws"], seed=options["seed"])
        late.write_chart(forecasted, options["out"], system, replace=options["force"])
    with working(diagnose_commands.WORK):
        diagnosed = door.diagnose_verbs.diagnose(job, seed=options["seed"])
    with working(choose_commands.WORK):
        chosen = door.choose_verbs.choose(job, draws=options["draws"], seed=options["seed"], diagnosed=diagnosed)
    folder = _papers(job, units, diagnosed, chosen, quiet=True)
    late.write_picture(late.trade_off(door.choice_answer(chosen), system), folder / "plans.svg", replace=True)
    late.show_demo_summary(diagnosed, chosen, system, folder)


def _whole_demo(job: "Job", units: Units | None, options: dict[str, Any], *, road_test: bool) -> None:
    """Everything: from the forecast to the papers, and a simulated road test, compiled meanwhile."""
    _forecast(job, **options)
    meanwhile = log_commands.compiled_meanwhile(job) if road_test else None
    write("")
    diagnosed = diagnose_commands.show_diagnosis_of(job, units, None, full=True)
    write("")
    chosen = choose_commands.show_choice_of(job, units, diagnosed=diagnosed, full=True)
    write("")
    fit_commands.show_fit_of(job, units)
    _papers(job, units, diagnosed, chosen, quiet=False)
    if meanwhile is not None:
        write("")
        log_commands.show_simulated(job, units, chosen, meanwhile)


def _papers(job: "Job", units: Units | None, diagnosed: "Diagnosed", chosen: "Chosen", *, quiet: bool) -> Path:
    """Write the work order into a folder of its own, and return the folder."""
    folder = Path(mkdtemp(prefix="toptank-demo-"))
    order_commands.write_order_of(
        job,
        units,
        pdf=folder / "order.pdf",
        html=folder / "order.html",
        diagnosed=diagnosed,
        chosen=chosen,
        quiet=quiet,
    )
    return folder
