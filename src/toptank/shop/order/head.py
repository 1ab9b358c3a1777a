"""The head of the bench's page: who came with what. What nobody has said is a line to write on."""

from toptank.shop.job.job import Job
from toptank.shop.job.write_up import PLATE
from toptank.shop.order.record import HeadLine
from toptank.units.conversion import System, from_si, unit_of
from toptank.units.dialect import dialect_of
from toptank.units.dimension import DISTANCE

BY_HAND = "Date"
"""No paper says when it was printed: the same record gives the same bytes."""


def head(job: Job, system: System) -> tuple[HeadLine, ...]:
    """Return the entries of the head, in the order in which they are asked at the counter."""
    said, driven = job.write_up, job.evidence.history.distance
    lines = [
        ("Customer", said.customer),
        ("Phone", said.phone),
        (PLATE[dialect_of(system)], said.registration),
        ("Odometer", "" if driven is None else _odometer(driven, system)),
        ("Order no.", "" if job.number is None else str(job.number)),
        (BY_HAND, ""),
        ("Promised", said.promised),
        ("Mechanic", said.mechanic),
        *((("VIN", said.vin),) if said.vin else ()),
    ]
    return tuple(HeadLine(label=label, said=words) for label, words in lines)


def customer_head(job: Job, system: System) -> tuple[HeadLine, ...]:
    """Return the entries that stand on the customer's page too: who, which vehicle, which order, when."""
    wanted = ("Customer", PLATE[dialect_of(system)], "Order no.", BY_HAND)
    return tuple(line for line in head(job, system) if line.label in wanted)


def _odometer(driven: float, system: System) -> str:
    """Write what the odometer shows: whole, with a comma at the thousands as on any bill."""
    unit = unit_of(DISTANCE, system)
    return f"{float(from_si(driven, DISTANCE, unit)):,.0f} {unit}"
