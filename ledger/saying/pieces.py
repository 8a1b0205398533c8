"""A text's tokens to pieces: amounts, days, money, verbs, little words, and plain words of names."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from fractions import Fraction

from ledger.saying.days import Days
from ledger.saying.language import Language
from ledger.saying.marks import Piece
from ledger.saying.measures import length_at, pressure_at, temperature_at, time_at
from ledger.saying.money import money_at
from ledger.saying.numbers import number_at
from ledger.saying.quantities import Quantity, quantity_at, unit_at
from ledger.saying.tokens import Token
from ledger.saying.tools import Tools

__all__ = ["Piece", "Scanner"]


class Scanner(Tools):
    """Cuts one text into pieces.

    Parameters
    ----------
    words : Language
    tokens : sequence of Token
    days : Days
    is_name : callable
        ``is_name(text)`` says whether words of a text are a name of the book.
    most : int
        The longest name of the book, in words.
    """

    def __init__(
        self,
        words: Language,
        tokens: Sequence[Token],
        days: Days,
        is_name: Callable[[str], bool],
        most: int,
        text: str,
    ) -> None:
        self.words, self.tokens, self.days = words, tokens, days
        self.is_name, self.most, self.text = is_name, min(most, 8), text
        self.pieces: list[Piece] = []

    def scan(self) -> list[Piece]:
        """Return the pieces of the whole text, in order."""
        i = 0
        while i < len(self.tokens):
            piece = self._piece(i)
            self.pieces.append(piece)
            i = max(piece.end, i + 1)
        return self.pieces

    def inside(self, start: int, end: int) -> list[Piece]:
        """Return the pieces of some tokens alone: what stands in brackets."""
        inner = Scanner(
            self.words, self.tokens[:end], self.days, self.is_name, self.most, self.text
        )
        i = start
        while i < end:
            piece = inner._piece(i)
            inner.pieces.append(piece)
            i = max(piece.end, i + 1)
        return inner.pieces

    def _piece(self, i: int) -> Piece:
        for look in (
            self._mark, self._note, self._done_with, self._phrase_first, self._day, self._name, self._process,
            self._people, self._labels, self._money, self._amount, self._label, self._phrase,
        ):  # fmt: skip
            found = look(i)
            if found is not None:
                return found
        return Piece("word", self.tokens[i].low, i, i + 1)

    # -- what is read first --------------------------------------------------------------

    def _phrase_first(self, i: int) -> Piece | None:
        """Read what is longer than the words that it begins with."""
        words, tokens = self.words, self.tokens
        place = words.find("shops", tokens, i)
        if place is not None and place[1] > 1:
            return Piece("name", None, i, i + place[1])
        if words.find("small.article", tokens, i) and i + 1 < len(tokens):
            place = words.find("shops", tokens, i + 1)
            if place is not None and place[1] > 1:
                return Piece("article", None, i, i + 1)
        again = words.find("small.again", tokens, i)
        if again is not None:
            return Piece("again", True, i, i + again[1])
        unsealed = self._unsealed(i)
        if unsealed is not None:
            return unsealed
        for tag, name in (("small.mend", "mend"), ("verb", "verb")):
            found = words.find(tag, tokens, i)
            if found is None or found[1] < 2:
                continue
            if tag != "verb" or not (self._is_longer_name(i, found[1]) or self._describes(i)):
                return Piece(name, found[0], i, i + found[1])
        asks = words.find("small.asks", tokens, i)
        if asks is not None and (self._is_start() or asks[1] > 1):
            return Piece("asks", None, i, i + asks[1])
        return None

    def _is_longer_name(self, i: int, length: int) -> bool:
        return self._name_length(i) > length

    def _unsealed(self, i: int) -> Piece | None:
        """Read ``one didn't seal``, ``2 unsealed``, ``one of them did not seal``, ``eins nicht zu``."""
        words, tokens = self.words, self.tokens
        number = number_at(words, tokens, i)
        many, at = (Fraction(1), i) if number is None else (number.value, i + number.length)
        if number is None and tokens[i].low in ("none", "all", "alle", "keins", "keines"):
            many, at = Fraction(0 if tokens[i].low not in ("all", "alle") else -1), i + 1
        of = words.find("small.each_of", tokens, at)
        at += of[1] if of else 0
        unit = unit_at(words, tokens, at) if at > i else None
        jar = None
        if unit is not None and unit[1] in ("jar", "measure"):
            jar, at = unit[0], at + unit[2]
            extra = unit_at(words, tokens, at)
            at += extra[2] if extra and extra[1] == "jar" else 0
        aux = {
            "ging",
            "gingen",
            "ist",
            "sind",
            "war",
            "waren",
            "hat",
            "haben",
            "was",
            "were",
            "jar",
            "blieb",
        }
        skip = int(at < len(tokens) and tokens[at].low in aux and at > i)
        for k in (at, at + skip):
            found = words.find("process.unsealed", tokens, k) if k < len(tokens) else None
            if found is not None and (number is not None or at > i or found[1] > 1):
                said = None if at == i and number is None else many
                return Piece("unsealed", (said, jar), i, k + found[1])
        return None

    def _day(self, i: int) -> Piece | None:
        tokens = self.tokens
        if tokens[i].low == "of":
            return None
        found = self.days.at(tokens, i, is_start=self._is_start())
        if found is None or (found.problem == "ahead" and found.on is None):
            return None
        if tokens[i].sort == "date" and tokens[i].low.endswith(".") and found.length == 1:
            pass
        return Piece("day", found, i, i + found.length)

    def _name_length(self, i: int) -> int:
        """Return how many tokens of the longest name of the book begin here; 0 for none."""
        limit = i
        while limit < len(self.tokens) and limit - i < self.most * 2:
            token = self.tokens[limit]
            if token.sort == "nl" or token.low in ",;:()!?":
                break
            limit += 1
        for end in range(limit, i + 1, -1):
            text = self.said(i, end)
            if self.is_name(text):
                return end - i
        return 0

    def _name(self, i: int) -> Piece | None:
        token = self.tokens[i]
        if token.sort not in ("word", "num", "code"):
            return None
        if self._is_start() and self.words.find("verb", self.tokens, i):
            return None
        if token.sort == "num" or self.words.find("small.article", self.tokens, i):
            quantity = quantity_at(self.words, self.tokens, i)
            length = self._name_length(i)
            if quantity is not None and length <= quantity.length:
                return None
        else:
            length = self._name_length(i)
            supply = self.words.find("sorts", self.tokens, i)
            if supply is not None and supply[1] > max(length, 1):
                length = supply[1]
        unit = unit_at(self.words, self.tokens, i)
        if length < 2 or (unit is not None and unit[2] >= length):
            return None
        return Piece("name", None, i, i + length)

    # -- numbers with a meaning ----------------------------------------------------------

    def _process(self, i: int) -> Piece | None:
        words, tokens = self.words, self.tokens
        lead = 0
        if tokens[i].low in ("at", "bei", "mit", "with", "under", "of") and i + 1 < len(tokens):
            lead = 1
        degrees = temperature_at(words, tokens, i + lead)
        if degrees:
            return Piece("note", self.said(i, i + lead + degrees), i, i + lead + degrees)
        pressure = pressure_at(words, tokens, i + lead)
        if pressure is not None:
            return Piece("psi", pressure[0], i, i + lead + pressure[1])
        length = length_at(words, tokens, i + (1 if tokens[i].low in ("with", "mit") else 0))
        if length is not None:
            skip = 1 if tokens[i].low in ("with", "mit") else 0
            if not skip or length[0] == "headspace":
                return Piece(length[0], length[1], i, i + skip + length[2])
        timed = time_at(words, tokens, i)
        if timed is not None:
            return Piece("time", timed[:2], i, i + timed[2])
        for name in ("hot", "raw"):
            found = words.find("process", tokens, i)
            if found is not None and found[0] == name:
                return Piece("pack", name, i, i + found[1])
        return None

    def _people(self, i: int) -> Piece | None:
        """Read ``4 people``, ``for 4 people``, ``2 of them guests``, ``davon 2 Gäste``."""
        words, tokens = self.words, self.tokens
        at = i + int(
            tokens[i].low in ("for", "für", "with", "mit", "including", "darunter", "davon")
        )
        number = number_at(words, tokens, at)
        if number is None or number.value.denominator != 1:
            return None
        at += number.length
        of = words.find("small.each_of", tokens, at)
        at += of[1] if of else 0
        extra = int(at < len(tokens) and tokens[at].low in ("were", "are", "waren", "als"))
        guests = words.find("people.guests", tokens, at + extra)
        if guests is not None:
            return Piece("guests", int(number.value), i, at + extra + guests[1])
        people = words.find("people.words", tokens, at)
        if people is None:
            return None
        return Piece("people", int(number.value), i, at + people[1])

    def _money(self, i: int) -> Piece | None:
        found = money_at(self.words, self.tokens, i)
        return None if found is None else Piece("money", found, i, i + found.length)

    def _amount(self, i: int) -> Piece | None:
        if self.words.find("small.article", self.tokens, i) is None and self._is_label_number(i):
            return None
        found = quantity_at(self.words, self.tokens, i)
        if found is None:
            return None
        found = self._of_named(i, found)
        after = i + found.length
        if found.unit is None and not found.doubt and after < len(self.tokens):
            clings = self.tokens[after]
            if clings.tight and (
                clings.low == "%" or (clings.sort == "word" and self.tokens[i].sort == "num")
            ):
                return Piece(
                    "word", self.said(i, after + 1), i, after + 1
                )  # 2% milk, 7-grain bread
        return Piece("amount", found, i, after)

    def _of_named(self, i: int, found: Quantity) -> Quantity:
        """Return a plain number where its unit begins a name: ``2 can openers``, ``3 jar lids``."""
        number = number_at(self.words, self.tokens, i)
        if number is None or found.unit is None or found.doubt:
            return found
        at = i + number.length
        supply = self.words.find("sorts", self.tokens, at)
        length = max(self._name_length(at), supply[1] if supply else 0)
        if length < 2 or at + length <= i + found.length:
            return found
        return Quantity(number.value, None, "count", number.length)

    def _is_label_number(self, i: int) -> bool:
        """Return whether a bare number belongs to the word before it: ``bed 2``, ``jar 41``."""
        before = self.pieces[-1] if self.pieces else None
        return before is not None and before.tag == "bed"

    def _labels(self, i: int) -> Piece | None:
        """Read ``labelled K1 to K7`` or ``labels 41-47``."""
        tokens = self.tokens
        if tokens[i].low not in ("labels", "labelled", "labeled", "label", "etiketten", "etikett"):
            return None
        at = i + 1
        at += int(at < len(tokens) and tokens[at].low in (":", "from", "von"))
        if at >= len(tokens) or tokens[at].sort not in ("code", "num"):
            return None
        first, end = tokens[at].text, at + 1
        last = first
        goes_on = end + 1 < len(tokens) and tokens[end].low in ("-", "–", "to", "bis", "through")
        if goes_on and tokens[end + 1].sort in ("code", "num"):
            last, end = tokens[end + 1].text, end + 2
        both = [int(one) if one.isdigit() else one for one in (first, last)]
        return Piece("labels", {"from": both[0], "to": both[1]}, i, end)

    def _label(self, i: int) -> Piece | None:
        if self.tokens[i].sort == "code":
            return Piece("label", self.tokens[i].text, i, i + 1)
        return None

    # -- phrases -------------------------------------------------------------------------

    def _phrase(self, i: int) -> Piece | None:
        words, tokens = self.words, self.tokens
        token = tokens[i]
        if token.low == "%" or (token.sort == "sym" and token.low not in "&+@\"'#"):
            return Piece("word", token.text, i, i + 1)
        found = words.find("process", tokens, i)
        if found is not None and found[0] in ("boiling water", "pressure", "dial", "weighted"):
            return Piece("process", found[0], i, i + found[1])
        for tag, name in (
            ("small.then", "then"), ("small.none", "none"), ("verb", "verb"), ("small.plan", "plan"),
            ("small.mend", "mend"), ("small.left", "left"), ("small.and", "and"),
        ):  # fmt: skip
            found = words.find(tag, tokens, i)
            if found is not None and not (tag == "verb" and self._describes(i)):
                return Piece(name, found[0], i, i + found[1])
        role = words.all_of("prep", tokens, i)
        if role is not None:
            return Piece("prep", frozenset(role[0]), i, i + role[1])
        for tag, name in (
            ("beds", "bed"), ("small.of", "of"), ("small.article_known", "article"),
            ("small.article", "article"), ("small.filler", "filler"), ("small.about", "filler"),
        ):  # fmt: skip
            found = words.find(tag, tokens, i)
            if found is not None:
                if name == "bed":
                    return self._bed(i, found[1])
                return Piece(name, token.low, i, i + found[1])
        return None

    def _bed(self, i: int, length: int) -> Piece:
        """Read ``bed 2`` as one piece; ``garden`` as a word that may be a bed's."""
        end = i + length
        if end < len(self.tokens) and re.fullmatch(r"\d{1,3}[a-z]?|[a-z]", self.tokens[end].low):
            is_amount = unit_at(self.words, self.tokens, end + 1) is not None
            if self.tokens[end].sort in ("num",) and not is_amount:
                end += 1
        return Piece("bed", None, i, end)
