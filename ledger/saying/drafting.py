"""One clause to its entries: what all kinds share, and which module makes which kind."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from typing import Any

from ledger.messages import Day, sentence
from ledger.saying.asking import HERE, Draft, Reading
from ledger.saying.clauses import Clause
from ledger.saying.days import DayRead
from ledger.saying.gather import gather
from ledger.saying.known import CAME, Known
from ledger.saying.language import Language, Verb
from ledger.saying.making import Maker
from ledger.saying.money import money_text
from ledger.saying.numbers import figure
from ledger.saying.pieces import Scanner
from ledger.saying.places import Place, Places
from ledger.saying.settled import Settled
from ledger.saying.things import Phrase, Thing, Things

__all__ = ["Context", "Drafter"]

Body = dict[str, Any]
_WITH_MONEY = frozenset({"bought", "given_away", "received", "price_seen"})
_FACTS = {
    "put_up": (
        "method",
        "psi",
        "headspace",
        "pack",
        "gauge",
        "altitude",
        "labels",
        "unsealed",
        "again",
    ),
    "eaten": ("people", "guests", "meal", "again"),
    "discarded": ("unsealed", "meal"),
    "counted": ("left",),
    "planted": ("row", "area", "length"),
}
"""What of the facts beside a clause each kind has a field for, or takes as its note."""


@dataclass(slots=True)
class Context:
    """One clause while its entries are made.

    Attributes
    ----------
    on : date
        The day of the entries.
    drafts : list of Draft
        Entries that the text gave before.
    makers : (callable, callable)
        Handed in, as both stand above what makes entries: see `read` and `without_verb`.
    used : set of int
        Phrases (by where they start) that found a field.
    signs : tuple of str
        Signs of spoilage told in the clause; the entry's note has them.
    """

    maker: Maker
    places: Places
    words: Language
    known: Known
    scanner: Scanner
    clause: Clause
    things: Things
    verb: Verb
    on: dt.date
    drafts: list[Draft]
    makers: Makers
    used: set[int] = field(default_factory=set)
    beds: list[tuple[Phrase, Place]] = field(default_factory=list)
    others: list[tuple[str, Body]] = field(default_factory=list)
    signs: tuple[str, ...] = ()

    def read(self, text: str) -> Reading:
        """Return what another text says, as an answer is one."""
        return self.makers[1](text)

    def without_verb(self) -> list[tuple[str, Body]]:
        """Return what the clause says if its verb is none."""
        self.verb = type(self.verb)("")
        return self.makers[0](None, self)(self)

    def phrases(self, *roles: str) -> list[tuple[Phrase, Place]]:
        """Return the phrases with any of these roles that have no field yet, and what they name."""
        return [
            (one, self.places.of(one))
            for one in self.things.phrases
            if one.start not in self.used and one.roles & set(roles)
        ]

    def take(self, sorts: tuple[str, ...], *roles: str) -> str | None:
        """Return the text of the first phrase that names one of these, and mark it as placed."""
        for phrase, place in self.phrases(*roles):
            if place.sort in sorts:
                self.used.add(phrase.start)
                return place.text
        return None

    def picked(self, item: str) -> str | None:
        """Return the lot of an item that was picked on the day: in this text, else in the book."""
        on, key = self.on.isoformat(), self.known.catalogue.key
        for place, draft in reversed(list(enumerate(self.drafts))):
            if draft.kind == "harvested" and draft.on == on:
                for n, line in enumerate(draft.body["lines"], 1):
                    if key(line["item"]) == key(item):
                        return f"{HERE}{place}:{n}"
        for id_, day, body, _ in reversed(self.known.about("harvested", item, on)):
            for line in body["lines"] if day == on else ():
                if key(line["item"]) == key(item):
                    return f"{id_}:{line['n']}"
        return None

    def came(self, item: str) -> bool:
        """Return whether an item came into the house, in this text or in the book."""
        key = self.known.catalogue.key
        said = (one.body["lines"] for one in self.drafts if one.kind in CAME)
        here = any(key(line.get("item", "")) == key(item) for lines in said for line in lines)
        return here or self.known.came(item, self.on.isoformat())

    def people(self) -> list[str]:
        """Return who did it, as said: ``Ann picked``, ``with Ann and Tom``, ``by Tom``."""
        out = []
        for span in self.things.subject:
            place = self.places.of_span(span)
            if place.sort == "person":
                out += _several(place.text)
                self.things.subject = [one for one in self.things.subject if one != span]
        for phrase, place in self.phrases("with", "by"):
            if place.sort == "person":
                self.used.add(phrase.start)
                out += _several(place.text)
        return list(dict.fromkeys(out))

    def work(self, body: Body) -> None:
        """Put who worked and how long into `work`; without minutes who it was is a note."""
        people = self.people()
        minutes = [
            many for many, is_work in self.things.times if is_work or self.verb.kind != "put_up"
        ]
        if minutes and sum(minutes) > 0:
            self.things.times = [
                one for one in self.things.times if not (one[1] or self.verb.kind != "put_up")
            ]
            total = figure(sum(minutes, start=minutes[0] * 0))
            if not people:
                who = self.maker.ask(
                    "who", "work", sentence("asked-who-worked", n=total), [], waits=True
                )
                people = [who] if who else []
            body["work"] = [{"person": one, "minutes": total} for one in people or ["household"]]
        elif people:
            self.maker.notes.append(
                "with " + " and ".join(people)
                if self.words.code == "en"
                else "mit " + " und ".join(people)
            )


def _several(text: str) -> list[str]:
    parts = text.replace(" und ", " and ").replace(" & ", " and ").split(" and ")
    return [one.strip() for one in parts if one.strip()]


Make = Callable[[Context], list[tuple[str, Body]]]
Makers = tuple[Callable[[str | None, Context], Make], Callable[[str], Reading]]


class Drafter:
    """Makes the entries of a text, clause by clause.

    Parameters
    ----------
    known, words, scanner
    on : date
        The day of what says none.
    reading : Reading
        Takes entries, questions and what is left over.
    makers : (callable, callable)
        What makes the entries of a kind, and what reads another text.
    """

    def __init__(
        self,
        known: Known,
        words: Language,
        scanner: Scanner,
        on: dt.date,
        reading: Reading,
        settled: Settled,
        makers: Makers,
    ) -> None:
        self.makers = makers
        self.known, self.words, self.scanner, self.on, self.reading = (
            known,
            words,
            scanner,
            on,
            reading,
        )
        self.places = Places(known, words, scanner)
        self.maker = Maker(known, words, scanner, settled)
        self.day: dt.date | None = None

    def draft(self, clause: Clause, signs: tuple[str, ...] = ()) -> None:
        """Make the entries of one clause, in which signs of spoilage were told."""
        verbs = sorted(
            [*([clause.verb] if clause.verb else []), *clause.more], key=lambda one: one.start
        )
        spoken: list[Verb | None] = [*_apart([one.value for one in verbs])] or [None]
        for verb in spoken:
            self._of_verb(clause, gather(self.scanner, clause), verb, signs)

    def _of_verb(
        self, clause: Clause, things: Things, verb: Verb | None, signs: tuple[str, ...]
    ) -> None:
        maker = self.maker
        maker.questions, maker.left, maker.notes, maker.asked = [], [], [*signs], {}
        maker.left += [self.scanner.said(*span) for span in things.left]
        if things.lost_mend is not None:
            said = self.scanner.said(*things.lost_mend)
            maker.ask("mend", "entry", sentence("asked-mends-which", text=said))
        for on, part in self._by_day(things):
            context = Context(
                maker,
                self.places,
                self.words,
                self.known,
                self.scanner,
                clause,
                part,
                verb or Verb(""),
                on,
                self.reading.entries,
                self.makers,
                signs=signs,
            )
            make = self.makers[0](verb.kind if verb else None, context)
            made = make(context)
            self._close(context, made, on)

    # -- days ----------------------------------------------------------------------------

    def _by_day(self, things: Things) -> list[tuple[dt.date, Things]]:
        """Return the things of each day: a day said first holds until another comes."""
        leading = [day for day, n in things.days if n <= 0]
        later = [(day, n, k in things.led) for k, (day, n) in enumerate(things.days) if n > 0]
        if leading:
            self.day = self._date(leading[-1]) or self.day
        base = self.day or self.on
        count = len(things.lines)
        if not later:
            return [(base, things)]
        if len(later) == 1 and not later[0][2] and (later[0][1] >= count or not leading):
            return [(self._date(later[0][0]) or base, things)]
        out: list[tuple[dt.date, Things]] = []
        start, holds = 0, base
        for day, n, leads in later:
            on = self._date(day) or base
            stop = n if leads else max(n, start + 1)
            if stop > start:
                out.append((holds if leads else on, self._part(things, start, stop)))
            start, holds = stop, on if leads else base
        if start < count:
            out.append((holds, self._part(things, start, count)))
        return out

    def _part(self, things: Things, start: int, stop: int) -> Things:
        money = [
            (one, n - start) for one, n in things.money if start < n <= stop or n == start == 0
        ]
        return replace(things, lines=things.lines[start:stop], money=money, days=[])

    def _date(self, day: DayRead) -> dt.date | None:
        if day.problem or day.on is None:
            text = _which_day(day)
            answer = self.maker.ask("day", "on", text, [self.on.isoformat()])
            return self._day_of(answer) if answer else day.on
        return day.on

    def _day_of(self, answer: str) -> dt.date | None:
        from ledger.door.when import day_of
        from ledger.errors import InputError

        try:
            said = day_of(answer, self.known.today)
        except InputError:
            return None
        return dt.date.fromisoformat(said) if said else None

    # -- closing -------------------------------------------------------------------------

    def _close(self, context: Context, made: list[tuple[str, Body]], on: dt.date) -> None:
        """Take the entries made, with what is left of the clause."""
        maker, things = self.maker, context.things
        for span in things.subject:
            maker.left.append(self.scanner.said(*span))
        if not {kind for kind, _ in made} & _WITH_MONEY and context.verb.kind not in _WITH_MONEY:
            maker.left += [money_text(one.value) for one, _ in things.money]
        self._leftover_phrases(context)
        self._leftover_facts(context, {kind for kind, _ in made} or {context.verb.kind})
        if things.times:
            unit = self.words.minutes
            maker.left.append(", ".join(f"{figure(many)} {unit}" for many, _ in things.times))
        note = "; ".join(
            dict.fromkeys(
                [*things.notes, *maker.notes, *(one.note for one in things.lines if one.note)]
            )
        )
        first = len(self.reading.entries)
        for one in maker.questions:
            one.entry = first + min(one.entry or 0, len(made) - 1) if made else None
        for kind, body in made:
            if note and "note" not in body:
                body["note"] = note
            self.reading.entries.append(Draft(kind, on.isoformat(), body))
        if note and not made:
            maker.left.append(note)
        self.reading.questions += [
            one for one in maker.questions if one not in self.reading.questions
        ]
        self._left_over(made)
        self.reading.aliases += maker.aliases
        self.reading.sorts |= maker.sorts
        maker.aliases, maker.sorts = [], {}
        maker.questions, maker.left, maker.notes, maker.part = [], [], [], 0

    def _left_over(self, made: list[tuple[str, Body]]) -> None:
        """Name what found no place, or put it into the note where that was the answer."""
        for said in dict.fromkeys(" ".join(one.split()) for one in self.maker.left):
            if not any(one.isalnum() for one in said):
                continue
            key = self.maker.settled.key("left", said)
            answer = self.maker.settled.answers.get(key)
            if answer == "note" and made:
                body = made[-1][1]
                body["note"] = "; ".join([*([body["note"]] if body.get("note") else []), said])
            elif answer is None:
                self.reading.left_over.append(said)
                self.reading.left_keys.append(key)

    def _leftover_facts(self, context: Context, kinds: set[str]) -> None:
        """Name what was said of a process, of people and the like, where the kind has no field for it."""
        things = context.things
        for name, span in things.spans.items():
            placed = any(name in _FACTS.get(kind, ()) for kind in kinds)
            if not placed and name in things.facts and (things.lines or not kinds & {""}):
                self.maker.left.append(self.scanner.said(*span))

    def _leftover_phrases(self, context: Context) -> None:
        for one in context.things.phrases:
            if one.start not in context.used:
                self.maker.left.append(self.scanner.said(one.start, one.words[1]))


def _apart(verbs: list[Verb]) -> list[Verb]:
    """Return one verb of each kind, the one that says most: ``fell over and broke`` happened once."""
    out: dict[str, Verb] = {}
    for one in verbs:
        before = out.get(one.kind)
        if before is None or (one.kind == "discarded" and one.why in ("broken", "fed to animals")):
            out[one.kind] = one
    return list(out.values())


def _which_day(day: DayRead) -> str:
    if day.problem == "ahead":
        return sentence("asked-day-ahead", day=Day(f"{day.on}"))
    if day.problem == "no such day":
        return sentence("asked-no-such-day")
    return sentence("asked-day-vague")


def thing_text(context: Context, thing: Thing) -> str:
    """Return a thing as it was said, for a question."""
    amounts = " ".join(one.text() for one in thing.amounts)
    name = context.scanner.said(*thing.words) if thing.words else thing.lot or ""
    return f"{amounts} {name}".strip()
