"""Short texts to parts of a body: what the command line and the forms let people type."""

from __future__ import annotations

import contextlib
import re
from collections.abc import Callable
from decimal import Decimal, localcontext
from fractions import Fraction
from typing import Any

from ledger.amounts import (
    JAR,
    Amount,
    Said,
    canonical,
    canonical_jar,
    has_decimal_comma,
    known_units,
    parse_amount,
    parts_thousands,
    split_line,
)
from ledger.door.acid import read_acid
from ledger.door.answers import Answers
from ledger.door.choosing import choice
from ledger.door.hearing import hear, hear_minutes, hear_span
from ledger.door.money import in_own_money
from ledger.errors import InputError, LedgerError, NeedsAnswer
from ledger.items import item_key
from ledger.known.catalogue import Catalogue
from ledger.messages import Code, Message, Names, Typed, sentence
from ledger.messages.words import as_typed
from ledger.reference import foods

__all__ = ["PARTS", "Texts", "whole_number"]

_DIGITS = 15
"""A whole number of more digits is no count."""

_KEPT = ("shelf", "fridge", "freezer", "cellar")
_FROM = re.compile(r"\s+from\s+(?:lot|jar)\s+(?P<lot>\S+)$", re.IGNORECASE)
_UNIT_OF = {"age": "year", "years": "year", "days": "day", "minutes": "minute"}
"""Fields whose number may be typed with the unit that it has."""
_COMMA = re.compile(r"\d+,\d+")
_STRAINED = re.compile(r"[\s,(]+(strained( out)?|taken out|abgeseiht)\)?\s*$", re.IGNORECASE)
_PACKED = re.compile(r"\d+\s*[x×@]\s*\d|\d+\s+\d+[-\s]?[a-zA-Z]+[-\s]\w")
_PAIR = re.compile(
    r"(?:(?:an?|one|1|eine?)\s+)?(?P<unit>[^\d=:]*[^\d\s=:])(?<!\sof)"
    r"(?:\s+(?:weighs?|is|wiegt|ist)|\s*[=:])?\s+(?P<number>[\d.,½¼¾⅓⅔-].*)",
    re.IGNORECASE,
)
_SAYS = re.compile(r"(?:\s+of\s+.*?)?\s+(?:weighs?|is|wiegt|ist)$|\s+of\s+.*$", re.IGNORECASE)


def whole_number(text: Any) -> Any:
    """Return digits as a number; what is none, or longer than any count, stays as it was typed.

    One below zero is a number too, so that the door says of it what is wrong.
    """
    digits = re.sub("^[-−]", "", text) if isinstance(text, str) else ""
    if not digits.isdecimal() or len(digits) > _DIGITS:
        return text
    return int(digits) if digits == text else -int(digits)


