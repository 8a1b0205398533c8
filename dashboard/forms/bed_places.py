"""The boxes of the bed plan become one setting, `bed_plan`, in feet or metres as the household measures."""

from __future__ import annotations

from collections.abc import Sequence

from dashboard.data import Data
from ledger.door import Answers, Entry, Written
from ledger.errors import InputError
from ledger.kinds.bed_plan import Lie, read_plan, write_plan
from ledger.messages import Message, Typed

__all__ = ["AT", "FOOT_M", "unit_of", "write_beds"]

AT = ("x", "y", "length", "width", "turned")
"""The boxes of a bed, in their order."""
FOOT_M = 0.3048
"""The international foot, exactly (NIST SP 811, B.6)."""


def unit_of(data: Data) -> str:
    """Return in what beds are measured: ft, or m in a metric book."""
    return "m" if data.setting("measures", "us") == "metric" else "ft"


def write_beds(
    data: Data, names: Sequence[str], boxes: Sequence[Sequence[str]], id: str
) -> Written:
    """Write where the beds lie.

    Parameters
    ----------
    data : Data
    names : sequence of str
    boxes : sequence of sequences of str
        A bed's boxes, as `AT`.
    id : str
        Sent twice, it writes once.

    Raises
    ------
    InputError
        Naming the bed and its box, and what would be right.
    """
    unit = unit_of(data)
    scale = FOOT_M if unit == "ft" else 1.0
    lies = []
    for name, texts in zip(names, boxes, strict=True):
        x, y, length, width, turned = (
            _number(name, at, text) for at, text in zip(AT, texts, strict=True)
        )
        lies.append(
            Lie(name, x * scale, y * scale, length * scale, width * scale, round(turned) % 360)
        )
    text = write_plan(lies, unit)
    read_plan(text)
    body = {"name": "bed_plan", "value": text}
    return data.book.enter(
        Entry("setting_changed", body, on=data.today().isoformat(), id=id), Answers()
    )


def _number(bed: str, at: str, text: str) -> float:
    try:
        value = float((text or "").strip().replace(",", "."))
    except ValueError:
        value = -1.0
    least = 0.1 if at in ("length", "width") else 0.0
    if not least <= value <= 6000:
        raise InputError(
            at,
            Message.of("refusal-bed-of-wrong", bed=bed, text=Typed(text))
            if text
            else Message.of("refusal-bed-of-missing", bed=bed),
            Message.of("refusal-number-like"),
        )
    return value
