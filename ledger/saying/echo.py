"""A reading in plain words, so that a misreading is seen: every line, and what is left open."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from ledger.kinds import KINDS
from ledger.saying.asking import HERE, Draft, Reading

__all__ = ["told", "told_entry"]

_SAID = ("lines", "ate", "used", "made", "makes", "crop", "item", "amount", "skill", "lines")
_WITH = {
    "shop": "at {}", "from": "from {}", "to": "to {}", "bed": "in {}", "paid": "for {}", "lot": "out of {}",
    "kept": "in the {}", "why": "({})", "how": "({})", "people": "{} people", "guests": "{} of them guests",
    "method": "({})", "minutes": "{} minutes", "psi": "at {}", "got": "for {}", "price": "{}",
    "note": "note: {}", "value": "worth {}", "variety": "({})", "unsealed": "{} unsealed",
    "row": "row of {}", "plants": "{} plants",
}  # fmt: skip


def told(reading: Reading) -> Iterator[str]:
    """Yield the reading, a line each: entries, their lines, questions, what is left over."""
    if not reading.entries:
        yield "Nothing to write down."
    for entry in reading.entries:
        yield from told_entry(entry)
    for one in reading.questions:
        options = f" [{' / '.join(one.options)}]" if one.options else ""
        yield f"{'open' if one.waits else 'asked'}: {one.text}{options}"
    for said in reading.left_over:
        yield f"left over: {said}"


def told_entry(entry: Draft) -> Iterator[str]:
    """Yield an entry as it was understood: the day and kind, then each line."""
    body = entry.body
    head = body.get("makes") or body.get("crop") or body.get("skill") or ""
    if not head and "item" in body:
        head = f"{body.get('amount', '')} {body['item']}".strip()
    more = _more(body)
    yield f"{entry.on}  {KINDS[entry.kind].title.lower()}{head and f' {head}'}{more}"
    for name, lead in (
        ("lines", ""),
        ("ate", ""),
        ("made", "made "),
        ("used", "from "),
        ("left", "left "),
    ):
        for line in body.get(name) or ():
            yield f"  {lead}{_line(line)}"
    if isinstance(body.get("seed"), dict):
        yield f"  seed {_line(body['seed'])}"
    for one in body.get("other") or ():
        yield f"  other: {one['words']} {one['paid']}"


def _line(line: dict[str, Any]) -> str:
    if line.get("jars"):
        jar = line.get("jar") or "jar"
        said = f"{line['jars']} {jar}{'s' if line['jars'] != 1 else ''}"
    else:
        said = f"{line.get('amount', '?')} {line.get('item', '')}".strip()
    return said + _more(line)


def _lot(lot: str) -> str:
    """Return a lot for the eye: a label as it stands, an id by its beginning."""
    if lot.startswith(HERE):
        return "what is picked here"
    entry, _, n = lot.partition(":")
    return f"{entry[:8]}:{n}" if len(entry) == 36 else lot


def _more(part: dict[str, Any]) -> str:
    out = [
        text.format(_lot(part[name]) if name == "lot" else part[name])
        for name, text in _WITH.items()
        if part.get(name)
    ]
    for one in part.get("work") or ():
        out.append(f"{one['person']} {one['minutes']} minutes")
    for one in part.get("acid") or ():
        out.append(f"{one['amount']} {one['acid']} per {one.get('per', 'jar')}")
    return (", " if out else "") + ", ".join(out)
