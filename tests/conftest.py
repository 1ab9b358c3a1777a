"""What every test shares: how long hypothesis searches, JAX on the processor, the answers to the built-in example."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

import pytest
from hypothesis import settings

if TYPE_CHECKING:
    from toptank.shop.answers.answers import Chosen, Diagnosed

os.environ.setdefault("JAX_PLATFORMS", "cpu")
# Words, pages and files are looked at over few simulations; what asks for amounts says how many it takes.
os.environ.setdefault("TOPTANK_DRAWS", "600")

# Seeds stay free, so that every run searches somewhere else; `print_blob` makes a find repeatable.
settings.register_profile("bench", deadline=None, derandomize=False, print_blob=True, max_examples=100)
settings.register_profile("ci", settings.get_profile("bench"), max_examples=25)
settings.register_profile("deep", settings.get_profile("bench"), max_examples=2000)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "ci" if os.environ.get("CI") else "bench"))


@pytest.fixture(scope="session")
def demo_diagnosed() -> Diagnosed:
    """The diagnosis of the built-in example: once for all tests that go on from it."""
    from toptank.shop.ask import diagnose, service

    return diagnose.diagnose(service.demo_job())


@pytest.fixture(scope="session")
def demo_chosen(demo_diagnosed: Diagnosed) -> Chosen:
    """What each plan does for the built-in example, with few draws."""
    from toptank.shop.ask.choice import choose

    return choose.choose(demo_diagnosed.job, draws=400, diagnosed=demo_diagnosed)
