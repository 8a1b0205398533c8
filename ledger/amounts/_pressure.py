"""Pressure on a canner's gauge, as people read it off: psi, kPa or bar."""

from __future__ import annotations

import re
from fractions import Fraction

from ledger.errors import InputError
from ledger.messages import Code, Message

__all__ = ["pressure_psi"]

_PSI = {
    "": Fraction(1),
    "psi": Fraction(1),
    "lb": Fraction(1),
    "pound": Fraction(1),
    "pounds": Fraction(1),
    # 1 psi = 6.894757 kPa, 1 bar = 100 kPa (NIST SP 811, appendix B.8)
    "kpa": 1 / Fraction("6.894757"),
    "bar": 100 / Fraction("6.894757"),
    "mbar": Fraction(1, 10) / Fraction("6.894757"),
    "hpa": Fraction(1, 10) / Fraction("6.894757"),
}
_TEXT = re.compile(r"(\d{1,6}(?:[.,]\d{1,6})?)\s*([A-Za-z]*)")


def pressure_psi(text: object) -> Fraction | None:
    """Return a gauge pressure in pounds per square inch, exact and not rounded; None stays None.

    Parameters
    ----------
    text : str, int or None
        ``11``, ``11 psi``, ``76 kPa``, ``0.8 bar``; a bare number is psi.

    Raises
    ------
    InputError
        Naming ``psi``, when it is no pressure.

    Examples
    --------
    >>> float(pressure_psi("76 kPa")) > 11 > float(pressure_psi("75 kPa"))
    True
    """
    if text is None:
        return None
    match = _TEXT.fullmatch(str(text).strip())
    factor = _PSI.get(match[2].casefold()) if match else None
    if match is None or factor is None:
        raise InputError("psi", Message.of("refusal-not-a-pressure", text=Code(repr(text))))
    return Fraction(match[1].replace(",", ".")) * factor
