"""How long a lot keeps, as published for food kept so."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.kinds import KINDS
from ledger.published.keeping import Keeping, keeps_for
from ledger.questions.shared.use_by import is_marked
from ledger.replay import KEPT

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["keeping_of"]


def keeping_of(state: State, lot: int) -> Keeping | None:
    """Return the published period of a lot on the shelf, with its source; None: none is published.

    A lot that stands graver than ``beyond it`` has none: a period of best quality would say too much.
    """
    if is_marked(state, lot):
        return None
    item = int(state.lots["item"][lot])
    ev = int(state.lots["ev"][lot])
    code = int(state.lots["kept"][lot])
    is_batch = state.journal.tables["events"]["kind"][ev] == list(KINDS).index("put_up")
    method = state.body(ev)["method"] if is_batch else None
    kept = KEPT[code] if code >= 0 else None
    jars, whole, left = (
        int(state.lots["jars"][lot]),
        int(state.lots["whole"][lot]),
        int(state.left[lot]),
    )
    part = jars * left / whole if jars and whole else 0.0
    opened = bool(jars) and abs(part - round(part)) > 0.001
    facts = state.facts.facts[item]
    return keeps_for(facts.sort, method, state.facts.names[item], kept, opened=opened)
