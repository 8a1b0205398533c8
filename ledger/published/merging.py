"""Several comparisons of one batch, one for each thing that it may have been, made into one."""

from __future__ import annotations

from collections.abc import Sequence

from ledger.messages import measured, sentence
from ledger.published.batch import Finding
from ledger.published.words import figure, listed, number

__all__ = ["merge"]

_REACHED = frozenset({"as published", "beyond it"})


def merge(several: Sequence[Sequence[Finding]], open_points: Sequence[str]) -> list[Finding]:
    """Return one finding a field, of comparisons with each process that may apply.

    Parameters
    ----------
    several : sequence of sequences of Finding
        Each with at most one finding a field.
    open_points : sequence of str
        What was not written down: ``hot or raw pack``, ``the altitude``.

    Notes
    -----
    Reached, or short, only where that holds for all of them; else it is asked for.
    """
    if len(several) == 1:
        return list(several[0])
    fields = dict.fromkeys(one.field for found in several for one in found)
    return [_one([f for found in several for f in found if f.field == name], open_points, len(several))
            for name in fields]  # fmt: skip


def _one(found: list[Finding], open_points: Sequence[str], count: int) -> Finding:
    first, kinds = found[0], {one.kind for one in found}
    figures = list(dict.fromkeys(one.published for one in found))
    if len(figures) == 1 and len(kinds) == 1 and len(found) == count:
        return first
    published = figures[0] if len(figures) == 1 else None
    printed = _printed(figures)
    unknown = listed(open_points, "and") or sentence("finding-open-process")
    if len(found) < count:
        kinds = kinds | {"not recorded"}
    if kinds == {"short of it"}:
        done = _shown(first.done)
        text = sentence("finding-short-of-all", printed=printed, list=unknown, done=done)
        return Finding(first.field, published, first.done, "short of it", text)
    if kinds <= _REACHED:
        kind = "as published" if "as published" in kinds else "beyond it"
        done = _shown(first.done)
        text = sentence("finding-reaches-all", printed=printed, list=unknown, done=done)
        return Finding(first.field, published, first.done, kind, text)
    done = sentence("finding-not-written") if first.done is None else _shown(first.done)
    text = sentence("finding-depends", printed=printed, list=unknown, done=done)
    return Finding(first.field, published, first.done, "not recorded", text)


def _shown(value: float | str | None) -> str:
    if isinstance(value, int | float):
        return measured(number(value))
    return value if value is not None else sentence("finding-not-written")


def _printed(figures: list[float | str | None]) -> str:
    numbers = [f for f in figures if isinstance(f, int | float)]
    if numbers and len(numbers) == len(figures):
        low, high = min(numbers), max(numbers)
        if low == high:
            return _shown(low)
        return sentence("finding-range", n=figure(low), n2=figure(high))
    return listed((_shown(f) for f in figures), "or")
