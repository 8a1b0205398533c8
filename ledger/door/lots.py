"""Named lots: asked about when typed, reported by an import, when they are not what a line means."""

from __future__ import annotations

import re
from typing import Any

from ledger.door.answers import Answers
from ledger.door.catalogue import Catalogue
from ledger.errors import NeedsAnswer
from ledger.events import Kind, decode_stored, kind_of
from ledger.log import Writing

__all__ = ["check_lots"]

_LOT = re.compile(r"(?P<entry>[0-9a-f-]{36}):(?P<n>\d+)(?P<mark>[fuc]?)")


def check_lots(
    tx: Writing,
    catalogue: Catalogue,
    event: tuple[Kind, dict[str, Any], str, str | None],
    answers: Answers,
) -> None:
    """Ask about every line that names a lot which it cannot draw on.

    Such a line is drawn oldest first like any other.
    """
    kind, body, on, _ = event
    for name in kind.draws:
        several = body.get(name) or []
        for i, line in enumerate([several] if isinstance(several, dict) else several):
            if not isinstance(line, dict) or not line.get("lot"):
                continue
            problem = _problem(tx, catalogue, line, on)
            if problem:
                field = f"{name}[{i}].lot" if not isinstance(several, dict) else f"{name}.lot"
                answers.settle(
                    NeedsAnswer(
                        "lot",
                        field,
                        f"{line['lot']}: {problem}; take the oldest {line['item']} instead?",
                        "take the oldest",
                    )
                )


def _problem(tx: Writing, catalogue: Catalogue, line: dict[str, Any], on: str) -> str | None:
    match = _LOT.fullmatch(line["lot"])
    if not match:
        return None if _has_label(catalogue, line) else f"no jar of {line['item']} has that label"
    if match["mark"] in ("u", "c"):
        return "an unrecorded or found lot cannot be named"
    stored = tx.get(match["entry"])
    if stored is None:
        return "there is no such lot"
    if catalogue.root(match["entry"]) in catalogue.struck:
        return "that entry was taken back"
    body = decode_stored(stored.kind, stored.v, stored.body)
    item = _item_of(kind_of(stored.kind), body, int(match["n"]))
    if item is None:
        return "there is no such lot"
    if catalogue.key(item) != catalogue.key(line["item"]):
        return f"that lot is {item}"
    return "that lot came later" if stored.on > on else None


def _item_of(kind: Kind, body: dict[str, Any], n: int) -> str | None:
    for name in kind.supplies:
        for line in body.get(name) or ():
            if line.get("n") == n:
                return str(line.get("item") or body.get("makes"))
    return None


def _has_label(catalogue: Catalogue, line: dict[str, Any]) -> bool:
    key = catalogue.key(line["item"])
    wanted = _split(line["lot"])
    prefix = catalogue.setting("jar_label_prefix") or ""
    for item, first, last in catalogue.labels:
        low, high = _split(first), _split(last)
        if (
            item == key
            and wanted[0] in (low[0], prefix if not low[0] else low[0])
            and low[1] <= wanted[1] <= high[1]
        ):
            return True
    return False


def _split(label: Any) -> tuple[str, int]:
    text = str(label).strip()
    head = text.rstrip("0123456789")
    return head, int(text[len(head) :] or -1)
