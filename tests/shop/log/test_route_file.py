"""Routes out of GPX files: the climb that was driven, not the noise of the receiver; no trick of XML goes through."""

import os
import re
import runpy
import time as clock
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from toptank.shop.log.route_file import Route, read_limits, read_route
from toptank.shop.log.weather import read_weather
from toptank.system.duty import Duty
from toptank.units.refusal import Refusal

ROOT = Path(__file__).parents[3]
DEGREE = 6_371_008.8 * np.pi / 180.0
"""Length of a degree of latitude [m]."""

WARM = read_weather("90 F", system="us")

Reading = Callable[..., Route]


def gpx(points: Iterable[tuple[float, float | None, float | None]], *, head: str = "", inside: str = "") -> str:
    """A track due north from the middle of an ocean: way [m], height [m], time [s]; what is None is left out."""
    lines: list[str] = []
    for way, height, second in points:
        stamp = "" if second is None else f"<time>{np.datetime64(int(1000 * second), 'ms')}Z</time>"
        ele = "" if height is None else f"<ele>{height:.2f}</ele>"
        lines.append(f'<trkpt lat="{-48.0 + way / DEGREE:.9f}" lon="-123">{ele}{stamp}</trkpt>')
    body = f"{inside}<trk><name>nowhere</name><trkseg>{''.join(lines)}</trkseg></trk>"
    return f'<?xml version="1.0"?>{head}<gpx version="1.1" creator="t">{body}</gpx>'


@pytest.fixture
def read(tmp_path: Path) -> Reading:
    """Write a text into a file and read it as a route."""

    def run(text: str, limits: str = "") -> Route:
        file = tmp_path / "route.gpx"
        file.write_text(text, encoding="utf-8")
        held = read_limits(limits, system="us", notes=[]) if limits else ()
        return read_route(file, duty=Duty(), weather=WARM, limits=held)

    return run


def _noisy_climb(seed: int = 0) -> list[tuple[float, float | None, float | None]]:
    """2 km flat, 4 km at 6 %, 2 km flat at 15 m/s, a point a second, heights that scatter by 2 m."""
    noise = np.random.default_rng(seed)
    way = 15.0 * np.arange(534)
    height = 300.0 + 0.06 * np.clip(way - 2000.0, 0.0, 4000.0) + noise.normal(0.0, 2.0, len(way))
    return [(float(w), float(h), float(i)) for i, (w, h) in enumerate(zip(way, height, strict=True))]


def test_a_climb_is_found_under_the_noise_of_its_heights(read: Reading) -> None:
    profile = read(gpx(_noisy_climb())).profile
    middle = (profile.distance > 2500.0) & (profile.distance < 5500.0)
    assert profile.grade[middle] == pytest.approx(0.06, abs=0.006)
    assert profile.grade[profile.distance < 1500.0] == pytest.approx(0.0, abs=0.008)
    assert np.sum(profile.grade * profile.speed) == pytest.approx(240.0, abs=6.0)
    assert profile.speed[20:-20] == pytest.approx(15.0, abs=0.3)
    assert profile.ambient == pytest.approx(305.37, abs=0.01)


def test_heights_beyond_what_is_reckoned_with_are_told(read: Reading) -> None:
    """Feet taken for metres show so."""
    route = read(gpx((15.0 * i, 5300.0 + 2.0 * i, float(i)) for i in range(300)))
    assert route.profile.altitude.max() == 5500.0
    assert any("5,500 m" in remark and "feet" in remark for remark in route.remarks)
    assert not any("feet" in remark for remark in read(gpx(_noisy_climb())).remarks)


def test_a_receiver_that_wanders_while_the_vehicle_stands_makes_no_road(read: Reading) -> None:
    noise = np.random.default_rng(1)
    way = np.concatenate([15.0 * np.arange(200), np.full(400, 3000.0) + noise.normal(0.0, 2.0, 400)])
    profile = read(gpx((w, 300.0, float(i)) for i, w in enumerate(way))).profile
    assert profile.speed[230:].max() < 1.5
    assert np.mean(profile.speed[230:] == 0.0) > 0.9
    assert profile.distance[-1] == pytest.approx(3000.0, abs=60.0)


