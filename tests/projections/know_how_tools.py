"""What tests of know-how share: writing down, asking, one record, a batch of jam, and a check of every tree."""

from __future__ import annotations

import math

from questions.recomputed import recompute

TODAY = "2026-11-01"


def writer(book, yes):
    """Return a function that writes an entry down, also in somebody's name."""

    def one(kind, on, by=None, **body):
        return book.write(kind, body, on=on, answers=yes, **({"by": by} if by else {}))

    return one


def asker(book):
    """Return a function that asks know-how of a book."""

    def ask(as_of=TODAY, known_at=None, **options):
        return book.show("know-how", as_of=as_of, known_at=known_at, **options).to_dict()

    return ask


def one(answer, skill, person=None):
    (found,) = [r for r in answer["records"] if (r["skill"], r["person"]) == (skill, person)]
    return found


def jam(write, on, minutes="60", jars=6, jar="half-pint jar", **more):
    used = [{"item": "strawberry", "amount": "4 lb"}]
    made = [{"jars": jars, "jar": jar, "kept": "shelf"}]
    work = [] if minutes is None else [{"person": "Ada", "minutes": minutes}]
    body = {"makes": "jam", "method": "boiling water", "used": used, "made": made, "work": work}
    return write("put_up", on, **(body | more))


def check(node):
    value = recompute(node)
    if value is not None:
        assert math.isclose(value, node.value, rel_tol=1e-9, abs_tol=1e-9), node.label
    if not node.parts:
        assert node.how in ("as written", "sum")
    for part in node.parts:
        check(part)
