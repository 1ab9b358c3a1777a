"""What of a fleet is done: a file of lines beside the output, from which a run that was stopped goes on.

Each line stands with the name of what was told of its vehicle, so that a row that was changed meanwhile is asked anew;
a file of another question is put aside. A line that was being written when the power went is left out.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any, cast

from pydantic import ValidationError

from toptank.shop.answers.fleet import FleetLeftOut, FleetLine, FleetVehicleAnswer
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from toptank.shop.ask.fleet.item import FleetItem, FleetQuestion


def beside(out: Path) -> Path:
    """Where the lines stand while the work goes on."""
    return out.with_name(f"{out.name}.unfinished")


class DoneFile:
    """The lines that are done, on disk and here; without an output only here."""

    def __init__(self, out: Path | None, asked: FleetQuestion, system: str) -> None:
        self._path = None if out is None else beside(out)
        self._system = system
        self._lines: dict[str, FleetLine] = {}
        if self._path is not None:
            self._begin(asked.digest())

    def line(self, item: FleetItem) -> FleetLine | None:
        """The line of a vehicle that is done, or None."""
        return self._lines.get(item.digest())

    def add(self, items: Sequence[FleetItem], lines: Sequence[FleetLine]) -> None:
        """Keep lines; they are on the disk when this returns."""
        keys = [item.digest() for item in items]
        self._lines |= dict(zip(keys, lines, strict=True))
        if self._path is not None:
            written = [self._written(key, line) for key, line in zip(keys, lines, strict=True)]
            self._append("".join(written))

    def finished(self) -> None:
        """The output stands: the lines are needed no more."""
        if self._path is not None:
            self._path.unlink(missing_ok=True)

    def _begin(self, question: str) -> None:
        assert self._path is not None
        head = json.dumps({"question": question}) + "\n"
        try:
            old = self._path.read_bytes() if self._path.exists() else b""
        except OSError as error:
            raise self._refusal(error) from error
        if not old.startswith(head.encode()):
            self._path.unlink(missing_ok=True)
            self._append(head)
            return
        whole = old[: old.rfind(b"\n") + 1]
        if len(whole) < len(old):  # a line that was cut short
            with self._path.open("r+b") as file:
                file.truncate(len(whole))
        for line in whole.decode("utf-8", errors="replace").splitlines()[1:]:
            self._read(line)

    def _read(self, line: str) -> None:
        try:
            kept = cast("dict[str, Any]", json.loads(line))
            kind = FleetVehicleAnswer if kept["kind"] == "vehicle" else FleetLeftOut
            self._lines[str(kept["key"])] = kind.model_validate(kept["line"])
        except (ValueError, KeyError, TypeError, ValidationError):
            return  # it is asked anew

    def _written(self, key: str, line: FleetLine) -> str:
        kind = "vehicle" if isinstance(line, FleetVehicleAnswer) else "left out"
        record = line.model_dump(mode="json", context={"system": self._system})
        return json.dumps({"key": key, "kind": kind, "line": record}, ensure_ascii=False) + "\n"

    def _append(self, text: str) -> None:
        assert self._path is not None
        try:
            with self._path.open("ab") as file:
                file.write(text.encode("utf-8"))
                file.flush()
        except OSError as error:
            raise self._refusal(error) from error

    def _refusal(self, error: OSError) -> Refusal:
        fix = error.strerror or "check the folder"
        return Refusal(field="out", value=str(self._path), limit="cannot be written", fix=fix)
