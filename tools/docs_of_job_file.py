"""The page of the job file and of the core file, filled in with the words that the readers know."""

from collections.abc import Iterable
from pathlib import Path

from docs_of_choice import keys_of_bay, keys_of_offer

from toptank.knowledge.sheet import sections
from toptank.shop.files.toml_file import LARGEST
from toptank.shop.job.core_file import SECTIONS as CORE_SECTIONS
from toptank.shop.job.fit_file import MOST_OFFERS
from toptank.shop.job.job_file import MOST_DUTIES
from toptank.studies.diagnose.evidence import EFFECTS, NEEDLE, ONSETS, PLACES, WORDS, WORK

EXAMPLES = Path(__file__).parents[1] / "examples"


def job_file_page(made: str) -> str:
    """Return the description of the job file and of the core file."""
    text = _JOB_FILE
    filled = {
        "MADE": made,
        "EXAMPLE": _example("first-job"),
        "CORE": _example("bench-core"),
        "TOLD": TOLD_CASE.strip(),
        "WORDS": _listed(WORDS),
        "NEEDLE": _listed(NEEDLE),
        "PLACES": _listed(PLACES),
        "EFFECTS": _listed(EFFECTS),
        "ONSETS": _listed(ONSETS),
        "WORK": _listed(WORK),
        "SECTIONS": ", ".join(f"[`[{name}]`](fields.md#{name})" for name in sections()),
        "CORE_SECTIONS": ", ".join(f"`[{name}]`" for name in CORE_SECTIONS),
        "BAY": keys_of_bay(),
        "OFFER": keys_of_offer(),
        "MEASURED": MEASURED_BAY.strip(),
        "OFFERS": str(MOST_OFFERS),
        "DUTIES": str(MOST_DUTIES),
        "LARGEST": str(LARGEST // 1024),
    }
    for name, value in filled.items():
        text = text.replace(f"@{name}@", value)
    return text


def _example(name: str) -> str:
    return (EXAMPLES / f"{name}.toml").read_text(encoding="utf-8").rstrip()


def _listed(words: Iterable[str]) -> str:
    return ", ".join(f"`{word}`" for word in words)


TOLD_CASE = '''
# A case as it is told across the counter: much of it unknown. Invented.
format = "toptank-job-2"
units = "us"

[job]
title = "1960s saloon, small six, manual, no air conditioning"
complaint = """
Started after the hoses were done. Boils after ten minutes in town, pushed coolant out twice. Never above half on the
open road. Nobody remembers how warm it was."""
invented = true

[vehicle]
like = "compact-1960s-six" # the nearest one on the list
vague = true # told of in a few words: every spread is wider

[history]
onset = "right after work"
after_work = ["hoses", "coolant"]
renewed = ["cap"]
distance = "95000 mi"

[[duty]]
name = "town"
ambient = { value = "80 F", how = "assumed", spread = "12 F" } # nobody remembers
speed = { value = "20 mph", how = "assumed", spread = "8 mph" }
air_conditioning = false

[[duty]]
name = "open road"
ambient = { value = "80 F", how = "assumed", spread = "12 F" }
speed = "55 mph"
air_conditioning = false

[[reading]]
duty = "town"
words = "boiled"
needle = "red"

[[reading]]
duty = "open road"
gauge = "under 195 F" # never above it
words = "fine"

[[check]]
name = "coolant_loss"
outcome = "pushed_out"

[[check]]
name = "heater_at_full"
outcome = "blows_cold"
note = "at idle only"

[[changed]]
part = "thermostat"
effect = "none" # this is evidence too
note = "opens at 192 F in the pan"

[confirmed] # added when the job is closed
causes = ["coolant_low"]
contributing = []
how = "bled at the heater, cured"
'''

MEASURED_BAY = """
# The customer's worst day, a bay that was measured, and a radiator on offer. Invented.
format = "toptank-job-2"
units = "us"

[job]
title = "Pickup that runs warm on the pass"
invented = true

[vehicle]
like = "pickup-1970s-v8-air"

[[duty]]
name = "long grade"
ambient = "90 F"
grade = "6 %"
speed = "45 mph"

[[worst_day]]
name = "pass with the trailer"
ambient = "102 F"
altitude = "4000 ft"
speed = "45 mph"
grade = "6 %"
trailer_mass = "3000 lb"
air_conditioning = true

[fit]
core_depth_now = "2 in"
mount = "saddles"
support_depth = "2 in"
saddle_width = "2 7/8 in"
saddle_rubber = { value = "1/4 in", how = "assumed", spread = "1/16 in" } # a guess, and how far it may be off
top_hose_side = "right"
weight_limit = { value = "55 lb", how = "plate" }
hose_route = "the top hose passes the coil"

[[offer]]
name = "welded aluminum, two rows of 1 in"
parts = "radiator, cap"
price = "$390"
core_depth = { value = "2 1/8 in", how = "plate" } # as its maker prints it
tank_width = { value = "2 1/4 in", how = "plate" }
top_port_side = { value = "left", how = "plate" }
weight = { value = "34 lb", how = "plate" }
"""

_JOB_FILE = """# Job file

@MADE@

One vehicle in the bay: the complaint, what is known of it, the duties it is asked about, and what was seen at them.
It is TOML text in UTF-8, at most @LARGEST@ KiB. `toptank sheet new --like NAME --out JOB.toml` writes one, filled
and commented; `toptank forecast`, `diagnose`, `choose`, `fit` and `order` read it. Its JSON schema is
[schema/job.json](schema/job.json).

## A short one, complete

```toml
@EXAMPLE@
```

## Head

| key | |
|---|---|
| `format` | required: `"toptank-job-2"`. A later, different format will have a later number; this one stays readable. |
| `units` | `"us"` (default) or `"metric"`: what a bare number means. Every answer says which numbers were bare. |

## Sections

| section | keys |
|---|---|
| `[job]` | `title`, `complaint`, `invented` (made-up figures), `limit` (coolant stays under; 225 °F if not said) |
| `[write_up]` | who came with what: `customer`, `phone`, `registration`, `vin`, `mechanic`, `promised`, `waiting_for` |
| `[vehicle]` | `like`, required: the vehicle that stands in for what is not said (`toptank vehicles`); `vague = true` |
| the parts | @SECTIONS@ |
| `[[duty]]` | `name`, required and used once; `after`: [below](#time); [fields](fields.md#duty); 1 to @DUTIES@ duties |
| `[[worst_day]]` | as `[[duty]]`: the duties of the customer's worst day: [below](#the-worst-day) |
| `[fit]`, `[[offer]]` | measures of the bay, radiators on offer: [below](#the-bay) |
| `[[reading]]`, `[[check]]`, `[[changed]]`, `[history]` | what is known of the trouble: [below](#the-trouble) |
| `[log]` | what the columns of a logger mean, if not their heads say it: [logs](check-drive.md) |
| `[confirmed]` | what it was, once it is known: [below](#what-it-was) |

All parts and all their keys may be left out. An unknown section or key is refused, with the nearest known one.

## Values

A value is written as people write it, in quotes if it has a unit: `"2 5/8 in"`, `"15 psi"`, `"195 F"`, `"16 qt"`,
`"1.1 bar"`, `"50/50"`, `"1 in 20"` for a grade. A choice is one of its words, yes or no is `true` or `false`.

| written | counts as |
|---|---|
| `face_width = "26 in"` | measured |
| `pressure = { value = "15 psi", how = "plate" }` | read off a plate or from a handbook |
| `mass = { value = "4400 lb", how = "assumed" }` | assumed, with the spread of the trade |
| `mass = { value = "4400 lb", how = "measured", spread = "5 %" }` | measured, with this standard deviation |

A spread is written in the unit of its value, or in percent of it. Of a temperature it is a difference, as in
`spread = "5 F"`.

A value outside the hard limits of [its field](fields.md) is refused, in one sentence with field, value, limit
and fix, exit code 2, and nothing is written. A measured value outside the usual limits is accepted with a remark.

## The trouble

Everything here may be left out: what was not told stays unknown, and `toptank diagnose` says what to find out first.

| section | key | |
|---|---|---|
| `[vehicle]` | `vague` | `true` for a vehicle told of in a few words: all its assumed spreads are wider |
| `[[reading]]` | `duty` | required; a name from above |
| | `gauge` | `"215 F"`, `"210 to 215 F"`, `"about 215 F"`, `"over 240 F"`, `"under 190 F"` |
| | `words` | what the driver said: @WORDS@ |
| | `needle` | where the needle stood, if it has no figures: @NEEDLE@ |
| | `thermometer` | what was read: @PLACES@; the vehicle's own gauge if not said |
| | `note` | anything else |
| `[[check]]` | `name` | required; one of [these checks](checks.md) |
| | `outcome` | required; one of its outcomes, or the figure that was read |
| | `decisive` | `true` if it saw the defect itself |
| | `note` | anything else |
| `[[changed]]` | `part` | required; @WORK@ |
| | `effect` | required; what it did to the trouble: @EFFECTS@ |
| | `note` | anything else |
| `[history]` | `onset` | @ONSETS@ |
| | `after_work` | list of parts worked on just before it began, in the words of `part` |
| | `doubtful` | list of parts that gave trouble before |
| | `renewed` | list of parts that are new |
| | `distance` | driven by the vehicle: `"120000 mi"` |

A part that was changed without effect is evidence, and so is a reading that was fine. A figure outranks a needle, and
a needle a word, where a reading has more than one; `boiled` always counts.

```toml
@TOLD@
```

## Time

What a gauge shows depends on what came before, and how long ago: a minibus that stops at the top of a climb is hottest
after a minute and back after ten. A duty says so by two keys.

| key | |
|---|---|
| `after` | name of another duty of the list, or `"cold"`; else a settled run on the level, as such vehicles go |
| `for` | how long it has lasted when the gauge is read: `"12 min"`, a bare number is minutes; or `"steady"` |
| `moving`, `standing` | stop and go: time from standing to standing again, time that it stands; `speed` is reached |

Not said, a hill (from 2 %) lasts 10 minutes, a stop 5, stop and go 15, each within a factor of two; level road and work
at standstill are settled. A reading and a forecast are taken at the end of a duty, boiling counts at any time in it,
and the worst day asks for the peak. Duties that follow one another must not come round in a circle.

## The worst day

What `toptank choose` forecasts each remedy at: up to @DUTIES@ tables `[[worst_day]]`, written as `[[duty]]`. Where a
job has none, it is the duties at which it ran hottest by the readings, as they were told, in the
hottest weather of the job, 90 °F (32 °C) at the least. `limit` of `[job]` is what the coolant must stay under.

## The bay

What `toptank fit` adds up. Everything may be left out; what nobody measured is answered *not known: measure this*, and
a typical value never stands in for it. Values are written [as everywhere](#values). The gap from fan to core and the
one at the blade tips stand in [`[shroud]`](fields.md#shroud), the system of the cap in [`[cap]`](fields.md#cap), the
transmission's cooler in [`[transmission_cooler]`](fields.md#transmission_cooler).

`[fit]`, beside `hose_route`, free text on where the hoses run and what they must clear:

@BAY@

`[[offer]]`, at most @OFFERS@: `name`, required and used once, `parts` and `price`, free texts, `remedy`,
the [remedy](remedies.md) that it would be (not said, it counts for one that brings its own tanks), so that the work
order is written for this radiator: its sizes, what does not fit, its price; and

@OFFER@

```toml
@MEASURED@
```

## What it was

`[confirmed]` closes a job: `causes` (required; of [these](causes.md), several are one answer), `contributing`, `how`.
Diagnosis never reads `[confirmed]`: the same file with and without it, or with another cause in it, is answered alike.
It is read by `toptank evaluate FOLDER`, which compares, and by `toptank diagnose JOB.toml --learn-from FOLDER`, which
counts the causes of other, closed jobs.

## Core file

`toptank core CORE.toml` rates one core as on a bench. The file has `format = "toptank-core-1"`, `units`, and of the
parts only @CORE_SECTIONS@; `[core]` is required. Its JSON schema is [schema/core.json](schema/core.json).

```toml
@CORE@
```
"""
