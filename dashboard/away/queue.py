"""Entries that waited on a phone, written down in their order: each once, none dropped, none guessed.

An entry brings the id that the phone gave it. Arriving again under it, it changes nothing, so a
phone that never heard the answer may send it again. What leaves something open is a question, as
it would have been at the table; those behind it wait, as a count may rest on what was picked before.
"""

from __future__ import annotations

import datetime as dt
import uuid
from typing import Annotated, Any, Literal

import msgspec

from dashboard.ask import Ask
from dashboard.errands import Errands
from dashboard.forms.happened import option_text
from dashboard.forms.happening import write_said
from dashboard.forms.reading import Typed
from dashboard.forms.shelving import in_danger, open_jar, put_back
from dashboard.forms.specs import FORMS
from dashboard.forms.writing import key_of, notes, told, write_form
from dashboard.parts.boards import PARTED
from dashboard.parts.saying import sayable
from ledger.door import Written
from ledger.errors import DANGER, BookError, InputError, LedgerError, NeedsAnswer
from ledger.messages import Message
from ledger.messages import Typed as TypedText
from ledger.published.cautions import cautions_on
from ledger.saying.asking import Reading

__all__ = ["MOST", "Waiting", "read_waiting", "send"]

MOST = 50
"""Entries taken at once; a phone with more sends the rest afterwards."""

_Short = Annotated[str, msgspec.Meta(max_length=200)]
_Text = Annotated[str, msgspec.Meta(max_length=20_000)]
_Day = Annotated[str, msgspec.Meta(pattern=r"^\d{4}-\d\d-\d\d$")]
_Id = Annotated[
    str, msgspec.Meta(pattern="^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$")
]


class _Form(msgspec.Struct, forbid_unknown_fields=True):
    """What stood in a form: its boxes as [field, row, text], answers given, what it corrects."""

    kind: _Short
    when: _Short
    boxes: list[tuple[_Short, int, _Text]]
    by: _Short | None = None
    replaces: _Short | None = None
    accepted: list[_Short] = []


class _Said(msgspec.Struct, forbid_unknown_fields=True):
    """What was said in one's own words, with the answers to what was asked of it."""

    text: _Text
    settling: list[tuple[_Short, _Text, int, _Text]] = []


class _Tick(msgspec.Struct, forbid_unknown_fields=True):
    """What was put into the basket, or taken out, in a shop without signal."""

    item: _Short
    is_in: bool


class _Shelf(msgspec.Struct, forbid_unknown_fields=True):
    """A tap on the shelf: a jar opened or put back, by its board, with the answers to what was asked."""

    act: Literal["opens", "back"]
    key: _Short
    accepted: list[_Short] = []


class Waiting(msgspec.Struct, forbid_unknown_fields=True):
    """An entry that waited.

    Attributes
    ----------
    id : str
        Made on the phone, UUID.
    day : str
        Which day it was on the phone when it was typed: what "today" and "friday" mean in it.
    at : str
        The phone's clock then, ISO 8601 in UTC.
    form, said, tick, shelf : optional
        One of the four.
    """

    id: _Id
    day: _Day
    at: _Short
    form: _Form | None = None
    said: _Said | None = None
    tick: _Tick | None = None
    shelf: _Shelf | None = None


class _Sent(msgspec.Struct, forbid_unknown_fields=True):
    entries: list[Waiting]


def read_waiting(raw: bytes) -> list[Waiting]:
    """Return the entries of a request.

    Raises
    ------
    ValueError
        When it holds something else.
    """
    try:
        entries = msgspec.json.decode(raw, type=_Sent).entries
    except msgspec.MsgspecError as error:
        raise ValueError(str(error)) from None
    for one in entries:
        dt.date.fromisoformat(one.day)
        if [one.form, one.said, one.tick, one.shelf].count(None) != 3:
            raise ValueError(
                f"{one.id} is not one of a form, a text, a tick and a tap on the shelf"
            )
        if one.shelf is not None and one.shelf.key.count(PARTED) != 1:
            raise ValueError(f"{one.id} names no board")
    return entries


def send(ask: Ask, one: Waiting) -> dict[str, Any]:
    """Write an entry that waited, and return what became of it.

    Returns
    -------
    dict
        ``id`` and ``state``: ``written`` or ``again`` with ``lines`` and ``entries`` (kind and id),
        ``asks`` with ``asked``, ``refused`` with ``said``; of a tick ``done``.

    Raises
    ------
    BookError
        When the book cannot be written to now; nothing is written then.
    """
    try:
        if one.tick is not None:
            Errands.of(ask.data).put(one.tick.item, is_in=one.tick.is_in)
            return {"id": one.id, "state": "done"}
        what = _form if one.form else _shelf if one.shelf else _said
        return {"id": one.id, **what(ask, one)}
    except BookError:
        raise
    except LedgerError as error:
        return {"id": one.id, "state": "refused", "said": ask.words.refusal(error)}


