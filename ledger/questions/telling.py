"""What trees name, in words: events in one line, labels by their ids."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from ledger.kinds import KINDS, tell
from ledger.messages import Day, Message, Row, SaidLater, Sentence, sentence
from ledger.replay import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["StateTeller", "event_line", "event_told", "label_day"]

_KINDS = list(KINDS)


def event_line(state: State, ev: int) -> SaidLater:
    """Return an event in one readable line, its day in front."""
    kind = _KINDS[int(state.journal.tables["events"]["kind"][ev])]
    day, line = day_text(int(state.moment.on[ev])), tell(kind, state.body(ev))

    def says() -> Message:
        said = line.says if isinstance(line, Sentence) else line
        return Message.of("told-on", day=Day(day), line=said)

    return SaidLater(f"{day} {line}", says)


def event_told(state: State, ev: int, line: SaidLater) -> SaidLater:
    """Return an event's id before its line, as the leaf of a tree keeps it."""
    id_ = state.event_id(ev)
    return SaidLater(f"{id_} {line}", lambda: Row((id_, line.says), " "))  # type: ignore[arg-type]


class StateTeller:
    """Says what the trees of one state name.

    Parameters
    ----------
    state : State
    labels : mapping of str to str
        Ids of messages by the id of a label; what it is about are their parameters.
    """

    def __init__(self, state: State, labels: Mapping[str, str]) -> None:
        self._state, self._labels = state, labels
        self._lines: dict[int, SaidLater] = {}  # a tree names an event by its line and id, and often

    def event(self, ev: int) -> SaidLater:
        """Return an event's id and its line."""
        return event_told(self._state, ev, self.line(ev))

    def line(self, ev: int) -> SaidLater:
        """Return an event's line, its day in front."""
        line = self._lines.get(ev)
        if line is None:
            line = self._lines[ev] = event_line(self._state, ev)
        return line

    def label(self, id: str, about: Mapping[str, Any]) -> str:
        """Return a label in words."""
        return sentence(self._labels[id], **about)


def label_day(number: int) -> Day:
    """Return a day by its number, for what a label speaks of."""
    return Day(day_text(number))
