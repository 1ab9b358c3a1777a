"""Points out of a GPX file of a person: read with care, for XML can hold tricks that eat a machine's memory."""

import xml.sax
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import defusedxml.sax
import gpxpy
import numpy as np
from defusedxml.common import DefusedXmlException
from gpxpy.gpx import GPX, GPXException

from toptank.knowledge.drives.track import Floats
from toptank.shop.files.read_bytes import content, shortened
from toptank.units.refusal import Refusal

LARGEST = 32 * 1024 * 1024
"""Largest file that is read [byte]: three hours of ten points a second have 10 to 30 MB."""

MOST_POINTS, MOST_ELEMENTS, DEEPEST, MOST_NAMESPACES, LONGEST_TEXT = 150_000, 1_000_000, 24, 64, 20_000

STAMPED = 0.95
"""Share of the points that must have a time for the others to be put between them [1]; judgement."""

_SAVE_ANEW = "save it anew as GPX from the map or the receiver"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Points:
    """Points of the longest track of a file, each array (point,).

    latitude, longitude : [deg]
    elevation : [m]; NaN where it is missing
    time : seconds since 1970 [s]; None if not every point has one
    name : what the file calls it; may be empty
    others : number of other tracks in the file
    """

    latitude: Floats
    longitude: Floats
    elevation: Floats
    time: Floats | None
    name: str
    others: int


def read_points(path: Path) -> Points:
    """Read the longest track of a GPX file, or its longest route where it has no track.

    Raises
    ------
    Refusal : if it is no GPX, too large, nested, or holds declarations that could be tricks
    """
    limit = f"is larger than {LARGEST // 1024**2} MiB"
    too_large = _refusal(path, limit, "cut out the drive in question, or save fewer points")
    raw = content(path, largest=LARGEST, too_large=too_large, missing="check the name")
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise _refusal(path, "is not UTF-8 text", _SAVE_ANEW) from error
    _look_through(text, path)
    try:
        read = gpxpy.parse(text)
    # the text is XML of bounded size by now; whatever trips the reader beyond that lies in what it says
    except (GPXException, ValueError, TypeError, AttributeError, KeyError, IndexError, OverflowError) as error:
        raise _refusal(path, "holds a point or a time that cannot be read", _SAVE_ANEW) from error
    return _points(read, path)


class _Count(xml.sax.ContentHandler):
    """Counts what is in a file and gives up where it is too much; holds nothing of it."""

    def __init__(self, path: Path) -> None:
        super().__init__()
        self._path, self._depth, self._elements, self._points, self._signs = path, 0, 0, 0, 0

    def startElement(self, name: str, attrs: Any) -> None:
        """Count an element, refuse too many, too deep or another kind of file."""
        self._depth, self._elements, self._signs = self._depth + 1, self._elements + 1, 0
        self._points += name in ("trkpt", "rtept")
        if self._elements == 1 and name != "gpx":
            raise _refusal(self._path, f"is XML, but not GPX: it begins with {shortened(name, 20)!r}", _SAVE_ANEW)
        if self._points > MOST_POINTS:
            limit = f"has more than {MOST_POINTS:,} points"
            raise _refusal(self._path, limit, "cut out the drive in question, or save a point a second")
        if self._elements > MOST_ELEMENTS or self._depth > DEEPEST or len(attrs) > MOST_NAMESPACES:
            raise _refusal(self._path, "is more than a track: too many or too deep elements", _SAVE_ANEW)

    def endElement(self, name: str) -> None:
        """Leave an element."""
        del name
        self._depth -= 1

    def characters(self, content: str) -> None:
        """Refuse a text that is no figure and no name."""
        self._signs += len(content)
        if self._signs > LONGEST_TEXT:
            raise _refusal(self._path, "holds a text that is too long for a track", _SAVE_ANEW)


def _look_through(text: str, path: Path) -> None:
    """Refuse tricks and sizes before any tree is built."""
    if text.count("xmlns") > MOST_NAMESPACES:
        raise _refusal(path, "is more than a track: too many namespaces", _SAVE_ANEW)
    try:
        defusedxml.sax.parseString(text.encode("utf-8"), _Count(path), forbid_dtd=True)
    except DefusedXmlException as error:
        limit = "declares entities or document types, which a track never needs and tricks are made of"
        raise _refusal(path, limit, _SAVE_ANEW) from error
    except (xml.sax.SAXException, ValueError, LookupError) as error:
        if isinstance(error, Refusal):
            raise
        raise _refusal(path, "is not XML that can be read", _SAVE_ANEW) from error


def _points(read: GPX, path: Path) -> Points:
    lines = [(track.name or "", [point for part in track.segments for point in part.points]) for track in read.tracks]
    lines += [] if any(points for _, points in lines) else [(route.name or "", route.points) for route in read.routes]
    lines = [line for line in lines if line[1]]
    if not lines:
        fix = "waypoints alone are no road; save it as a track or a route"
        raise _refusal(path, "holds no track and no route", fix)
    name, points = max(lines, key=lambda line: len(line[1]))
    latitude = np.array([point.latitude for point in points], float)
    longitude = np.array([point.longitude for point in points], float)
    here = np.isfinite(latitude) & np.isfinite(longitude) & (np.abs(latitude) <= 90.0) & (np.abs(longitude) <= 180.0)
    if int(here.sum()) < 2:
        raise _refusal(path, "has fewer than two points on the earth", _SAVE_ANEW)
    elevation = np.array([np.nan if point.elevation is None else point.elevation for point in points], float)
    elevation[~(np.abs(elevation) < 9000.0)] = np.nan
    stamps = [point.time.timestamp() if point.time is not None else np.nan for point in points]
    time = np.array(stamps, float)[here]
    return Points(
        latitude=latitude[here],
        longitude=longitude[here],
        elevation=elevation[here],
        time=_bridged(time),
        name=shortened(name, 60),
        others=len(lines) - 1,
    )


def _bridged(time: Floats) -> Floats | None:
    """Times of the points with the few that lack one put evenly between their neighbours; None where many do."""
    known = np.isfinite(time)
    if np.mean(known) < STAMPED or not (known[0] and known[-1]):
        return None
    places = np.arange(len(time), dtype=np.float64)
    return np.interp(places, places[known], time[known])


def _refusal(path: Path, limit: str, fix: str) -> Refusal:
    return Refusal(field="route", value=shortened(path.name), limit=limit, fix=fix)
