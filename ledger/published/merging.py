"""Several comparisons of one batch, one for each thing that it may have been, made into one."""

from __future__ import annotations

from collections.abc import Sequence

from ledger.published.batch import Finding
from ledger.published.words import listed, number

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
    unknown = listed(open_points, "and") or "the process"
    if len(found) < count:
        kinds = kinds | {"not recorded"}
    if kinds == {"short of it"}:
        text = f"Published: {printed}, depending on {unknown}. Done: {_shown(first.done)}, short of every one of them."
        return Finding(first.field, published, first.done, "short of it", text)
    if kinds <= _REACHED:
        kind = "as published" if "as published" in kinds else "beyond it"
        text = f"Published: {printed}, depending on {unknown}. Done: {_shown(first.done)}, which reaches them all."
        return Finding(first.field, published, first.done, kind, text)
    done = "not written down" if first.done is None else _shown(first.done)
    text = f"Published: {printed}. Done: {done}. It depends on what was not written down or not settled: {unknown}."
    return Finding(first.field, published, first.done, "not recorded", text)


def _shown(value: float | str | None) -> str:
    return number(value) if isinstance(value, int | float) else str(value)


def _printed(figures: list[float | str | None]) -> str:
    numbers = [f for f in figures if isinstance(f, int | float)]
    if numbers and len(numbers) == len(figures):
        low, high = min(numbers), max(numbers)
        return number(low) if low == high else f"{number(low)} to {number(high)}"
    return listed((_shown(f) for f in figures), "or")
