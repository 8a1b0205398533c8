"""The things of one clause: lines of amounts and names, and what is said beside them."""

from __future__ import annotations

import re
from dataclasses import replace

from ledger.saying.beside import Beside
from ledger.saying.clauses import Clause
from ledger.saying.containers import of_size
from ledger.saying.pieces import Piece, Scanner
from ledger.saying.quantities import Quantity
from ledger.saying.things import Phrase, Thing, Things

__all__ = ["gather"]

_SOLD = ("bought", "got", "price_seen", None)
"""Where things come in packs of a size."""


class _Gatherer(Beside):
    """Walks over the pieces of one clause."""

    def __init__(self, scanner: Scanner, kind: str | None) -> None:
        self.scanner, self.kind = scanner, kind
        self.out = Things()
        self.mode = "main"
        self.pending: list[Quantity] = []
        self.apart = ""
        self.zero = False
        self.pieces: list[Piece] = []
        self.i = 0

    def walk(self, pieces: list[Piece]) -> Things:
        self.pieces, self.i = [self._as_thing(one) for one in pieces], 0
        while self.i < len(self.pieces):
            one = self.pieces[self.i]
            step = getattr(self, f"_on_{one.tag}", None)
            if step is None:
                self.out.left.append((one.start, one.end))
                self.i += 1
            else:
                step(one)
        self._flush()
        return self.out

    def _as_thing(self, one: Piece) -> Piece:
        """Take a canner that is bought as a thing, and no way of putting up."""
        if one.tag != "process" or self.kind not in ("bought", "got", "price_seen", "received"):
            return one
        is_thing = self.scanner.words.find("sorts", self.scanner.tokens, one.start)
        return Piece("word", one.value, one.start, one.end) if is_thing else one

    # -- things --------------------------------------------------------------------------

    def _on_amount(self, one: Piece) -> None:
        said: Quantity = one.value
        if said.unit is not None and not self.pending and self._is_each(self.i):
            self.apart = ""
            return
        self.i += 1
        last = self.out.lines[-1] if self.out.lines else None
        named = self._tag(0) in ("word", "name", "bed", "label") or (
            self._tag(0) in ("of", "article", "filler")
            and self._tag() in ("word", "name", "article", "bed")
        )
        named = named or self._is_todays()
        after = self._next(0)
        if named and after is not None and after.tag == "word" and self._is_meal(self.i):
            named = False
        bare = last is not None and last.words is not None and not self.pending
        if self._is_taken(said, last, named=named):
            return
        after = self._next(0)
        for_money = after is not None and after.tag == "money" and after.value.led == "for"
        if last is not None and last.lot and last.words is None and not last.amounts and not named:
            last.amounts.append(said)
            return
        if bare and for_money and said.unit is None and last is not None and last.amounts:
            self.pending.append(said)
            return
        is_figure = self.scanner.tokens[one.start].sort == "num"
        is_price = last is not None and (
            self._is_plain_price(one, last) or self._is_price(said, named)
        )
        if bare and last is not None and is_figure and is_price:
            last.extra.append(said)
            return
        if bare and last is not None and not last.amounts and (not named or not self.apart):
            last.amounts.append(said)
            self.apart = ""
            return
        if bare and not named and said.unit is None and not self.apart and not said.loose:
            self.out.left.append((one.start, one.end))
            return
        if said.loose and not named:
            return
        if not named and self.pending and self.apart == "" and self.kind != "put_up":
            self._flush()
        self.pending.append(said)
        waits = self.kind in ("put_up", None) and self._names_later()
        if not (named or waits) and self._tag(0) not in ("comma", "and", "amount", "dash"):
            self._flush()

    def _is_taken(self, said: Quantity, last: Thing | None, *, named: bool) -> bool:
        """Take jars that stand alone, and ``32 oz`` behind ``2 bottles lemon juice`` as what each holds."""
        if self._is_alone(said, last, named=named):
            self._empty(said)
            return True
        if named or last is None or last.words is None or self.pending or last.extra:
            return False
        if self.kind not in _SOLD or self.apart == "and" or len(last.amounts) != 1:
            return False
        whole = of_size(last.amounts[0], said)
        if whole is None:
            return False
        last.amounts, self.apart, last.is_sized = [whole], "", True
        return True

    def _is_alone(self, said: Quantity, last: Thing | None, *, named: bool) -> bool:
        """Return whether jars are empty ones: beside them stands what no jar is counted in.

        ``24 pint jars, 12 quart jars and 25 lb flour``; in ``7 quart jars and 2 pint jars of sauce``
        both sizes are of the sauce.
        """
        if named or said.sort != "jar" or said.doubt or self.kind in ("put_up", "eaten"):
            return False
        is_priced = self.kind in ("bought", "got") and self._tag() in ("comma", "and", "")
        if self._tag(0) == "amount" and is_priced:
            one = self._next(0)
            return one is not None and one.value.unit is None
        if self._tag(0) not in ("comma", "and", ""):
            return False
        if last is not None and (last.is_empty or (self.apart and _is_weighed(last))):
            return True
        rest = iter(one for one in self.pieces[self.i :] if one.tag not in ("comma", "and"))
        one = next((one for one in rest if one.tag != "amount" or one.value.sort != "jar"), None)
        return one is not None and one.tag == "amount" and one.value.jar() is None

    def _empty(self, said: Quantity) -> None:
        """Take jars that stand alone as a thing of their own, with the price behind them."""
        self._flush()
        thing = Thing([said], None, self.mode, joined=self.apart, is_empty=True)
        self.out.lines.append(thing)
        self.apart = ""
        price = self._next(0)
        if price is not None and price.tag == "amount":
            thing.extra.append(price.value)
            self.i += 1

    def _is_todays(self) -> bool:
        """Return whether a name follows behind ``of today's``."""
        k = 1 if self._tag(0) == "of" else 0
        one = self._next(k)
        found = one and self.scanner.words.find("small.todays", self.scanner.tokens, one.start)
        return bool(found) and self._tag(k + 1) in ("word", "name")

    def _is_plain_price(self, one: Piece, last: Thing) -> bool:
        """Return whether figures behind a thing look like a price, whatever follows: ``milk 3.79 eggs``."""
        text = self.scanner.tokens[one.start].text
        is_money = re.fullmatch(r"\d+[.,]\d\d", text) is not None and one.value.unit is None
        return self.kind in ("bought", "got") and is_money and not self.apart and not last.extra

    def _is_price(self, said: Quantity, named: bool) -> bool:
        """Return whether a bare number behind a name is its price: in a purchase it is."""
        plain = said.unit is None and said.length == 1 and not said.loose and not said.doubt
        if not plain or named or self.apart == "and":
            return False
        last = self.out.lines[-1] if self.out.lines else None
        is_sold = said.many.denominator != 1 or (last is not None and last.is_sized)
        return self.kind in ("bought", "got") or (self.kind is None and is_sold)

    def _names_later(self) -> bool:
        """Return whether a name follows behind a size that was said first: ``7 pints (hot) of``."""
        return self._tag(0) in ("bracket", "pack", "process") and self._tag() == "of"

    def _on_label(self, one: Piece) -> None:
        self.i += 1
        last = self.out.lines[-1] if self.out.lines else None
        text = self.scanner.tokens[one.start].text
        if last is not None and last.lot is None and not self.apart and last.words is not None:
            last.lot = text
        else:
            self.out.lines.append(
                Thing([*self.pending], None, self.mode, lot=text, joined=self.apart)
            )
            self.pending = []

    def _on_word(self, one: Piece) -> None:
        self._name_from(one)

    _on_name = _on_bed = _on_word

    def _name_from(self, one: Piece) -> None:
        if self._is_meal(self.i):
            self._meal()
            return
        if self._is_jar_label():
            return
        if one.tag == "bed" and not self.pending and self._tag() not in ("word", "name", "of"):
            self._phrase(frozenset({"in"}), one, self.i)
            return
        start, end = one.start, one.end
        k = self.i + 1
        while k < len(self.pieces):
            tag = self.pieces[k].tag
            if tag in ("word", "name", "bed") and not self._is_meal(k):
                end = self.pieces[k].end
            elif (
                tag in ("of", "article", "filler")
                and k + 1 < len(self.pieces)
                and self.pieces[k + 1].tag in ("word", "name")
            ):
                if tag == "filler":
                    break
            elif tag == "of" and self._is_fee_of(start, k):
                pass
            else:
                break
            k += 1
        if self._is_receiver(k):
            self.out.facts["receiver"] = (start, end)
            self.out.spans["receiver"] = (start, end)
            self.i = k
            return
        self.i = k
        if self.kind in _SOLD and len(self.pending) == 2 and self.pending[0].unit is not None:
            whole = of_size(*self.pending)  # "3 cans 28 oz tomatoes"
            self.pending = [whole] if whole is not None else self.pending
        thing = Thing(
            [*self.pending], (start, end), self.mode, joined=self.apart, is_zero=self.zero
        )
        self.pending, self.apart, self.zero = [], "", False
        self.out.lines.append(thing)

    def _is_fee_of(self, start: int, k: int) -> bool:
        """Return whether a name goes on behind `of`: ``membership of the canning club``."""
        after = self.pieces[k + 1].tag if k + 1 < len(self.pieces) else ""
        fee = self.scanner.words.find("small.fees", self.scanner.tokens, start)
        return fee is not None and after in ("article", "word", "name")

    def _is_jar_label(self) -> bool:
        """Read ``jar K12`` as the label alone."""
        one, number = self.pieces[self.i], self._next()
        tokens = self.scanner.tokens
        if number is None or number.end - number.start != 1 or self.pending:
            return False
        if not self.scanner.words.is_("process.label", tokens[one.start].text):
            return False
        if number.tag != "label" and not (number.tag == "amount" and number.value.unit is None):
            return False
        self.i += 2
        self._lot(tokens[number.start].text)
        return True

    def _is_receiver(self, k: int) -> bool:
        """Return whether words before the first amount are who got it: ``gave Ann two jars of jam``."""
        if self.kind not in ("given_away", "discarded") or self.out.lines or self.pending:
            return False
        if k >= len(self.pieces) or self.pieces[k].tag != "amount" or "receiver" in self.out.facts:
            return False
        rest = [one.tag for one in self.pieces[k + 1 : k + 3]]
        if self.pieces[k].value.sort == "jar" and rest[:1] in ([], ["comma"], ["and"]):
            return True
        return bool(rest) and (
            rest[0] in ("word", "name") or rest in (["of", "word"], ["of", "name"])
        )

    def _is_meal(self, k: int) -> bool:
        one = self.pieces[k]
        return (
            self.scanner.words.find("meal", self.scanner.tokens, one.start) is not None
            and one.tag == "word"
            and (self.kind in ("eaten", None))
        )

    def _meal(self) -> None:
        one = self.pieces[self.i]
        found = self.scanner.words.find("meal", self.scanner.tokens, one.start)
        length = found[1] if found else 1
        self.out.facts["meal"] = self.scanner.said(one.start, one.start + length)
        self.out.spans["meal"] = (one.start, one.start + length)
        while self.i < len(self.pieces) and self.pieces[self.i].start < one.start + length:
            self.i += 1

    def _on_zero(self, one: Piece) -> None:
        self.zero = True
        self.i += 1

    # -- separators and small words ------------------------------------------------------

    def _on_comma(self, one: Piece) -> None:
        self._apart("comma")

    def _on_and(self, one: Piece) -> None:
        self._apart("and")

    def _apart(self, how: str) -> None:
        self.i += 1
        self._apart_now(how)

    def _apart_now(self, how: str) -> None:
        if self.pending and self._tag(0) not in (
            "amount",
            "process",
            "pack",
            "filler",
            "article",
            "bracket",
        ):
            self._flush()
        self.apart = how if self.apart in ("", "comma") else self.apart
        last = self.out.lines[-1] if self.out.lines else None
        if last is not None:
            last.is_parted = True

    def _on_dash(self, one: Piece) -> None:
        """Take a dash as a sign between a thing and its amount; in a thing's place it is nothing."""
        before = self.pieces[self.i - 1] if self.i else None
        if self.pending and before is not None and before.tag == "amount":
            self.pending.pop()
            self.out.left.append((before.start, one.end))
        self.i += 1
        if self._tag(0) != "amount":
            self._apart_now("comma")

    def _on_mark(self, one: Piece) -> None:
        """Take what stands behind ``applesauce:`` as things of their own, not as more of that name."""
        self.i += 1
        last = self.out.lines[-1] if self.out.lines else None
        heads = last is not None and last.words is not None and not last.amounts
        if heads and one.value == ":" and self.kind == "put_up" and not self.pending:
            self.apart = self.apart or "comma"

    def _skip(self, one: Piece) -> None:
        self.i += 1

    _on_filler = _on_article = _on_of = _skip

    def _on_left(self, one: Piece) -> None:
        place = self.scanner.words.find("places", self.scanner.tokens, one.end - 1)
        if self.kind == "put_up" and place is not None:  # "3 half-pints on the shelf"
            said = self.scanner.said(one.start, one.end)
            words = (one.end - 1, one.end)
            self.out.phrases.append(
                Phrase(frozenset({"on"}), words, len(self.out.lines), said, one.start)
            )
            self.i += 1
            return
        self.out.facts["left"] = (one.start, one.end)
        self.out.spans["left"] = (one.start, one.end)
        self.i += 1