def _form(ask: Ask, one: Waiting) -> dict[str, Any]:
    form = one.form
    assert form is not None
    if form.kind not in FORMS:
        raise InputError(
            "kind",
            Message.of("refusal-not-one", kind=TypedText(form.kind)),
            Message.of("refusal-write-anew"),
        )
    boxes = {(name, row): text for name, row, text in form.boxes}
    typed = Typed(
        form.kind,
        day=form.when,
        by=form.by,
        id=one.id,
        replaces=form.replaces,
        boxes=boxes,
        typed_at=one.at,
        on_day=dt.date.fromisoformat(one.day),
    )
    outcome = write_form(ask.data, ask.words, typed, form.accepted)
    if outcome.written is not None:
        return _written(ask, [outcome.written])
    if outcome.busy is not None:
        raise outcome.busy
    if outcome.doubt is not None:
        return {"state": "asks", "asked": [_doubt(ask, outcome.doubt)]}
    said = [outcome.trouble] if outcome.trouble else [*outcome.errors.values()]
    return {"state": "refused", "said": " ".join(dict.fromkeys(filter(None, said)))}


def _shelf(ask: Ask, one: Waiting) -> dict[str, Any]:
    """Open a jar or put one back; of jars that came to stand in danger meanwhile none is opened."""
    tap, data, words = one.shelf, ask.data, ask.words
    assert tap is not None
    if data.book.log.get(one.id) is not None:
        return {"state": "again", "lines": [], "entries": []}
    item = tap.key.split(PARTED)[0]
    if tap.act == "back":
        day = put_back(data, tap.key, words("happened.undone_why"), one.id)
        if day is None:
            return {"state": "refused", "said": words("shelf.nothing_back", item=item)}
        line = words("shelf.put_back", item=item, day=words.day(day, short=True))
        return {"state": "written", "lines": [line], "notes": [], "entries": [["struck", one.id]]}
    day_there = dt.date.fromisoformat(one.day)
    done = open_jar(data, tap.key, tap.accepted, one.id, day=day_there, typed_at=one.at)
    if isinstance(done, NeedsAnswer):
        return {"state": "asks", "asked": [_doubt(ask, done)]}
    if done is None:
        key = "shelf.not_opened" if in_danger(data, tap.key) else "shelf.none_left"
        return {"state": "refused", "said": words(key, item=item)}
    return _written(ask, [done])


def _said(ask: Ask, one: Waiting) -> dict[str, Any]:
    said, data = one.said, ask.data
    assert said is not None
    # a text that was written is not read again: what it told the book would change what it means
    there = data.book.log.get(str(uuid.uuid5(uuid.UUID(one.id), "0")))
    if there is not None:
        return {"state": "again", "lines": [], "entries": []}
    day = dt.date.fromisoformat(one.day)
    done = write_said(data, said.text, said.settling, one.id, day=day, typed_at=one.at)
    if isinstance(done, NeedsAnswer):
        return {"state": "asks", "asked": [_doubt(ask, done, spoken=True)]}
    if not isinstance(done, Reading):
        return _written(ask, done)
    if not done.entries and not done.blocks:
        return {"state": "refused", "said": ask.words("happened.nothing")}
    return {"state": "asks", "asked": [*_questions(ask, done), *_left(ask, done)]}


def _written(ask: Ask, written: list[Written]) -> dict[str, Any]:
    shown = [one for one in written if one.event.kind != "item_described"] or written
    return {
        "state": "written" if any(one.is_new for one in written) else "again",
        "lines": [ask.words.said(told(one)) for one in shown],
        "notes": [
            sayable(ask, text)
            for one in shown
            for text in (*cautions_on(one.event.kind, one.body), *notes(one))
        ],
        "entries": [[one.event.kind, one.event.id] for one in shown],
    }


def _doubt(ask: Ask, doubt: NeedsAnswer, *, spoken: bool = False) -> dict[str, Any]:
    """Return a doubt of the door with the answers that it takes."""
    words, key = ask.words, key_of(doubt)

    def answer(text: str) -> Any:
        return ["door", "", 0, text] if spoken else text

    offered = words.said(doubt.offered) if doubt.offered else words("word.yes")
    is_danger = doubt.code in (DANGER, "open-standing", "low-acid")
    chips = [{"text": offered, "answer": answer(key)}]
    if doubt.code == "near-miss":
        chips.append({"text": words("forms.no_new"), "answer": answer(f"no:{key}")})
    return {"text": words.refusal(doubt), "danger": is_danger, "chips": chips}


def _questions(ask: Ask, reading: Reading) -> list[dict[str, Any]]:
    return [
        {
            "text": ask.words.said(one.text),
            "chips": [
                {"text": option_text(ask, option), "answer": [*one.key, option]}
                for option in one.options
            ],
        }
        for one in reading.questions
        if not one.waits
    ]


def _left(ask: Ask, reading: Reading) -> list[dict[str, Any]]:
    """Return what found no place, each with what may be done with it."""
    words, out = ask.words, []
    for key in reading.left_keys:
        is_past = key not in reading.unhappened
        chips = [{"text": words("happened.out"), "answer": [*key, "out"]}]
        if is_past:
            chips.insert(0, {"text": words("happened.to_note"), "answer": [*key, "note"]})
        out.append(
            {"text": words("happened.left" if is_past else "happened.not_so", words=key[1]), "chips": chips}
        )  # fmt: skip
    return out or [
        {"text": words("happened.left", words=one), "chips": []} for one in reading.left_over
    ]
