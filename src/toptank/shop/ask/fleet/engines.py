"""Where the work of a fleet is done besides this process; what is not installed is told when it is asked for."""

from __future__ import annotations

from importlib.util import find_spec
from typing import TYPE_CHECKING

from toptank.shop.ask.fleet import late
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from toptank.shop.answers.fleet import FleetLine
    from toptank.shop.ask.fleet.item import FleetItem, FleetQuestion
    from toptank.units.cancellation import CancelCheck

Pieces = "Sequence[Sequence[FleetItem]]"


def on_cluster(
    pieces: Sequence[Sequence[FleetItem]],
    asked: FleetQuestion,
    *,
    workers: int | None,
    scheduler: str | None,
    go_on: CancelCheck,
) -> Iterator[tuple[Sequence[FleetItem], list[FleetLine]]]:
    """Pieces of a fleet with what they come to, from a cluster, as they are done.

    Raises
    ------
    Refusal : where Dask is not installed, or the cluster does not answer
    """
    field, value = ("workers", str(workers)) if scheduler is None else ("scheduler", scheduler)
    if find_spec("distributed") is None:
        fix = 'install "toptank[fleet]", or leave it out'
        raise Refusal(field=field, value=value, limit="needs Dask, which is not installed", fix=fix)
    if workers is not None and not 1 <= workers <= 256:
        raise Refusal(field="workers", value=value, limit="must lie between 1 and 256", fix="one a core is usual")
    return late.on_dask(pieces, asked, workers=workers, scheduler=scheduler, go_on=go_on)
