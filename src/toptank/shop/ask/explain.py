"""`explain`: which equations a figure rests on, with their sources, and what is assumed; what a field of a sheet is."""

import importlib
import re
import tomllib
from functools import cache
from importlib import resources
from typing import Any, get_type_hints

from toptank.knowledge.sheet import TIMING_KEYS, duty_fields, sections
from toptank.shop.answers.bench import ExplainAnswer
from toptank.shop.answers.words.figures import MOVES_NOTHING
from toptank.shop.files.toml_file import shortened
from toptank.system.condition import Timing
from toptank.system.duty import Duty
from toptank.system.vehicle import Vehicle
from toptank.units import dimension as kinds
from toptank.units.conversion import SYSTEMS, System
from toptank.units.declaration import Declaration
from toptank.units.display import key_suffix, show
from toptank.units.nearest import did_you_mean
from toptank.units.refusal import Refusal
from toptank.units.sentence import Sentences

_KEY = re.compile(r"[a-z][a-z_]*\d{4}[a-z]?|sae_j\d+|us_std_1976|iapws\w*")

_SUCH_AS = ("top_tank", "air_to_boil", "boiling_point")


@cache
def explained() -> dict[str, Any]:
    """The table of explanations by figure."""
    return tomllib.loads(resources.files("toptank.shop.ask").joinpath("explanations.toml").read_text(encoding="utf-8"))


def explain(quantity: str) -> ExplainAnswer:
    """Explain a figure or a field of a sheet; hyphens, capitals and a unit at the end of a key do not matter."""
    written = "_".join(quantity.strip().lower().replace("-", "_").split())
    name = _less_its_unit(written)
    if name in explained():
        return _of_figure(name)
    known = _fields()
    if written in known:
        return _of_field(written, *known[written])
    sharing = [one for one in explained() if set(name.split("_")) & set(one.split("_"))][:4]
    otherwise = f"name a figure of an answer, such as {', '.join(sharing or _SUCH_AS)}, or a field, such as core.rows"
    elsewhere = [repr(path) for path in known if path.partition(".")[2] == name]
    fix = (
        f"did you mean {' or '.join(elsewhere)}?"
        if elsewhere
        else did_you_mean(name, [*explained(), *known], otherwise)
    )
    raise Refusal(field="quantity", value=shortened(quantity), limit="has no explanation here", fix=fix)


def _of_figure(name: str) -> ExplainAnswer:
    entry = explained()[name]
    modules = [f"equations.{module}" for module in entry["equations"]]
    modules += [f"media.{module}" for module in entry.get("media", [])]
    heads = [(module, importlib.import_module(f"toptank.{module}").__doc__ or "") for module in modules]
    keys = [key for _, head in heads for key in _KEY.findall(_source_lines(head))]
    return ExplainAnswer(
        name=name,
        means=entry["means"],
        equations=tuple(f"{module}: {head.splitlines()[0].rstrip('.')}" for module, head in heads),
        sources=tuple(_cited(key) for key in dict.fromkeys(keys) if key in _sources()),
        assumptions=tuple(entry["assumptions"]),
        files=tuple(entry["files"]),
    )


def _fields() -> dict[str, tuple[Declaration, str]]:
    """Every field of a sheet and of a duty by its path: its declaration, and the file that declares it."""
    owners: dict[str, Any] = {**get_type_hints(Vehicle), "duty": Duty}
    files = {
        name: owner.__module__.removeprefix("toptank.").replace(".", "/") + ".py" for name, owner in owners.items()
    }
    timing_file = Timing.__module__.removeprefix("toptank.").replace(".", "/") + ".py"
    tables = {**sections(), "duty": duty_fields()}
    return {
        f"{section}.{key}": (
            declaration,
            timing_file if section == "duty" and key in TIMING_KEYS else files[section],
        )
        for section, keys in tables.items()
        for key, declaration in keys.items()
    }


def _of_field(path: str, declaration: Declaration, file: str) -> ExplainAnswer:
    assumed, means = Sentences(_assumed_of, (path, declaration)), declaration.means
    return ExplainAnswer(name=path, means=means, equations=(), sources=(), assumptions=assumed, files=(file,))


def _assumed_of(path: str, declaration: Declaration, system: System) -> list[str]:
    """What is taken of a field, and how to find it."""
    said = [f"Where neither the file nor its typical vehicle says more it is {_typical(declaration, system)}."]
    if declaration.choices:
        said.append(f"One of: {', '.join(declaration.choices)}.")
    else:
        possible, usual = (
            " to ".join(show(limit, declaration.dimension, system) for limit in limits)
            for limits in (declaration.hard, declaration.plausible)
        )
        said.append(f"Possible: {possible}; usual: {usual}.")
    found = declaration.in_the_bay()
    said.append(f"To find it: {found}." if declaration.measurable() else f"It {found}.")
    if path in MOVES_NOTHING:
        said.append(f"Moves no steady figure: {MOVES_NOTHING[path]}.")
    return said


def _typical(declaration: Declaration, system: System) -> str:
    """The typical value with its spread, which is one standard deviation."""
    dimension, spread = declaration.dimension, declaration.spread
    share = show(spread, kinds.FRACTION, system)
    if declaration.choices:
        doubt = f", with {share} doubt" if spread > 0.0 else ""
        return f"taken as {declaration.choices[int(declaration.typical)]!r}{doubt}"
    typical = f"taken as {show(declaration.typical, dimension, system)}"
    if spread == 0.0:
        return typical
    rise = kinds.TEMPERATURE_RISE if dimension == kinds.TEMPERATURE else dimension
    width = f"{share} of it" if declaration.relative else show(spread, rise, system)
    return f"{typical}, give or take {width} (one standard deviation)"


def _less_its_unit(name: str) -> str:
    """Name of a figure from its key: less the unit at its end."""
    while name not in explained():
        # The longest unit that the key ends in: "ft_per_min" ends in "min" too.
        unit = next((unit for unit in _units() if name.endswith(f"_{unit}")), None)
        if unit is None:
            break
        name = name.removesuffix(f"_{unit}")
    return name


@cache
def _units() -> tuple[str, ...]:
    """Every unit that ends a key of an answer, the longest first."""
    known = [kind for kind in vars(kinds).values() if isinstance(kind, kinds.Dimension)]
    units = {key_suffix(kind, system).lower() for kind in known for system in SYSTEMS} - {""}
    rises = {"k", *(f"{rise}_per_{pressure}" for rise in ("k", "degf", "degc") for pressure in ("psi", "kpa"))}
    return tuple(sorted({"minutes"} | units | rises, key=lambda unit: (-len(unit), unit)))


@cache
def _sources() -> dict[str, Any]:
    found: dict[str, Any] = {}
    for layer in ("equations", "media"):
        file = resources.files(f"toptank.{layer}").joinpath("sources.toml")
        if file.is_file():
            found |= tomllib.loads(file.read_text(encoding="utf-8"))
    return found


def _source_lines(head: str) -> str:
    match = re.search(r"^Source (.*?)(?=^Range |\Z)", head, re.MULTILINE | re.DOTALL)
    return match[1] if match else ""


def _cited(key: str) -> str:
    source = _sources()[key]
    read = "" if source.get("read") else " (not read at the source)"
    return f"{source['authors']} ({source['year']}), {source['title']}, {source['where']}{read}"
