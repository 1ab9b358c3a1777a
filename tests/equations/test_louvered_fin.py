"""Louvered fins: positive, without steps, and what every core shows on the bench."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from toptank.equations.louvered_fin import colburn_j_louvered, fanning_f_louvered

Re = np.geomspace(1.0, 2e4, 2000)


@st.composite
def fins(draw: st.DrawFn) -> dict[str, float]:
    """Draw a fin that could be bought: 6 to 22 to the inch, louvers shorter than the fin."""
    F_l = draw(st.floats(5e-3, 19e-3))
    D_m = draw(st.floats(1.5e-3, 5e-3))
    return {
        "theta": draw(st.floats(0.15, 0.6)),
        "F_p": 0.0254 / draw(st.floats(6.0, 22.0)),
        "L_p": draw(st.floats(0.7e-3, 3e-3)),
        "F_l": F_l,
        "L_l": F_l * draw(st.floats(0.6, 0.95)),
        "T_p": F_l + D_m,
        "delta_f": draw(st.floats(0.03e-3, 0.16e-3)),
    }


@given(fin=fins(), depth=st.floats(0.016, 0.1))
def test_the_film_grows_with_the_air(fin: dict[str, float], depth: float) -> None:
    j = colburn_j_louvered(Re, T_d=depth, **fin)
    assert np.all(j > 0.0)
    assert np.all(np.diff(j * Re) > 0.0)


@given(fin=fins(), depth=st.floats(0.016, 0.1))
def test_the_friction_factor_is_positive_at_every_flow(fin: dict[str, float], depth: float) -> None:
    f = fanning_f_louvered(Re, F_d=depth, D_m=fin["T_p"] - fin["F_l"], **fin)
    assert np.all(np.isfinite(f))
    assert np.all(f > 0.0)


@given(fin=fins(), depth=st.floats(0.016, 0.1))
def test_more_air_costs_more_pressure(fin: dict[str, float], depth: float) -> None:
    """Slow air costs pressure about in step with its velocity; a fan must never meet two flows at one pressure."""
    pressure = fanning_f_louvered(Re, F_d=depth, D_m=fin["T_p"] - fin["F_l"], **fin) * Re * Re
    cost = np.diff(np.log(pressure)) / np.diff(np.log(Re))
    assert np.all(cost[Re[1:] < 130.0] > 0.5)
    assert np.all(np.maximum.accumulate(pressure) < 1.01 * pressure)


@given(fin=fins(), depth=st.floats(0.016, 0.1), where=st.sampled_from([80.0, 130.0, 230.0]))
def test_the_friction_factor_has_no_step(fin: dict[str, float], depth: float, where: float) -> None:
    below, above = (
        fanning_f_louvered(where * side, F_d=depth, D_m=fin["T_p"] - fin["F_l"], **fin) for side in (1 - 1e-7, 1 + 1e-7)
    )
    assert abs(below / above - 1.0) < 1e-4


@given(fin=fins(), depth=st.floats(0.016, 0.1), share=st.floats(0.2, 1.0))
def test_in_slow_air_fins_thinner_than_samples_cost_no_more(fin: dict[str, float], depth: float, share: float) -> None:
    """Among the samples folded fins are no thinner than 0.075 mm on a pitch of 3.33 mm (from memory)."""
    edge = 0.075 / 3.33 * fin["F_p"]
    thinnest, thinner = (
        fanning_f_louvered(Re[Re < 130.0], F_d=depth, D_m=fin["T_p"] - fin["F_l"], **fin | {"delta_f": delta})
        for delta in (edge, share * edge)
    )
    assert np.all(thinner <= thinnest * 1.002)  # 0.0225 is 0.075 / 3.33 to a tenth of a percent
    assert np.all(thinner > 0.9 * thinnest)


@given(fin=fins(), depth=st.floats(0.016, 0.1))
def test_a_deeper_core_has_a_weaker_film(fin: dict[str, float], depth: float) -> None:
    assert colburn_j_louvered(400.0, T_d=1.3 * depth, **fin) < colburn_j_louvered(400.0, T_d=depth, **fin)
