"""What a person types beside a job: a name, a reason, a note."""

from toptank.shop.files.toml_file import shortened
from toptank.units.refusal import Refusal

LONGEST_NAME = 200
LONGEST_REASON = 4_000
LONGEST_NOTE = 64 * 1024


def check_words(text: str, field: str, longest: int = LONGEST_REASON) -> None:
    """Refuse what is too long, or could not be shown again."""
    if len(text) > longest:
        fix = "attach a longer text as a file"
        raise Refusal(field=field, value=shortened(text), limit=f"is longer than {longest:,} signs", fix=fix)
    if not printable(text):
        limit = "holds signs that cannot be printed"
        raise Refusal(field=field, value=shortened(text), limit=limit, fix="type it anew")


def check_encodable(text: str, field: str = "file") -> None:
    """Refuse half a sign (a lone surrogate), which no file and no page can hold."""
    if any("\ud800" <= sign <= "\udfff" for sign in text):
        limit = "holds signs that cannot be printed"
        raise Refusal(field=field, value="(not shown)", limit=limit, fix="type it anew")


def printable(text: str) -> bool:
    """Whether a text can be shown on any screen without doing anything else to it."""
    return all(sign.isprintable() or sign in "\n\r\t" for sign in text)
