"""The hierarchical model: constants of all vehicles, how vehicles differ, and what remains by regime; sampled by NUTS.

What a single vehicle's constants do to its figures is taken as a straight line about where its own evidence puts them,
and integrated out exactly: what is sampled is what all vehicles share. Two rounds settle where the lines are drawn.
"""

from dataclasses import dataclass
from typing import Any, NamedTuple

import jax
import jax.numpy as jnp
import numpy as np
import numpyro
import numpyro.distributions as dist
from numpyro.infer import MCMC, NUTS, init_to_median

from calibrating.answers import SHARED
from calibrating.constants import Constant
from calibrating.emulator import Emulator, features
from calibrating.evidence import Floats
from calibrating.scale import error_of, kind_of, to_scale

KINDS = {
    "warm-up": 2.5,
    "hot idle": 2.5,
    "moving": 1.5,
    "climb": 2.5,
    "fan cycle": 0.25,
    "effects": 0.05,
    "engine": 0.06,
}
"""What the right model may miss before any evidence, one standard deviation: [K], logarithm, shares; judgement."""

VAGUE = 0.35
"""How well the spread between vehicles is known beforehand, standard deviation of its logarithm; judgement."""

SIZES = (12, 24, 48, 96)
"""Numbers of figures to which sources are filled up, so that sources of like size go together."""

ROUNDS, FEW = 2, 100
"""Rounds in which lines are drawn and chains run, and draws of all rounds but the last."""


class Lines(NamedTuple):
    """Sources of one size: what was measured less the line's middle, the line, and where its errors come from.

    y (source, figure); slope (source, figure, constant); fixed (source, figure, figure);
    chosen (source, kind, figure); same (source, figure, figure); number (source,): place among all sources
    """

    y: Floats
    slope: Floats
    fixed: Floats
    chosen: Floats
    same: Floats
    number: Any


@dataclass(frozen=True, slots=True, kw_only=True)
class Posterior:
    """Draws (draw, ...): log factors of the population and spread between vehicles, by constant; what remains by kind.

    vehicles : log factors that each source's own evidence puts its vehicle at (constant,), by its name
    """

    population: Floats
    between: Floats
    remains: dict[str, Floats]
    vehicles: dict[str, Floats]
    worst_r_hat: float
    least_effective: float


def sampled(
    emulators: tuple[Emulator, ...], wanted: tuple[Constant, ...], *, without: str = "", warmup: int, kept: int,
    seed: int, start: Posterior | None = None,
) -> Posterior:  # fmt: skip
    """Sample the posterior over all emulated sources but one; `start` draws the first lines."""
    weights = np.array([float(not without or one.source.name.split("/")[0] != without) for one in emulators])
    middle = np.zeros(len(wanted)) if start is None else start.population.mean(axis=0)
    between = np.array([one.between for one in wanted]) if start is None else start.between.mean(axis=0)
    remains = dict(KINDS) if start is None else {kind: float(sd.mean()) for kind, sd in start.remains.items()}
    found: Posterior | None = None
    for round_ in range(ROUNDS if start is None else 1):
        places = [_place(one, middle, between, remains) for one in emulators]
        lines = _lines(emulators, places, len(wanted))
        last = start is not None or round_ == ROUNDS - 1
        run = _chains(
            lines, weights, wanted, warmup=warmup if last else FEW, kept=kept if last else FEW, seed=seed + round_
        )
        found = _posterior(run, emulators, places)
        middle, between = found.population.mean(axis=0), found.between.mean(axis=0)
        remains = {kind: float(sd.mean()) for kind, sd in found.remains.items()}
    assert found is not None
    return found


def _model(lines: list[Lines], weights: Floats, wanted: tuple[Constant, ...]) -> None:
    low, high = (jnp.log(jnp.array([getattr(one, name) for one in wanted])) for name in ("lowest", "highest"))
    prior = jnp.array([one.population for one in wanted])
    mu = numpyro.sample("mu", dist.TruncatedNormal(0.0, prior, low=low, high=high))
    width = jnp.log(jnp.array([one.between for one in wanted]))
    tau = numpyro.sample("tau", dist.LogNormal(width, VAGUE))
    sd = numpyro.sample("remains", dist.LogNormal(jnp.log(jnp.array(list(KINDS.values()))), 0.5))

    def one(y: Any, slope: Any, fixed: Any, chosen: Any, same: Any) -> Any:
        own = sd @ chosen
        missed = own[:, None] * own[None, :] * (SHARED * same + (1.0 - SHARED) * jnp.eye(len(y)))
        spread = fixed + missed + (slope * tau**2) @ slope.T
        return dist.MultivariateNormal(slope @ mu, spread).log_prob(y)

    for group in lines:
        fits = jax.vmap(one)(group.y, group.slope, group.fixed, group.chosen, group.same)
        numpyro.factor(f"seen {group.y.shape[1]}", jnp.sum(fits * weights[group.number]))


