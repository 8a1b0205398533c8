"""What did not happen: questions, plans, and what a `no` denies; and what a `no` mends instead."""

from __future__ import annotations

from ledger.saying.pieces import Piece
from ledger.saying.tokens import Token

__all__ = ["APART", "Happened"]

APART = frozenset({"comma", "and", "then", "end", "mark", "dash"})
_INFINITIVES = frozenset(
    "buy pick harvest dig gather collect eat make bake cook give sell swap trade sow plant freeze dry".split()  # noqa: SIM905
) | {"ferment", "pickle", "open", "practise", "practice", "use", "order", "kaufen", "ernten"}


class Happened:
    """Keeps what happened of a sentence, and names the rest.

    Attributes
    ----------
    unhappened : list of (int, int)
        Tokens of what did not happen.
    """

    tokens: list[Token]
    unhappened: list[tuple[int, int]]

    # -- what did not happen -------------------------------------------------------------

    def _happened(self, segment: list[Piece]) -> list[Piece]:
        """Return what happened of a segment; the rest is kept in `unhappened`."""
        if segment[-1].tag == "end" or segment[0].tag == "asks":
            self._drop(segment, 0, len(segment))
            return []
        out = list(segment)
        k = 0
        while k < len(out):
            if out[k].tag == "plan":
                start, stop = self._plan_span(out, k)
            elif out[k].tag == "none":
                span = self._none_span(out, k)
                if span is None:
                    k += 1
                    continue
                start, stop = span
            else:
                k += 1
                continue
            self._drop(out, start, stop)
            out[start:stop] = []
            while start < len(out) and start == 0 and out[0].tag in ("comma", "and"):
                out.pop(0)
            k = start
        return out

    def _drop(self, pieces: list[Piece], start: int, stop: int) -> None:
        if stop > start:
            self.unhappened.append((pieces[start].start, pieces[stop - 1].end))

    def _plan_span(self, out: list[Piece], k: int) -> tuple[int, int]:
        start = self._back(out, k)
        stop = k + 1
        while stop < len(out):
            apart = out[stop].tag in ("comma", "and") and stop + 1 < len(out)
            if apart and self._is_past(self._skip(out, stop + 1)):
                break
            stop += 1
        return start, stop

    def _skip(self, out: list[Piece], k: int) -> Piece | None:
        while k < len(out) and out[k].tag in ("filler", "and", "article"):
            k += 1
        return out[k] if k < len(out) else None

    def _is_past(self, piece: Piece | None) -> bool:
        return (
            piece is not None
            and piece.tag == "verb"
            and self.tokens[piece.start].low not in _INFINITIVES
        )

    def _back(self, out: list[Piece], k: int) -> int:
        start = k
        while start > 0 and out[start - 1].tag not in APART:
            start -= 1
        return start

    def _none_span(self, out: list[Piece], k: int) -> tuple[int, int] | None:
        """Return what a `no` denies; None where it mends, or says that nothing is left."""
        if self._is_mend(out, k):
            out[k] = Piece("mend", None, out[k].start, out[k].end)
            return None
        if self._is_count_of_none(out, k):
            out[k] = Piece("zero", None, out[k].start, out[k].end)
            return None
        start = k
        follows = out[k + 1].tag if k + 1 < len(out) else ""
        before = out[k - 1].tag if k else ""
        if (
            follows == "verb"
            or before == "verb"
            or (follows == "" and before)
            or follows == "filler"
        ):
            start = self._back(out, k)
        stop = k + 1
        while stop < len(out):
            if out[stop].tag in ("comma", "and") and stop + 1 < len(out):
                after = self._skip(out, stop + 1)
                if after is not None and after.tag in (
                    "amount",
                    "verb",
                    "day",
                    "unsealed",
                    "name",
                    "word",
                ):
                    break
            stop += 1
        return start, stop

    def _is_mend(self, out: list[Piece], k: int) -> bool:
        """Return whether `no` takes back an amount said before: ``9 lb, no, 8 lb``."""
        said = self.tokens[out[k].start].low
        if out[k].end - out[k].start != 1 or said not in ("no", "nein"):
            return False
        at = k + 1
        while at < len(out) and out[at].tag in ("comma", "mark", "filler", "mend"):
            at += 1
        if at >= len(out) or out[at].tag not in ("amount", "day", "money"):
            return False
        is_parted = at > k + 1 or (k > 0 and out[k - 1].tag in ("comma", "mark"))
        return is_parted or not any(one.tag == "amount" for one in out[:k])

    def _is_count_of_none(self, out: list[Piece], k: int) -> bool:
        """Return whether nothing of a thing is left: ``no eggs left``, ``there are no eggs``."""
        stop = k + 1
        while stop < len(out) and out[stop].tag not in ("comma", "and", "verb"):
            if out[stop].tag == "left":
                return True
            stop += 1
        more = k + 1 < len(out) and self.tokens[out[k + 1].start].low == "more"
        if more and not any(one.tag == "verb" for one in out):
            return True
        german_more = stop > k + 1 and self.tokens[out[stop - 1].end - 1].low == "mehr"
        counted = k > 0 and any(
            one.tag == "verb" and one.value.kind == "counted" for one in out[:k]
        )
        only = not any(one.tag == "amount" for one in out[:k])
        return german_more or (counted and only)
