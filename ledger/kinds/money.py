"""Money: at most three decimals beyond the currency's minor unit."""

from __future__ import annotations

from ledger.errors import InputError
from ledger.messages import Code, measured, sentence

__all__ = ["check_money"]

_MINOR = {
    "BHD": 3, "IQD": 3, "JOD": 3, "KWD": 3, "LYD": 3, "OMR": 3, "TND": 3,
    "BIF": 0, "CLP": 0, "DJF": 0, "GNF": 0, "ISK": 0, "JPY": 0, "KMF": 0, "KRW": 0, "PYG": 0,
    "RWF": 0, "UGX": 0, "UYI": 0, "VND": 0, "VUV": 0, "XAF": 0, "XOF": 0, "XPF": 0,
}  # fmt: skip
"""Decimals of the minor unit where they are not two (ISO 4217, list one; from memory)."""


def check_money(text: str, field: str, currency: str) -> str:
    """Return `text`, or refuse it when it is finer than the book can hold.

    Raises
    ------
    InputError
        Naming `field`.
    """
    most = _MINOR.get(currency, 2) + 3
    decimals = len(text.partition(".")[2])
    if decimals > most:
        raise InputError(
            field,
            sentence(
                "refusal-money-decimals",
                amount=measured(text),
                n=decimals,
                most=most,
                currency=Code(currency),
            ),
        )
    return text
