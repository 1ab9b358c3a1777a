"""What only a GPU needs, imported when one is used (`units/late.py`)."""

# What it imports is what it gives:
# pyright: reportUnusedImport=false

from typing import TYPE_CHECKING

from toptank.units.late import late_names

if TYPE_CHECKING:
    from toptank.system.numerics.one_kernel import in_one_kernel, works_on

__getattr__, __dir__ = late_names(__file__, of="a GPU")
