"""Every remedy that is weighed."""

from toptank.catalogue.remedies.air import REMEDIES_OF_AIR
from toptank.catalogue.remedies.coolant import REMEDIES_OF_COOLANT
from toptank.catalogue.remedies.core import REMEDIES_OF_CORE
from toptank.catalogue.remedies.heat import REMEDIES_OF_HEAT
from toptank.catalogue.remedies.remedy import Remedy

REMEDIES: tuple[Remedy, ...] = (*REMEDIES_OF_AIR, *REMEDIES_OF_CORE, *REMEDIES_OF_COOLANT, *REMEDIES_OF_HEAT)
