"""Every practice of a skill by a moment: noted, or done with a batch, a sowing or a picking.

A batch practises its method and what it makes, a sowing and a picking practise growing that crop
(formats, section 2): for the people whose work is named, else for who wrote it down, else for
the household.
"""

from __future__ import annotations

from functools import cached_property
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from ledger.door.choosing import choice
from ledger.errors import NotFound
from ledger.items import item_key, near_misses
from ledger.kinds import KINDS
from ledger.kinds.methods import METHODS
from ledger.messages import Message, Names, Typed, fixed, sentence
from ledger.replay.columns import Array
from ledger.replay.state import day_number, day_text
from ledger.replay.tables import ROLES

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["HOUSEHOLD", "SORTS", "Skills"]

HOUSEHOLD = -1
"""Stands for a person: all of the household together, each entry once."""

SORTS = ("method", "making", "growing", "noted")
"""What a skill is: a way of putting up, a thing made, a crop grown, or noted only."""

_KIND = {name: code for code, name in enumerate(KINDS)}
_METHOD = {item_key(name): code for code, name in enumerate(METHODS)}
_GROWING = "growing "


def _growing(crop: str) -> str:
    return sentence("skills-growing", crop=crop)


def _wanted(near: list[str]) -> Message:
    """Say what would be right for a skill that there is not."""
    if near:
        return Message.of("refusal-did-you-mean", name=Typed(near[0]))
    return Message.of("refusal-from-know-how")