def _is_weighed(thing: Thing) -> bool:
    """Return whether a thing was weighed or counted, and not in jars."""
    return bool(thing.amounts) and all(one.jar() is None for one in thing.amounts)


def gather(scanner: Scanner, clause: Clause) -> Things:
    """Return the things of a clause."""
    kind = clause.spoken.kind if clause.spoken else None
    out = _Gatherer(scanner, kind).walk(list(clause.pieces))
    before = _Gatherer(scanner, kind)
    said = before.walk([one for one in clause.before if one.tag != "article"])
    out.days = [(day, -1) for day, _ in said.days] + out.days
    out.led = [n + len(said.days) for n in out.led]
    out.phrases = [replace(one, lines=-1) for one in said.phrases] + out.phrases
    for name, value in said.facts.items():
        out.facts.setdefault(name, value)
        out.spans.setdefault(name, said.spans[name])
    out.times += said.times
    out.money = [(one, 0) for one, _ in said.money] + out.money
    out.left += said.left
    out.notes += said.notes
    out.subject = [one.words for one in said.lines if one.words is not None]
    if any(one.amounts for one in said.lines):
        out.lines = [one for one in said.lines if one.amounts] + out.lines
        out.subject = [one.words for one in said.lines if one.words and not one.amounts]
    return out
