"""Every cause that is looked for, and what a vehicle without any is called."""

from toptank.catalogue.causes.air import CAUSES_OF_AIR
from toptank.catalogue.causes.cause import Cause
from toptank.catalogue.causes.flow import CAUSES_OF_FLOW
from toptank.catalogue.causes.heat import CAUSES_OF_HEAT

CAUSES: tuple[Cause, ...] = (*CAUSES_OF_AIR, *CAUSES_OF_FLOW, *CAUSES_OF_HEAT)

NOTHING_BROKEN = "duty beyond a healthy system"
"""The name of no cause at all: sound, and either fine or asked for more than it can."""

LEAVE_AS_IT_IS = "nothing to mend: ask less of it, or fit more"
"""Repair of `NOTHING_BROKEN`."""

CAUSE_NAMES: tuple[str, ...] = (*(cause.name for cause in CAUSES), NOTHING_BROKEN)
