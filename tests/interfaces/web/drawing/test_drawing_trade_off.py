"""The trade-off chart: every plan at its price and its chance, nothing on top of anything, whatever the plans are."""

import re
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import matplotlib.image
import numpy as np
import pytest

from toptank.interfaces.cli.main import main
from toptank.interfaces.web.drawing.picture_file import png
from toptank.interfaces.web.drawing.svg import Box, standing_alone
from toptank.interfaces.web.drawing.trade_off import says, trade_off
from toptank.shop.answers.answers import Chosen
from toptank.shop.answers.choice import ChoiceAnswer, RemedyAnswer, choice_answer
from toptank.shop.answers.summaries.three_plans import plan_marks

SVG = "{http://www.w3.org/2000/svg}"
Crowded = Callable[[str], list[str]]
Lettering = Callable[[str], list[tuple[str, Box]]]


@pytest.fixture(scope="module")
def choice(demo_chosen: Chosen) -> ChoiceAnswer:
    return choice_answer(demo_chosen)


def _invented(choice: ChoiceAnswer, plans: list[tuple[float, float, str]]) -> ChoiceAnswer:
    """The choice with other plans: price, chance, name of a remedy; the last one is recommended."""
    first = choice.plans[0]
    made = [first.model_copy(update={"cost": 0.0, "holds_pct": 100.0 * plans[0][1]})]
    for place, (cost, holds, name) in enumerate(plans[1:]):
        remedies = tuple(
            RemedyAnswer(id=f"{word}{place}", name=word + name, note="", limits="", parts=()) for word in ("", "and ")
        )
        ids = {"plan": tuple(one.id for one in remedies), "remedies": remedies, "name": name}
        made.append(first.model_copy(update={"cost": cost, "holds_pct": 100.0 * holds, **ids}))
    return choice.model_copy(update={"plans": tuple(made), "recommended": made[-1].plan})


def _numbers(drawing: str, choice: ChoiceAnswer) -> list[tuple[float, float]]:
    """Where the letters and numbers of the plans stand in the field above the rows."""
    marks = plan_marks(choice)
    found: dict[str, tuple[float, float]] = {}
    for one in ElementTree.fromstring(drawing).iter(f"{SVG}text"):
        words = "".join(one.itertext())
        if words in marks and words not in found and one.get("font-size") == "15":
            found[words] = (float(one.attrib["x"]), float(one.attrib["y"]))
    return [found[mark] for mark in marks]


@pytest.mark.parametrize("system", ["us", "metric"])
def test_the_plans_of_the_example_are_all_there_and_nothing_overlaps(
    system: Any, choice: ChoiceAnswer, crowded: Crowded, lettering: Lettering
) -> None:
    drawing = trade_off(choice, system)
    assert crowded(drawing) == []
    said = " ".join(words for words, _ in lettering(drawing))
    for plan in choice.plans:
        assert f"{choice.currency}{plan.cost:,.0f}" in said
        for remedy in plan.remedies:
            name = remedy.record(system)["name"]
            assert isinstance(name, str)
            assert name in said.replace("+ ", "")
    assert said.count("take this:") == 1
    assert "leave it as it is" in said
    assert "(invented example)" in said
    assert f"limit {'215 °F' if system == 'us' else '102 °C'}" in said, "5 °F below the 220 that he complains of"


def test_dearer_stands_to_the_right_and_surer_above(choice: ChoiceAnswer) -> None:
    plans = [(0.0, 0.0, ""), (150.0, 0.3, "a"), (900.0, 0.65, "b"), (2400.0, 0.97, "c")]
    invented = _invented(choice, plans)
    places = _numbers(trade_off(invented, "us"), invented)
    assert places == sorted(places)
    assert [y for _, y in places] == sorted((y for _, y in places), reverse=True)
    (x0, _), (x1, _), (x2, _), (x3, _) = places
    assert (x1 - x0) / (x3 - x0) == pytest.approx(150.0 / 2400.0, abs=1e-3)
    assert (x2 - x0) / (x3 - x0) == pytest.approx(900.0 / 2400.0, abs=1e-3)


@pytest.mark.parametrize("dearest", [0.0, 9.0, 180.0, 1e5])
def test_plans_that_cost_and_hold_the_same_stay_apart(dearest: float, choice: ChoiceAnswer, crowded: Crowded) -> None:
    name = "fit an electric fan with a relay and a thermostatic switch in the cooler tank, aluminium, welded"
    plans = [(0.0, 0.5, ""), *((dearest, 0.5 + 0.001 * step, f"{name} {step}") for step in range(24))]
    invented = _invented(choice, plans)
    drawing = trade_off(invented, "us")
    assert crowded(drawing) == []
    places = np.array(_numbers(drawing, invented))
    apart = np.hypot(*(places[:, None, :] - places[None, :, :]).transpose(2, 0, 1))
    assert apart[~np.eye(len(plans), dtype=bool)].min() > 26.0


def test_where_nothing_holds_nothing_is_recommended(choice: ChoiceAnswer, lettering: Lettering) -> None:
    hopeless = choice.model_copy(update={"recommended": None})
    assert "take this" not in " ".join(words for words, _ in lettering(trade_off(hopeless, "us")))
    assert "recommended" not in says(hopeless, "us")
    assert "recommended" in says(choice, "us")


def test_names_are_never_markup(choice: ChoiceAnswer) -> None:
    nasty = "<img src=x onerror='alert(1)'> & more"
    odd = _invented(choice, [(0.0, 0.1, ""), (10.0, 0.9, nasty)])
    odd = odd.model_copy(update={"title": nasty})
    drawing = trade_off(odd, "us")
    assert "<img" not in drawing
    ElementTree.fromstring(standing_alone(drawing))


def test_the_picture_is_set_with_its_type_and_its_lines(choice: ChoiceAnswer, tmp_path: Path) -> None:
    file = tmp_path / "chart.png"
    file.write_bytes(png(standing_alone(trade_off(choice, "us")).encode()))
    dots = matplotlib.image.imread(file)[..., :3].mean(axis=2)
    size = re.search(r'width="(\d+)" height="(\d+)"', standing_alone(trade_off(choice, "us")))
    assert size is not None
    assert dots.shape[1] / dots.shape[0] == pytest.approx(int(size[1]) / int(size[2]), rel=0.01)
    assert 0.01 < float((dots < 0.5).mean()) < 0.2  # ink of type and lines on paper


def test_the_command_writes_the_chart_and_refuses_other_endings(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    example = Path(__file__).parents[4] / "examples" / "first-job.toml"
    out = tmp_path / "chart.svg"

    def command(*words: str) -> object:
        monkeypatch.setattr(sys, "argv", ["toptank", "choose", str(example), "--draws", "200", *words])
        with pytest.raises(SystemExit) as left:
            main()
        return left.value.code

    assert command("--out", str(tmp_path / "chart.gif")) == 2
    assert "must end in .svg or .png" in capsys.readouterr().err
    assert command("--out", str(out), "--json") in (0, None)
    root = ElementTree.parse(out).getroot()
    assert root.get("class") == "drawn trade-off"
    assert command("--out", str(out)) == 2