class Skills:
    """Practices as columns, sorted by skill, person and the order of the book.

    Attributes
    ----------
    names, keys : list of str
        Each skill as the household spells it, and the key under which it is found.
    sorts : list of str
        From `SORTS`.
    people : list of str
        Each person as first spelled.
    skill, person, ev, day : ndarray of int, shape (practices,)
        `person` is `HOUSEHOLD` in the rows of all together; `day` is days since 1970.
    minutes, went : ndarray of float64, shape (practices,)
        Minutes of work (the person's own; all together for the household) and how it went; NaN
        where nobody said.
    groups : dict
        ``groups[skill, person]`` is the (start, end) of its rows.
    targets : dict of int to list of int
        Places of the targets of each skill, in the order of the book.
    """

    def __init__(self, state: State) -> None:
        self.state = state
        self.rank = state.moment.rank
        self._noted = state.bodies("practised")
        self._fold_people()
        self._wanted = [(ev, b) for ev, b in state.bodies("target_set") if b.get("skill")]
        codes, evs = self._doing()
        self._more: dict[str, int] = {}
        self._spelled: dict[int, str] = {}
        noted = [self._code(body["skill"]) for _, body in self._noted]
        wanted = [self._code(body["skill"]) for _, body in self._wanted]
        codes = np.concatenate([codes, np.array(noted, np.int64)])
        evs = np.concatenate([evs, np.array([ev for ev, _ in self._noted], np.int64)])
        number = self._name(np.concatenate([codes, np.array(wanted, np.int64)]))
        self.targets: dict[int, list[int]] = {}
        for code, (ev, _) in zip(wanted, self._wanted, strict=True):
            self.targets.setdefault(number[code], []).append(ev)
        self.year = int(day_text(state.as_of_day)[:4])
        self.year_from = day_number(f"{self.year:04d}-01-01")
        skill = np.array([number[code] for code in codes.tolist()], np.int64)
        pairs = np.unique(skill * self.rank.size + evs)  # one entry practises a skill once
        self._rows(*np.divmod(pairs, max(self.rank.size, 1)))

    # -- names --------------------------------------------------------------------------

    def _fold_people(self) -> None:
        """Take two spellings of a name that differ in case or spacing for one person."""
        self.people: list[str] = []
        self._person_of: dict[str, int] = {}
        texts = self.state.journal.people.texts
        self._person = np.array([self._person_code(text) for text in texts], np.int64)

    def _person_code(self, text: str) -> int:
        key = " ".join(text.casefold().split())
        code = self._person_of.setdefault(key, len(self.people))
        if code == len(self.people):
            self.people.append(text)
        return code

    def find_person(self, name: str) -> int | None:
        """Return the number of a person who practised something, or None."""
        code = self._person_of.get(" ".join(name.casefold().split()))
        return code if code in {person for _, person in self.groups} else None

    def find(self, text: str) -> int | None:
        """Return the number of a skill, however it is spelled, or None."""
        key = item_key(text)
        known = {item_key(name): i for i, name in enumerate(self.names)}
        if key not in known:  # a method as any language says it
            key = item_key(choice(text, METHODS, "method"))
        if key not in known:  # another name of an item or crop
            code = self._by_doing(key)
            key = "" if code is None else item_key(self._doing_name(code))
        return known.get(key)

    def must_find(self, text: str) -> int:
        """Return the number of a skill.

        Raises
        ------
        NotFound
            When nobody practised it and no target asks for it.
        """
        found = self.find(text)
        if found is None:
            raise NotFound(
                "skill",
                Message.of("refusal-nobody-practised", text=Typed(text)),
                _wanted(near_misses(text, self.names)),
            )
        return found

    def must_find_person(self, name: str) -> int:
        """Return the number of a person.

        Raises
        ------
        NotFound
            When no practice names this person.
        """
        found = self.find_person(name)
        if found is None:
            known = sorted({self.people[p] for _, p in self.groups if p != HOUSEHOLD})
            wanted = (
                Message.of("refusal-name-one", names=Names(tuple(known)))
                if known
                else Message.of("refusal-names-nobody")
            )
            raise NotFound(
                "person", Message.of("refusal-practised-nothing", text=Typed(name)), wanted
            )
        return found

    def people_of(self, skill: int) -> list[int]:
        """Return who practised a skill, by name."""
        return self._holders.get(skill, [])

    @cached_property
    def _holders(self) -> dict[int, list[int]]:
        out: dict[int, list[int]] = {}
        for skill, person in self.groups:
            if person != HOUSEHOLD:
                out.setdefault(skill, []).append(person)
        return {skill: sorted(who, key=lambda p: self.people[p]) for skill, who in out.items()}

    def has_season(self, skill: int) -> bool | None:
        """Return True for a skill that has its season by nature, None where practice must tell.

        Growing does, and so does what mostly uses what the household picked.
        """
        return True if self.sorts[skill] == "growing" or skill in self._of_picked else None

    @cached_property
    def _of_picked(self) -> set[int]:
        draws, size = self.state.draws, self.rank.size
        used = draws["ev"][
            (draws["role"] == ROLES.index("used")) & np.isin(draws["item"], self._picked)
        ]
        fresh = np.zeros(size, bool)
        fresh[used] = True
        batch = np.zeros(size, bool)
        batch[self._batch_ev] = True
        rows = np.flatnonzero((self.person == HOUSEHOLD) & batch[self.ev])
        count = len(self.names)
        of_all = np.bincount(self.skill[rows], minlength=count)
        of_fresh = np.bincount(self.skill[rows], fresh[self.ev[rows]], count)
        return set(np.flatnonzero((of_all > 0) & (of_fresh * 2 >= of_all)).tolist())

    def _by_doing(self, key: str) -> int | None:
        """Return the code of a skill that is practised by doing, or None."""
        facts = self.state.facts
        if key in _METHOD:
            return _METHOD[key]
        if key.startswith(_GROWING):
            item = facts.find(key.removeprefix(_GROWING))
            return None if item is None else len(METHODS) + len(facts) + item
        item = facts.find(key)
        return None if item is None else len(METHODS) + item

    def _code(self, text: str) -> int:
        key = item_key(text)
        code = self._by_doing(key)
        if code is None:
            first = len(METHODS) + 2 * len(self.state.facts)
            code = self._more.setdefault(key, first + len(self._more))
            self._spelled.setdefault(code, text)
        return code

    def _doing_name(self, code: int) -> str:
        names = self.state.facts.names
        if code < len(METHODS):
            return fixed(METHODS[code])
        number = code - len(METHODS)
        return names[number] if number < len(names) else _growing(names[number - len(names)])

    def _name(self, codes: Array) -> dict[int, int]:
        """Name every skill there is; return its number by code. One name is one skill."""
        self.names: list[str] = []
        self.sorts: list[str] = []
        self.keys: list[str] = []
        number: dict[int, int] = {}
        known: dict[str, int] = {}
        bounds = np.cumsum([len(METHODS), len(self.state.facts), len(self.state.facts)])
        for code in np.unique(codes).tolist():
            name = self._spelled.get(code) or self._doing_name(code)
            key = item_key(name)
            if key not in known:
                known[key] = len(self.names)
                self.names.append(name)
                self.keys.append(key)
                self.sorts.append(SORTS[int(np.searchsorted(bounds, code, "right"))])
            number[code] = known[key]
        return number

    # -- practices ----------------------------------------------------------------------

    def _doing(self) -> tuple[Array, Array]:
        """Return skill code and place of every entry that practises by doing."""
        from ledger.questions.food.feed import not_grown

        state, tables = self.state, self.state.journal.tables
        canon, items = state.facts.canon, len(state.facts)

        def rows(name: str, column: str, kind: str | None = None) -> tuple[Array, Array]:
            at = state.moment.of(tables[name]["ev"])
            if kind is not None:
                at = at[tables["events"]["kind"][tables[name]["ev"][at]] == _KIND[kind]]
            return canon[tables[name][column][at]].astype(np.int64), tables[name]["ev"][at]

        batches = tables["batches"]
        at = state.moment.of(batches["ev"])
        self._batch_ev = batches["ev"][at].astype(np.int64)
        self._batch_went = batches["went"][at]
        made, made_ev = rows("batches", "makes")
        self._picked, picked_ev = rows("supplies", "item", "harvested")
        grown, grown_ev = rows("planted", "crop")
        is_crop = ~not_grown(state)[self._picked]  # nobody grows the eggs of hens, or honey
        codes = [
            batches["method"][at].astype(np.int64),
            len(METHODS) + made,
            len(METHODS) + items + self._picked[is_crop],
            len(METHODS) + items + grown,
        ]
        evs = [self._batch_ev, made_ev, picked_ev[is_crop], grown_ev]
        return np.concatenate(codes), np.concatenate(evs).astype(np.int64)

    def _rows(self, skill: Array, ev: Array) -> None:
        minutes, went = np.full((2, self.rank.size), np.nan)
        went[self._batch_ev] = np.where(self._batch_went > 0, self._batch_went, np.nan)
        who_ev, who, own = self._who(np.unique(ev), minutes)
        for place, body in self._noted:
            minutes[place] = float(body.get("minutes") or "nan")
            went[place] = body.get("went") or np.nan
        low, high = np.searchsorted(who_ev, ev), np.searchsorted(who_ev, ev, "right")
        many = high - low
        at = np.repeat(low - np.cumsum(many) + many, many) + np.arange(many.sum())
        skill = np.concatenate([skill, np.repeat(skill, many)])
        person = np.concatenate([np.full(ev.size, HOUSEHOLD), who[at]])
        spent = np.concatenate([minutes[ev], own[at]])
        ev = np.concatenate([ev, who_ev[at]])
        order = np.lexsort((self.rank[ev], person, skill))
        self.skill, self.person, self.ev = skill[order], person[order], ev[order]
        self.minutes, self.went = spent[order], went[self.ev]
        self.day = self.state.moment.on[self.ev]
        self.minutes_of = minutes
        new = (np.diff(self.skill) != 0) | (np.diff(self.person) != 0)
        cuts = [0, *(np.flatnonzero(new) + 1).tolist(), self.ev.size] if self.ev.size else [0]
        self.groups: dict[tuple[int, int], tuple[int, int]] = {
            (int(self.skill[start]), int(self.person[start])): (start, end)
            for start, end in pairwise(cuts)
        }

    def _who(self, evs: Array, minutes: Array) -> tuple[Array, Array, Array]:
        """Return who practised at each entry and for how long, by place; fill all minutes in."""
        work = self.state.journal.tables["work"]
        rows = self.state.moment.of(work["ev"])
        ev, spent = work["ev"][rows].astype(np.int64), work["minutes"][rows]
        many = self._person.size + 1
        worker = self._person[work["person"][rows]]
        pairs, inverse = np.unique(ev * many + worker, return_inverse=True)
        own = np.bincount(inverse, spent, pairs.size)
        work_ev, worker = np.divmod(pairs, many)
        worked = np.unique(ev)
        minutes[worked] = np.bincount(ev, spent, self.rank.size)[worked]
        noted = sorted(
            (at, person, body.get("minutes") or "nan")
            for at, body in self._noted
            for person in {self._person_code(name) for name in body["people"]}
        )
        by = self.state.journal.tables["events"]["by"]
        said = np.array([at for at, _ in self._noted], np.int64)
        alone = np.setdiff1d(evs, np.concatenate([worked, said]))
        writer = by[alone]
        # a correction that names nobody leaves the doing with who wrote it down first
        writer = np.where(writer < 0, by[self.state.moment.root[alone]], writer)
        alone, writer = alone[writer >= 0], writer[writer >= 0]
        out_ev = np.concatenate([work_ev, alone, np.array([n[0] for n in noted], np.int64)])
        out_who = np.concatenate(
            [worker, self._person[writer], np.array([n[1] for n in noted], np.int64)]
        )
        told = np.array([float(n[2]) for n in noted])
        out_own = np.concatenate([own, np.full(alone.size, np.nan), told])
        order = np.argsort(out_ev, kind="stable")
        return out_ev[order], out_who[order], out_own[order]
