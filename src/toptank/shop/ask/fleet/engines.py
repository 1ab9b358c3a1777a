"""Where the work of a fleet is done besides this process; what is not installed is told when it is asked for."""

from __future__ import annotations

from importlib.util import find_spec
from typing import TYPE_CHECKING

from toptank.shop.ask.fleet import late
from toptank.system.numerics.where_run import PROCESSOR, Where, gpu, has_gpu
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from toptank.shop.answers.fleet import FleetLine
    from toptank.shop.ask.fleet.item import FleetItem, FleetQuestion
    from toptank.units.cancellation import CancelCheck

Pieces = "Sequence[Sequence[FleetItem]]"


def place(device: str | None, *, alone: bool) -> Where:
    """Where this process does its kernels.

    Parameters
    ----------
    device : "cpu" or "gpu"; left out: the GPU where JAX sees one
    alone : whether this process does the work; processes of a cluster work on processors

    Raises
    ------
    Refusal : where the GPU is asked for and there is none, or a cluster does the work
    """
    if device not in (None, "cpu", "gpu"):
        raise Refusal(field="device", value=device, limit="is no device", fix='write "cpu" or "gpu", or leave it out')
    if device == "gpu" and not alone:
        fix = "leave out one of them"
        raise Refusal(field="device", value=device, limit="does not go with workers or a scheduler", fix=fix)
    if device == "gpu" and not has_gpu():
        fix = 'install "toptank[cuda]" where there is an NVIDIA GPU, or leave it out'
        raise Refusal(field="device", value=device, limit="is not seen by JAX here", fix=fix)
    return gpu() if device != "cpu" and alone and has_gpu() else PROCESSOR


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
