"""What the tests of the parts share: a population must answer as its members would one by one."""

from collections.abc import Callable, Sequence
from typing import Any

import numpy as np
import pytest


@pytest.fixture
def same_one_by_one() -> Callable[..., None]:
    """Return the judge that arrays are answered as their numbers are, one at a time."""

    def judge(answer: Callable[..., Any], **columns: Sequence[float]) -> None:
        together = answer(**{name: np.array(column) for name, column in columns.items()})
        alone = [answer(**dict(zip(columns, row, strict=True))) for row in zip(*columns.values(), strict=True)]
        several = isinstance(together, tuple)
        pairs = zip(together, zip(*alone, strict=True), strict=True) if several else [(together, alone)]
        for ours, theirs in pairs:
            np.testing.assert_allclose(np.broadcast_to(ours, len(alone)), np.array(theirs), rtol=1e-12)
        assert len({str(one) for one in alone}) > 1, "rows that all give the same cannot show a mix-up"

    return judge
