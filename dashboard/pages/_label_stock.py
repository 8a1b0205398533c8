"""Sheets of labels as they are sold, by their measures on paper."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["PAPERS", "STOCKS", "Stock", "stocks_for"]

PAPERS = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
"""Width and height, mm: ISO 216, and ANSI/ASME Y14.1 size A."""

_LOW_MM = 30
"""A label that is less high has room for a smaller square and shorter lines."""


@dataclass(frozen=True)
class Stock:
    """A sheet of labels: so many beside and below each other, with equal margins left and right, top and bottom.

    Sizes of common label sheets: common practice, no source.

    Attributes
    ----------
    name : str
        Its name in the address.
    paper : {'a4', 'letter'}
    across, down : int
        Labels beside and below each other.
    wide, high : float
        A label, mm.
    gap : float
        Between two beside each other, mm; rows touch.
    """

    name: str
    paper: str
    across: int
    down: int
    wide: float
    high: float
    gap: float

    @property
    def places(self) -> int:
        """Labels on a sheet."""
        return self.across * self.down

    @property
    def left(self) -> float:
        """Margin at the left and at the right, mm."""
        used = self.across * self.wide + (self.across - 1) * self.gap
        return (PAPERS[self.paper][0] - used) / 2

    @property
    def top(self) -> float:
        """Margin at the top and at the bottom, mm."""
        return (PAPERS[self.paper][1] - self.down * self.high) / 2

    @property
    def is_low(self) -> bool:
        """Whether a label has room for short lines alone."""
        return self.high < _LOW_MM

    @property
    def style(self) -> dict[str, str]:
        """Its measures, as croft.css takes them."""
        return {
            "--across": str(self.across),
            "--down": str(self.down),
            "--wide": f"{self.wide:g}mm",
            "--high": f"{self.high:g}mm",
            "--gap": f"{self.gap:g}mm",
            "--left": f"{self.left:.3f}mm",
            "--top": f"{self.top:.3f}mm",
        }


STOCKS = {
    one.name: one
    for one in (
        Stock("a4", "a4", 3, 7, 63.5, 38.1, 2.5),
        Stock("a4-24", "a4", 3, 8, 70, 37, 0),
        Stock("a4-14", "a4", 2, 7, 99.1, 38.1, 2.5),
        Stock("letter", "letter", 2, 5, 101.6, 50.8, 4.76),
        Stock("letter-14", "letter", 2, 7, 101.6, 33.9, 4.76),
        Stock("letter-30", "letter", 3, 10, 66.7, 25.4, 3.175),
    )
}
"""By their name in the address."""


def stocks_for(paper: str) -> list[Stock]:
    """Return every sheet, those of the household's paper first."""
    return sorted(STOCKS.values(), key=lambda one: one.paper != paper)