def test_points_that_repeat_jump_or_go_back_are_left_out_and_told(read: Reading) -> None:
    points = _noisy_climb()
    points[100] = (40_000.0, points[100][1], points[100][2])
    points.insert(200, points[199])
    points.insert(300, (points[298][0], points[298][1], 20.0))
    route = read(gpx(points))
    told = " ".join(route.remarks)
    for words in ("1 points that repeat", "1 points that go back", "1 points that jump"):
        assert words in told
    assert route.profile.distance[-1] == pytest.approx(15.0 * 533, abs=20.0)
    assert route.profile.speed.max() < 17.0


def test_a_few_points_without_a_time_are_put_between_their_neighbours_and_times_that_all_go_back_are_said(
    read: Reading,
) -> None:
    points = _noisy_climb()
    gaps = [(way, height, None if i % 40 == 7 else second) for i, (way, height, second) in enumerate(points)]
    assert read(gpx(gaps)).profile.speed[20:-20] == pytest.approx(15.0, abs=0.3)
    with pytest.raises(Refusal, match="no time stamps"):
        read(gpx((way, height, None if i % 3 == 1 else second) for i, (way, height, second) in enumerate(points)))
    with pytest.raises(Refusal, match="goes back in time"):
        read(gpx((way, height, 600.0 - i) for i, (way, height, _) in enumerate(points)))


def test_a_track_torn_in_two_is_refused(read: Reading) -> None:
    points = _noisy_climb()
    torn = [*points[:200], *((w + 15_000.0, h, t) for w, h, t in points[200:])]
    with pytest.raises(Refusal, match="jumps further than any vehicle"):
        read(gpx(torn))


def test_a_tunnel_without_signal_is_driven_straight_and_told(read: Reading) -> None:
    points = [point for point in _noisy_climb() if not 3000.0 < point[0] < 4500.0]
    route = read(gpx(points))
    assert any("gaps or tunnels" in remark for remark in route.remarks)
    inside = (route.profile.distance > 3000.0) & (route.profile.distance < 4500.0)
    assert route.profile.speed[inside] == pytest.approx(15.0, abs=0.3)
    assert route.profile.grade[inside] == pytest.approx(0.06, abs=0.01)


def test_a_map_that_shows_the_hill_over_a_tunnel_does_not_send_the_vehicle_over_it(read: Reading) -> None:
    way = np.arange(0.0, 8000.0, 20.0)
    hill = 300.0 * np.clip(1.0 - np.abs(way - 4000.0) / 900.0, 0.0, None)
    route = read(gpx((w, 300.0 + 0.01 * w + h, None) for w, h in zip(way, hill, strict=True)), "45 mph")
    assert np.abs(route.profile.grade).max() < 0.08
    assert route.profile.altitude[-1] == pytest.approx(380.0, abs=3.0)
    assert any("tunnel" in remark for remark in route.remarks)


def test_a_long_pause_is_taken_as_parked_and_a_short_one_as_standing(read: Reading) -> None:
    points = [(w, h, t + (1200.0 if t > 300 else 0.0) + (120.0 if t > 100 else 0.0)) for w, h, t in _noisy_climb()
              if t is not None]  # fmt: skip
    route = read(gpx(points))
    running, time = route.profile.running, route.profile.time
    assert running[(time > 110) & (time < 210)].min() == 1.0
    assert running[(time > 430) & (time < 1600)].max() == 0.0
    assert running[-1] == 1.0
    assert sum(" pause" in remark for remark in route.remarks) == 2


def test_given_limits_are_kept_and_take_the_place_of_time_stamps(read: Reading) -> None:
    profile = read(gpx(_noisy_climb()), "50 mph, 25 mph from 2 mi").profile
    first, later = profile.distance < 3218.0, profile.distance > 3219.0
    assert profile.speed[first].max() == pytest.approx(22.35, abs=0.01)
    assert profile.speed[later].max() <= 11.18
    assert np.diff(profile.speed).max() <= 1.1
    assert profile.speed[0] < 2.0


