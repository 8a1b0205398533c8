"""Amounts as people write them, to whole units; every text is read once and remembered."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from ledger.amounts._jars import JAR, MAYBE_JAR, canonical_jar, doubt_jar
from ledger.amounts._numbers import (
    NUMBER,
    SIGNS,
    begins_again,
    is_fraction,
    number,
    parts_thousands,
    refuse_sign,
)
from ledger.amounts._units import (
    NAMED_PIECES,
    WHOLES,
    canonical,
    factor,
    is_counted,
    known_units,
)
from ledger.errors import InputError, NeedsAnswer, UnknownUnit
from ledger.messages import Code, Message, Names, Typed, sentence

__all__ = ["Amount", "parse_amount", "parse_measure", "split_line"]

_MOST = 1 << 60
_LONGEST = 3
_LONGEST_TEXT = 400
_AND = re.compile(rf"(?:and|&|\+)\s+(?=\d|[{SIGNS}])", re.IGNORECASE)
_ANOTHER = re.compile(
    rf"\s*(?P<sign>[,;&+]|\band\b|\bund\b)\s*(?P<rest>[\d{SIGNS}][\d\s.,/{SIGNS}]*(?P<unit>[^\W\d]+))",
    re.IGNORECASE,
)
"""One more amount with its thing behind a comma."""
_HALF_A = re.compile(
    r"(?:an?\s+half|half\s+an?|half(?=[-\s]+doz))[-\s]+(?=(?P<unit>[a-z.]+))", re.I
)
_ONE = re.compile(r"(?:an?|one)\s+(?=(?P<unit>[a-z.]+))", re.IGNORECASE)
_DOUBTFUL = {
    "T": "Write tbsp or t (tonnes)", "C": "Write cup", "c": "Write cup", "Tb": "Write tbsp",
    "pk": "Write peck or packet",
}  # fmt: skip
"""Short forms that mean different things to different people."""


@dataclass(frozen=True)
class Amount:
    """An amount as understood.

    Attributes
    ----------
    measure : str
        ``mass``, ``volume``, ``count`` or ``energy``.
    whole : int
        In mg, ul, thousandths of a piece or J, rounded half to even once.
    unit : str
        Canonical unit of the first pair.
    times : int
        The whole amount in thousandths of that unit.
    exact : Fraction
        In whole units, before rounding.
    jars : Fraction or None
        How many jars, when it is an amount of jars; `jar` says which.
    maybe_jar : str or None
        The jar that was meant if the word was left out (``1 half-pint plum butter``).
    text : str
        As typed.
    """

    measure: str
    whole: int
    unit: str
    times: int
    exact: Fraction
    text: str
    jars: Fraction | None = None
    jar: str | None = None
    maybe_jar: str | None = None

    @property
    def dimension(self) -> str:
        """What the amount is counted in: its measure, or the counted unit itself (``bucket``)."""
        return self.unit if is_counted(self.unit) else self.measure


@lru_cache(maxsize=65536)
def parse_amount(
    text: str, *, measures: str = "us", comma: bool = False, zero: bool = False
) -> Amount:
    """Return a pure amount: ``12 lb 6 oz``, ``1 1/2 cups``, ``11 half-pint jars``, ``6``.

    Parameters
    ----------
    text : str
    measures : {'us', 'uk', 'metric'}
        What the bare words cup, pint, quart and the like mean.
    comma : bool
        Whether ``12,5`` is twelve and a half.
    zero : bool
        Whether nothing at all is an amount (it is for a count of the shelf).

    Raises
    ------
    InputError, UnknownUnit
        Naming what was wrong and what would be right.
    NeedsAnswer
        For a fraction straight before a jar size: ``11 1/2 pint jars``; with `comma`, for a point
        that may part thousands: ``1.500 g``.
    """
    amount, rest = _read(text, measures, comma, None, zero)
    if rest:
        raise UnknownUnit(
            "amount", Message.of("refusal-unit-unknown", text=Typed(rest)), _near(rest)
        )
    return amount


def split_line(
    text: str,
    *,
    measures: str = "us",
    comma: bool = False,
    is_item: Callable[[str], bool] | None = None,
    zero: bool = False,
) -> tuple[Amount, str]:
    """Return the amount and the item's words of a line: ``31 lb 8 oz plum``.

    A unit word counts as one when something follows it, or when it weighs or measures by itself;
    ``2 cans`` alone is two of the item "cans". `is_item` says whether words are a known item,
    which settles ``1 can opener``. With `zero` the amount may be nothing, as in a count.
    """
    return _read(text, measures, comma, is_item or (lambda _words: False), zero)


def _read(
    text: str, measures: str, comma: bool, is_item: Callable[[str], bool] | None, zero: bool
) -> tuple[Amount, str]:
    said = rest = _begin(text, measures)
    exact, first, jars, jar, maybe = Fraction(0), None, None, None, None
    measure = ""
    while first is None or is_item is None or not is_item(rest):
        try:
            found = _pair(rest, measures, comma, is_item, start=first is None)
        except NeedsAnswer as doubt:
            if first is not None:  # what was read before it belongs to the answer
                doubt.offered = said[: said.rfind(rest)] + doubt.offered
            raise
        if found is None:
            break
        many, unit, after, this_jar, this_maybe = found
        known = factor(unit)
        this_measure = known[0] if known else "count"
        if first is None:
            first, measure, jar, maybe = unit, this_measure, this_jar, this_maybe
            jars = many if this_jar else None
        elif this_measure != measure or (unit != first and None in (known, factor(first))):
            break
        else:
            jars = maybe = None
        exact += many * (known[1] if known else 1000)
        rest = _AND.sub("", after, count=1) if _AND.match(after) else after
    if first is None:
        raise InputError("amount", Message.of("refusal-no-number-first", text=Typed(text)))
    if begins_again(rest) and not (is_item is not None and is_item(rest)):
        raise InputError(
            "amount",
            Message.of("refusal-second-number", text=Typed(rest)),
            _two_lines(text, rest),
        )
    if exact == 0 and not zero:
        raise InputError("amount", Message.of("refusal-amount-nothing", text=Typed(text)))
    if exact > _MOST:
        raise InputError(
            "amount",
            Message.of("refusal-amount-too-large", text=Typed(text)),
            Message.of("refusal-check-number-and-unit"),
        )
    per_unit = factor(first)
    times = round(exact / (per_unit[1] if per_unit else 1000) * 1000)
    whole = round(exact)
    words = re.sub(r"^of\s+", "", rest.strip(), flags=re.IGNORECASE)
    if is_item is None or not is_item(words):
        _refuse_second_line(text, words, measures)
    return Amount(
        measure, whole, first, times, exact, text, jars, jar if jars is not None else None, maybe
    ), words


def _begin(text: str, measures: str) -> str:
    """Return a text with its first number in digits: ``half a bushel`` is 1/2 bushel."""
    if not isinstance(text, str) or not text.strip():
        raise InputError("amount", Message.of("refusal-empty"), Message.of("refusal-like-amount"))
    if len(text) > _LONGEST_TEXT:
        raise InputError("amount", Message.of("refusal-amount-too-long", text=text[:12]))
    refuse_sign(text)
    text = text.strip()
    for pattern, digits in ((_HALF_A, "1/2 "), (_ONE, "1 ")):
        match = pattern.match(text)
        if match and (canonical(match["unit"], measures) or JAR.match(text[match.end() :])):
            return digits + text[match.end() :]
    return text


def _pair(
    text: str, measures: str, comma: bool, is_item: Callable[[str], bool] | None, *, start: bool
) -> tuple[Fraction, str, str, str | None, str | None] | None:
    """Read one number with its unit; None where `text` does not begin with one."""
    bare = JAR.match(text)
    if bare and start:  # "500 ml jar" or "1/2 pint jar": the number belongs to the jar
        return _bare_jar(text, bare)
    match = NUMBER.match(text)
    if not match:
        return None
    parted = parts_thousands(text, comma=comma)
    if parted is not None:
        raise _doubt_thousands(text, parted)
    many = number(match, comma=comma)
    rest = text[match.end() :].lstrip(" -" if JAR.match(text[match.end() :].lstrip(" -")) else " ")
    named = JAR.match(rest)
    if named:
        jar = canonical_jar(named[0])
        if jar is None:
            raise InputError(
                "amount", Message.of("refusal-jar-holds-nothing", text=Typed(named[0]))
            )
        if is_fraction(match):
            whole = Fraction(match["whole"]) if match["whole"] else None
            raise doubt_jar(text, whole, many - (whole or 0), jar)
        return many, jar, rest[named.end() :].strip(), jar, None
    half = MAYBE_JAR.match(rest)
    if half:
        is_pint = half["what"].lower().startswith("p")
        unit = canonical("pt" if is_pint else "gal", measures) or "pt"
        jar = "half-pint jar" if is_pint else "half-gallon jar"
        return many / 2, unit, rest[half.end() :].strip(), None, jar
    return _with_unit(many, rest, measures, is_item, start=start)


def _doubt_thousands(text: str, said: str) -> NeedsAnswer:
    """Return the question whether a point parts thousands; a fraction is written with a comma there."""
    plain = said.replace(".", "")
    question = sentence(
        "doubt-thousands", text=Typed(said), plain=Code(plain), part=Code(said.replace(".", ","))
    )
    return NeedsAnswer("thousands", "amount", question, text.replace(said, plain, 1))


def _bare_jar(text: str, bare: re.Match[str]) -> tuple[Fraction, str, str, str | None, None]:
    """Read a jar whose size begins with a number, with no number of jars before it."""
    jar, size = canonical_jar(bare[0]), bare["size"]
    if jar is None:
        raise InputError("amount", Message.of("refusal-jar-holds-nothing", text=Typed(bare[0])))
    what = "gallon jar" if "gal" in size.lower() else "pint jar"
    if size[0] in "½1" and jar.startswith("half-"):
        raise doubt_jar(text, None, Fraction(1, 2), what)
    if jar.startswith("1.5-") and (bare["jar"].lower() == "jars" or "/" in size or "½" in size):
        raise doubt_jar(text, Fraction(1), Fraction(1, 2), what)
    return Fraction(1), jar, text[bare.end() :].strip(), jar, None


def _with_unit(
    many: Fraction,
    rest: str,
    measures: str,
    is_item: Callable[[str], bool] | None,
    *,
    start: bool,
) -> tuple[Fraction, str, str, str | None, str | None] | None:
    if is_item is not None and rest and is_item(rest):
        return (many, "piece", rest, None, None) if start else None
    words = rest.split()
    short = words[0].rstrip(".,") if words else ""
    if short in _DOUBTFUL:
        raise UnknownUnit(
            "amount", Message.of("refusal-unit-unknown", text=Typed(short)), _DOUBTFUL[short]
        )
    for length in range(min(_LONGEST, len(words)), 0, -1):
        spelled = " ".join(words[:length]).rstrip(",")
        unit = canonical(spelled, measures)
        if unit is None:
            continue
        after = " ".join(words[length:])
        if unit in NAMED_PIECES and is_item is not None and not after:
            break
        if (factor(unit) or ("count", 1))[0] not in WHOLES:
            raise UnknownUnit(
                "amount",
                Message.of("refusal-unit-of-ground", text=Typed(spelled)),
            )
        maybe = f"{ {'pt': 'pint', 'qt': 'quart'}[unit] } jar" if unit in ("pt", "qt") else None
        return many, unit, after, None, maybe
    return (many, "piece", rest, None, None) if start else None


def _refuse_second_line(text: str, words: str, measures: str) -> None:
    """Refuse ``beef stew, 2 lb flour`` as a name: an amount and another thing stand behind a comma."""
    match = _ANOTHER.search(words)
    if match is None:
        return
    is_count = match["sign"] in ",;" and words[match.start("unit") - 1].isspace()
    if not is_count and not canonical(match["unit"], measures):
        return
    first, rest = text[: text.rfind(match[0])].strip(), words[match.start("rest") :]
    raise InputError(
        "amount",
        Message.of("refusal-second-number", text=Typed(rest)),
        Message.of("refusal-two-lines", first=Typed(first), second=Typed(rest)),
    )


def _two_lines(text: str, rest: str) -> Message:
    """Return what to write instead of two amounts in one."""
    first = text[: text.rfind(rest)].strip()
    first = re.sub(r"(?:\s+(?:and|&|\+))+$", "", first, flags=re.IGNORECASE)
    item = re.sub(r"^[\d\s.,/]*\S+\s*", "", rest)
    return Message.of(
        "refusal-two-lines", first=Typed(f"{first} {item}".strip()), second=Typed(rest)
    )


def _near(rest: str) -> Message:
    from rapidfuzz import process

    near = process.extractOne(rest.lower(), known_units(), score_cutoff=70)
    return (
        Message.of("refusal-did-you-mean", name=Typed(near[0]))
        if near
        else Message.of("refusal-like-amounts")
    )


@lru_cache(maxsize=4096)
def parse_measure(text: str, wanted: str, field: str = "amount") -> Fraction:
    """Return a length in m or an area in m2: ``25 ft``, ``4 ft 6 in``, ``40 sq ft``, ``1/4 in``.

    Parameters
    ----------
    text : str
    wanted : {'length', 'area'}
    field : str
        What an error names.

    Raises
    ------
    InputError
        Naming `field`.
    """
    examples = ("25 ft", "7.5 m") if wanted == "length" else ("40 sq ft", "4 m2")
    if field == "headspace":
        examples = ("1/2 in", "1.2 cm")
    wrong = InputError(
        field,
        Message.of("refusal-not-a-length", text=Typed(text))
        if wanted == "length"
        else Message.of("refusal-not-an-area", text=Typed(text)),
        Message.of("refusal-like-either", examples=Names(tuple(map(Code, examples)))),
    )
    refuse_sign(text, field)
    rest, total = text.replace('"', " in ").replace("′", " ft ").replace("″", " in ").strip(), None
    while rest or total is None:
        match = NUMBER.match(rest)
        if match is None:
            raise wrong
        words = re.match(
            r"\s*(?P<unit>(?:(?:sq|square)\.?\s+)?[a-z]+[2²]?)\.?\s*", rest[match.end() :], re.I
        )
        unit = canonical(words["unit"].replace("²", "2")) if words else None
        known = factor(unit) if unit else None
        many = number(match, comma=False, field=field)
        if words is None or known is None or known[0] != wanted:
            raise wrong
        total = (total or Fraction(0)) + many * known[1]
        rest = rest[match.end() + words.end() :]
    return total
