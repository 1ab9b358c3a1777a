"""What REST takes: bodies and the values in an address, as people write them; units go with the figures."""

from typing import Annotated, Literal

from fastapi import Depends, Path, Query, Request
from pydantic import BaseModel, ConfigDict, Field

from toptank.interfaces.turns import ASKER
from toptank.units.conversion import System as SystemName

LARGEST_NUMBER = 2**53 - 1
"""Up to here every reader of JSON keeps a whole number as it is."""

Number = Annotated[int, Path(ge=1, le=LARGEST_NUMBER, description="number of the job")]
Units = Annotated[SystemName | None, Query(description="units of the answer; those of the job if not said")]
System = Annotated[SystemName, Query(description="units of bare figures and of the answer")]
Seed = Annotated[int | None, Query(ge=0, lt=2**31, description="same seed, same answer")]
Revision = Annotated[int | None, Query(ge=1, le=LARGEST_NUMBER, description="an earlier one; else the newest")]
Figure = Annotated[str | None, Query(max_length=80, description='as written: "98 F", "5 %", "35 mph"')]
Name = Annotated[str | None, Query(max_length=400)]


def _asker(request: Request) -> str:
    return str(request.scope.get(ASKER, ""))


Asker = Annotated[str, Depends(_asker)]
"""Who asks: long answers are worked out in turn."""

Checksum = Annotated[str, Path(max_length=64, description="SHA-256 of the file, or its first six digits or more")]
Written = Annotated[str, Field(max_length=200, description='as written, with its unit: "218 F", "92 C"')]
By = Annotated[str, Field(max_length=200, description="who does this; it is written beside it")]


class _Body(BaseModel):
    """A body without keys that nobody knows: a slip of the pen is told, not swallowed."""

    model_config = ConfigDict(extra="forbid")


class NewJob(_Body):
    """A new job: a job file as text, or a typical vehicle with the driver's words."""

    file: Annotated[str | None, Field(description="a whole job file (TOML); then nothing else is needed")] = None
    like: Annotated[str | None, Field(max_length=200, description="a typical vehicle; GET vehicles lists them")] = None
    title: Annotated[str, Field(max_length=400)] = ""
    complaint: Annotated[str, Field(max_length=4000, description="the driver's own words")] = ""
    units: SystemName = "us"
    by: By = ""


class SavedJob(_Body):
    """A job file as the next revision."""

    file: Annotated[str, Field(description="a whole job file (TOML)")]
    based_on: Annotated[
        int | None,
        Field(ge=1, le=LARGEST_NUMBER, description="revision it was made from; an exported file says it itself"),
    ] = None
    by: By = ""
    why: Annotated[str, Field(max_length=4000)] = ""


class NewNote(_Body):
    """A note beside a job."""

    text: Annotated[str, Field(min_length=1, max_length=64 * 1024)]
    by: By = ""


class NewReading(_Body):
    """What was seen at a duty of the job; a figure of the gauge, or words, or both."""

    duty: Annotated[str, Field(min_length=1, max_length=400, description="name of a duty of the job")]
    gauge: Annotated[str, Field(max_length=200, description='"215 F", "210 to 215 F", "about 102 C", "over 240 F"')] = (
        ""
    )
    words: Literal["", "fine", "warm", "hot", "boiled"] = ""
    thermometer: Annotated[
        str, Field(max_length=80, description="what was read; the vehicle's own gauge if not said")
    ] = ""
    note: Annotated[str, Field(max_length=400)] = ""
    by: By = ""


class ReadingAfter(_Body):
    """What the gauge showed at a duty after the work."""

    duty: Annotated[str, Field(min_length=1, max_length=400, description="name of a duty that the order promised")]
    gauge: Written
    units: SystemName = "us"
    by: By = ""


Entry = Annotated[str | None, Field(max_length=120)]


class WriteUpSaid(_Body):
    """Who came with what; an entry that is not sent stays as it is, an empty one is taken out."""

    customer: Entry = None
    phone: Entry = None
    registration: Entry = None
    vin: Entry = None
    mechanic: Entry = None
    promised: Annotated[str | None, Field(max_length=120, description='"2026-12-04 noon"')] = None
    waiting_for: Literal["", "parts", "customer"] | None = None
    by: By = ""


class Confirmed(_Body):
    """What it was."""

    causes: Annotated[list[str], Field(min_length=1, max_length=12, description="GET causes lists them")]
    contributing: Annotated[list[str], Field(max_length=12)] = []
    how: Annotated[str, Field(max_length=4000, description="how that is known")] = ""
    by: By = ""


class Reverted(_Body):
    """The revision that is to stand again."""

    revision: Annotated[int, Field(ge=1, le=LARGEST_NUMBER)]
    by: By = ""


class Reopened(_Body):
    """Why a closed job is opened again."""

    why: Annotated[str, Field(max_length=4000)] = ""
    by: By = ""


class DrivenLog(_Body):
    """A logged drive: as text (CSV), or the checksum under which it is kept with the job."""

    text: Annotated[str, Field(description="the log itself, up to 4 MiB; larger ones: POST attachments first")] = ""
    log: Annotated[str, Field(max_length=64, description="checksum of a log that is kept with the job")] = ""
    name: Annotated[str, Field(max_length=120, description="what the text is called")] = "log.csv"
    columns: Annotated[
        list[Annotated[str, Field(max_length=200)]],
        Field(max_length=40, description='what heads do not say: "W1 = coolant °F"'),
    ] = []
    decimal: Annotated[Literal["", "comma", "point"], Field(description="where it cannot be told")] = ""
    ambient: Annotated[str, Field(max_length=80, description='air outside if no column says it: "92 F"')] = ""
    grade: Annotated[str, Field(max_length=80, description='grade if no column says it: "0 %"')] = ""
    units: Annotated[
        SystemName | None, Field(description="of bare figures and of the answer; the job's if not said")
    ] = None


class VerifiedLog(DrivenLog):
    """A logged road test, and the work that was done before it."""

    done: Annotated[
        list[Annotated[str, Field(max_length=200)]],
        Field(max_length=12, description="work by its name; if nothing is named, that of the plan"),
    ] = []
    plan: Annotated[
        str,
        Field(
            max_length=400,
            description="plan of the choice; else the one that was taken",
        ),
    ] = ""
