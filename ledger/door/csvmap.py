"""A mapping file: which foreign heading holds which field, written once for a kind of sheet."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass, field
from pathlib import Path

from ledger.errors import InputError
from ledger.messages import Code, Message, Names, Typed

__all__ = ["Map"]

_EXAMPLE = 'Write [columns] with lines like "Date" = "on", and [constants] like kind = "bought"'


@dataclass(frozen=True)
class Map:
    """Headings of a sheet by field, and fields that are the same in all its rows.

    Parameters
    ----------
    columns : dict of str to str
        Field by heading. When empty, headings are fields; otherwise other headings are left out.
    constants : dict of str to str
        Value by field.
    """

    columns: dict[str, str] = field(default_factory=dict)
    constants: dict[str, str] = field(default_factory=dict)

    @classmethod
    def read(cls, path: Path) -> Map:
        """Return a mapping from TOML: ``[columns]`` heading = field, ``[constants]`` field = value.

        Raises
        ------
        InputError
        """
        try:
            with path.open("rb") as file:
                data = tomllib.load(file)
        except OSError as error:
            raise InputError(
                "map",
                Message.of(
                    "refusal-file-unreadable",
                    path=Code(str(path)),
                    problem=Code(str(error.strerror)),
                ),
                Message.of("refusal-toml-file"),
            ) from None
        except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
            raise InputError(
                "map", Message.of("refusal-no-toml", path=Code(str(path)), error=Code(str(error)))
            ) from None
        for part, values in data.items():
            if part not in ("columns", "constants"):
                raise InputError("map", Message.of("refusal-map-part", name=Typed(part)))
            plain = (str, int, float) if part == "constants" else (str,)
            if not isinstance(values, dict) or not all(
                isinstance(value, plain) for value in values.values()
            ):
                raise InputError("map", Message.of("refusal-map-texts", name=part))
        columns = {str(heading).strip(): name for heading, name in data.get("columns", {}).items()}
        return cls(columns, {name: str(v) for name, v in data.get("constants", {}).items()})

    def names(self, header: list[str] | None) -> list[str]:
        """Return the field of each column, "" where it is left out.

        Raises
        ------
        InputError
            When a column is named twice, mapped but missing, or there is no kind or day.
        """
        if not header or not any(cell.strip() for cell in header):
            raise InputError(
                "header",
                Message.of("refusal-missing"),
                Message.of("refusal-first-row"),
            )
        cells = [cell.strip() for cell in header]
        names = [self.columns.get(cell, "") if self.columns else cell for cell in cells]
        for heading in self.columns:
            if heading not in cells:
                raise InputError(
                    "map",
                    Message.of(
                        "refusal-no-heading", name=Typed(heading), names=Names(tuple(cells))
                    ),
                )
        twice = {name for name in names if name and names.count(name) > 1}
        if twice:
            raise InputError("header", Message.of("refusal-heading-twice", name=Typed(min(twice))))
        for wanted in ("on", "kind"):
            if wanted not in names and wanted not in self.constants:
                raise InputError(
                    "header",
                    Message.of("refusal-no-column", name=Typed(wanted)),
                )
        return names
