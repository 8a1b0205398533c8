"""One entry in the making: lines out of things, with the questions that each leaves."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from ledger.amounts import unit_factor
from ledger.door.cans import asked_of, in_cans, ware_of
from ledger.messages import joined, measured, sentence
from ledger.saying.asking import Question
from ledger.saying.known import Known
from ledger.saying.language import Language
from ledger.saying.measuring import ON_THE_SHELF, Line, Measuring
from ledger.saying.names import Named, Names
from ledger.saying.pieces import Scanner
from ledger.saying.quantities import Quantity
from ledger.saying.settled import Settled
from ledger.saying.things import Thing

__all__ = ["Line", "Maker"]

_NEW = "new: "


_FRESH_USES = frozenset({"harvested", "made", "planted"})
"""Ways of naming a thing by which a can is a measure of what is fresh: ``picked 2 cans of berries``."""


class Maker(Measuring):
    """Makes lines of the things of a text; remembers what was named last.

    Attributes
    ----------
    questions : list of Question
        Of the entry in the making.
    left : list of str
        Words that found no place.
    notes : list of str
        For the note of the entry in the making.
    told : list of str
        For the echo: what was taken for what.
    """

    def __init__(self, known: Known, words: Language, scanner: Scanner, settled: Settled) -> None:
        self.known, self.words, self.scanner = known, words, scanner
        self.names = Names(known, words)
        self.questions: list[Question] = []
        self.left: list[str] = []
        self.notes: list[str] = []
        self.told: list[str] = []
        self.last_item: str | None = None
        self.asked: dict[tuple[str, str], str | None] = {}
        self.settled = settled
        self.aliases: list[tuple[str, str]] = []
        self.sorts: dict[str, str] = {}
        self.part = 0

    def said(self, span: tuple[int, int]) -> str:
        """Return the text of some tokens."""
        return self.scanner.said(*span)

    # -- names ---------------------------------------------------------------------------

    def item(self, text: str, line: int, *, makes: bool = False, plants: bool = False) -> Named:
        """Return what words name, with the questions that leaves."""
        named = self.names.find(text, makes=makes)
        if named.tail:
            self.left.append(named.tail)
        if named.lead:
            self.notes.append(named.lead)
        if named.variety and not plants:
            named = Named(
                f"{named.variety} {named.item}",
                "new",
                [f"new: {named.variety} {named.item}", named.item],
            )
        if named.state in ("slip", "new"):
            is_slip = named.state == "slip"
            question = (
                sentence("asked-slip", text=text, name=named.item)
                if is_slip
                else sentence("asked-new", name=named.item)
            )
            options = [_option(one) for one in named.options]
            answer = self.ask(named.state, named.item, question, options, line=line)
            if answer is not None:
                named = self._answered(text, answer)
        elif named.state in ("table", "sort", "made") and named.item not in self.told:
            self.told.append(named.item)
        if named.state == "sort":
            sort = self.names.sort_of(named.item)
            self.sorts[named.item] = "food" if sort in ("animal", "layer") else sort
        self.last_item = named.item
        return named

    def _answered(self, text: str, answer: str) -> Named:
        """Return the item that an answer names; what was said becomes another name of it."""
        if answer.lower().startswith("new:"):
            return Named(answer[4:].strip(), "new", [])
        if answer.lower() in ("yes", "y", "ja", "new"):
            return Named(self.names.singular(text), "new", [])
        found = self.names.find(answer)
        self.aliases.append((" ".join(text.split()), found.item))
        return found

    # -- lines ---------------------------------------------------------------------------

    def lines(self, things: Sequence[Thing], use: str, *, plants: bool = False) -> list[Line]:
        """Return the lines of things that stand under one verb.

        Parameters
        ----------
        use : str
            The kind; or ``made`` or ``used`` of a batch.
        """
        out: list[Line] = []
        for thing in things:
            out += self._of_thing(thing, use, len(out), plants=plants)
        return out

    def _in_cans(self, thing: Thing, item: str, at: int) -> str:
        """Return an item, or the canned ware where cans of a fresh food were said and are kept apart."""
        start = thing.words[0] if thing.words else 0
        before = self.scanner.tokens[max(0, start - 5) : start]
        cans = any(in_cans(one.text) for one in before) and bool(thing.amounts)
        ware = ware_of(self.known.catalogue, item, self.words.code) if cans else None
        if ware is None:
            return item
        if self.known.item(ware) is not None and not self.known.methods(ware):
            return ware
        answer = self.ask("cans", item, asked_of(item, ware), [ware, item], line=at)
        return answer or item

    def _of_thing(self, thing: Thing, use: str, at: int, *, plants: bool) -> list[Line]:
        named = None
        if self._is_loose(thing, at):
            return []
        if thing.item is not None:
            item: str | None = thing.item
            self.last_item = item
        elif thing.words is not None:
            named = self.item(self.said(thing.words), at, makes=use == "made", plants=plants)
            item = named.item if use in _FRESH_USES else self._in_cans(thing, named.item, at)
        elif thing.lot is not None:
            item = None
        else:
            item = self._item_of_amount(thing, at)
        self._leave_rest(thing, use)
        if thing.lot is not None and use in ON_THE_SHELF:
            return [self._labelled(thing, item, at)]
        amounts = self._summed(thing.amounts, use)
        lines = [Line(item, one, thing) for one in amounts] or [Line(item, None, thing)]
        for n, line in enumerate(lines):
            line.is_new = named is not None and named.state in ("new", "made", "table", "sort")
            if named is not None and named.variety:
                line.more["variety"] = named.variety
            self._measure(line, use, at + n)
        return lines

    def _leave_rest(self, thing: Thing, use: str) -> None:
        """Name amounts that a line has no room for."""
        rest = list(thing.extra[:-1] if use in ("bought", "given_away") else thing.extra)
        if thing.is_zero:
            rest += thing.amounts
        elif thing.lot is not None:
            rest += thing.amounts[1:]
        self.left += [one.text() for one in rest]

    def _is_loose(self, thing: Thing, at: int) -> bool:
        """Name a word behind a comma, without an amount, that nothing knows: no item is made of it."""
        if thing.amounts or thing.extra or thing.is_zero or thing.lot or thing.joined == "and":
            return False
        if at == 0 and not thing.joined:
            return False
        text = self.said(thing.words) if thing.words else ""
        if not text or self.names.find(text).state != "new":
            return False
        self.left.append(text)
        return True

    def _item_of_amount(self, thing: Thing, at: int) -> str | None:
        """Return what an amount without a name is of: jars themselves, else what was named last."""
        jar = next((one.unit for one in thing.amounts if one.sort == "jar"), None)
        if jar is not None and (thing.is_empty or self.last_item is None):
            thing.amounts = [replace(one, unit=None, sort="count") for one in thing.amounts]
            return jar
        if self.last_item is None:
            said = ", ".join(one.text() for one in thing.amounts)
            options = self.known.in_jars(thing.amounts[0].jar())
            answer = self.ask(
                "item", said, sentence("asked-of-what", text=measured(said)), options, line=at
            )
            if answer is not None:
                self.last_item = self.names.find(answer).item
        return self.last_item

    def _summed(self, amounts: list[Quantity], use: str) -> list[Quantity]:
        """Return amounts of one thing: pounds and ounces together, sizes of jars each for itself."""
        if len(amounts) < 2:
            return amounts
        if any(one.doubt for one in amounts) or use == "made":
            return amounts
        kinds = {one.dimension for one in amounts}
        factors = [unit_factor(one.unit) if one.unit else None for one in amounts]
        if len(kinds) > 1 or any(
            one.sort != "measure" or f is None for one, f in zip(amounts, factors, strict=True)
        ):
            return amounts
        sizes = [f[1] for f in factors if f]
        if any(one <= other for one, other in pairwise(sizes)):
            return amounts  # 77 lb 31 lb: two amounts, not pounds and ounces
        first = factors[0]
        assert first is not None
        total = sum(
            (one.many * f[1] / first[1] for one, f in zip(amounts, factors, strict=True) if f),
            start=amounts[0].many * 0,
        )
        return [replace(amounts[0], many=total)]

    def _labelled(self, thing: Thing, item: str | None, at: int) -> Line:
        """Return the line of a jar's label: one jar of what it holds."""
        found = self.known.labelled(thing.lot or "")
        names = [name for name, _ in found if item is None or self._same(name, item)]
        quantity = thing.amounts[0] if thing.amounts else None
        if len(set(names)) != 1:
            label, holds = thing.lot or "", tuple(dict.fromkeys(name for name, _ in found))
            text = (
                sentence("asked-lot-of", label=label, names=joined(", ", holds))
                if found
                else sentence("asked-lot-unknown", label=label)
            )
            answer = self.ask("lot", thing.lot or "", text, [], line=at)
            if answer is not None and answer != thing.lot:
                thing.lot = answer
                return self._labelled(thing, item, at)
            return Line(item, quantity, thing)
        jar = next(jar for name, jar in found if name == names[0])
        self.last_item = self.known.catalogue.name(names[0])
        one = Quantity(thing.amounts[0].many if quantity else Fraction(1), jar, "jar", 0)
        if quantity is not None and quantity.sort == "measure" and quantity.jar() != jar:
            one = quantity
        if quantity is not None and quantity.sort == "count" and not quantity.loose:
            one = replace(one, many=quantity.many)
        return Line(self.last_item, one, thing)

    def _same(self, one: str, other: str) -> bool:
        return self.known.catalogue.key(one) == self.known.catalogue.key(other)


def _option(text: str) -> str:
    """Return a likely answer: an item, or one that is to be new."""
    name = text.removeprefix(_NEW)
    return sentence("asked-new-named", name=name) if name != text else text
