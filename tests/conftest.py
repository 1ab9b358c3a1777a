"""What every test shares: how long hypothesis searches, and JAX on the processor."""

import os

from hypothesis import settings

os.environ.setdefault("JAX_PLATFORMS", "cpu")

# Seeds stay free, so that every run searches somewhere else; `print_blob` makes a find repeatable.
settings.register_profile("bench", deadline=None, derandomize=False, print_blob=True, max_examples=100)
settings.register_profile("ci", settings.get_profile("bench"), max_examples=25)
settings.register_profile("deep", settings.get_profile("bench"), max_examples=2000)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "ci" if os.environ.get("CI") else "bench"))
