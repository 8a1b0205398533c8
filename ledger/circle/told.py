"""What a release tells: figures worked out from each sheet, with their rounding and public edges."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from ledger.errors import InputError
from ledger.messages import Code, Message, Names, Sentence, Typed, sentence

if TYPE_CHECKING:
    from ledger.circle.call import Call

__all__ = ["BY_NAME", "NAMES", "Asked", "Told", "told_of"]

Figures = Mapping[str, int | None]
_SHARE = (0, 1, 10, 25, 50, 100, 200, 400, 1001)
_OWN = (0, 25, 50, 100, 150, 200, 300, 400, 600, 1001)
_CHANGE = (-1000, -200, -100, -50, -20, -5, 6, 21, 51, 101, 201, 1001)
_MONEY = (
    -100_000,
    -20_000,
    -5_000,
    0,
    1,
    2_000,
    5_000,
    10_000,
    20_000,
    40_000,
    80_000,
    160_000,
    500_001,
)
_JARS = (0, 1, 6, 11, 21, 41, 81, 161, 321, 601)


@dataclass(frozen=True)
class Told:
    """A figure of a release.

    Parameters
    ----------
    name, called, unit : str
        `called` is the id of its label.
    step : int
        To which a quartile is rounded for the class.
    edges : tuple of int
        Bins ``[edges[i], edges[i + 1])`` of the public's histogram; fixed by the format.
    sums : bool
        Whether the class is told its sum.
    source : str or (str, str)
        The figure of the sheet, or the two whose quotient it is, per mille.
    """

    name: str
    called: str
    unit: str
    step: int
    edges: tuple[int, ...]
    source: str | tuple[str, str] = ""
    sums: bool = False

    @property
    def label(self) -> Sentence:
        """What a table calls it."""
        return sentence(self.called)


_HOUSEHOLD = (
    Told("short_share", "circle-told-short-share", "per mille", 5, _SHARE, ("short", "judged")),
    Told("unsealed_share", "circle-told-unsealed-share", "per mille", 5, _SHARE, ("unsealed", "canned")),
    Told("waste", "circle-told-waste", "per mille", 5, _SHARE),
    Told("own_energy", "circle-told-own-energy", "per mille", 5, _OWN),
    Told("old_share", "circle-told-old-share", "per mille", 5, _SHARE, ("kept_over_year", "kept")),
    Told("own_weight", "circle-told-own-weight", "per mille", 5, _OWN),
    Told("own_value", "circle-told-own-value", "per mille", 5, _OWN),
    Told("change_short", "circle-told-change-short", "change", 5, _CHANGE),
    Told("change_unsealed", "circle-told-change-unsealed", "change", 5, _CHANGE),
    Told("change_waste", "circle-told-change-waste", "change", 5, _CHANGE),
    Told("change_own_energy", "circle-told-change-own-energy", "change", 5, _CHANGE),
    Told("change_minutes", "circle-change-minutes", "minutes change", 1, _CHANGE),
    Told("hours", "circle-told-hours", "hours", 5, (0, 10, 25, 50, 75, 100, 150, 200, 300, 500, 2001)),
    Told("spent", "circle-spent", "money", 10, _MONEY),
    Told("saved", "circle-told-saved", "money", 10, _MONEY),
    Told("batches", "circle-told-batches", "batches", 1, (0, 1, 3, 6, 11, 21, 41, 81, 201), sums=True),
    Told("short", "circle-told-short", "batches", 1, (0, 1, 2, 4, 8, 16, 61), sums=True),
    Told("unsealed", "circle-told-unsealed", "jars", 1, (0, 1, 2, 4, 8, 16, 32, 101), sums=True),
    Told("kept", "circle-told-kept", "jars", 1, _JARS),
    Told("skills", "circle-skills", "count", 1, (0, 1, 6, 11, 21, 31, 41, 61)),
)  # fmt: skip

_PRODUCT = (
    Told("cost", "circle-cost", "money", 10, (50, 65, 83, 108, 139, 180, 232, 300, 387, 500, 646, 835, 1078, 1392, 1798, 2323, 3001)),
    Told("minutes", "circle-told-minutes", "minutes", 1, (0, 5, 10, 15, 20, 25, 30, 40, 50, 60, 90, 120, 241)),
    Told("learning", "circle-learning", "rate", 10, (500, 600, 700, 800, 850, 900, 950, 1000, 1050, 1100, 1501)),
    Told("jars", "circle-told-jars", "jars", 1, (1, 6, 11, 21, 41, 81, 201), sums=True),
)  # fmt: skip

_CROP = (
    Told("yield", "circle-yield", "g/m2", 50, (0, 250, 500, 1000, 1500, 2000, 2500, 3000, 4000, 5000, 7500, 10000, 20001)),
)  # fmt: skip

BY_NAME = {one.name: one for one in (*_HOUSEHOLD, *_PRODUCT, *_CROP)}
NAMES = tuple(BY_NAME)
"""What `ask` may name."""

_FIRST = ("short_share", "minutes", "cost", "unsealed_share", "waste", "own_energy", "yield")
"""The order where a call does not say: the questions most asked."""


@dataclass(frozen=True)
class Asked:
    """A figure of one call: of the household, of one product or of one crop.

    Attributes
    ----------
    told : Told
    at : str
        ``''``, ``p1`` or ``c1``.
    group : dict
        ``{}``, ``{"product", "method"}`` or ``{"crop"}``.
    """

    told: Told
    at: str
    group: Mapping[str, str]

    @property
    def name(self) -> str:
        """``cost`` or ``p1_cost``: one name a figure of the call."""
        return f"{self.at}_{self.told.name}" if self.at else self.told.name

    @property
    def is_by_zone(self) -> bool:
        """Whether it is told zone by zone: zones are the bins of one figure."""
        return self.at.startswith("c")

    def value(self, figures: Figures) -> int | None:
        """Return a household's value from its sheet; None where it is not known.

        Of a product: None without a jar of it.
        """
        source = self.told.source or self.told.name
        if isinstance(source, tuple):
            part, whole = (figures[name] for name in source)
            return round(1000 * part / whole) if part is not None and whole else None
        if self.at.startswith("p") and not figures[f"{self.at}_jars"]:
            return None
        return figures[f"{self.at}_{source}" if self.at else source]


def told_of(call: Call) -> list[Asked]:
    """Return the figures that a call's releases tell, the most wanted first.

    Raises
    ------
    InputError
        `ask` names something that is no figure, or one that the call cannot have.
    """
    everything = _all(call)
    if not call.ask:
        order: list[str] = [*_FIRST, *(name for name in NAMES if name not in _FIRST)]
    else:
        order = call.ask
    out: list[Asked] = []
    for name in order:
        if name not in NAMES:
            raise InputError(
                "ask",
                Message.of(
                    "refusal-no-such-figure-name", text=Typed(name), names=Names(tuple(NAMES))
                ),
            )
        found = [one for one in everything if one.told.name == name]
        if not found and call.ask:
            wants = {"yield": "a crop", **{one.name: "a product" for one in _PRODUCT}}
            needed = wants.get(name, "a season before the course")
            raise InputError(
                "ask", Message.of("refusal-figure-needs", name=Code(name), needed=Code(needed))
            )
        out += found
    return _product_1_first(out) if not call.ask else out


def _all(call: Call) -> list[Asked]:
    plain: list[Asked] = [
        Asked(one, "", {})
        for one in _HOUSEHOLD
        if call.before is not None or not one.name.startswith("change_")
    ]
    for number, product in enumerate(call.products, 1):
        group = {"product": product.item, "method": product.method}
        plain += [Asked(one, f"p{number}", group) for one in _PRODUCT]
    for number, crop in enumerate(call.crops, 1):
        plain += [Asked(one, f"c{number}", {"crop": crop}) for one in _CROP]
    return plain


def _product_1_first(asked: list[Asked]) -> list[Asked]:
    """Put figures of further products behind the questions most asked."""
    first = [
        one for one in asked if (one.told.name in _FIRST and one.at in ("", "p1")) or one.is_by_zone
    ]
    return first + [one for one in asked if one not in first]
