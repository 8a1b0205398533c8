"""Lengths, times and pressures as they are said beside an entry."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from ledger.saying.language import Language
from ledger.saying.numbers import figure, number_at
from ledger.saying.tokens import Token

__all__ = ["length_at", "length_text", "pressure_at", "temperature_at", "time_at"]

_LENGTHS = {"inch": "in", "cm": "cm", "foot": "ft", "metre": "m", "yard": "yd"}


def pressure_at(words: Language, tokens: Sequence[Token], i: int) -> tuple[str, int] | None:
    """Return a pressure as a body takes it (``11``, ``76 kPa``) and its length in tokens."""
    number = number_at(words, tokens, i)
    if number is None or number.loose:
        return None
    at = i + number.length
    for name, unit in (("psi", ""), ("kpa", " kPa"), ("bar", " bar")):
        found = words.find("process", tokens, at)
        if found is not None and found[0] == name:
            end = at + found[1]
            if name == "bar" and words.code == "en" and not _is_pressure_next(tokens, i, end):
                return None
            press = words.find("process", tokens, end)
            end += press[1] if press and press[0] == "pressure" else 0
            return f"{figure(number.value)}{unit}", end - i
    if _is_of_a_canner(words, tokens, i, at):
        return figure(number.value), at + 1 - i
    return None


_LEAST_BARE = 30
"""From so many on a bare ``F`` is of a thermometer; a bare ``C`` is cups or cents."""


def temperature_at(words: Language, tokens: Sequence[Token], i: int) -> int:
    """Return the length of ``240 F``, ``60 degrees``, ``100 Grad`` in tokens; 0 where none begins."""
    number = number_at(words, tokens, i)
    if number is None:
        return 0
    at = i + number.length
    degree = words.find("small.degree", tokens, at)
    end = at + (degree[1] if degree else 0)
    scale = words.find("small.scale", tokens, end)
    if degree is None and (scale is None or tokens[end].low == "c" or number.value < _LEAST_BARE):
        return 0
    return end + (scale[1] if scale else 0) - i


def _is_of_a_canner(words: Language, tokens: Sequence[Token], i: int, at: int) -> bool:
    """Return whether "10 lb" right after a word for pressure is what the gauge read, as canners say it."""
    if at >= len(tokens) or tokens[at].low not in ("lb", "lbs", "pounds"):
        return False
    after = tokens[at + 1].low if at + 1 < len(tokens) else ","
    if after.isalpha() and after not in ("for", "and"):
        return False  # ten pounds of something
    found = (words.find("process", tokens, start) for start in range(max(0, i - 3), i))
    return any(
        one is not None and one[0] == "pressure" and start + one[1] == i
        for start, one in zip(range(max(0, i - 3), i), found, strict=True)
    )


def _is_pressure_next(tokens: Sequence[Token], i: int, end: int) -> bool:
    """Return whether ``bar`` is one of pressure, not one of soap or of chocolate."""
    after = tokens[end].low if end < len(tokens) else ","
    before = tokens[i - 1].low if i else ""
    return before == "at" and after in (",", ".", ";", "for", "and", "pressure")


def time_at(words: Language, tokens: Sequence[Token], i: int) -> tuple[Fraction, bool, int] | None:
    """Return minutes, whether a word said that work took them, and their length in tokens."""
    lead = words.find("time.took", tokens, i)
    at = i + (lead[1] if lead else 0)
    if (
        lead is not None
        and at < len(tokens)
        and tokens[at].low in ("us", "me", "uns", "mich", "about", "etwa")
    ):
        at += 1
    minutes, start = Fraction(0), at
    while True:
        joined = words.find("small.and", tokens, at) if at > start else None
        number = number_at(words, tokens, at + (joined[1] if joined else 0))
        if number is None:
            break
        k = at + (joined[1] if joined else 0) + number.length
        minute, hour = words.find("time.minute", tokens, k), words.find("time.hour", tokens, k)
        if minute is None and hour is None:
            break
        if minute is not None and tokens[k].low == "m":
            break
        unit = minute or hour
        assert unit is not None
        minutes += number.value * (1 if minute else 60)
        at = k + unit[1]
        half = _half_behind(words, tokens, at)
        if half and hour is not None:
            minutes, at = minutes + 30, at + half
    if at == start:
        return None
    is_work = lead is not None and tokens[i].low not in ("for", "in", "für", "lang")
    behind = words.find("time.took", tokens, at)
    if behind is not None and tokens[at].low in ("gedauert", "gebraucht", "arbeit", "lang"):
        at, is_work = at + behind[1], is_work or tokens[at].low != "lang"
    if at + 1 < len(tokens) and tokens[at].low == "of" and tokens[at + 1].low == "work":
        at, is_work = at + 2, True
    elif at < len(tokens) and tokens[at].low in ("work", "arbeit"):
        at, is_work = at + 1, True
    return minutes, is_work, at - i


def _half_behind(words: Language, tokens: Sequence[Token], at: int) -> int:
    """Return the length of ``and a half`` behind ``an hour``, or 0."""
    joined = words.find("small.and", tokens, at)
    if joined is None:
        return 0
    article = words.find("small.article", tokens, at + joined[1])
    k = at + joined[1] + (article[1] if article else 0)
    part = words.find("part", tokens, k)
    return k + part[1] - at if article and part and part[0] == Fraction(1, 2) else 0


def length_at(words: Language, tokens: Sequence[Token], i: int) -> tuple[str, str, int] | None:
    """Return what a length is of, the length as text, and how many tokens it takes.

    Of: ``headspace``, ``row``, ``area``, ``altitude`` or ``length``.
    """
    head = words.find("process", tokens, i)
    if head is not None and head[0] == "headspace":
        said = length_text(words, tokens, i + head[1])
        return None if said is None else ("headspace", said[0], head[1] + said[1])
    led = words.find("small.each", tokens, i)
    said = length_text(words, tokens, i + (led[1] if led else 0))
    if said is None or (led is not None and said[2] not in ("foot", "metre", "yard")):
        return None
    if led is not None:
        return "length", said[0], led[1] + said[1]
    at = i + said[1]
    behind = words.find("process", tokens, at)
    if behind is not None and behind[0] in ("headspace", "altitude"):
        return behind[0], said[0], said[1] + behind[1]
    if said[2] == "area":
        return "area", said[0], said[1]
    if at < len(tokens) and tokens[at].low in ("row", "rows", "reihe", "reihen", "lange", "long"):
        end = at + 1
        end += int(end < len(tokens) and tokens[end].low in ("row", "reihe"))
        return "row", said[0], end - i
    each = words.find("small.each", tokens, at)
    if each is None and said[2] == "inch":
        return None
    return "length", said[0], said[1] + (each[1] if each else 0)


def length_text(words: Language, tokens: Sequence[Token], i: int) -> tuple[str, int, str] | None:
    """Return a length or an area as text, how many tokens it takes, and its unit's name or ``area``."""
    number = number_at(words, tokens, i)
    if number is None:
        return None
    at = i + number.length
    square = words.find("process", tokens, at)
    if square is not None and square[0] == "square":
        unit = words.find("process", tokens, at + square[1])
        if unit is None and tokens[at].low == "qm":
            return f"{figure(number.value)} m2", number.length + 1, "area"
        if unit is None or unit[0] not in _LENGTHS:
            if tokens[at].low != "quadratmeter":
                return None
            return f"{figure(number.value)} m2", number.length + 1, "area"
        name = {"foot": "sq ft", "metre": "m2", "yard": "sq yd"}.get(unit[0], f"sq {unit[0]}")
        return f"{figure(number.value)} {name}", number.length + square[1] + unit[1], "area"
    for name, unit_text in _LENGTHS.items():
        found = words.find(f"process.{name}", tokens, at)
        if found is not None:
            text = f"{figure(number.value)} {'mm' if tokens[at].low == 'mm' else unit_text}"
            end = at + found[1]
            if end < len(tokens) and tokens[end].low == "2" and tokens[end].tight:
                return f"{figure(number.value)} {unit_text}2", end + 1 - i, "area"
            return text, end - i, name
    return None
