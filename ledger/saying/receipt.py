"""A shopping receipt: one article a line with its price at the end, checked against its total.

Tax, cash and change are no articles. What is neither food nor supply is other spending, by its words.
"""

from __future__ import annotations

import datetime as dt
import re
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Any

from ledger.items import item_key
from ledger.messages import measured, sentence
from ledger.saying.asking import Draft, Question, Reading
from ledger.saying.containers import of_size
from ledger.saying.days import Days
from ledger.saying.kit import SIZES, Kit, kit_of, umlauts
from ledger.saying.known import Known
from ledger.saying.language import Language
from ledger.saying.measuring import amounts_named
from ledger.saying.money import money_text
from ledger.saying.names import Names
from ledger.saying.quantities import Quantity, quantity_at
from ledger.saying.settled import Settled
from ledger.saying.slip_line import (
    CENT,
    EACH,
    PRICE,
    is_coded,
    many_of,
    mark_of,
    several_of,
    uncoded,
    value_of,
)
from ledger.saying.tokens import Token, tokens_of

__all__ = ["is_receipt", "read_receipt"]


_MOST_PACKS = 24
"""A larger bare number before an article is no count of packs (our own choice)."""


@dataclass(slots=True)
class _Slip:
    """What stands on a receipt."""

    shop: str | None = None
    on: dt.date | None = None
    lines: list[dict[str, Any]] = field(default_factory=list)
    other: list[dict[str, str]] = field(default_factory=list)
    total: Fraction | None = None
    taxes: list[Fraction] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    sum: Fraction = Fraction(0)
    taken: list[Fraction] = field(default_factory=list)


def is_receipt(text: str, words: Language) -> bool:
    """Return whether a text is a receipt: most of its lines end in a price, and no verb begins one."""
    lines = [line.strip() for line in text.split("\n") if line.strip()]
    priced = [line for line in lines if PRICE.search(line)]
    verb = words.find("verb", tokens_of(lines[0]), 0) if lines else None
    if verb is not None and verb[0].kind not in ("bought", "got"):
        return False
    rest = [line for line in lines[1:] if not mark_of(line, words)]
    if lines and all(map(is_coded, rest or lines)):
        return True  # the shop may stand in the first line
    wares = [line for line in lines if PRICE.search(line) or not mark_of(line, words)]
    if len(lines) < 3 or len(priced) < 2 or len(priced) * 2 < len(wares) - 1:
        return False
    later = lines[1:]
    return not any(
        words.find("verb", tokens_of(line), 0) for line in later if not mark_of(line, words)
    )


def read_receipt(
    text: str, known: Known, words: Language, days: Days, on: dt.date, settled: Settled,
    reading: Reading,
) -> Reading:  # fmt: skip
    """Return a reading with the purchase that a receipt tells of."""
    slip = _Slip()
    lines = [line.strip() for line in text.split("\n") if line.strip()]
    reader = _Reader(known, words, days, slip, reading, settled)
    for n, line in enumerate(lines):
        reader.line(line, lines[n + 1] if n + 1 < len(lines) else "", is_first=n == 0)
    if not slip.lines and not slip.other:
        reading.left_over += lines
        return reading
    body: dict[str, Any] = {"lines": slip.lines}
    if slip.shop:
        body["shop"] = slip.shop
    if slip.total is not None:
        body["receipt_total"] = money_text(slip.total)
    if slip.other:
        body["other"] = slip.other
    if slip.notes:
        body["note"] = "; ".join(slip.notes)
    reading.entries.append(Draft("bought", (slip.on or on).isoformat(), body))
    reader.check_total()
    for one in reading.questions:
        one.entry = 0
    return reading


