"""A release: what leaves a circle, as records, a file or a DataFrame."""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from ledger.errors import InputError
from ledger.messages import Code, Message, Typed

if TYPE_CHECKING:
    import pandas as pd

    from ledger.circle.call import Call

__all__ = ["CLASS", "FORMAT", "PUBLIC", "Release"]

FORMAT = "croftbook release 1"
CLASS, PUBLIC = "the class", "the public"
_NEEDED = ("for", "call", "name", "season", "from", "to", "currency", "households", "epsilon", "cells")  # fmt: skip


@dataclass(frozen=True)
class Release:
    """What leaves a circle.

    Attributes
    ----------
    head : dict
        ``for`` (the class or the public), ``call`` (its digest), ``name``, ``season``, ``from``, ``to``, ``before``,
        ``currency``, ``households`` (of the class: sheets, down to five; of the public: cards),
        ``epsilon`` (None, or what this release spent) and ``least``.
    cells : list of dict
        Of the class ``figure, group, n, low, middle, high, middle_from, middle_to, sum, withheld``; of the public
        ``edges, noisy, scale`` in place of ``n, sum, withheld``. Whole numbers: money in hundredths,
        shares and learning rates per mille, minutes, g a square metre.
    """

    head: dict[str, Any]
    cells: list[dict[str, Any]]

    @classmethod
    def of(
        cls,
        call: Call,
        audience: str,
        households: int,
        cells: list[dict[str, Any]],
        epsilon: float | None = None,
    ) -> Release:
        """Return a release of a call."""
        before = call.before and {"from": call.before.from_, "to": call.before.to}
        head = {
            "format": FORMAT, "for": audience, "call": call.digest, "name": call.name, "season": call.season,
            "from": call.from_, "to": call.to, "before": before, "currency": call.currency,
            "households": households, "epsilon": epsilon, "least": 10,
        }  # fmt: skip
        return cls(head, cells)

    @classmethod
    def read(cls, path: str | Path) -> Release:
        """Return the release of a file.

        Raises
        ------
        InputError
            It is none.
        """
        try:
            body = json.loads(Path(path).read_bytes())
        except (FileNotFoundError, IsADirectoryError):
            raise InputError(
                "release",
                Message.of("refusal-no-file", path=Code(str(path))),
                Message.of("refusal-check-name"),
            ) from None
        except (ValueError, UnicodeDecodeError):
            body = None
        if not isinstance(body, dict) or not str(body.get("format")).startswith(
            "croftbook release"
        ):
            raise InputError(
                "release",
                Message.of("refusal-no-release", name=Code(Path(path).name)),
            )
        if body["format"] != FORMAT:
            raise InputError(
                "release",
                Message.of("refusal-release-later", format=Typed(body["format"])),
            )
        missing = [name for name in _NEEDED if name not in body]
        if missing:
            raise InputError("release", Message.of("refusal-release-lacks", name=Code(missing[0])))
        return cls({k: v for k, v in body.items() if k != "cells"}, body["cells"])

    @property
    def is_private(self) -> bool:
        """Whether it is for the public, with noise."""
        return bool(self.head["for"] == PUBLIC)

    @property
    def frame(self) -> pd.DataFrame:
        """The cells as a DataFrame of objects: a row each, the group in columns of its own."""
        import pandas as pd

        names = ("product", "method", "crop", "zone")
        rows = [
            {"figure": cell["figure"], **{name: cell["group"].get(name) for name in names}}
            | {k: v for k, v in cell.items() if k not in ("figure", "group")}
            for cell in self.cells
        ]
        return pd.DataFrame(rows, dtype=object)

    def to_dict(self) -> dict[str, Any]:
        """Return the release as its file holds it."""
        return {**self.head, "cells": self.cells}

    def to_bytes(self) -> bytes:
        """Return the file: JSON, a cell a line."""
        head = json.dumps(self.head, ensure_ascii=False)[:-1]
        cells = ",\n".join(json.dumps(cell, ensure_ascii=False) for cell in self.cells)
        return f'{head}, "cells": [\n{cells}\n]}}\n'.encode()

    def to_csv(self) -> bytes:
        """Return the cells as CSV that no spreadsheet runs."""
        from ledger.cells import as_csv

        return as_csv(self.frame).encode()
