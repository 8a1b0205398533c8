"""Make docs/schedules.md and docs/cautions.md from the tables and texts.

python -m ledger.published.docs FOLDER
"""

from __future__ import annotations

import sys
from pathlib import Path

from ledger.published.cautions import CAUTIONS, FIRST, SHORT
from ledger.published.finding import lines_of
from ledger.published.words import acid_text, band, inches
from ledger.reference.schedules import BANDS, Schedule, products

__all__ = ["cautions_text", "schedules_text", "write_docs"]

_INTRO = """# Published processes

Made by `python -m ledger.published.docs docs` from the packaged tables; a test holds the two together.

{short}

Each line is one printed line of a published table. Figures are as printed; nothing is derived. Bands of altitude are as
printed, too: 1,000 ft belongs to "0 to 1,000". Options are alternatives, each complete in itself. A line marked *not
confirmed* was recalled and not read: look it up in its document; it never gives "as published". Numbers in brackets
name the documents at the end.
"""


def schedules_text() -> str:
    """Return docs/schedules.md: every printed line, by product, with its document."""
    documents: dict[str, int] = {}
    parts = [_INTRO.format(short=SHORT)]
    for key, product in products().items():
        parts.append(f"## {product.label[0].upper()}{product.label[1:]}\n")
        low = "Low in acid: pressure only. " if product.low_acid else ""
        parts.append(f"{low}Called: {', '.join(product.names)}. Key: `{key}`.\n")
        for kind in ("boiling water", "dial", "weighted"):
            lines = [s for s in lines_of(key) if (s.gauge or "boiling water") == kind]
            if lines:
                parts.append(_table(kind, lines, documents))
        remarks = dict.fromkeys(s.note for s in lines_of(key) if s.note)
        parts += [f"- {remark}" for remark in remarks] + ([""] if remarks else [])
    parts.append("## Documents\n")
    parts += [f"{n}. {text}" for text, n in documents.items()]
    return "\n".join(parts).rstrip() + "\n"


def _table(kind: str, lines: list[Schedule], documents: dict[str, int]) -> str:
    bands = BANDS[kind]
    unit = "minutes" if kind == "boiling water" else "psi"
    title = "Boiling water" if kind == "boiling water" else f"Pressure, {kind} gauge"
    head = ["jar", "pack", "option", *(["minutes"] if unit == "psi" else [])]
    head += [f"{unit}, {band(*one)}" for one in bands]
    head += ["headspace", "acid a jar", "document"]
    rows = [f"**{title}**\n", f"| {' | '.join(head)} |", f"|{'---|' * len(head)}"]
    rows += [f"| {' | '.join(_row(line, documents))} |" for line in lines]
    return "\n".join(rows) + "\n"


def _row(line: Schedule, documents: dict[str, int]) -> list[str]:
    where = f"{line.source}, {line.source.address} ({line.source.read})"
    number = documents.setdefault(where, len(documents) + 1)
    sure = "" if line.confirmed else " *not confirmed*"
    row = [line.jar, line.pack, str(line.option)]
    if line.gauge:
        row.append(str(line.cells[0].minutes))
        row += ["not recommended" if c.psi is None else str(c.psi) for c in line.cells]
    else:
        row += [str(c.minutes) for c in line.cells]
    return [*row, inches(line.headspace_in), acid_text(line) or "", f"[{number}] {line.part}{sure}"]


def cautions_text() -> str:
    """Return docs/cautions.md: the cautions, short and whole."""
    parts = [
        "# Cautions\n",
        "Made by `python -m ledger.published.docs docs`; the program shows the same texts. In our own words,",
        "after the documents that [schedules.md](schedules.md) names.\n",
        "## On first use\n",
        f"{FIRST}\n",
        "## With every answer\n",
        f"{SHORT}\n",
        "## Whole\n",
    ]
    for heading, text in CAUTIONS:
        parts.append(f"**{heading}.** {text}\n")
    return "\n".join(parts).rstrip() + "\n"


def write_docs(folder: Path) -> None:
    """Write both pages into a folder."""
    (folder / "schedules.md").write_text(schedules_text(), "utf-8")
    (folder / "cautions.md").write_text(cautions_text(), "utf-8")


if __name__ == "__main__":
    write_docs(Path(sys.argv[1] if len(sys.argv) > 1 else "docs"))
