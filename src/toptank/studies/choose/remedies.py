"""Every remedy that is weighed."""

from toptank.studies.choose.remedies_of_air import REMEDIES_OF_AIR
from toptank.studies.choose.remedies_of_coolant import REMEDIES_OF_COOLANT
from toptank.studies.choose.remedies_of_core import REMEDIES_OF_CORE
from toptank.studies.choose.remedies_of_heat import REMEDIES_OF_HEAT
from toptank.studies.choose.remedy import Remedy

REMEDIES: tuple[Remedy, ...] = (*REMEDIES_OF_AIR, *REMEDIES_OF_CORE, *REMEDIES_OF_COOLANT, *REMEDIES_OF_HEAT)