@pytest.mark.parametrize(
    "text", ["fast", "50 mph, 40 mph", "50 mph, 40 mph from 3 mi, 30 mph from 2 mi", "900 mph", ""]
)
def test_limits_that_cannot_be_driven_are_refused(text: str) -> None:
    with pytest.raises(Refusal):
        read_limits(text, system="us", notes=[])


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (gpx([(0, 1, None), (900, 2, None)]), "no time stamps"),
        (gpx([(0, None, 0), (900, None, 60)]), "no elevation"),
        (gpx([(0, 1, 0), (9, 2, 60)]), "shorter than"),
        (gpx([(0, 1, 0)]), "fewer than two"),
        (gpx([(0, 1, 0), (900, 2, 6e9)]), "24 h at most"),
        (gpx([(0, 1, 0), (90_000, 2, 9000)]), "no point for 90 km"),
        ("<gpx version='1.1' creator='t'><wpt lat='1' lon='2'/></gpx>", "no track"),
        ("<kml/>", "not GPX"),
        ("time,coolant\n1,2\n", "not XML"),
        ("", "not XML"),
    ],
)
def test_what_is_no_drive_is_refused(text: str, words: str, read: Reading) -> None:
    with pytest.raises(Refusal, match=words):
        read(text)


FEW = _noisy_climb()[:9]
BOMB = "".join(f'<!ENTITY e{i} "{f"&e{i - 1};" * 10}">' for i in range(1, 10))


@pytest.mark.parametrize(
    "text",
    [
        gpx(FEW, head=f'<!DOCTYPE gpx [<!ENTITY e0 "lol">{BOMB}]>', inside="<desc>&e9;</desc>"),
        gpx(FEW, head='<!DOCTYPE gpx SYSTEM "http://localhost/gpx.dtd">'),
        gpx(
            _noisy_climb()[:9],
            head='<!DOCTYPE gpx [<!ENTITY x SYSTEM "file:///etc/hostname">]>',
            inside="<desc>&x;</desc>",
        ),
        gpx(
            _noisy_climb()[:9],
            head=f'<!DOCTYPE gpx [<!ENTITY a "{"a" * 9999}">]>',
            inside=f"<desc>{'&a;' * 9999}</desc>",
        ),
        gpx(FEW, inside="<extensions>" + "<a>" * 9000 + "</a>" * 9000 + "</extensions>"),
        gpx(FEW, inside="<extensions>" + "<a/>" * 1_000_001 + "</extensions>"),
        gpx(FEW, inside="<desc>" + " xmlns" * 200_000 + "</desc>"),
        gpx(FEW, inside=f"<desc>{'a' * 200_000}</desc>"),
        gpx([(0, 1, 0)] * 150_001),
    ],
    ids=["laughs", "outside dtd", "outside file", "quadratic", "deep", "many", "namespaces", "long", "points"],
)
def test_tricks_and_floods_are_refused_soon(text: str, read: Reading) -> None:
    begun = clock.process_time()
    with pytest.raises(Refusal):
        read(text)
    assert clock.process_time() - begun < 5.0  # seconds where they work: some would take hours


def test_half_a_gigabyte_is_refused_unread(tmp_path: Path) -> None:
    file = tmp_path / "route.gpx"
    file.write_text("<gpx>", encoding="utf-8")
    os.truncate(file, 500_000_000)
    with pytest.raises(Refusal, match="larger than 32 MiB"):
        read_route(file, duty=Duty(), weather=WARM)