class _Reader:
    def __init__(
        self,
        known: Known,
        words: Language,
        days: Days,
        slip: _Slip,
        reading: Reading,
        settled: Settled,
    ) -> None:
        self.known, self.words, self.days = known, words, days
        self.slip, self.reading, self.settled = slip, reading, settled
        self.names = Names(known, words)
        self.pending: str | None = None
        self.times, self.each = 0, Fraction(0)

    def line(self, line: str, after: str, *, is_first: bool) -> None:
        """Take one line of a receipt."""
        price = PRICE.search(line)
        mark = mark_of(line, self.words)
        if mark is not None:
            self._marked(mark, price)
            return
        if self._day(line):
            return
        ahead = EACH.fullmatch(line)
        if ahead is not None and PRICE.search(after) and not mark_of(after, self.words):
            self.times, self.each = int(ahead["many"]), Fraction(ahead["each"].replace(",", "."))
            return
        if price is None:
            self._unpriced(line, after, is_first=is_first)
            return
        said = line[: price.start()].strip(" .:\t=")
        value = value_of(price, self.words)
        if price["minus"] or price["behind"]:
            if self.words.find("receipt.deposit", tokens_of(said), 0):
                self.slip.sum -= value  # a deposit that came back takes nothing off the food
                self.slip.notes.append(" ".join(line.split()))
            else:
                self._off(value)
            return
        if self.pending is not None and self._is_only_amount(said):
            said, self.pending = f"{self.pending} {many_of(said)}", None
        self._article(said, value)

    def _marked(self, mark: str, price: re.Match[str] | None) -> None:
        if price is None:
            return
        value = value_of(price, self.words)
        if mark == "total":
            self.slip.total = value
        elif mark == "tax":
            self.slip.taxes.append(value)
        elif mark == "discount" or ((price["minus"] or price["behind"]) and mark == "paid"):
            self._off(value)

    def _off(self, value: Fraction) -> None:
        """Take a discount off the article before it."""
        last = self.slip.lines[-1] if self.slip.lines else None
        if last is not None and "paid" in last and Fraction(last["paid"]) >= value:
            last["paid"] = money_text(Fraction(last["paid"]) - value)
            self.slip.sum -= value
            off = "Rabatt auf" if self.words.code == "de" else "off"
            self.slip.notes.append(f"{money_text(value)} {off} {last['item']}")
        else:
            self.reading.left_over.append(f"-{money_text(value)}")

    def _day(self, line: str) -> bool:
        tokens = tokens_of(line)
        start = 0
        while start < len(tokens) and tokens[start].low in ("date", "datum", ":"):
            start += 1
        if start >= len(tokens):
            return False
        found = self.days.at(tokens, start, is_start=True)
        if found is None or found.on is None:
            return False
        rest = tokens[start + found.length :]
        if any(
            one.sort == "word" and one.low not in ("uhr", "am", "pm", "time", "h") for one in rest
        ):
            return False
        self.slip.on = found.on
        return True

    def _unpriced(self, line: str, after: str, *, is_first: bool) -> None:
        """Take a line without a price: the shop, a name whose price follows, or an article without one."""
        if is_first:
            self._shop(line)
            return
        price = PRICE.search(after)
        if price is not None and self._is_only_amount(after[: price.start()].strip(" .:=")):
            self.pending = line
            return
        if self.slip.lines or self.slip.other:
            item, quantity = self._item(line)
            if item is not None:
                self.slip.lines.append(
                    {"item": item, "amount": quantity.text() if quantity else "1"}
                )
                key = self.settled.key("price", item)
                text = sentence("asked-line-unpriced", text=line)
                self._ask("price", item, text, key, waits=True)
                return
        self.slip.notes.append(line)

    def _shop(self, line: str) -> None:
        """Take the first line as the shop; a day and a verb may stand there, too."""
        tokens = tokens_of(line)
        verb = self.words.find("verb", tokens, 0)
        k = verb[1] if verb else 0
        if k < len(tokens) and self.words.find("prep", tokens, k):
            k += 1
        end = k
        while end < len(tokens):
            day = self.days.at(tokens, end, is_start=False)
            if day is not None and day.on is not None:
                self.slip.on = day.on
                break
            if tokens[end].low in (":", ","):
                break
            end += 1
        if end > k:
            from ledger.saying.known import bare

            said = line[tokens[k].start : tokens[end - 1].end]
            self.slip.shop = self.known.shops.get(bare(said), said)

    def _is_only_amount(self, said: str) -> bool:
        """Return whether a line says an amount and no name: ``0,756 kg x 2,99``, ``2 x 1,19``."""
        tokens = tokens_of(many_of(said))
        found = quantity_at(self.words, tokens, 0) if tokens else None
        return found is not None and found.length == len(tokens)

    # -- articles ------------------------------------------------------------------------

    def _article(self, said: str, value: Fraction) -> None:
        self.slip.sum += value
        said, several = several_of(said, value)
        if self.times and abs(self.times * self.each - value) <= CENT:
            several = self.times
        elif self.times:
            self.reading.left_over.append(f"{self.times} @ {money_text(self.each)}")
        self.times = 0
        item, quantity = self._item(said)
        if quantity is None and several > 1:
            quantity = Quantity(Fraction(1), None, "count", 0)
        if quantity is not None:
            quantity = replace(quantity, many=quantity.many * several)
        if item is None:
            self.slip.other.append(
                {"words": " ".join(said.split())[:200] or "?", "paid": money_text(value)}
            )
            key = self.settled.key("belongs", said)
            text = sentence("asked-other-spending-kept", text=said)
            self._ask("belongs", said, text, key, waits=True, options=["no"])
            return
        amount = quantity.text() if quantity is not None else "1"
        self.slip.lines.append({"item": item, "amount": amount, "paid": money_text(value)})

    def _item(self, said: str) -> tuple[str | None, Quantity | None]:
        """Return what an article is and how much; None where nothing knows it."""
        plain = uncoded(said)
        times = re.match(r"(\d{1,3})\s*[x×*]\s+(?=\D)", plain, re.IGNORECASE)
        plain = plain[times.end() :] if times else plain
        kit = kit_of(plain)
        if kit is not None:
            return self._kit(plain, kit, int(times[1]) if times else 1)
        tokens = tokens_of(plain.lower() if plain.isupper() else plain)
        best, names = None, []
        k = 0
        while k < len(tokens):
            found = self._amount(tokens, k)
            if found is not None:
                best = self._sized(plain, best, found)
                k += found.length
                continue
            names.append(tokens[k])
            k += 1
        if times:
            best = best or Quantity(Fraction(1), None, "count", 0)
            best = replace(best, many=best.many * int(times[1]))
        text = " ".join(one.text for one in names if one.sort in ("word", "num")).strip()
        if not text:
            return None, None
        for one in dict.fromkeys((text, umlauts(text) if self.words.code == "de" else text)):
            named = self.names.find(one)
            if named.state in ("book", "table", "sort", "made") and not named.tail:
                self.slip.notes += [named.variety] if named.variety else []
                if named.state == "sort":
                    self.reading.sorts[named.item] = self.names.sort_of(named.item)
                return named.item, best
        return self._within(text), best

    def _sized(self, text: str, was: Quantity | None, found: Quantity) -> Quantity:
        """Return an amount with the one before it: ``2 CANS TOMATOES 28 OZ`` is 56 oz."""
        whole = of_size(was, found) if was is not None else None
        is_code = was is not None and was.unit is None and was.many > _MOST_PACKS
        if was is None or is_code or (whole is None and was.unit is None):
            return found
        if whole is None or not whole.doubt:
            return whole or was
        options = list(whole.options)
        meant = amounts_named(options)
        said = sentence("asked-which-meant-of", name=text, names=meant)
        tokens = tokens_of(self._settled("cuts", text, said, options) or whole.options[0])
        return quantity_at(self.words, tokens, 0) or was

    def _kit(self, text: str, kit: Kit, times: int) -> tuple[str, Quantity]:
        """Return jars by their size, or lids, and how many; asks for what a line does not say."""
        item = kit.item
        if item is None:
            said = sentence("asked-which-of-these", text=text)
            options = list(SIZES[self.words.code])
            item = self._settled("which", text, said, options) or options[0]
        if kit.sort == "lid":
            item = self._within(text) or item
        many = kit.many
        if many is None:
            said = sentence("asked-how-many-in-it", text=text)
            answer = self._settled("amount", text, said, ["12", "6", "1"])
            many = int(answer) if answer is not None and answer.isdecimal() else 1
        if self.known.item(item) is None:
            self.reading.sorts[item] = kit.sort
        return self.known.item(item) or item, Quantity(Fraction(many * times), None, "count", 0)

    def _settled(self, code: str, about: str, text: str, options: list[str]) -> str | None:
        """Return the answer to a question, else ask it."""
        key = self.settled.key(code, about)
        self._ask(code, about, text, key, options=options)
        return self.settled.answers.get(key)

    def _within(self, text: str) -> str | None:
        """Return the book's item whose words all stand in a line, with others: ``SUGAR GRAN``.

        The longest name counts; of several that are as long it is asked.
        """
        words = {item_key(one) for one in text.lower().split()}
        found: dict[str, int] = {}
        for name in self.known.names:
            parts = item_key(name).split()
            if parts and words.issuperset(parts) and self.known.sort(name) is not None:
                item = self.known.catalogue.name(name)
                found[item] = max(found.get(item, 0), len(parts))
        best = [one for one in found if found[one] == max(found.values())]
        if len(best) < 2:
            return best[0] if best else None
        answer = self._settled("which", text, sentence("asked-which-of-these", text=text), best)
        return answer if answer in best else best[0]

    def _amount(self, tokens: list[Token], k: int) -> Quantity | None:
        match = quantity_at(self.words, tokens, k)
        return match if match is not None and not match.loose and not match.doubt else None

    # -- the total -----------------------------------------------------------------------

    def check_total(self) -> None:
        """Ask where the total is neither the sum of the lines nor that with the tax."""
        total, lines = self.slip.total, self.slip.sum
        if total is None:
            return
        taxes = sum(self.slip.taxes, start=Fraction(0))
        if any(abs(total - one) <= CENT for one in (lines, lines + taxes)):
            return
        key = self.settled.key("total", "receipt_total")
        text = sentence(
            "asked-total", lines=measured(money_text(lines)), total=measured(money_text(total))
        )
        options: list[str] = [sentence("asked-as-it-stands")]
        self._ask("total", "receipt_total", text, key, options=options)

    def _ask(
        self, code: str, about: str, text: str, key: tuple[str, str, int], *,
        waits: bool = False, options: list[str] | None = None,
    ) -> None:  # fmt: skip
        if key not in self.settled.answers:
            self.reading.questions.append(
                Question(about, text, options or [], waits, code, key=key)
            )
