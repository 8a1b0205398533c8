"""Random books: lists of stored events with every kind and every kind of mess.

`random_book` takes any `random.Random`, so thousands of books can be made from plain seeds;
`books` is the same under hypothesis. What fails is made smaller by leaving events out.
"""

from __future__ import annotations

import datetime as dt
import random
import uuid

from hypothesis import strategies as st

from strategies.bodies import Bodies
from strategies.catalog import ITEMS, SETTINGS
from strategies.smaller import first_words, named_items, without

START = dt.datetime(2023, 11, 20, 8, 0, tzinfo=dt.UTC)
NAMESPACE = uuid.UUID("6f1f7d1e-51b4-4a53-9c0a-2d7f0f0f9d11")
OF_AMOUNTS = frozenset(
    [
        "planted",
        "harvested",
        "bought",
        "received",
        "put_up",
        "eaten",
        "given_away",
        "discarded",
        "counted",
        "price_seen",
        "recipe_written",
        "target_set",
    ]
)
"""Kinds whose bodies of the second version hold amounts as they were said."""
WEIGHTS = {
    "planted": 2,
    "harvested": 10,
    "bought": 10,
    "received": 4,
    "put_up": 14,
    "eaten": 12,
    "given_away": 4,
    "discarded": 5,
    "counted": 6,
    "price_seen": 4,
    "item_described": 4,
    "setting_changed": 3,
    "recipe_written": 1,
    "practised": 1,
    "target_set": 1,
    "gauge_tested": 2,
    "checked": 2,
    "struck": 4,
    "replacement": 9,
}


class _Maker:
    """Writes a book event by event, as a household does: mostly in order, sometimes late."""

    def __init__(self, rng):
        self.rng = rng
        self.bodies = Bodies(rng)
        self.events = []
        self.clock = START
        self.first_of = {}  # event id -> first event of its entry
        self.struck = set()  # first ids whose newest event is a strike
        self.described = set()
        self.says_from = None  # from which event on amounts are stored as they were said

    def mix(self, size):
        """Speak of the same items in many units: from the first entry on, or from some later one."""
        self.bodies.mixed = True
        self.says_from = self.rng.choice((0, 0, self.rng.randint(0, 2 * size)))

    def stock_up(self):
        """Start with a full pantry, and prices set."""
        self._append("bought", self.bodies.stocking_up(), self.clock.date())
        for name in ("price_of_electricity", "price_of_gas", "labour_rate"):
            body = {"name": name, "value": self.rng.choice(SETTINGS[name])}
            self._append("setting_changed", body, self.clock.date())

    def write(self):
        rng = self.rng
        self.bodies.as_said = self.says_from is not None and len(self.events) >= self.says_from
        if rng.random() < 0.7:  # several entries are often written down within one day
            self.clock += dt.timedelta(days=rng.randint(0, 16), minutes=rng.randint(0, 300))
        kind = rng.choices(list(WEIGHTS), list(WEIGHTS.values()))[0]
        if kind == "struck":
            self._strike()
        elif kind == "replacement":
            self._replace()
        elif kind == "checked":
            self._look_up()
        else:
            self._append(kind, getattr(self.bodies, kind)(), on=self._day())

    def _day(self):
        """Return a day: today mostly, else days or months ago."""
        back = self.rng.choices((0, self.rng.randint(0, 9), self.rng.randint(0, 300)), (6, 4, 1))[0]
        return self.clock.date() - dt.timedelta(days=back)

    def _append(self, kind, body, on, replaces=None):
        if kind == "item_described" and body["item"] not in self.described:
            body = {**ITEMS[body["item"]], **body}
        for item in named_items(body):
            if item not in self.described and item in ITEMS:
                self.described.add(item)
                if kind != "item_described" or body["item"] != item:
                    first = {"item": item, **ITEMS[item]}
                    if self.bodies.mixed and self.rng.random() < 0.4:
                        del first["measure"]  # its first amount says it
                    self._append("item_described", first, on)
        seq = len(self.events) + 1
        event_id = str(uuid.uuid5(NAMESPACE, str(seq)))
        if kind != "struck":
            self.first_of[event_id] = self.first_of[replaces] if replaces else event_id
        at = f"{self.rng.randint(6, 20):02d}:{self.rng.choice(('00', '30'))}"
        self.events.append(
            {
                "seq": seq,
                "id": event_id,
                "kind": kind,
                "v": 2 if self.bodies.as_said and kind in OF_AMOUNTS else 1,
                "on": on.isoformat(),
                "at": at if self.rng.random() < 0.35 else None,
                "recorded_at": self.clock.isoformat().replace("+00:00", "Z"),
                "by": self.rng.choice((None, "Ada", "Bo")),
                "replaces": replaces,
                "body": body,
            }
        )
        self.bodies.note(kind, self.first_of.get(event_id), body)
        return event_id

    def _pick(self, wanted):
        """Return an event that some entry has, or None."""
        found = [e for e in self.events if e["kind"] != "struck" and wanted(e)]
        return self.rng.choice(found) if found else None

    def _strike(self):
        # what sort an item is stays: only what was said of it later is taken back
        firsts = first_words(self.events)
        event = self._pick(lambda e: self.first_of[e["id"]] not in self.struck | firsts)
        if event:
            self.struck.add(self.first_of[event["id"]])
            self._append("struck", {"id": event["id"], "why": "written twice"}, self._day())

    def _look_up(self):
        """Look a batch up, one that was corrected or struck too."""
        event = self._pick(lambda e: e["kind"] == "put_up")
        if event is not None:
            body = {"batch": self.first_of[event["id"]], "publication": "bulletin 270"}
            self._append("checked", body, self._day())

    def _replace(self):
        """Correct an entry, one that was struck too; its lines keep some of their numbers."""
        event = self._pick(lambda e: e["kind"] != "checked")
        if event is None:
            return
        kind = event["kind"]
        self.struck.discard(self.first_of[event["id"]])
        old_day = dt.date.fromisoformat(event["on"])
        on = self.rng.choice((old_day, old_day, old_day + dt.timedelta(days=1), self._day()))
        body = self.bodies.corrected(kind, event["body"])
        self._append(kind, body, on, replaces=event["id"])


