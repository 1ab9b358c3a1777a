"""What stands between an answer and the person: a terminal of few signs, a full disk, a pipe that somebody closed."""

import codecs
import contextlib
import errno
import io
import os
import re
import sys
import unicodedata
from collections.abc import Callable
from typing import Any, cast

import typer

from toptank.shop.door import shortened
from toptank.units.nearest import did_you_mean
from toptank.units.refusal import Refusal

_PLAIN = {
    "°": "",
    "–": "-",
    "—": "-",
    "“": '"',
    "”": '"',
    "‘": "'",
    "’": "'",
    "×": "x",
    "±": "+-",
    "…": "...",
    "÷": "/",
    "→": "->",
    "█": "#",
    "·": "-",
}
"""What a typewriter has for our signs; the degree sign is left out, as people do: 212 F."""

_PARSER_WORDS = (
    ("Value error, ", ""),
    ("Input should be a valid integer, unable to parse string as an integer", "write a whole number"),
)
"""What the parser of the command line says, and what we say."""

USAGE_ERROR = cast("type[Exception]", typer.BadParameter.__mro__[1])
"""The kind of everything that the command line can refuse; typer gives a name only to one of its children."""


def run(app: Callable[..., Any]) -> int:
    """Run a command and return its exit code: 2, with one sentence, for what cannot be used or cannot be written."""
    _spell_out_signs()
    try:
        code = app(standalone_mode=False)
        _flush()
    except Refusal as refusal:
        return _told(refusal)
    except USAGE_ERROR as error:
        return _told_of_usage(error)
    except (KeyboardInterrupt, typer.Abort):
        return 130
    except BrokenPipeError:
        _let_go_of_output()
        return 1  # whoever reads has seen enough
    except OSError as error:
        return _told_of_output(error)
    except SystemExit as end:  # rich ends so when a pipe is closed
        _let_go_of_output()
        return end.code if isinstance(end.code, int) else 1
    return code if isinstance(code, int) else 0


def write(text: str, *, complaint: bool = False) -> None:
    """Write a text and end the line; unlike typer's echo, which takes a terminal of few signs for a mistake."""
    stream = sys.stderr if complaint else sys.stdout
    if stream is not None:
        stream.write(f"{text}\n")


def prints_every_sign() -> bool:
    """Whether the output takes any sign there is."""
    return codecs.lookup(_encoding()).name.startswith("utf")


def spelt_out(text: str) -> str:
    """Return a text with every sign that the output cannot print spelt out as on a typewriter."""
    encoding = _encoding()
    return text.encode(encoding, errors="toptank").decode(encoding)


def _encoding() -> str:
    return getattr(sys.stdout, "encoding", None) or "utf-8"


def _spell_out_signs() -> None:
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="toptank")


def _spelt(error: UnicodeError) -> tuple[str, int]:
    if not isinstance(error, UnicodeEncodeError):
        raise error
    signs = error.object[error.start : error.end]
    return "".join(_typewritten(sign) for sign in signs), error.end


def _typewritten(sign: str) -> str:
    if sign in _PLAIN:
        return _PLAIN[sign]
    letters = unicodedata.normalize("NFKD", sign).encode("ascii", "ignore").decode("ascii")
    return letters or "?"


codecs.register_error("toptank", _spelt)


def _told(refusal: Refusal) -> int:
    with contextlib.suppress(OSError):
        write(f"toptank: {refusal}", complaint=True)
    return 2


def _told_of_usage(error: Any) -> int:
    """One sentence on a command that does not exist so; the help itself if nothing but a group of them was named."""
    said = error.format_message().strip()
    if said.startswith("Usage:"):
        write(said, complaint=True)
        return 2
    command = error.ctx.command_path if error.ctx else "toptank"
    known, wanted = getattr(error, "possibilities", None), getattr(error, "option_name", "")
    if known:
        said = error.message
    elif match := re.match(r"No such command '(.*?)'", said):
        said, wanted, known = match[0], match[1], error.ctx.command.commands
    for theirs, ours in _PARSER_WORDS:
        said = said.replace(theirs, ours)
    fix = did_you_mean(wanted, known or (), f"`{command} --help` tells what it takes")
    typed = shortened(" ".join(("toptank", *sys.argv[1:])))
    limit = shortened(said[:1].lower() + said[1:], most=160).rstrip(".")
    return _told(Refusal(field="command", value=typed, limit=limit, fix=fix))


def _told_of_output(error: OSError) -> int:
    named = str(error.filename) if error.filename else "the answer"
    fix = {errno.ENOSPC: "the disk is full; make room, or write elsewhere"}.get(error.errno or 0, "")
    _let_go_of_output()
    return _told(
        Refusal(field="output", value=named, limit="cannot be written", fix=fix or error.strerror or "write elsewhere")
    )


def _flush() -> None:
    if sys.stdout is not None:
        sys.stdout.flush()


def _let_go_of_output() -> None:
    """Let what is left in the buffer go nowhere, or Python would try once more at its end, and complain."""
    with contextlib.suppress(OSError, ValueError, AttributeError):
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, sys.stdout.fileno())
        os.close(nowhere)
