"""Write the pages and schemas under docs/ that are made from the code.

Fields and commands are written here; all others in the `docs_of_*` beside this file.

`python tools/write_docs.py` writes them all; a test compares what is committed with what this would write.
"""

import json
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, get_type_hints

import typer
from docs_of_choice import prices_page, remedies_page
from docs_of_diagnosis import causes_page, checks_page
from docs_of_index import symptoms_index
from docs_of_job_file import job_file_page
from docs_of_rest import rest_page
from docs_of_speed import speed_page
from docs_of_symptoms import symptoms_page

from toptank.interfaces.cli.main import app
from toptank.knowledge.sheet import duty_fields, sections
from toptank.shop.answers.file_schemas import SYSTEMS, limits_in_words
from toptank.shop.answers.schemas import schemas
from toptank.shop.answers.words.figures import MOVES_NOTHING
from toptank.system.duty import Duty
from toptank.system.vehicle import Vehicle
from toptank.units.conversion import System
from toptank.units.declaration import Declaration
from toptank.units.dimension import CHOICE, FRACTION, TEMPERATURE, TEMPERATURE_RISE, YES_NO, Dimension
from toptank.units.display import show

ROOT = Path(__file__).parents[1]
DOCS = ROOT / "docs"
ALIKE = {
    **dict.fromkeys(
        (
            "job-new",
            "job-save",
            "job-revert",
            "job-close",
            "job-reopen",
            "job-import",
            "job-write-up",
            "job-check",
            "job-driver",
        ),
        "job-revision",
    ),
    **dict.fromkeys(("job-forecast", "job-diagnose", "job-choose"), "job-answer"),
}
"""Commands that answer in the form of another one."""

MADE = "<!-- Made by tools/write_docs.py; `uv run poe docs` writes it anew. -->"


def pages() -> dict[Path, str]:
    """Return the text of every generated file by its path."""
    written = {
        DOCS / "fields.md": fields_page(),
        DOCS / "job-file.md": job_file_page(MADE),
        DOCS / "causes.md": causes_page(MADE),
        DOCS / "checks.md": checks_page(MADE),
        DOCS / "symptoms.md": symptoms_page(MADE),
        DOCS / "symptoms-index.md": symptoms_index(MADE),
        DOCS / "remedies.md": remedies_page(MADE),
        DOCS / "prices.md": prices_page(MADE),
        DOCS / "rest.md": rest_page(MADE),
        DOCS / "speed.md": speed_page(MADE),
        DOCS / "commands.md": commands_page(),
    }
    for name, schema in schemas().items():
        written[DOCS / "schema" / f"{name}.json"] = json.dumps(schema, indent=1, ensure_ascii=False) + "\n"
    return written


def fields_page() -> str:
    """Return the reference of every field of every section and of a duty."""
    lines = [
        "# Fields",
        "",
        MADE,
        "",
        "Every key of a [job file](job-file.md), section by section. Figures stand in US and in metric units.",
        "",
        "- *possible*: anything else is refused.",
        "- *usual*: anything else is accepted with a remark.",
        "- *typical*: taken when neither the file nor its typical vehicle says more; the spread behind it is one",
        "  standard deviation of what is found in the trade; for a choice, the probability that it is another one.",
        "  A measured value keeps a fifth of it, a value off a plate a tenth; what was counted or seen keeps none.",
        "",
        "These move no figure of a forecast; a test changes every other field and sees one move:",
        "",
        *(f"- `{path}`: {purpose}" for path, purpose in MOVES_NOTHING.items()),
        "",
        "| section | what it is |",
        "|---|---|",
    ]
    owners: dict[str, Any] = {**get_type_hints(Vehicle), "duty": Duty}
    tables: dict[str, Mapping[str, Declaration]] = {**sections(), "duty": duty_fields()}
    lines += [f"| [`{name}`](#{name}) | {_first_sentence(owner)} |" for name, owner in owners.items()]
    for name, keys in tables.items():
        lines += ["", f"## {name}", "", f"{_first_sentence(owners[name])}", ""]
        if name == "duty":
            named = "beside these keys it has a `name` and may say what came `after`."
            lines += [f"Each duty is a table `[[duty]]` of its own; {named}", ""]
        lines += ["| key | what it is | possible | usual | typical | how to find it |", "|---|---|---|---|---|---|"]
        lines += [_field_row(key, declaration) for key, declaration in keys.items()]
    return "\n".join(lines) + "\n"


