"""Writing a form down: through the door, once, with every refusal beside the box it belongs to."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Collection
from dataclasses import dataclass, field, replace
from typing import Any

from dashboard.data import Data
from dashboard.forms.boxes import example
from dashboard.forms.reading import FieldTrouble, Typed, read_form
from dashboard.words import Words
from ledger.door import Answers, Entry, Written
from ledger.door.texts import Texts
from ledger.errors import BookError, BookLocked, InputError, LedgerError, NeedsAnswer
from ledger.messages import sentence
from ledger.published import batch_as_typed, caution_before

__all__ = ["LOW_ACID", "Outcome", "answered", "key_of", "low_acid", "notes", "told", "write_form"]

_WHERE = re.compile(r"(?P<list>\w+)\[(?P<n>\d+)\](?:\.(?P<name>\w+))?$")
_DIRECT = {"item": "lines", "amount": "lines", "line": "lines", "lines": "lines"}


@dataclass
class Outcome:
    """What became of a form: written, refused beside boxes, or asked about; `busy`: the book could not be had."""

    written: Written | None = None
    errors: dict[tuple[str, int], str] = field(default_factory=dict)
    trouble: str | None = None
    doubt: NeedsAnswer | None = None
    is_locked: bool = False
    busy: BookError | None = None


def write_form(data: Data, words: Words, typed: Typed, accepted: Collection[str] = ()) -> Outcome:
    """Write what a form says, or say what is wrong and where.

    Parameters
    ----------
    data : Data
    words : Words
        What refusals are said in.
    typed : Typed
        Its `id` makes a second tap of the same form write nothing more.
    accepted : collection of str
        What was answered: `key_of` each doubt whose offered answer was taken, ``no:`` before it where
        it was not.
    """
    answers = Answers(ask=lambda doubt: answered(doubt, accepted))
    book = data.book
    try:
        texts = Texts(book.catalogue(), answers)
        entry = read_form(typed, texts, typed.on_day or data.today())
        is_first = typed.id is None or book.log.get(typed.id) is None
        if typed.kind == "put_up":
            entry = _from_recipe(data, entry)
            if is_first:
                low_acid(entry, answers)
        if is_first:  # what arrives again was asked about
            book.ask(entry, answers)
        return Outcome(written=book.enter(entry, answers))
    except FieldTrouble as trouble:
        if isinstance(trouble.error, NeedsAnswer):
            return Outcome(doubt=trouble.error, errors={trouble.box: words.refusal(trouble.error)})
        return Outcome(errors={trouble.box: _say(trouble.error, words, typed.kind, trouble.box[0])})
    except NeedsAnswer as doubt:
        box = ("day", 0) if doubt.field == "on" else None  # said beside the day that is asked about
        return Outcome(doubt=doubt, errors={box: words.refusal(doubt)} if box else {})
    except InputError as error:
        return _placed(error, typed, words)
    except BookLocked as error:
        return Outcome(trouble=words("forms.locked"), is_locked=True, busy=error)
    except BookError as error:
        return Outcome(trouble=words.refusal(error), busy=error)
    except LedgerError as error:
        return Outcome(trouble=words.refusal(error))


LOW_ACID = "low-acid"


def low_acid(entry: Entry, answers: Answers) -> None:
    """Ask before food of little acid is written down that no published pressure process closed."""
    caution = caution_before(batch_as_typed(entry.body))
    if caution is not None:
        answers.settle(NeedsAnswer(LOW_ACID, "method", caution, sentence("doubt-done-so")))


def key_of(doubt: NeedsAnswer) -> str:
    """Return what an answer to a doubt is kept under: another line's doubt is asked anew."""
    return f"{doubt.code}-{hashlib.sha256(doubt.question.encode()).hexdigest()[:16]}"


def answered(doubt: NeedsAnswer, accepted: Collection[str]) -> bool:
    """Return whether what is offered was taken; raise a doubt that nobody was asked about."""
    key = key_of(doubt)
    if key in accepted or f"no:{key}" in accepted:
        return key in accepted
    raise doubt


def _from_recipe(data: Data, entry: Entry) -> Entry:
    """Return a batch with what its recipe says and the form does not."""
    from ledger.door.recipes import from_recipe

    return replace(entry, body=from_recipe(data.book.catalogue(), entry.body))


def _say(error: LedgerError, words: Words, kind: str, name: str) -> str:
    if isinstance(error, InputError) and error.says("refusal-missing"):
        like = example(words, kind, name)
        return words("forms.missing_like", example=like) if like else words("forms.missing")
    return words.refusal(error, named=False)


def _placed(error: InputError, typed: Typed, words: Words) -> Outcome:
    """Return a refusal with the box that it is about; above the form where there is none."""
    box = _box_of(error.field, typed)
    if box is None:
        return Outcome(trouble=words.refusal(error))
    return Outcome(errors={box: _say(error, words, typed.kind, box[0])})


def _box_of(where: str, typed: Typed) -> tuple[str, int] | None:
    names = {name for name, _ in typed.boxes} | {"day", "by"}
    match = _WHERE.search(where)
    if match:
        row = _row_of(match["list"], int(match["n"]), typed)
        name = match["name"] or match["list"]
        if (name, row) in typed.boxes and name not in ("item", "amount"):
            return name, row
        return (match["list"], row) if match["list"] in names else None
    for part in reversed(where.split(".")):  # `keeps.fridge` stands in the box of `keeps`
        name = {"on": "day"}.get(part, part)
        if name in names:
            return name, 0
    if typed.kind == "setting_changed":  # a setting is named by its own name: its value is wrong
        return "value", 0
    for other in (_DIRECT.get(name), "line", "ate", "used"):
        if name in _DIRECT and other in names:
            return str(other), 0
    return None


def _row_of(name: str, n: int, typed: Typed) -> int:
    """Return the row of the n-th line that was said: empty rows between them do not count."""
    said = [
        row
        for (one, row), text in sorted(typed.boxes.items())
        if one == name and (text or "").strip()
    ]
    return said[n] if n < len(said) else n


def told(written: Written) -> str:
    """Return what was written in one line."""
    from ledger.kinds import tell

    return tell(written.event.kind, written.body)


def notes(written: Written) -> list[Any]:
    """Return what was assumed or may be meant, in words."""
    return [
        *written.notes,
        *(f"{name}: {row}?" for name, row in written.proposals.items()),
    ]