def random_book(rng=None, size=40, mixed=None):
    """Return a book of at least `size` stored events (descriptions that were needed come extra).

    Parameters
    ----------
    rng : random.Random or int, optional
        Where chance comes from; an int is a seed.
    size : int
        Events asked for.
    mixed : bool, optional
        Whether amounts of one item are said in many units, as today's version stores them; by
        default half of the books are so.
    """
    maker = _Maker(rng if isinstance(rng, random.Random) else random.Random(rng))
    if mixed if mixed is not None else maker.bodies.chance(0.5):
        maker.mix(size)
    if size > 5 and maker.bodies.chance(0.7):
        maker.stock_up()
    for _ in range(size):
        maker.write()
    return maker.events


@st.composite
def books(draw, min_size=1, max_size=40):
    """Return a strategy for random books, which shrinks by leaving events out."""
    events = random_book(draw(st.integers(0, 2**32)), draw(st.integers(min_size, max_size)))
    left_out = {event["id"] for event in events if draw(st.integers(0, 19)) == 0}
    return without(events, left_out)


def random_moments(events, rng):
    """Return (as_of, known_at) for a question to a book, each None one time in four."""
    days = sorted(e["on"] for e in events)
    first = dt.date.fromisoformat(days[0])
    span = (dt.date.fromisoformat(days[-1]) - first).days
    as_of = first + dt.timedelta(days=rng.randint(0, span + 400))
    known_at = rng.choice(events)["recorded_at"]
    return (
        None if rng.random() < 0.25 else as_of,
        None if rng.random() < 0.5 else known_at,
    )


@st.composite
def questions(draw, max_size=40):
    """Return a strategy for (events, as_of, known_at)."""
    events = draw(books(max_size=max_size))
    rng = random.Random(draw(st.integers(0, 999)))
    return (events, *random_moments(events, rng)) if events else (events, None, None)
