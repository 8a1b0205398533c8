"""How long a lot keeps, as published for food kept so."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.kinds import KINDS
from ledger.published.keeping import Keeping, keeps_for
from ledger.questions.shared.use_by import is_marked, is_open
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
    item, ev = int(state.lots["item"][lot]), int(state.lots["ev"][lot])
    code, opened = int(state.lots["kept"][lot]), bool(state.once(is_open)[lot])
    known, key = state.lasting(keeping_of), (item, ev, code, opened)
    if key not in known:
        is_batch = state.journal.tables["events"]["kind"][ev] == list(KINDS).index("put_up")
        method = state.body(ev)["method"] if is_batch else None
        kept, facts = KEPT[code] if code >= 0 else None, state.facts.facts[item]
        known[key] = keeps_for(facts.sort, method, state.facts.names[item], kept, opened=opened)
    found: Keeping | None = known[key]
    return found
