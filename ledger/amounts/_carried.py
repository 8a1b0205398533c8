"""An amount on its way in: the text that was typed, with what it was read as."""

from __future__ import annotations

from dataclasses import replace

from ledger.amounts._parse import Amount

__all__ = ["Said"]


class Said(str):
    """The text of an amount that was read already, so that the door need not read it again.

    It is a text like any other, and stored as one.

    Parameters
    ----------
    text : str
        The amount as typed, without the item behind it.
    amount : Amount
        What it was read as.
    measures : {'us', 'uk', 'metric'}
    comma : bool
        How it was read: whoever reads otherwise reads the text anew.
    """

    amount: Amount | None
    _how: tuple[str, bool]

    def __new__(
        cls, text: str, amount: Amount | None = None, measures: str = "us", comma: bool = False
    ) -> Said:
        """Return the text, which carries its amount."""
        out = super().__new__(cls, text)
        out.amount = None if amount is None else replace(amount, text=str(text))
        out._how = measures, comma
        return out

    def read_so(self, measures: str, comma: bool, *, zero: bool = False) -> Amount | None:
        """Return the amount where it is read the same way, and may be nothing or is not."""
        if self.amount is None or self._how != (measures, comma):
            return None
        return self.amount if zero or self.amount.exact else None
