"""A text to a reading: entries, questions and what found no place. The same words, the same reading."""

from __future__ import annotations

import datetime as dt
import re

from ledger.messages import sentence
from ledger.saying.asking import Question, Reading
from ledger.saying.clauses import Clauses
from ledger.saying.currencies import ask_own_money
from ledger.saying.days import Days
from ledger.saying.drafting import Drafter
from ledger.saying.joining import join
from ledger.saying.kinds import make_of
from ledger.saying.known import Known
from ledger.saying.language import Language, of_text
from ledger.saying.pieces import Scanner
from ledger.saying.receipt import is_receipt, read_receipt
from ledger.saying.settled import Settled
from ledger.saying.slip_line import is_coded
from ledger.saying.spoiled import of_clauses, without_signs
from ledger.saying.tokens import MOST, signed, tokens_of
from ledger.saying.usual import ask_unusual

__all__ = ["read"]


def read(
    text: str,
    known: Known,
    *,
    on: dt.date | None = None,
    words: Language | None = None,
    settled: Settled | None = None,
) -> Reading:
    """Return what a text says.

    Parameters
    ----------
    text : str
        Any words, in any of the languages; it may hold line breaks. Nothing is raised for any.
    known : Known
        What the book knows.
    on : date, optional
        The day of what says none; default: today.
    words : Language, optional
        Default: the language whose words the text holds most of.

    settled : Settled, optional
        Answers to the questions of an earlier reading of the same text.

    Returns
    -------
    Reading
    """
    reading = Reading()
    settled = settled or Settled()
    settled.begin()
    text = text.replace("\r\n", "\n").replace("\r", "\n").replace("\x00", " ")
    if len(text) > MOST:
        cut = text.rfind("\n", 0, MOST) + 1 or MOST
        reading.left_over.append(text[cut:].strip())
        text = text[:cut]
    tokens = tokens_of(text)
    if not tokens:
        return reading
    words = words or of_text(tokens, known.language)
    own = ask_own_money(text, words, known, reading, settled)
    tokens, text = tokens if own == text else tokens_of(own), own
    month_first = known.measures == "us" and not words.day_first
    days = Days(words, known.today, month_first=month_first)
    if is_receipt(text, words):
        return read_receipt(text, known, words, days, on or known.today, settled, reading)
    lines = text.split("\n")
    if coded := [line for line in lines if is_coded(line)]:  # of a receipt, among what happened
        reading.left_over += coded
        text = "\n".join(line for line in lines if line not in coded)
        tokens = tokens_of(text)
    text, signs = without_signs(text, known, words)
    reading.signs = [one.text for one in signs]
    tokens = signed(tokens_of(text) if signs else tokens)
    scanner = Scanner(words, tokens, days, known.is_name, known.longest, text)
    splitter = Clauses(words, tokens)
    clauses = join(splitter.split(scanner.scan()), tokens)
    drafter = Drafter(
        known,
        words,
        scanner,
        on or known.today,
        reading,
        settled,
        (make_of, lambda said: read(said, known)),
    )
    for clause, seen in zip(clauses, of_clauses(signs, clauses, tokens), strict=True):
        drafter.draft(clause, seen)
    reading.left_over += reading.signs if not clauses else []
    if any(words.find("small.power_cut", tokens, at) for at in range(len(tokens))):
        reading.hint = sentence("asked-power-cut")
    for span in splitter.unhappened:
        said = scanner.said(*span)
        key = settled.key("left", said)
        if key not in settled.answers and any(one.isalnum() for one in said):
            reading.left_over.append(said)
            reading.left_keys.append(key)
            reading.unhappened.add(key)
    ask_unusual(reading, known, settled)
    _tidy(reading)
    return reading


def _tidy(reading: Reading) -> None:
    """Name each left-over once, without signs alone; ask nothing twice."""
    said = [" ".join(one.split()) for one in reading.left_over]
    reading.left_over = [one for one in dict.fromkeys(said) if re.search(r"[^\s.,;:!]", one)]
    seen: set[tuple[str, str, int | None, int | None]] = set()
    kept: list[Question] = []
    for one in reading.questions:
        key = (one.code, one.about, one.entry, one.line)
        if key not in seen:
            seen.add(key)
            kept.append(one)
    reading.questions = kept
