"""Signs of spoilage told of a jar: taken out of the sentence into its entry's note, so that the door asks.

``ate a quart of beans, the lid was bulging`` is a quart of beans, and what was seen is no food of its own.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from ledger.door.seals import SEAL
from ledger.published.signs import IN_JAR, SEAL_SIGN, signs_in
from ledger.saying.clauses import Clause
from ledger.saying.known import Known
from ledger.saying.language import Language
from ledger.saying.tokens import Token, tokens_of

__all__ = ["Sign", "of_clauses", "reason_seen", "without_signs"]

_END = re.compile(r"[.;!?](?:\s|$)|\n")
_LED = re.compile(
    r"(?:[,;]?\s*(?:\b(?:and|but|because|as|with|which|that|it|they|one|the|its|a|an|"
    r"some|was|were|is|are|had|has|been|slightly|bit|little|lids?|liquid|brine|contents|und|aber|weil|mit|das|die|der|"
    r"es|sie|ein|eine|einem|etwas|war|waren|ist|hat|hatte|leicht|deckel|lake)\s+)+|[,;]\s*)$",
    re.IGNORECASE,
)
"""Words that only lead to a sign."""
_AFTER = re.compile(
    r"(?:\s+(?:lids?|liquid|brine|at the top|on top|off|when (?:I|we|he|she|they) opened (?:it|them|the jar)|"
    r"and (?=hiss|spurt|leak|foam|bulg)|deckel|beim öffnen|"
    r"als (?:ich|wir) (?:es|sie) (?:öffnete|öffneten|aufmachten?)))*",
    re.IGNORECASE,
)
_STOPS = re.compile(
    r"\s*(?:$|[,.;:!?\n)]|(?:and|but|so|then|for|to|yet|anyway|und|aber|dann|für|trotzdem|weggeworfen|entsorgt|gegessen)\b)",
    re.IGNORECASE,
)


_SEEN = re.compile(
    r"\b(?:noticed|kept|keeping|saw|spotted|bemerkt|behalten|gesehen|aufgehoben)\b", re.IGNORECASE
)
"""Words that say no more than that a jar is there."""
_BACK = re.compile(r"\b(?:back|zurück)\b")
"""What is put back is not put up."""


@dataclass(frozen=True)
class Sign:
    """What was seen, as it was said, and where in the text."""

    at: int
    text: str


def reason_seen(signs: tuple[str, ...]) -> str:
    """Return why a jar with such signs was thrown out: spoiled, or a seal that is gone where no more was seen."""
    only_seal = all(re.search(SEAL_SIGN, one, re.IGNORECASE) for one in signs)
    return SEAL if only_seal else "spoiled"


def without_signs(text: str, known: Known, words: Language) -> tuple[str, list[Sign]]:
    """Return a text with blanks for the signs told of a jar, and the signs; other texts as they are."""
    if not signs_in(text):
        return text, []
    out, signs, start = text, [], 0
    for end in [*(one.end() for one in _END.finditer(text)), len(text)]:
        said = text[start:end]
        if (
            _is_of_jar(said, known)
            and not _puts_up(said, known, words)
            and not _is_name(said, known)
        ):
            spans = _spans(said)
            for first, last in [*spans, *(one.span() for one in _SEEN.finditer(said) if spans)]:
                out = out[: start + first] + " " * (last - first) + out[start + last :]
            signs += [Sign(start + first, said[first:last].strip(" ,;")) for first, last in spans]
        start = end
    return out, signs


def of_clauses(
    signs: list[Sign], clauses: list[Clause], tokens: list[Token]
) -> list[tuple[str, ...]]:
    """Return the signs told in each clause: each belongs to the last that begins before it."""
    starts = []
    for one in clauses:
        pieces = [*one.before, *one.pieces, *([one.verb] if one.verb else [])]
        starts.append(tokens[min(piece.start for piece in pieces)].start if pieces else 0)
    found: list[list[str]] = [[] for _ in clauses]
    for sign in signs if clauses else ():
        before = [n for n, start in enumerate(starts) if start <= sign.at]
        found[before[-1] if before else 0].append(sign.text)
    return [tuple(one) for one in found]


def _spans(said: str) -> list[tuple[int, int]]:
    """Return where the signs of a sentence stand, each with the words that only lead to it."""
    out: list[tuple[int, int]] = []
    for one in signs_in(said):
        first, last = one.span()
        after = _AFTER.match(said, last)
        stop = after.end() if after else last
        if _STOPS.match(said, stop):
            led = _LED.search(said[:first])
            first, last = led.start() if led else first, stop
        if out and first <= out[-1][1]:
            first, last = out[-1][0], max(last, out.pop()[1])
        out.append((first, last))
    return out


def _is_of_jar(said: str, known: Known) -> bool:
    low = said.lower()
    return bool(IN_JAR.search(said)) or any(key in low for key in known.catalogue.batches.jars_of)


def _is_name(said: str, known: Known) -> bool:
    """Return whether the sign is part of the name of something that the book has."""
    low = said.lower()
    return any(name.lower() in low for name in known.names if signs_in(name))


def _puts_up(said: str, known: Known, words: Language) -> bool:
    """Return whether jars are put up in a sentence: what leaked in the canner was not opened."""
    low = said.lower()
    for name in sorted(known.names, key=len, reverse=True):  # "canned beans" tell of no canning
        low = low.replace(name.lower(), " ")
    if _BACK.search(low):
        return False
    tokens = tokens_of(low)
    found = [words.find("verb", tokens, k) for k in range(len(tokens))]
    verbs = [one[0] for one in found if one]
    is_put_up = any(one.kind == "put_up" and one.method != "cook" for one in verbs)
    return is_put_up and not any(one.kind in ("eaten", "discarded", "given_away") for one in verbs)
