"""What tests of danger share: batches of beans, what is said of them, a page drawn, a form sent."""

from __future__ import annotations

from page_tools import Drawn

from dashboard.drawing import ask_of
from dashboard.forms.callbacks import outcome_shown
from dashboard.forms.reading import Typed
from dashboard.forms.writing import write_form
from ledger import Answers

__all__ = ["AGAINST", "BATCH", "OPEN", "SAID", "YES", "draw", "send"]

YES = Answers(yes=True)
BATCH = {
    "makes": "canned green beans", "altitude": "800 ft", "pack": "raw",
    "used": [{"item": "green bean", "amount": "14 lb"}], "made": [{"jars": 7, "jar": "quart jar", "kept": "shelf"}],
}  # fmt: skip
AGAINST = {**BATCH, "method": "boiling water", "minutes": "180"}
OPEN = {**BATCH, "method": "pressure", "minutes": "25", "psi": "11", "gauge": "dial"}
SAID = {
    "en": ("against every published process, 12 Sep 2026: do not taste, discard", "Do not eat: 1 batch in danger"),
    "de": ("gegen jede veröffentlichte Vorschrift, 12. Sept. 2026: nicht kosten, wegwerfen", "Nicht essen: 1 Ansatz in Gefahr"),
}  # fmt: skip


def draw(data, path, search=""):
    return Drawn(ask_of(data, path, search))


def send(data, kind, boxes, accepted=()):
    ask = ask_of(data, "/write")
    typed = Typed(kind, day="today", boxes=boxes)
    outcome = write_form(data, ask.words, typed, accepted)
    return outcome, outcome_shown(ask, outcome)
