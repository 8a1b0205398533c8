"""Many typed entries of a file are alike: the door is asked once for each shape, and its word is kept.

Two entries have one shape when they differ in their day, id, time, amounts and prices alone, and
the amounts are of one unit. What the door makes of an amount depends on its unit and on whether it
is too little or a great deal; an amount near either end, in jars, or in question has no shape, and
goes through the door itself. So does whatever names a lot, corrects, or brings its whole amount.
A shape is learned when it comes for the second time, from an entry at which nothing was asked, noted
or described, and is kept until an entry changes what its items or the settings are.
tests/door/test_alike.py holds the two roads together.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterator
from typing import Any, NamedTuple

import msgspec

from ledger.amounts import has_decimal_comma, parse_amount
from ledger.door.writing import TIME, UUID, Written, read_day
from ledger.errors import InputError, NeedsAnswer
from ledger.kinds import to_stored
from ledger.kinds.resolving import MOST
from ledger.known import Catalogue
from ledger.log import NewEvent, Writing

__all__ = ["Alike"]

Body = dict[str, Any]

_LISTS = {
    "bought": "lines", "harvested": "lines", "received": "lines", "given_away": "lines",
    "discarded": "lines", "counted": "lines", "eaten": "ate", "price_seen": "",
}  # fmt: skip
"""The kinds of which a household writes most, and the list whose lines hold amounts; "": the body."""

_PRICES = {"bought": "paid", "received": "value", "price_seen": "price"}
_ENVELOPE = frozenset({"kind", "on", "body", "by", "at", "id"})
_OWN = frozenset(
    {"lot", "trimmed", "n", "whole", "measure", "basis", "per", "times", "left", "labels"}
)
"""Fields whose entries go through the door themselves."""

_SPECIAL = _OWN | {"amount", *_PRICES.values()}
_ITEMS = ("item", "for_crop")
_CHANGING = ("setting_changed", "struck", "recipe_written")

# At most three decimals are right in every currency, and no such text is stored otherwise.
_PRICE = re.compile(r"\d{1,9}(\.\d{1,3})?", re.ASCII)

_GREAT = 100_000_000
"""Whole units from which an amount may be asked about: pieces are asked about first."""

_AT_ONCE = 1_000
"""Entries that wait to be chained together."""

_MOST = 2_000
"""Shapes, days or amounts kept, so that memory does not grow with the file."""

_quoted = msgspec.json.Encoder().encode
_MARK = "\ue000"
_MARKED = re.compile(f'"{_MARK}(\\d):(\\d+){_MARK}"')
_TEXT, _WHOLE, _TIMES, _PAID = range(4)


class _Amount(NamedTuple):
    """An amount as JSON: its text, whole units and thousandths, and what of it makes the shape."""

    text: str
    whole: str
    times: str
    sort: tuple[str, str, str]
    said: str


class _Shape(NamedTuple):
    """A stored body with places for amounts and prices, in order: which of what is said goes there."""

    text: str
    places: tuple[int, ...]
    v: int

    def filled(self, amounts: list[_Amount], prices: list[str]) -> str:
        """Return the body of an entry of this shape."""
        said: list[Any] = [*prices]
        for amount in amounts:
            said += amount
        return self.text % tuple(map(said.__getitem__, self.places))


class _Seen(NamedTuple):
    """What is seen of an entry before its shape is known."""

    key: tuple[Any, ...]
    amounts: list[_Amount]
    prices: list[str]


class Alike:
    """The shapes of one import.

    Parameters
    ----------
    tx : Writing
    catalogue : Catalogue
    """

    def __init__(self, tx: Writing, catalogue: Catalogue) -> None:
        self._tx, self._catalogue = tx, catalogue
        self._ids = _fresh_ids()
        self._waiting: list[NewEvent] = []
        self._wait_ids: set[str] = set()
        self._shapes: dict[tuple[Any, ...], _Shape | None] = {}
        self._once: set[int] = set()
        self._days: dict[str, tuple[str, bool] | None] = {}
        self._amounts: dict[tuple[str, bool, str], _Amount | None] = {}
        self._items: set[str] = set()

    def take(self, event: Body) -> bool:
        """Take an entry of a known shape; return False for one that has to go through the door."""
        seen = self._seen(event)
        shape = None if seen is None else self._shapes.get(seen.key)
        if seen is None or shape is None:
            return False
        id_ = event.get("id")
        if id_ is not None and not self._is_new(id_):
            return False
        new = NewEvent(
            id_ or next(self._ids), event["kind"], shape.v, event["on"],
            shape.filled(seen.amounts, seen.prices), event.get("at"), event.get("by"),
        )  # fmt: skip
        self._waiting.append(new)
        if id_ is not None:
            self._wait_ids.add(id_)
        if len(self._waiting) >= _AT_ONCE:
            self.settle()
        return True

    def settle(self) -> None:
        """Append what was taken: whoever looks at the log now sees all of it."""
        if not self._waiting:
            return
        for row in self._tx.append_new(self._waiting):
            self._catalogue.learn(row)
        self._waiting.clear()
        self._wait_ids.clear()

    def learn(self, event: Body, done: Written, *, plainly: bool) -> None:
        """Learn the shape of an entry that went through the door.

        Parameters
        ----------
        event : dict
            As typed.
        done : Written
        plainly : bool
            Nothing was asked or noted.
        """
        self._forget(event, done)
        if not plainly or done.described or not done.is_new:
            return
        seen = self._seen(event)
        if seen is None or seen.key in self._shapes or not self._is_again(seen.key):
            return
        if len(self._shapes) >= _MOST:
            self._clear()
        lines = event["body"].get(_LISTS[event["kind"]]) or [event["body"]]
        self._items |= {
            self._catalogue.key(line[name]) for line in lines for name in _ITEMS if name in line
        }
        self._shapes[seen.key] = _shape_of(event, done, seen)

    def _is_again(self, key: tuple[Any, ...]) -> bool:
        """Return whether a shape came before, as far as is remembered: a note is written but once."""
        own = hash(key)
        if own in self._once:
            return True
        if len(self._once) >= _MOST:
            self._once.clear()
        self._once.add(own)
        return False

    def _forget(self, event: Body, done: Written) -> None:
        """Let go of what an entry may have changed."""
        kind = done.event.kind
        if kind in _CHANGING or event.get("replaces"):
            self._clear()
            return
        told = [msgspec.json.decode(one.body) for one in done.described]
        for body in (*told, *([done.body] if kind == "item_described" else ())):
            if "also" in body or self._catalogue.key(body["item"]) in self._items:
                self._clear()

    def _clear(self) -> None:
        self._shapes.clear()
        self._days.clear()
        self._items.clear()

    # What is seen of an entry

    def _seen(self, event: Body) -> _Seen | None:
        """Return what makes the shape of an entry, None where it has none."""
        kind, body, on, at = event["kind"], event["body"], event.get("on"), event.get("at")
        if type(kind) is not str or kind not in _LISTS or not _ENVELOPE.issuperset(event):
            return None
        if type(body) is not dict or type(on) is not str or not _is_text(event.get("by")):
            return None
        if at is not None and not (type(at) is str and TIME.fullmatch(at)):
            return None
        settings = self._settings_on(on)
        if settings is None:
            return None
        amounts: list[_Amount] = []
        prices: list[str] = []
        key: list[Any] = [kind, settings, event.get("by")]
        several, price = _LISTS[kind], _PRICES.get(kind)
        for name, value in body.items():
            if type(value) is str and type(name) is str and name not in _SPECIAL:
                key += (name, value)  # most fields are of this sort
            elif name == several and type(value) is list:
                key.append((name, len(value)))
                for line in value:
                    if type(line) is not dict:
                        return None
                    key.append(len(line))
                    if not self._line(line, price, settings, (key, amounts, prices)):
                        return None
            elif not self._field(name, value, price, settings, (key, amounts, prices)):
                return None
        return _Seen(tuple(key), amounts, prices)

    def _line(
        self,
        line: Body,
        price: str | None,
        settings: tuple[str, bool],
        into: tuple[list[Any], list[_Amount], list[str]],
    ) -> bool:
        return all(self._field(name, value, price, settings, into) for name, value in line.items())

    def _field(
        self,
        name: Any,
        value: Any,
        price: str | None,
        settings: tuple[str, bool],
        into: tuple[list[Any], list[_Amount], list[str]],
    ) -> bool:
        """Take one field into the key, or into the amounts or prices; False: it has no shape."""
        key, amounts, prices = into
        if name == "amount":
            amount = self._amount(value, settings) if type(value) is str else None
            if amount is None:
                return False
            amounts.append(amount)
            key += (name, amount.sort)
        elif name == price and type(value) is str:
            if not _PRICE.fullmatch(value):
                return False
            prices.append(f'"{value}"')
            key.append(name)
        elif type(name) is not str or name in _OWN or type(value) not in (str, int):
            return False
        else:
            key += (name, value)
        return True

    def _amount(self, text: str, settings: tuple[str, bool]) -> _Amount | None:
        key = (*settings, text)
        try:
            return self._amounts[key]
        except KeyError:
            pass
        if len(self._amounts) >= _MOST:
            self._amounts.clear()
        found = self._amounts[key] = _read_amount(text, settings)
        return found

    def _settings_on(self, on: str) -> tuple[str, bool] | None:
        """Return how amounts are read on a day; None for a day that may be refused or asked about."""
        try:
            return self._days[on]
        except KeyError:
            pass
        if len(self._days) >= _MOST:
            self._days.clear()
        found = None
        try:
            read_day(on)
        except InputError:
            pass
        else:
            if on <= self._tx.began[:10]:  # in no time zone later than tomorrow
                measures = self._catalogue.setting("measures", on, "us") or "us"
                language = self._catalogue.setting("language", on)
                found = measures, has_decimal_comma(language)
        self._days[on] = found
        return found

    def _is_new(self, id_: Any) -> bool:
        if not isinstance(id_, str) or not UUID.fullmatch(id_) or id_ in self._wait_ids:
            return False
        return self._tx.get(id_) is None


def _is_text(by: Any) -> bool:
    return by is None or (type(by) is str and bool(by.strip()) and len(by) <= 200)


def _read_amount(text: str, settings: tuple[str, bool]) -> _Amount | None:
    """Return a plain amount, None for one that is asked about, in jars or near an end."""
    measures, comma = settings
    try:
        said = parse_amount(text, measures=measures, comma=comma)
    except (InputError, NeedsAnswer):
        return None
    if said.jars is not None or said.maybe_jar is not None:
        return None
    if not 0 < said.whole <= _GREAT or said.times > MOST:
        return None
    sort = said.measure, said.dimension, said.unit
    return _Amount(_quoted(said.text).decode(), str(said.whole), str(said.times), sort, said.text)


def _shape_of(event: Body, done: Written, seen: _Seen) -> _Shape | None:
    """Return the shape of an entry, None where its stored form is not what its amounts say."""
    kind, stored = event["kind"], done.body
    several, price = _LISTS[kind], _PRICES.get(kind)
    typed = event["body"].get(several) if several else None
    typed = [event["body"]] if typed is None else typed
    lines = stored[several] if several else [stored]
    text = done.event.body
    if len(lines) != len(typed) or _MARK in text:
        return None
    marked: list[Body] = []
    amounts, prices = iter(enumerate(seen.amounts)), iter(enumerate(seen.prices))
    for said, line in zip(typed, lines, strict=True):
        new = dict(line)
        if "amount" in said:
            at, amount = next(amounts)
            if (line["amount"], str(line["whole"])) != (amount.said, amount.whole):
                return None
            new |= {"amount": _mark(_TEXT, at), "whole": _mark(_WHOLE, at)}
            if "times" in line:
                new["times"] = _mark(_TIMES, at)
        if price is not None and type(said.get(price)) is str:
            at, _ = next(prices)
            new[price] = _mark(_PAID, at)
        marked.append(new)
    form = to_stored({**stored, several: marked} if several else marked[0])
    begins = len(seen.prices)
    places = tuple(
        at if what == _PAID else begins + len(_Amount._fields) * at + what
        for what, at in (map(int, one.groups()) for one in _MARKED.finditer(form))
    )
    parts = _MARKED.split(form)[::3]
    shape = _Shape("%s".join(part.replace("%", "%%") for part in parts), places, done.event.v)
    return shape if shape.filled(seen.amounts, seen.prices) == text else None


def _mark(what: int, at: int) -> str:
    return f"{_MARK}{what}:{at}{_MARK}"


def _fresh_ids() -> Iterator[str]:
    """Yield random UUIDs (RFC 9562, version 4)."""
    while True:
        digits = os.urandom(16 * 256).hex()
        for at in range(0, len(digits), 32):
            one = digits[at : at + 32]
            variant = "89ab"[int(one[16], 16) & 3]
            yield f"{one[:8]}-{one[8:12]}-4{one[13:16]}-{variant}{one[17:20]}-{one[20:]}"
