"""Something that the complaint tells, as a change of the job that a person may confirm; it does not count before."""

from __future__ import annotations

from dataclasses import dataclass

from toptank.shop.edit.edit_document import with_row, with_value


@dataclass(frozen=True, slots=True, kw_only=True)
class ProposedFigure:
    """A figure, or a reading in words, that the complaint tells.

    Parameters
    ----------
    told : what would be written down, in words
    quote : the words it rests on
    rows : tables that would be added to the job: key of the list, and its fields
    values : fields that would be written: path, text, how it is known
    """

    told: str
    quote: str
    rows: tuple[tuple[str, dict[str, str]], ...] = ()
    values: tuple[tuple[str, str, str], ...] = ()

    def written(self, text: str) -> str:
        """Return the text of a job with the figure written down."""
        for key, fields in self.rows:
            text = with_row(text, key, fields)
        for path, typed, how in self.values:
            text = with_value(text, path, typed, how)
        return text