class Texts:
    """Reads texts in the measures of a book; known items settle what is a unit and what a name."""

    def __init__(self, catalogue: Catalogue, answers: Answers | None = None) -> None:
        self.catalogue = catalogue
        self.answers = answers or Answers()
        self.measures = catalogue.setting("measures", default="us") or "us"
        self.comma = has_decimal_comma(catalogue.setting("language"))

    def amount(self, text: str, field: str, **more: Any) -> tuple[str, Amount, str]:
        """Return a text, its amount and the words after it; a doubtful amount is asked about.

        What the units do not know is read as `say` reads it, in the book's language first.
        """
        try:
            found = self._split(text, field, **more)
        except InputError as refused:
            plain = hear(text, self.catalogue, refused)
            with contextlib.suppress(InputError):
                if plain is not None:
                    return self._split(plain, field, **more)
            raise
        words = found[2]
        if found[1].dimension != "count" or not words or self.catalogue.is_item(words):
            return found
        plain = hear(text, self.catalogue)
        with contextlib.suppress(InputError):
            again = found if plain is None else self._split(plain, field, **more)
            if words != again[2] and words.endswith(again[2]):  # what was no item's name is a unit
                return again
        return found

    def _split(self, text: str, field: str, **more: Any) -> tuple[str, Amount, str]:
        try:
            return text, *split_line(text, measures=self.measures, comma=self.comma, **more)
        except NeedsAnswer as doubt:
            doubt = NeedsAnswer(doubt.code, field, doubt.question, doubt.offered)
            if not self.answers.choose(doubt):
                raise doubt from None
            jar, offered = JAR.search(text), JAR.search(doubt.offered)
            if doubt.code == "thousands" or jar is None or offered is None:
                text = doubt.offered[:]
            else:
                text = doubt.offered[: offered.end()] + text[jar.end() :]
            return text, *split_line(text, measures=self.measures, comma=self.comma, **more)
        except InputError as error:
            raise error.at(field) from None

    def line(self, text: str, field: str = "line") -> dict[str, Any]:
        """Return ``31 lb 8 oz plum`` or ``1 pint jar stock from jar S26-041`` as a line.

        The amount may be nothing: whether it may be is the kind's to say, and a count may.

        Raises
        ------
        InputError, NeedsAnswer
        """
        text = self._in_figures(" ".join(text.split()))
        match = _FROM.search(text)
        line: dict[str, Any] = {"lot": match["lot"]} if match else {}
        text = text[: match.start()] if match else text
        text, amount, item = self.amount(text, field, is_item=self.catalogue.is_item, zero=True)
        if not item and amount.jar is not None and amount.jars is not None:
            number = amount.jars
            return {"item": amount.jar, "amount": f"{float(number):g}", **line}
        if not item:
            raise InputError(field, Message.of("refusal-names-no-item", text=Typed(text)))
        if amount.unit == "piece" and amount.jars is None:
            self._doubt_unit(item, field)
        said = re.sub(r"\s+of$", "", text[: len(text) - len(item)].strip(), flags=re.IGNORECASE)
        return {"item": item, "amount": self._read(said, amount), **line}

    def _read(self, text: str, amount: Amount) -> Said:
        return Said(text, amount, self.measures, self.comma)

    def _in_figures(self, text: str) -> str:
        """Return a text with its amount in figures: it may be said in words, as to `say`."""
        if (text[:1].isdigit() and not _PACKED.match(text)) or not text[:1].isalnum():
            return text
        from ledger.saying.phrase import in_figures

        return in_figures(text, self.catalogue.setting("language") or "en")

    def place(self, text: str) -> tuple[str, str | None]:
        """Return ``1 cup fridge`` as the words before where it is kept, and where that is."""
        head, _, last = " ".join(text.split()).rpartition(" ")
        kept = choice(last, _KEPT, "kept")
        return (head, kept) if head and kept in _KEPT else (text, None)

    def used(self, text: str, field: str = "used") -> dict[str, Any]:
        """Return a line that went into a batch; ``2 onion, strained out`` was taken out again."""
        bare = _STRAINED.sub("", text)
        line = self.line(bare, field)
        return line if bare == text else {**line, "strained": True}

    def _doubt_unit(self, item: str, field: str) -> None:
        """Ask whether ``smidgen plum`` after a bare number is an item, or a unit nobody knows.

        Words that stand in a known item's name or in the food table are no slip of a unit.
        """
        word, _, rest = item.partition(" ")
        if not rest or self.catalogue.is_item(item):
            return
        named = {key for name in self.catalogue.names() for key in item_key(name).split()}
        if item_key(word) in named or foods.propose(word, 1):
            return
        if not self.catalogue.is_item(rest) and not foods.is_named(rest):
            return
        from rapidfuzz import fuzz, process

        near = process.extractOne(word.lower(), known_units(), scorer=fuzz.ratio, score_cutoff=70)
        question = sentence(
            "doubt-unit-or-item",
            text=Typed(word),
            near=Typed(near[0]) if near else None,
            item=Typed(item),
        )
        doubt = NeedsAnswer("unit", field, question, sentence("doubt-in-pieces", item=item))
        self.answers.settle(doubt)

    def made(self, text: str, field: str = "made") -> dict[str, Any]:
        """Return ``11 half-pint jars`` or ``1 cup fridge`` as a made entry; where kept comes last."""
        text = " ".join(text.split())
        out: dict[str, Any] = {}
        text, kept = self.place(text)
        if kept:
            out["kept"] = kept
        said, (text, amount, words) = text, self.amount(text, field)
        plain = hear(said, self.catalogue) if amount.jars is None and words else None
        if plain is not None and (heard := self.amount(plain, field))[1].jars and not heard[2]:
            text, amount, words = heard  # 5 Quart Gläser
        if amount.jars is None and _PACKED.match(said):
            words = said  # 7 x 500 ml may be one pot of 3.5 litres, or seven jars
        own_jar = self.catalogue.facts(words) if words else None
        if amount.jars is not None and not words:
            if amount.jars.denominator != 1:
                raise InputError(
                    field,
                    Message.of("refusal-jars-not-whole", text=Typed(text)),
                )
            return {"jars": int(amount.jars), "jar": amount.jar, **out}
        if own_jar is not None and own_jar.sort == "jar" and amount.unit == "piece":
            return {"jars": amount.whole // 1000, "jar": words, **out}
        if words and words.lower() in known_units() and amount.unit == "piece":
            return {"amount": text, **out}  # "3 buckets": counted, whatever a bucket weighs
        if words:
            raise InputError(
                field,
                Message.of(
                    "refusal-no-jar-no-place",
                    text=Typed(words),
                    names=Names(as_typed(_KEPT, "kept")),
                ),
            )
        return {"amount": self._read(text, amount), **out}

    def left(self, text: str, field: str = "left") -> dict[str, Any]:
        """Return ``1 qt stew fridge 0.25`` (amount, name, place, share of the dish) as a leftover."""
        match = re.fullmatch(
            r"(?P<line>.*?)\s+(?P<share>\d*[.,]?\d+|[1-9]/[1-9]\d?)\s?(?P<percent>%?)",
            " ".join(text.split()),
        )
        if not match:
            raise InputError(
                field,
                Message.of("refusal-share-left-unsaid", text=Typed(text)),
            )
        share = float(Fraction(match["share"].replace(",", ".")) / (100 if match["percent"] else 1))
        line, kept = self.place(match["line"])
        where = {"kept": kept} if kept else {}
        return {**self.line(line, field), "share": f"{share:g}", **where}

    def work(self, text: str, field: str = "work") -> dict[str, Any]:
        """Return ``Ada 90`` or ``Ada 1.5 h`` as work."""
        match = re.fullmatch(r"(?P<person>.*\S)\s+(?P<many>\d+(?:[.,]\d+)?)", text.strip())
        timed = hear_minutes(text, self.catalogue)
        if timed is not None and timed[0]:
            return {"person": timed[0], "minutes": timed[1]}
        if not match:
            raise InputError(
                field,
                Message.of("refusal-who-how-long", text=Typed(text)),
            )
        return {"person": match["person"], "minutes": self.number(match["many"], "decimal", field)}

    def acid(self, text: str, field: str = "acid") -> dict[str, Any]:
        """Return ``1 tbsp lemon juice per jar``, its words in any order, as acid."""
        return read_acid(text, field)

    def fuel(self, text: str, field: str = "fuel") -> dict[str, Any]:
        """Return ``electricity 2.4 kWh`` or ``1 lb propane`` as fuel."""
        head, _, rest = text.strip().partition(" ")
        metered = {"strom": "electricity"}.get(head.lower(), head.lower())
        if metered in ("electricity", "gas") and rest:
            return {"metered": metered, "amount": rest}
        return self.line(text, field)

    def other(self, text: str, field: str = "other") -> dict[str, Any]:
        """Return ``magazine 4.50`` as other spending: its words and what was paid."""
        from ledger.saying.phrase import split_price

        words, paid = split_price(text)
        if paid is None:
            raise InputError(
                field,
                Message.of("refusal-other-and-price", text=Typed(text)),
            )
        return {"words": words, "paid": self.number(paid, "money", field)}

    def labels(self, text: str, field: str = "labels") -> dict[str, Any]:
        """Return ``41-51`` or ``S26-041..S26-051`` as labels."""
        first, _, last = text.partition("..") if ".." in text else text.rpartition("-")
        if not first or not last:
            raise InputError(field, Message.of("refusal-not-labels", text=Typed(text)))
        return {
            "from": whole_number(first),
            "to": whole_number(last),
        }

    def pair(self, text: str, field: str = "g_per") -> tuple[str, str]:
        """Return ``clove 5``, ``bushel 30 lb`` or ``a bushel weighs 30 lb`` as a unit and grams.

        A number without a unit of weight is grams; of `pieces_per` it is pieces.
        """
        text = " ".join(text.split())
        jar = JAR.match(text)
        match = _PAIR.fullmatch(("jar" + text[jar.end() :]) if jar else text)
        if match is None:
            example = "packet 12" if field == "pieces_per" else "clove 5"
            raise InputError(
                field,
                Message.of("refusal-not-unit-and-number", text=Typed(text), example=Code(example)),
            )
        unit = jar[0] if jar else _SAYS.sub("", match["unit"])
        unit = canonical_jar(unit) or canonical(unit, self.measures) or self._unit(unit)
        number = self.number(match["number"], "decimal", field)
        if field == "pieces_per":
            return unit, re.sub(r"\s*(pieces?|of them)$", "", number)
        try:
            amount = parse_amount(number, measures=self.measures, comma=self.comma)
        except LedgerError:
            return unit, number  # the door says what is wrong with it
        if amount.measure != "mass":
            return unit, number
        return unit, _grams(amount.exact)

    def _unit(self, said: str) -> str:
        """Return ``bucket`` for ``Eimer``; a word that is no unit in any language as it is."""
        unit = (hear(f"1 {said}", self.catalogue) or "").removeprefix("1 ")
        return canonical(unit, self.measures) or said

    def keeps(self, text: str, field: str = "keeps") -> tuple[str, str]:
        """Return ``fridge 4 days`` as a place and a length of time."""
        said, _, span = text.strip().partition(" ")
        place = choice(said, _KEPT, "kept")
        if place not in _KEPT:  # the time first
            span, _, said = text.strip().rpartition(" ")
            place = choice(said, _KEPT, "kept")
        if place not in _KEPT or not span:
            raise InputError(field, Message.of("refusal-not-place-and-time", text=Typed(text)))
        return place, hear_span(span, self.catalogue)

    def without_unit(self, text: str, field: str) -> str:
        """Return the number of ``39 Jahre`` or ``1 h 30 min`` where the field itself says of what."""
        unit = _UNIT_OF.get(field)
        if unit == "minute":
            timed = hear_minutes(text, self.catalogue)
            return timed[1] if timed is not None and not timed[0] else text
        number, _, said = hear_span(text, self.catalogue).partition(" ") if unit else (text, "", "")
        return number if unit and said in (unit, f"{unit}s") else text

    def whole(self, text: str, field: str) -> int:
        """Return a whole number, which may be typed with the unit that it has.

        Raises
        ------
        InputError
        """
        found = whole_number(self.without_unit(text.strip(), field))
        if isinstance(found, int):
            return found
        if text.strip().isdecimal():
            raise InputError(field, Message.of("refusal-number-too-large", said=text.strip()[:12]))
        raise InputError(field, Message.of("refusal-not-whole", text=Typed(text)))

    def number(self, text: str, kind: str, field: str) -> str:
        """Return a number as the door takes it: ``$7.90``, and ``7,90`` where the language has it.

        Raises
        ------
        InputError
            Where a point may part thousands, or money is of another currency than the book's.
        """
        said = self.without_unit(text.strip(), field)
        if kind == "money":
            said = in_own_money(said, field, self.catalogue)
        parted = parts_thousands(said, comma=self.comma)
        if parted is not None:
            plain, part = Code(parted.replace(".", "")), Code(parted.replace(".", ","))
            raise InputError(
                field,
                Message.of("refusal-thousands", text=Typed(said), plain=plain, part=part),
            )
        return said.replace(",", ".") if self.comma and _COMMA.fullmatch(said) else said

    def is_jar(self, text: str) -> bool:
        """Return whether a text names a jar."""
        return canonical_jar(text) is not None


def _grams(mg: Fraction) -> str:
    """Return milligrams in grams, exactly: every unit of weight is a decimal number of them."""
    with localcontext() as context:
        context.prec = 60
        return format((Decimal(mg.numerator) / Decimal(mg.denominator) / 1000).normalize(), "f")


PARTS: dict[str, Callable[[Texts, str, str], Any]] = {
    "lines": Texts.line, "used": Texts.used, "ate": Texts.line, "uses": Texts.line, "seed": Texts.line,
    "made": Texts.made, "left": Texts.left, "work": Texts.work, "acid": Texts.acid, "fuel": Texts.fuel,
    "other": Texts.other,
}  # fmt: skip
"""How each field that is made of parts is read from a text."""
