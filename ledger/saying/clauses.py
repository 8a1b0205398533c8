"""Pieces to clauses: which verb holds for what.

A verb holds for what follows until the next one; where it stands behind its things, as in German,
for what stands before it, back to the one before.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from ledger.saying.happened import APART, Happened
from ledger.saying.language import Language, Verb
from ledger.saying.pieces import Piece
from ledger.saying.tokens import Token

__all__ = ["Clause", "Clauses"]

_DRIED_BY = frozenset({"sun", "air"})
"""Before ``dried`` they describe a thing: ``sun dried tomatoes``."""
_THINGS = frozenset({"word", "name", "amount", "label", "bed"})


@dataclass(slots=True)
class Clause:
    """What stands under one verb.

    Attributes
    ----------
    verb : Piece or None
    more : list of Piece
        Further verbs for the same things: ``picked and ate``.
    before, pieces : list of Piece
        Who and when, before the verb; and the things.
    is_forward : bool
        The verb stands before its things.
    is_last : bool
        Nothing of another verb has come between: what follows without one is its own.
    """

    verb: Piece | None
    before: list[Piece] = field(default_factory=list)
    pieces: list[Piece] = field(default_factory=list)
    more: list[Piece] = field(default_factory=list)
    is_forward: bool = True

    @property
    def spoken(self) -> Verb | None:
        """Return what the verb says."""
        return self.verb.value if self.verb is not None else None


class Clauses(Happened):
    """Splits the pieces of one text.

    Parameters
    ----------
    words : Language
    tokens : list of Token
    """

    def __init__(self, words: Language, tokens: list[Token]) -> None:
        self.words, self.tokens = words, tokens
        self.unhappened: list[tuple[int, int]] = []
        self.mends: list[tuple[int, int]] = []

    def split(self, pieces: list[Piece]) -> list[Clause]:
        """Return the clauses of a text in order."""
        out: list[Clause] = []
        waiting: list[Piece] = []
        for segment in self._segments(pieces):
            self._settle_words(segment)
            kept = self._happened(segment)
            if not any(one.tag in _THINGS | {"verb", "day", "money", "mend"} for one in kept):
                self._hang(out, kept)
                continue
            verbs = [k for k, one in enumerate(kept) if one.tag == "verb"]
            if not verbs:
                self._verbless(out, kept, waiting)
                continue
            made = self._of_segment(kept, verbs)
            if waiting and not made[0].is_forward:
                made[0].pieces[:0] = [*waiting, Piece("comma", None, kept[0].start, kept[0].start)]
                out[:] = [one for one in out if one.pieces is not waiting]
            waiting = []
            out += made
        return out

    def _segments(self, pieces: list[Piece]) -> list[list[Piece]]:
        """Return the pieces between ends of sentences, lines and `then`."""
        out: list[list[Piece]] = [[]]
        for one in pieces:
            if one.tag == "end":
                if one.value == "ask":
                    out[-1].append(one)
                out.append([])
            elif one.tag == "then":
                out.append([])
            else:
                out[-1].append(one)
        return [segment for segment in out if segment]

    # -- words that are no verbs here ----------------------------------------------------

    def _settle_words(self, segment: list[Piece]) -> None:
        """Turn verbs that describe a thing (``dried beans``) or help another into what they are."""
        verbs = [k for k, one in enumerate(segment) if one.tag == "verb"]
        for k in verbs:
            one = segment[k]
            before = segment[k - 1] if k else None
            after = segment[k + 1] if k + 1 < len(segment) else None
            if after is not None and after.tag == "filler" and k + 2 < len(segment):
                after = segment[k + 2] if segment[k + 2].tag == "verb" else after
            helps = one.value.kind in ("counted", "got") or self.tokens[one.start].low == "had"
            later = any(other > k for other in verbs)
            if (helps and after is not None and after.tag == "verb") or (
                self.words.code == "de"
                and one.value.kind == "counted"
                and later
                and self._helps(one)
            ):
                one.tag = "filler"
            elif self._describes(before, after, one):
                one.tag = "word"
            elif (
                one.value.kind == "out_of"
                and self.tokens[one.start].low == "out"
                and k
                and verbs[0] < k
            ):
                one.tag, one.value = "prep", frozenset({"from"})

    def _helps(self, one: Piece) -> bool:
        return any(token.low in ("haben", "habe") for token in self.tokens[one.start : one.end])

    def _describes(self, before: Piece | None, after: Piece | None, one: Piece) -> bool:
        if before is None or after is None or after.tag not in ("word", "name", "verb"):
            return False
        if self.words.code == "de" or one.end - one.start > 1 or not self._is_participle(one):
            return False
        if before.tag in ("amount", "of", "article", "prep"):
            return True
        if self.tokens[one.start].low == "dried" and self.tokens[one.start - 1].low in _DRIED_BY:
            return True
        return before.tag == "verb" and after.tag in ("word", "name")

    def _is_participle(self, one: Piece) -> bool:
        said = self.tokens[one.start].low
        return said.endswith(("ed", "en")) or said in (
            "cut",
            "dry",
            "made",
            "ground",
            "cooked",
            "sown",
            "lost",
            "left",
        )

    # -- verbs and their things ----------------------------------------------------------

    def _hang(self, out: list[Clause], kept: list[Piece]) -> None:
        """Give what is no thing (``4 people``, a note) to the verb before."""
        if out and kept:
            out[-1].pieces += [Piece("comma", None, kept[0].start, kept[0].start), *kept]
        elif kept:
            out.append(Clause(None, pieces=kept))

    def _verbless(self, out: list[Clause], kept: list[Piece], waiting: list[Piece]) -> None:
        last = out[-1] if out else None
        has_amount = any(one.tag in ("amount", "money", "label", "zero") for one in kept)
        if (
            last is not None
            and last.verb is not None
            and last.is_forward
            and (has_amount or not last.pieces)
        ):
            last.pieces += [Piece("comma", "line", kept[0].start, kept[0].start), *kept]
            return
        if any(one.tag in ("left", "zero") for one in kept):
            out.append(Clause(None, pieces=kept))
            return
        if waiting:
            waiting += [Piece("comma", None, kept[0].start, kept[0].start), *kept]
            return
        waiting += kept
        out.append(Clause(None, pieces=waiting))

    def _of_segment(self, kept: list[Piece], verbs: list[int]) -> list[Clause]:
        first, last = verbs[0], verbs[-1]
        head, tail = kept[:first], kept[last + 1 :]
        if self._is_backward(head, tail):
            return self._backward(kept, verbs)
        return self._forward(kept, verbs)

    def _is_backward(self, head: list[Piece], tail: list[Piece]) -> bool:
        amounts = any(one.tag in ("amount", "zero", "label") for one in head)
        if self.words.code == "de":
            things = amounts or self._has_things(head)
            return things
        return amounts and not self._has_free_amount(tail)

    def _has_things(self, head: list[Piece]) -> bool:
        """Return whether words before a German verb are things, and not who did it."""
        return any(one.tag in ("word", "name") for one in self._without_subject(head))

    def _without_subject(self, head: list[Piece]) -> list[Piece]:
        prep = False
        out = []
        for one in head:
            if one.tag == "prep":
                prep = True
            elif one.tag in APART:
                prep = False
            elif not prep:
                out.append(one)
        return out

    def _has_free_amount(self, tail: list[Piece]) -> bool:
        """Return whether an amount with a thing of its own follows, not one behind `from`."""
        for k, one in enumerate(tail):
            if one.tag == "prep" and "from" in one.value:
                return False
            if one.tag == "amount" and k + 1 < len(tail):
                follows = [piece.tag for piece in tail[k + 1 : k + 3]]
                if follows[0] in ("word", "name") or follows[:2] in (
                    ["of", "word"],
                    ["of", "name"],
                ):
                    return True
        return False

    def _forward(self, kept: list[Piece], verbs: list[int]) -> list[Clause]:
        out: list[Clause] = []
        before = kept[: verbs[0]]
        for n, k in enumerate(verbs):
            stop = verbs[n + 1] if n + 1 < len(verbs) else len(kept)
            things = kept[k + 1 : stop]
            clause = Clause(kept[k], before)
            before = []
            if n + 1 < len(verbs):
                things, before = self._subject(things)
            clause.pieces = things
            shares = (
                out
                and not any(one.tag in _THINGS for one in out[-1].pieces)
                and self._only_and(out[-1].pieces)
            )
            if shares:
                clause.more = [out[-1].verb, *out[-1].more] if out[-1].verb else []
                clause.before = out[-1].before + clause.before
                out.pop()
            out.append(clause)
        return out

    def _only_and(self, pieces: list[Piece]) -> bool:
        return len(pieces) == 1 and pieces[0].tag == "and"

    def _subject(self, things: list[Piece]) -> tuple[list[Piece], list[Piece]]:
        """Return the things, and who does what comes next: the words behind the last comma."""
        k = len(things)
        while k > 0 and things[k - 1].tag not in ("comma", "and", "then"):
            k -= 1
        said = things[k:]
        if k == 0 or any(one.tag in ("amount", "money", "label", "psi") for one in said):
            return things, []
        if not any(one.tag in ("word", "name", "day", "filler") for one in said):
            return things, []
        return things[:k], said

    def _german_subject(self, things: list[Piece]) -> tuple[list[Piece], list[Piece]]:
        """Return who did it, of ``Ann und Tom haben ...``, and the things."""
        for k, one in enumerate(things):
            said = self.tokens[one.start].low
            plain = ("word", "name", "and", "article", "day", "comma")
            helps = one.tag == "filler" and said in ("hat", "haben", "hatte", "hatten")
            if helps and k and all(piece.tag in plain for piece in things[:k]):
                return things[:k], things[k:]
            if one.tag in ("amount", "prep"):
                break
        return [], things

    def _backward(self, kept: list[Piece], verbs: list[int]) -> list[Clause]:
        out: list[Clause] = []
        start = 0
        for k in verbs:
            things = kept[start:k]
            if out and self._only_and(things):
                out[-1].more.append(kept[k])
            else:
                while things and things[0].tag in ("comma", "and", "then"):
                    things = things[1:]
                before, things = self._german_subject(things)
                out.append(Clause(kept[k], before, things, is_forward=False))
            start = k + 1
        tail = kept[start:]
        free = next((n for n, one in enumerate(tail) if one.tag in ("comma", "and")), len(tail))
        led = any(one.tag == "prep" and "from" in one.value for one in tail[:free])
        if self.words.code == "de" and not led and self._has_free_amount(tail[free:]):
            out[-1].pieces += tail[:free]
            out.append(Clause(None, pieces=tail[free + 1 :]))
        else:
            out[-1].pieces += tail
        return out
