"""A small writer of stored events for hand-worked cases."""

from __future__ import annotations


class Tape:
    """Stored events, written one after another; ids are e1, e2, ... by sequence."""

    def __init__(self):
        self.events = []

    def __call__(self, kind, on, body, *, at=None, replaces=None, recorded=None):
        seq = len(self.events) + 1
        self.events.append(
            {
                "seq": seq,
                "id": f"e{seq}",
                "kind": kind,
                "v": 1,
                "on": on,
                "at": at,
                "recorded_at": recorded or f"2026-01-01T00:{seq:02d}:00Z",
                "by": None,
                "replaces": replaces,
                "body": body,
            }
        )
        return f"e{seq}"

    def item(self, name, sort="food", measure="mass", **facts):
        return self(
            "item_described",
            "2025-01-01",
            {"item": name, "sort": sort, "measure": measure, **facts},
        )

    def strike(self, event, on="2025-01-01"):
        return self("struck", on, {"id": event, "why": "written twice"})


def line(item, whole, n=1, **more):
    """Return a stored line of so many whole units."""
    return {"item": item, "amount": f"{whole} mg", "whole": whole, "basis": "exact", "n": n, **more}


def lines(*pairs, **more):
    """Return a body of lines, numbered, with the same extra fields on each."""
    return {"lines": [line(item, whole, n, **more) for n, (item, whole) in enumerate(pairs, 1)]}


def cost(book, lot):
    """Return a lot's components that are not zero."""
    return {name: value for name, value in book.lots[lot].figures.cost.items() if value}
