"""The one way in which toptank says no."""

import re
from dataclasses import dataclass

_OPTION = re.compile(r"[,;]? ?(?:or )?(?:say (?:what others mean with )?|such as )--.*", re.DOTALL)


@dataclass(kw_only=True)  # not frozen: Python writes the traceback onto an exception on its way
class Refusal(ValueError):
    """Input that cannot be used, told in one sentence: which field, which value, which limit, what to do.

    Parameters
    ----------
    field : name of the field as the person wrote it, e.g. "cap.pressure"
    value : the value as the person wrote it
    limit : the rule that it breaks, e.g. "must lie between 0 and 30 psi"
    fix : what to do about it, e.g. "read the figure stamped on the cap"
    """

    field: str
    value: str
    limit: str
    fix: str

    def __post_init__(self) -> None:
        """Keep it to one line of signs that can be shown, whatever was written."""
        self.value = "".join(sign if sign.isprintable() else " " for sign in self.value)

    def __str__(self) -> str:
        end = "" if self.fix.endswith("?") else "."
        return f"{self.field} = {self.value}: {self.limit}; {self.fix}{end}"


def without_options(refusal: Refusal) -> str:
    """Return a refusal for a page, where things are asked for in the place and not by options of a command."""
    fix = _OPTION.sub("", refusal.fix).strip() or "say it below"
    return f"{refusal.field} = {refusal.value}: {refusal.limit}; {fix}."
