"""The work of a fleet on Dask: processes of this machine, or any cluster.

A piece that was with a worker that died is given to another; what is done has been handed back and stands on the disk.
"""

from __future__ import annotations

import contextlib
import logging
import os
from typing import TYPE_CHECKING, Any

from dask import config as dask_config
from distributed import Client, LocalCluster, as_completed

from toptank.shop.ask.fleet.lines import lines_of
from toptank.system.numerics.kernel import THREADS
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from toptank.shop.answers.fleet import FleetLine
    from toptank.shop.ask.fleet.item import FleetItem, FleetQuestion
    from toptank.units.cancellation import CancelCheck

ANSWERS_WITHIN = "30s"
"""How long a scheduler is waited for."""

DEATHS = 3
"""Workers that may die over one piece before it is taken to be the piece's doing."""


def on_dask(
    pieces: Sequence[Sequence[FleetItem]],
    asked: FleetQuestion,
    *,
    workers: int | None,
    scheduler: str | None,
    go_on: CancelCheck,
) -> Iterator[tuple[Sequence[FleetItem], list[FleetLine]]]:
    """Pieces of a fleet with what they come to, as they are done."""
    with contextlib.ExitStack() as stack:
        client = stack.enter_context(_client(stack, workers, scheduler))
        futures: dict[Any, Sequence[FleetItem]] = {
            client.submit(lines_of, piece, asked, pure=False): piece for piece in pieces
        }
        try:
            finished: Any = as_completed(futures)
            for future in finished:
                go_on()
                yield futures[future], future.result()
                future.release()
        finally:
            client.cancel(list(futures))


def _client(stack: contextlib.ExitStack, workers: int | None, scheduler: str | None) -> Any:
    """A client of a scheduler that is there, or of processes of this machine, each with its share of the cores."""
    stack.enter_context(
        dask_config.set(
            {
                "distributed.scheduler.allowed-failures": DEATHS,
                "distributed.comm.timeouts.connect": ANSWERS_WITHIN,
                "distributed.scheduler.worker-saturation": 1.0,
            }
        )
    )
    if scheduler is not None:
        try:
            return Client(scheduler, timeout=ANSWERS_WITHIN)
        except (OSError, ValueError) as error:
            fix = "start it with `dask scheduler`, and check the address"
            raise Refusal(field="scheduler", value=scheduler, limit="does not answer", fix=fix) from error
    n = workers or 1
    threads = max((os.cpu_count() or 1) // n, 1)
    cluster: Any = LocalCluster(
        n_workers=n,
        threads_per_worker=1,
        processes=True,
        dashboard_address="127.0.0.1:0",
        silence_logs=logging.ERROR,  # a worker that dies is replaced; it is no news to who asks
        env={THREADS: str(threads), "OPENBLAS_NUM_THREADS": "1", "JAX_PLATFORMS": "cpu"},
    )
    stack.enter_context(cluster)
    return Client(cluster)
