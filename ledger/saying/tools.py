"""What closed the jars, as it is said beside a putting up: a canner, an oven, wax; never an item."""

from __future__ import annotations

from ledger.saying.language import Verb
from ledger.saying.marks import Marks, Piece

__all__ = ["Tools"]

_PUT_AWAY = ("freeze", "dry")
"""Of these a canner says nothing, and an oven or a vacuum is a note."""

_LEADS = frozenset({"in", "with", "by"})


class Tools(Marks):
    """The part of scanning that reads what a batch was done with."""

    def _name_length(self, i: int) -> int:
        raise NotImplementedError

    def _done_with(self, i: int) -> Piece | None:
        """Read ``in the pressure canner``, ``oven``, ``open kettle`` beside a putting up: never an item."""
        words, tokens = self.words, self.tokens
        at = i if self._tool(i) else self._behind_lead(i)
        way, length = words.find("process", tokens, at), self._tool(at)
        method = way[0] if way and way[0] in ("boiling water", "pressure") else None
        if not length and method is None:
            return None
        end = at + max(length, way[1] if way and method else 0)
        spoken = words.find("verb", tokens, at)
        is_verb = spoken is not None and at + spoken[1] >= end
        if (is_verb and not length) or self._name_length(i) > end - i:
            return None
        if is_verb and not any(one.tag in ("verb", "amount") for one in self.pieces):
            return None  # "vacuum sealed 4 lb beans": the verb itself
        verb = self._verb_near(end)
        is_bare = verb is None and any(one.tag == "amount" for one in self.pieces)
        if not is_bare and (verb is None or verb.kind != "put_up"):
            return None
        if verb is not None and verb.method in _PUT_AWAY and not length:
            return None
        return Piece("tool" if length else "process", method, i, end)

    def _tool(self, i: int) -> int:
        """Return the length of a way of closing jars that begins here; ``2 lb paraffin`` is a thing."""
        found = self.words.find("small.tool", self.tokens, i)
        if found is None:
            found = self.words.find("small.wax", self.tokens, i)
            before = self.pieces[-1].tag if self.pieces else ""
            if found is None or before in ("amount", "of", "prep") or not self._has_jars():
                return 0  # candles are made with wax, too
        return found[1] if found else 0

    def _has_jars(self) -> bool:
        return any(one.tag == "amount" and one.value.jar() for one in self.pieces)

    def _describes(self, i: int) -> bool:
        """Return whether a way of closing up says which thing it is: ``2 vacuum packed hams``."""
        before = self.pieces[-1].tag if self.pieces else "end"
        goes_on = before in ("end", "then", "and", "comma", "filler", "mark", "day")
        way = self.words.find("process", self.tokens, i)
        if way is not None and way[0] in ("hot", "raw"):  # "canned 7 quarts, hot packed"
            return any(one.tag in ("verb", "amount") for one in self.pieces)
        is_way = any(self.words.find(f"small.{one}", self.tokens, i) for one in ("tool", "wax"))
        return not goes_on and is_way

    def _behind_lead(self, i: int) -> int:
        """Return the place behind ``in the`` and the like; the same one where nothing leads."""
        words, tokens, at = self.words, self.tokens, i
        led = words.all_of("prep", tokens, i)
        if led is not None and led[0] & _LEADS:
            at += led[1]
            for tag in ("small.article_known", "small.article"):
                article = words.find(tag, tokens, at)
                at += article[1] if article else 0
        return at

    def _verb_near(self, end: int) -> Verb | None:
        """Return the verb that follows at once, else the last one before, else the first one behind."""
        words, tokens = self.words, self.tokens
        before = [one.value for one in reversed(self.pieces) if one.tag == "verb"]
        behind = (words.find("verb", tokens, k) for k in range(end, len(tokens)))
        found = [
            words.find("verb", tokens, end),
            None if before else next(filter(None, behind), None),
        ]
        return next((one[0] for one in found if one), before[0] if before else None)
