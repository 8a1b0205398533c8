"""Sums of another currency than the book's: asked for in the book's own, in the words of the door."""

from __future__ import annotations

from ledger.door.money import in_own_money
from ledger.errors import InputError
from ledger.messages import joined
from ledger.saying.asking import Question, Reading
from ledger.saying.known import Known
from ledger.saying.language import Language
from ledger.saying.numbers import number_at
from ledger.saying.settled import Settled
from ledger.saying.tokens import tokens_of

__all__ = ["ask_own_money"]


def ask_own_money(
    text: str, words: Language, known: Known, reading: Reading, settled: Settled
) -> str:
    """Return a text whose sums of another currency are those that were answered.

    The first without an answer is asked about, and the text goes on as it is: a whole receipt of
    another country takes one question at a time.
    """
    out, end = "", 0
    for start, stop in _sums(text, words):
        said = text[start:stop]
        try:
            in_own_money(said, "", known.catalogue)
            continue
        except InputError as error:
            refused = error
        key = settled.key("currency", said)
        answer = _own(settled.answers.get(key), known)
        if answer is None:
            line = text[text.rfind("\n", 0, start) + 1 :].partition("\n")[0].strip()
            asked = joined("", (str(refused.at(line)), "."))
            reading.questions.append(Question(said, asked, code="currency", entry=0, key=key))
            break
        out, end = f"{out}{text[end:start]}{answer}", stop
    return out + text[end:]


def _sums(text: str, words: Language) -> list[tuple[int, int]]:
    """Return where the sums of a text stand that say a currency, before or behind the number."""
    tokens, out, i = tokens_of(text), [], 0
    while i < len(tokens):
        sign = words.find("currency", tokens, i)
        at = i + (sign[1] if sign else 0)
        number = number_at(words, tokens, at)
        if number is not None and not number.loose:
            at += number.length
            sign = sign or words.find("currency", tokens, at)
            at += sign[1] if sign and at == i + number.length else 0
            if sign is not None:
                out.append((tokens[i].start, tokens[at - 1].end))
                i = at
                continue
        i += 1
    return out


def _own(answer: str | None, known: Known) -> str | None:
    """Return an answer that is a sum of the book's own currency, in figures; else None."""
    try:
        return None if answer is None else in_own_money(answer.strip(), "", known.catalogue)
    except InputError:
        return None
