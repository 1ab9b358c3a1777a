"""Every reader of what comes from outside, as one function of bytes each, with seeds; fed by fuzz_readers.py and tests.

A reader reads or refuses in one sentence; whatever else it does is a fault. Figures that were read are written out and
read again, in both systems: they must say the same.
"""

import os
import tempfile
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from toptank.shop.files.toml_file import document_of
from toptank.shop.job.core_file import read_core
from toptank.shop.job.job_file import job_of
from toptank.shop.job.price_book import read_prices
from toptank.shop.log.legs import read_legs
from toptank.shop.log.log_file import read_log
from toptank.shop.log.route_file import read_limits, read_route
from toptank.shop.log.weather import Weather, read_weather
from toptank.shop.record.plan_taken import read_plan
from toptank.shop.record.store.export import read_back
from toptank.shop.record.store.opening import opened
from toptank.shop.record.store.restoring import unpacked
from toptank.studies.listen.ticks import ticks
from toptank.system.duty import Duty
from toptank.units import dimension as dimensions
from toptank.units.conversion import System, from_si
from toptank.units.quantity import parse, parse_choice, parse_yes_no
from toptank.units.refusal import Refusal

SYSTEMS: tuple[System, ...] = ("us", "metric")
DIMENSIONS = [one for one in vars(dimensions).values() if isinstance(one, dimensions.Dimension)]
_WEATHER = Weather(at=(0.0,), ambient=(300.0,), timed=False)
_FOLDER = Path(tempfile.mkdtemp(prefix="toptank-readers-"))
CHOICES = ("none", "standard", "heavy duty", "severe duty")


@dataclass(frozen=True, slots=True, kw_only=True)
class Reader:
    """A reader of bytes: raises nothing whatever they are, or shows a fault."""

    read: Callable[[bytes], None]
    seeds: tuple[bytes, ...]


def _text(raw: bytes) -> str:
    return raw.decode("utf-8", "replace")


def _file(raw: bytes, ending: str) -> Path:
    place = _FOLDER / f"fed-{os.getpid()}{ending}"
    place.write_bytes(raw)
    return place


def _quantity(raw: bytes) -> None:
    """The first two bytes choose dimension and system."""
    if len(raw) < 2:
        return
    dimension, system, text = DIMENSIONS[raw[0] % len(DIMENSIONS)], SYSTEMS[raw[1] % 2], _text(raw[2:])
    try:
        read = parse(text, dimension, system=system, field="it")
    except Refusal:
        return
    for other in SYSTEMS:  # what carries its unit means the same in every shop
        again = parse(f"{float(from_si(read.value, dimension, read.unit)):.17g} {read.unit}".strip(), dimension,
                      system=other, field="it") if read.unit else read  # fmt: skip
        assert np.isclose(again.value, read.value, rtol=1e-12, atol=1e-12), (text, dimension.name, read, again)


def _refusing(read: Callable[[bytes], object]) -> Callable[[bytes], None]:
    def fed(raw: bytes) -> None:
        try:
            read(raw)
        except Refusal as refusal:
            told = str(refusal)
        else:
            return
        assert "\n" not in told, told

    return fed


def _log(raw: bytes) -> None:
    for values in read_log(_file(raw, ".csv")).log.driven.values():
        assert np.isfinite(values).all()


def _backup(raw: bytes) -> None:
    with unpacked(_file(raw, ".zip"), _FOLDER) as (copy, _), opened(copy):
        pass


def _of_system(read: Callable[[str, System], object]) -> Callable[[bytes], object]:
    return lambda raw: read(_text(raw[1:]), SYSTEMS[raw[0] % 2]) if raw else None


