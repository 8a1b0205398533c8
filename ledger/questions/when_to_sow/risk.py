"""The risk of frost that a household takes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.errors import InputError
from ledger.messages import Code, Message

if TYPE_CHECKING:
    pass

__all__ = ["risk_of"]


_RISK = 0.1


def risk_of(risk: str | float | None) -> float:
    """Return the risk as a part of years.

    Raises
    ------
    InputError
        When it is not between 0.01 and 0.9.
    """
    if risk is None:
        return _RISK
    text = str(risk).strip()
    try:
        value = float(text.rstrip(" %")) / (100 if text.endswith("%") else 1)
    except ValueError:
        value = 0.0
    if not 0.01 <= value <= 0.9:
        raise InputError(
            "risk",
            Message.of("refusal-risk-part", text=Code(repr(risk))),
        )
    return value