def test_the_demo_climb_is_what_its_script_writes_and_says_that_it_is_invented(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    script: dict[str, Any] = runpy.run_path(str(ROOT / "tools" / "write_demo_climb.py"))
    committed = ROOT / "examples" / "demo-climb.gpx"
    fresh = tmp_path / "fresh.gpx"
    monkeypatch.setitem(script["main"].__globals__, "FILE", fresh)
    script["main"]()
    assert fresh.read_text(encoding="utf-8") == committed.read_text(encoding="utf-8")
    route = read_route(committed, duty=Duty(), weather=WARM)
    assert "invented" in route.name
    climbing = (route.profile.distance > 10_500.0) & (route.profile.distance < 17_500.0)
    assert route.profile.grade[climbing] == pytest.approx(0.05, abs=0.01)  # the example says 5 %
    assert route.profile.altitude[-1] == pytest.approx(701.0, abs=5.0)  # 2,300 ft


@pytest.mark.parametrize(
    ("text", "first", "last"),
    [("90 F", 305.37, 305.37), ("20 to 30 C", 293.15, 303.15), ("68 F to 86 F", 293.15, 303.15)],
)
def test_weather_is_a_constant_or_a_ramp(text: str, first: float, last: float) -> None:
    along = read_weather(text, system="us").along(np.array([0.0, 50.0, 100.0]))
    assert along == pytest.approx([first, 0.5 * (first + last), last], abs=0.01)


def test_weather_may_come_from_a_small_file(tmp_path: Path) -> None:
    file = tmp_path / "day.csv"
    file.write_text("time (min);ambient (°C)\n0;20,5\n10;30,5\n", encoding="utf-8")
    weather = read_weather(str(file), system="us")
    assert weather.along(np.array([0.0, 300.0, 600.0, 900.0])) == pytest.approx(
        [293.65, 298.65, 303.65, 303.65], abs=0.01
    )
    assert weather.said(600.0) == ()
    assert "ends after 10 of the 15 minutes" in weather.said(900.0)[0]
    for wrong in ("hot", "300 F", "90 F to", str(tmp_path / "none.csv")):
        with pytest.raises(Refusal):
            read_weather(wrong, system="us")


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("time (min),ambient\n0,80\n10,95\n", "needs its unit"),
        ("time,ambient (°F)\n0,80\n10,95\n", "(s)"),
        ("time (min),coolant (°F)\n0,180\n10,195\n", "no column for the air outside"),
        ("time (min),ambient (°F)\n0,80\n10,350\n", "air outside lies between"),
        ("time (min),ambient (°F)\n", "day.csv"),
    ],
)
def test_a_file_that_is_no_weather_is_refused_with_nothing_said_of_options_that_only_logs_have(
    text: str, words: str, tmp_path: Path
) -> None:
    file = tmp_path / "day.csv"
    file.write_text(text, encoding="utf-8")
    with pytest.raises(Refusal, match=re.escape(words)) as refused:
        read_weather(str(file), system="us")
    assert "--column" not in str(refused.value)
    assert "ambient" in str(refused.value)


def _read_or_refused(file: Path) -> Route | Refusal:
    try:
        return read_route(file, duty=Duty(), weather=WARM, limits=((0.0, 20.0),))
    except Refusal as refusal:
        return refusal


TAGS = (
    "<gpx>", '<gpx version="1.1">', "</gpx>", "<trk>", "</trk>", "<trkseg>", "</trkseg>", '<trkpt lat="1" lon="2">',
    '<trkpt lat="1.01" lon="2">', '<trkpt lat="nan" lon="1e999">', '<trkpt lat="x">', "</trkpt>", "<ele>", "</ele>",
    "12", "-1e308", "nan", "x", "<time>", "</time>", "2026-01-01T00:00:00Z", "2026-01-01T00:01:00+25:00",
    "9999999-1-1", "<extensions>", "</extensions>", "<rte>", "</rte>", '<rtept lat="1" lon="2"/>',
    '<rtept lat="1.1" lon="2"/>', '<a:b xmlns:a="c"/>', "<!--", "-->", "<![CDATA[", "]]>", "&lt;", "&#0;", "<?x ?>",
    "\x00", "é", "<name>", "</name>",
)  # fmt: skip


@given(st.one_of(st.lists(st.sampled_from(TAGS), max_size=40).map("".join), st.text(max_size=80)), st.booleans())
def test_whatever_stands_in_the_file_it_is_read_or_refused(
    tmp_path_factory: pytest.TempPathFactory, middle: str, whole: bool
) -> None:
    file = tmp_path_factory.mktemp("gpx") / "route.gpx"
    text = gpx(_noisy_climb()[:20], inside="").replace("<trkseg>", f"<trkseg>{middle}") if whole else middle
    file.write_text(text, encoding="utf-8", errors="surrogatepass")
    answer = _read_or_refused(file)
    if isinstance(answer, Refusal):
        assert "\n" not in str(answer)
        return
    profile = answer.profile
    for values in (profile.time, profile.distance, profile.speed, profile.grade, profile.altitude):
        assert np.isfinite(values).all()