JOB = b"""format = "toptank-job-2"
units = "us"
[job]
title = "Pickup"
complaint = "climbs to 215 on the hill, no puddle"
[vehicle]
like = "pickup-1970s-v8-air"
core.rows = { value = 2, how = "plate" }
[[duty]]
name = "grade"
ambient = "90 F"
grade = "6 %"
air_conditioning = "on"
[[reading]]
duty = "grade"
gauge = "210 to 215 F"
[[check]]
name = "cap_tester"
outcome = "60 %"
[[offer]]
name = "deep one"
price = "240"
"""
CORE = b"""format = "toptank-core-1"
[core]
face_width = "26 in"
face_height = "17 in"
rows = 3
"""
PRICES = b"""format = "toptank-prices-1"
currency = "USD"
labour_an_hour = 95
"""
GPX = (
    b"<gpx version='1.1' creator='t'><trk><trkseg>"
    b"<trkpt lat='-48' lon='-123'><ele>1</ele><time>2026-01-01T00:00:00Z</time></trkpt>"
    b"<trkpt lat='-47.999' lon='-123'><ele>2</ele><time>2026-01-01T00:01:00Z</time></trkpt>"
    b"</trkseg></trk></gpx>"
)
CARRIED = b"""# toptank record 1: job 7, revision 3, checksum 0123456789ab, 1 note
# toptank note: {"at": "2026-01-01T00:00:00Z", "author": "M", "text": "roars late"}
"""

READERS: dict[str, Reader] = {
    "quantity": Reader(
        read=_quantity,
        seeds=(
            b"\x00\x002 5/8 in",
            b"\x0b\x00195F",
            b"\x0c\x0115 psi",
            b"\x15\x0050/50",
            b"\x16\x011 in 20",
            b"\x01\x010,125 mm",
        ),
    ),
    "choice": Reader(
        read=_refusing(lambda raw: parse_choice(_text(raw), CHOICES, "it")), seeds=(b"heavy", b"none", b"severe-duty")
    ),
    "yes_no": Reader(read=_refusing(lambda raw: parse_yes_no(_text(raw), "it")), seeds=(b"yes", b"no", b" On ")),
    "words": Reader(
        read=_refusing(lambda raw: ticks(_text(raw))),
        seeds=(
            b"Suddenly lost its water, no puddle under the nose.",
            b"Red at 5 F and fine in summer; hose popped off",
        ),
    ),
    "legs": Reader(
        read=_refusing(_of_system(lambda text, system: read_legs(text, system))),
        seeds=(b"\x008 miles up 6 % at 45 mph, then idle 10 min", b"\x0112 km at 80 km/h down 3 %, stop 5 min"),
    ),
    "weather": Reader(
        read=_refusing(_of_system(lambda text, system: read_weather(text, system=system))),
        seeds=(b"\x0098 F", b"\x0188 F to 98 F", b"\x0020 C at 10:00, 31 C at 14:00"),
    ),
    "limits": Reader(
        read=_refusing(_of_system(lambda text, system: read_limits(text, system=system, notes=[]))),
        seeds=(b"\x0050 mph, 35 mph from 3 mi", b"\x0180 km/h"),
    ),
    "plan": Reader(read=_refusing(lambda raw: read_plan(_text(raw))), seeds=(b"new_radiator,fan_clutch", b"A", b"2")),
    "log": Reader(
        read=_refusing(_log),
        seeds=(
            b"time (s),coolant (C),speed (km/h)\n0,80.5,36\n1,81.5,36\n",
            b"clock;gauge;A/C\n14:05;195 F;on\n14:06;1,5;off\n",
            b"Time\tECT\tVehicle.Speed\ns\tC\tkm/h\n2026-08-14T10:00:00Z\t80\t3\n",
        ),
    ),
    "route": Reader(
        read=_refusing(lambda raw: read_route(_file(raw, ".gpx"), duty=Duty(), weather=_WEATHER)), seeds=(GPX,)
    ),
    "job": Reader(read=_refusing(lambda raw: job_of(document_of(raw, "job.toml"))), seeds=(JOB,)),
    "core": Reader(read=_refusing(lambda raw: read_core(_file(raw, ".toml"))), seeds=(CORE,)),
    "prices": Reader(read=_refusing(lambda raw: read_prices(_file(raw, ".toml"))), seeds=(PRICES,)),
    "carried": Reader(read=_refusing(lambda raw: read_back(_text(raw))), seeds=(CARRIED + JOB, JOB)),
    "backup": Reader(read=_refusing(_backup), seeds=(b"PK\x05\x06" + bytes(18),)),
}