def _field_row(key: str, declaration: Declaration) -> str:
    if declaration.dimension in (CHOICE, YES_NO):
        possible, usual = " / ".join(declaration.choices), ""
        typical = declaration.choices[int(declaration.typical)]
    else:
        possible, usual = (_limits(declaration, pair) for pair in (declaration.hard, declaration.plausible))
        typical = _both(declaration.typical, declaration.dimension)
    cells = (f"`{key}`", declaration.means, possible, usual, f"{typical} {_spread(declaration)}", declaration.measure)
    return "| " + " | ".join(" ".join(cell.split()).replace("|", "\\|") for cell in cells) + " |"


def _spread(declaration: Declaration) -> str:
    if declaration.spread == 0.0:
        return ""
    share = show(declaration.spread, FRACTION, "us")
    if declaration.dimension in (CHOICE, YES_NO):
        return f"({share} doubt)"
    if declaration.relative:
        return f"(± {share} of it)"
    rise = TEMPERATURE_RISE if declaration.dimension == TEMPERATURE else declaration.dimension
    return f"(± {_both(declaration.spread, rise)})"


def _limits(declaration: Declaration, limits: tuple[float, float]) -> str:
    return " = ".join(dict.fromkeys(limits_in_words(declaration, limits, system) for system in SYSTEMS))


def _both(value: float, dimension: Dimension) -> str:
    def shown(system: System) -> str:
        return show(value, dimension, system)

    return " = ".join(dict.fromkeys(shown(system) for system in SYSTEMS))


def _first_sentence(owner: Any) -> str:
    return " ".join((owner.__doc__ or "").split("\n\n")[0].split())


def commands_page() -> str:
    """Return the reference of every command and option."""
    lines = [
        "# Commands",
        "",
        MADE,
        "",
        "A command that cannot use what it was given says so in one sentence on the error stream and exits with 2.",
        "With `--json` it prints one JSON object whose keys carry their unit; the schemas are linked below.",
    ]
    for name, command in _commands(typer.main.get_command(app), "toptank"):
        lines += ["", f"## {name}", "", *_command(name, command)]
    return "\n".join(lines) + "\n"


def _commands(command: Any, name: str) -> Iterator[tuple[str, Any]]:
    if not hasattr(command, "commands"):
        yield name, command
        return
    for word, inner in command.commands.items():
        yield from _commands(inner, f"{name} {word}")


def _command(name: str, command: Any) -> list[str]:
    arguments = [parameter for parameter in command.params if parameter.param_type_name == "argument"]
    options = [parameter for parameter in command.params if parameter.param_type_name == "option"]
    needed = [f"{option.opts[0]} {_kind(option)}" for option in options if option.required]
    usage = " ".join([name, *(argument.name.upper() for argument in arguments), *needed, "[options]"])
    lines = [f"`{usage}`", "", str(command.help), "", "| | | default |", "|---|---|---|"]
    lines += [f"| `{argument.name.upper()}` | {argument.help} | required |" for argument in arguments]
    for option in options:
        default = "required" if option.required else "" if option.default in (None, False) else f"`{option.default}`"
        lines.append(f"| `{' '.join([option.opts[0], *_kind(option).split()])}` | {option.help} | {default} |")
    if not any("--json" in option.opts for option in options):
        return lines
    verb = name.removeprefix("toptank ").replace(" ", "-")
    answer = ALIKE.get(verb, verb)
    return [*lines, "", f"Answer with `--json`: [schema/answer-{answer}.json](schema/answer-{answer}.json)"]


def _kind(option: Any) -> str:
    return "" if option.is_flag else option.name.upper()


def main() -> None:
    """Write every file that has changed and say which."""
    for path, text in pages().items():
        if path.exists() and path.read_text(encoding="utf-8") == text:
            continue
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
        print(f"written: {path.relative_to(ROOT)}")


if __name__ == "__main__":
    main()
