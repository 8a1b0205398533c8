"""How one lot stands beside what is published, and how that is said."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cached_property

from ledger.messages import Choice, Day, joined, sentence
from ledger.published import GRAVE, MARKED, STANDINGS
from ledger.published.words import fixed
from ledger.replay.state import day_text

__all__ = ["LOOKED_UP", "Standing", "worst"]

LOOKED_UP = "looked up"
"""How a batch stands that was open, and of which a publication was looked up since."""

_ORDER = (*MARKED, LOOKED_UP, *(one for one in STANDINGS if one not in MARKED))

_WHAT_NOW = {
    "short of it": "settle",
    "no published process": "settle",
    "not recorded": "write",
    "to check yourself": "look-up",
}
"""What a standing asks for, as the texts choose it; any other: do not taste, discard."""
_DISCARD, _RULED_OUT = "discard", "ruled-out"


@dataclass(frozen=True)
class Standing:
    """How a lot stands, and because of which batch.

    Attributes
    ----------
    standing : str
        One of `STANDINGS`, or `LOOKED_UP`.
    ev : int
        The event of the batch that it comes from.
    item : str
        What that batch made.
    day : int
        Its day (days since 1970).
    is_low_acid : bool
        Whether it is food of little acid: found so, or put up under pressure.
    in_oil : bool
        Whether it stands under oil or fat, where even the fridge is for days only.
    in_fridge : bool
        Whether its jars, closed by what no process is published for, were put into the fridge at once.
    is_ruled_out : bool
        Whether a document rules out canning it, in any canner.
    is_own : bool
        Whether it is the lot's own batch, and not one that went into it.
    since : str
        What happened since: looked up, or why that does not count.
    """

    standing: str
    ev: int
    item: str
    day: int
    is_low_acid: bool = False
    in_oil: bool = False
    in_fridge: bool = False
    is_ruled_out: bool = False
    is_own: bool = True
    since: str = ""

    @property
    def rank(self) -> int:
        """0 is the gravest."""
        return _ORDER.index(self.standing)

    @property
    def is_marked(self) -> bool:
        """Whether the lot bears a mark and is asked about before it is opened."""
        return self.standing in MARKED

    @property
    def is_grave(self) -> bool:
        """Whether it is one that no looking up ends."""
        return self.standing in GRAVE

    @cached_property
    def text(self) -> str:
        """The words on shelf, label and page, with the day."""
        if not self.is_marked:
            return self.how
        how, day = fixed(self.standing), Day(day_text(self.day))
        to_do = _WHAT_NOW.get(self.standing, _DISCARD)
        if self.is_grave and self.is_low_acid:
            to_do = _DISCARD
        if self.is_grave and self.is_ruled_out:
            to_do = _RULED_OUT
        do = Choice(to_do)
        if self.is_own:
            said = sentence("standing-mark", standing=how, day=day, do=do)
        else:
            said = sentence("standing-made-of", item=self.item, day=day, standing=how, do=do)
        return sentence("standing-since", text=said, since=self.since) if self.since else said

    @property
    def how(self) -> str:
        """The same without what is to be done, as of what is gone."""
        how, day = fixed(self.standing), Day(day_text(self.day))
        if self.is_own:
            said = sentence("standing-plain", standing=how, day=day)
        else:
            said = sentence("standing-made-of-plain", item=self.item, day=day, standing=how)
        return joined(" ", (said, self.since)) if self.since else said

    def for_child(self) -> Standing:
        """Return the same as something that was made of it bears it."""
        return replace(self, is_own=False) if self.is_own else self


def worst(several: Iterable[Standing | None]) -> Standing | None:
    """Return the gravest of several; None where there is none."""
    return min((one for one in several if one is not None), key=lambda one: one.rank, default=None)
