"""A release as one page that holds everything it needs, on a screen or on paper.

Made from a release alone; a household's own figures are marked on it on its own machine (`own`).
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from importlib.resources import files
from typing import Any

from ledger.circle.told import BY_NAME
from ledger.circle.words import amount_said, withheld_said
from ledger.circle.yardsticks import CHANGE_NOTE, published_span, yardstick
from ledger.messages import sentence

__all__ = ["page_of", "rows_of", "subject_of"]

_MINUS = re.compile(r"(?<![\w-])-(?=[\d.])")
_WIDE = 240
"""Units of a drawing's width."""

_SECTIONS = (
    ("What a quart costs and takes", ("cost", "minutes", "learning", "jars")),
    ("What a square metre brings", ("yield",)),
    ("Batches and jars", ("short_share", "short", "unsealed_share", "unsealed", "old_share", "batches", "kept")),
    ("Waste, and the own share", ("waste", "own_energy", "own_weight", "own_value")),
    ("Before and after the course", (
        "change_short", "change_unsealed", "change_waste", "change_own_energy", "change_minutes",
    )),
    ("Hours and money", ("hours", "spent", "saved", "skills")),
)  # fmt: skip

Own = Mapping[tuple[str, str], int | None]
"""A household's own figures by name and subject."""


def subject_of(group: Mapping[str, str]) -> str:
    """Return what a cell is about: ``apple sauce (boiling water)``, ``tomato, zone 4+6`` or ''."""
    if "product" in group:
        return f"{group['product']} ({group['method']})"
    if "crop" in group:
        return f"{group['crop']}, zone {group['zone']}"
    return ""


def page_of(release: Any, own: Own | None = None) -> str:
    """Return the page of a release as HTML: no script, nothing from elsewhere.

    Parameters
    ----------
    release : Release
    own : mapping, optional
        The household's figures, by figure and subject, to be marked.
    """
    from jinja2 import Environment

    pages = Environment(autoescape=True, trim_blocks=True, lstrip_blocks=True)
    pages.filters["minus"] = lambda text: _MINUS.sub("−", text)
    rows = rows_of(release, own)
    sections = [
        {
            "title": title,
            "rows": there,
            "note": CHANGE_NOTE if names[0].startswith("change_") else "",
        }
        for title, names in _SECTIONS
        if (there := [row for name in names for row in rows if row["figure"] == name])
    ]
    text: str = pages.from_string(_template()).render(
        head=release.head, sections=sections, answer=_answer(release, rows), privacy=_privacy(release),
        is_private=release.is_private, wide=_WIDE, has_own=own is not None,
    )  # fmt: skip
    return text


def _template() -> str:
    return files("ledger.circle").joinpath("release.html").read_text("utf-8")


def rows_of(release: Any, own: Own | None = None) -> list[dict[str, Any]]:
    """Return a release's cells in words, with their drawings; `own` as for `page_of`."""
    currency = release.head["currency"]
    spans = _spans(release.cells, own or {})
    rows = []
    for cell in release.cells:
        told, subject = BY_NAME[cell["figure"]], subject_of(cell["group"])
        mine = (own or {}).get((told.name, subject))
        said = {
            name: amount_said(told.unit, cell[name], currency) if cell.get(name) is not None else ""
            for name in ("low", "middle", "high", "middle_from", "middle_to", "sum")
        }
        rows.append(
            {
                "figure": told.name, "label": told.label, "subject": subject, **said, "many": _many(cell),
                "own": "" if mine is None else amount_said(told.unit, mine, currency),
                "half": _span(said["low"], said["high"]), "withheld": withheld_said(cell.get("withheld") or ""),
                "reach": _span(said["middle_from"], said["middle_to"]),
                "yardstick": yardstick(told.name, cell["group"]), **_drawing(cell, spans[told.name], mine),
            }
        )  # fmt: skip
    return rows


def _span(low: str, high: str) -> str:
    """Return ``0.80 to 0.90 USD``: a unit that both have is said once."""
    first, _, unit = low.partition(" ")
    return f"{first} to {high}" if unit == high.partition(" ")[2] else f"{low} to {high}"


def _many(cell: Mapping[str, Any]) -> str:
    if "noisy" in cell:
        return sentence("circle-about", n=max(sum(cell["noisy"]), 0))
    return "" if cell["n"] is None else sentence("circle-at-least", n=cell["n"])


def _spans(cells: Sequence[Mapping[str, Any]], own: Own) -> dict[str, tuple[float, float]]:
    """Return one scale a figure: products and zones are read against each other."""
    out: dict[str, tuple[float, float]] = {}
    for cell in cells:
        name = cell["figure"]
        mine = own.get((name, subject_of(cell["group"])))
        values = [v for v in (cell["low"], cell["high"], mine) if v is not None]
        if name == "yield" and (found := published_span(cell["group"]["crop"])):
            values += [round(one) for one in found]
        if name.startswith("change_") or BY_NAME[name].unit not in ("rate", "minutes change"):
            values.append(0)
        low, high = min(values, default=0), max(values, default=0)
        if name in out:
            low, high = min(low, out[name][0]), max(high, out[name][1])
        out[name] = (low, high)
    return out


def _drawing(
    cell: Mapping[str, Any], span: tuple[float, float], mine: int | None
) -> dict[str, Any]:
    """Return where low, middle, high, the published range and the own mark stand, in units of the drawing."""
    low, high = span
    size = (high - low) or 1.0

    def at(value: float | None) -> float | None:
        return None if value is None else round(4 + (value - low) / size * (_WIDE - 8), 1)

    found = None
    if cell["figure"] == "yield":
        found = published_span(cell["group"]["crop"])
    out: dict[str, Any] = {
        "at": {name: at(cell[name]) for name in ("low", "middle", "high")},
        "at_own": at(mine), "at_nought": at(0) if low <= 0 <= high else None,
        "at_published": [at(one) for one in found] if found else None, "bars": [],
    }  # fmt: skip
    if "noisy" in cell:
        most = max(*cell["noisy"], 1)
        width = (_WIDE - 8) / len(cell["noisy"])
        out["bars"] = [
            {
                "x": round(4 + i * width, 1),
                "w": round(width - 1, 1),
                "h": round(20 * max(n, 0) / most, 1),
            }
            for i, n in enumerate(cell["noisy"])
        ]
    return out


def _answer(release: Any, rows: Sequence[Mapping[str, Any]]) -> str:
    """Return the page's first sentence: the most wanted figure that could be told."""
    many = release.head["households"]
    who = f"{many} cards" if release.is_private else f"{many} households"
    for row in rows:
        if row["middle"]:
            about = f", {row['subject']}" if row["subject"] else ""
            what = row["label"][0].lower() + row["label"][1:]
            return f"Among {who}, {what}{about}: {row['middle']} in the middle, {row['half']} for half of them."
    return f"{who} took part; too few share any one figure for it to be told."


def _privacy(release: Any) -> dict[str, str]:
    """Return the numbers of what a release to the public promises; {} for the class."""
    if not release.is_private:
        return {}
    epsilon = release.head["epsilon"]
    most = (math.exp(epsilon) - 1) / (math.exp(epsilon) + 1)
    off = release.cells[0]["scale"] * math.log(20)  # the tail of the Laplace distribution
    return {"epsilon": f"{epsilon:g}", "advantage": f"{100 * most:.0f}", "off": f"{off:.0f}"}