def _chains(
    lines: list[Lines], weights: Floats, wanted: tuple[Constant, ...], *, warmup: int, kept: int, seed: int
) -> Any:
    def model(lines: list[Lines], weights: Floats) -> None:
        _model(lines, weights, wanted)

    kernel = NUTS(model, init_strategy=init_to_median, target_accept_prob=0.85, max_tree_depth=7)
    run = MCMC(
        kernel, num_warmup=warmup, num_samples=kept, num_chains=2, chain_method="sequential", progress_bar=False,
        jit_model_args=True,
    )  # fmt: skip
    run.run(jax.random.PRNGKey(seed), lines, weights)
    return run


def _place(one: Emulator, middle: Floats, between: Floats, remains: dict[str, float]) -> Floats:
    """Log factors of a vehicle that agree best with its own evidence and the population (constant,)."""
    y, fixed, chosen, same = _told(one)
    own = np.array(list(remains.values())) @ chosen
    spread = fixed + np.outer(own, own) * (SHARED * same + (1.0 - SHARED) * np.eye(len(y)))
    precision, held = np.linalg.inv(spread), np.diag(1.0 / between**2)
    x = middle.copy()
    for _ in range(8):
        at, slope = _line(one, x)
        step = np.linalg.solve(slope.T @ precision @ slope + held, slope.T @ precision @ (y - at) + held @ (middle - x))
        x = x + np.clip(step, -0.5 * between, 0.5 * between)
    return x


def _line(one: Emulator, x: Floats) -> tuple[Floats, Floats]:
    """Figures at a place (figure,) and how they change with the constants there (figure, constant)."""
    open_ones = np.array(one.open_ones)
    scaled = x[open_ones] / one.scale
    at = features(scaled, one.pairs) @ one.weights
    slope = np.zeros((len(at), len(x)))
    step = 1e-3
    for place, constant in enumerate(open_ones):
        moved = scaled.copy()
        moved[place] += step
        slope[:, constant] = (features(moved, one.pairs) @ one.weights - at) / step / one.scale[place]
    return at, slope


def _told(one: Emulator) -> tuple[Floats, Floats, Floats, Floats]:
    """What was measured, errors of measurement and emulator, which kind each figure is, and which share a drive."""
    figures = one.figures
    y = np.array([float(to_scale(figure, figure.value)) for figure in figures])
    measured = np.array([error_of(figure) for figure in figures])
    kinds = [kind_of(figure) for figure in figures]
    chosen = np.array([[float(found == kind) for found in kinds] for kind in KINDS])
    drives = [one.source.drive_of[place] for place in one.places]
    same = np.array([[float(a == b and k == m) for b, m in zip(drives, kinds, strict=True)]
                     for a, k in zip(drives, kinds, strict=True)])  # fmt: skip
    return y, one.covariance + np.diag(measured**2 + 1e-8), chosen, same


def _lines(emulators: tuple[Emulator, ...], places: list[Floats], constants: int) -> list[Lines]:
    """All sources as lines, those of like size together, filled up with figures that say nothing."""
    grouped: dict[int, list[tuple[Any, ...]]] = {}
    for number, (one, x) in enumerate(zip(emulators, places, strict=True)):
        y, fixed, chosen, same = _told(one)
        at, slope = _line(one, x)
        count = len(y)
        size = next(size for size in SIZES if size >= count)
        free = size - count
        grouped.setdefault(size, []).append((
            np.pad(y - at + slope @ x, (0, free)),
            np.pad(slope, ((0, free), (0, 0))),
            np.pad(fixed, (0, free)) + np.diag(np.pad(np.zeros(count), (0, free), constant_values=1.0)),
            np.pad(chosen, ((0, 0), (0, free))),
            np.pad(same, (0, free)),
            number,
        ))  # fmt: skip
    return [Lines(*(np.stack(column) for column in zip(*rows, strict=True))) for rows in grouped.values()]


def _posterior(run: Any, emulators: tuple[Emulator, ...], places: list[Floats]) -> Posterior:
    found = {name: np.asarray(values, float) for name, values in run.get_samples().items()}
    grouped = run.get_samples(group_by_chain=True)
    scalars = [np.asarray(grouped[name]) for name in ("mu", "tau", "remains")]
    r_hat = max(float(np.max(numpyro.diagnostics.gelman_rubin(values))) for values in scalars)
    effective = min(float(np.min(numpyro.diagnostics.effective_sample_size(values))) for values in scalars)
    return Posterior(
        population=found["mu"],
        between=found["tau"],
        remains={kind: found["remains"][:, place] for place, kind in enumerate(KINDS)},
        vehicles={one.source.name: x for one, x in zip(emulators, places, strict=True)},
        worst_r_hat=r_hat,
        least_effective=effective,
    )
