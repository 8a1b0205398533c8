"""What tests of forms share: a little stock, what stands in the boxes, and a form sent as a browser does."""

from __future__ import annotations

import hashlib

from page_tools import walk

from dashboard.ask import words_of
from dashboard.data import Data
from dashboard.drawing import ask_of
from dashboard.forms.callbacks import boxes_of
from dashboard.forms.form import form_of
from dashboard.forms.reading import Typed
from dashboard.forms.writing import key_of, write_form

UUID_A = "5f0c0a0e-7f7e-4c57-9d3b-0f6a1f0e2c11"
PLUM = {"item": "plum", "amount": "31 lb"}


def with_stock(book):
    """Write down plums and sugar, and return the pages' door to them."""
    book.write("harvested", PLUM, on="2026-09-02")
    book.write("bought", {"item": "sugar", "amount": "10 lb", "paid": "7.90"}, on="2026-09-02")
    return Data(book)


def digest(book):
    rows = [row for chunk in book.log.read() for row in chunk]
    return hashlib.sha256(repr(rows).encode()).hexdigest()


def boxes(**said):
    """Return boxes by field and row: a text, or a list of texts, one a row."""
    return {
        (name, row): text
        for name, texts in said.items()
        for row, text in enumerate([texts] if isinstance(texts, str) else texts)
    }


def every_box(data, kind, **filled):
    """Return what stands in each box of a form as it is drawn, and their ids."""
    form = form_of(ask_of(data, "/write"), kind, **filled)
    ids = [one for one in walk(form) if isinstance(getattr(one, "id", None), dict) and one.id.get("part") == "box"]  # fmt: skip
    return boxes_of([one.id for one in ids], [one.value for one in ids])


def send(data, kind, said, *, day="2026-09-03", accepted=(), **more):
    """Write a form as the browser does: all of its boxes, those typed into and the empty ones."""
    typed = Typed(kind, day=day, boxes={**every_box(data, kind), **said}, **more)
    return write_form(data, words_of(data), typed, accepted)


def accept_all(write):
    """Return what becomes of a form whose every doubt is answered by a tap on yes."""
    accepted = []
    while (outcome := write(accepted)).doubt is not None:
        key = key_of(outcome.doubt)
        assert key not in accepted, outcome.doubt  # asked again: an answer that does not count
        accepted.append(key)
    return outcome
