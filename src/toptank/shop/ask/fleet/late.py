"""What only a cluster needs, imported when one is asked for (`units/late.py`)."""

# What it imports is what it gives:
# pyright: reportUnusedImport=false

from typing import TYPE_CHECKING

from toptank.units.late import late_names

if TYPE_CHECKING:
    from toptank.shop.ask.fleet.cluster import on_dask

__getattr__, __dir__ = late_names(__file__, of="the cluster")
