"""Units of figures and columns, said in a language: ``minutes per lb``, ``g of protein a day``.

In answers and trees a unit is a code that sums and pages ask for (`ledger.figures.units` works with it);
it is said from its parts, each a family id ``unit-name-…``. What is none of them is as it stands: a
unit that is written alike everywhere (``g``, ``kWh``), a currency, or one of the household's own
(``bucket``).
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache, partial
from typing import TYPE_CHECKING

from ledger.messages import fixed
from ledger.messages.catalogue import speaker
from ledger.messages.texts import SaidLater, Sentence, joined, measured, sentence

if TYPE_CHECKING:
    from ledger.messages.message import Parameter

__all__ = ["amount", "amount_later", "together", "unit"]

_A = re.compile(r"(?P<above>.+) an? (?P<below>.+)")
_NUMBERS = re.compile(r"([-+<>]?\d[\d,]*(?:\.\d+)?[¼½¾⅓⅔⅛]?|[¼½¾⅓⅔⅛]|\.\d+) ?((?:m2|[^\d¼½¾⅓⅔⅛])*)")
_METRIC_JARS = re.compile(r"(\d+) (\d+(?:\.\d+)?) (ml|l) jars?")
_THOUSANDTH = "1/1000 "
_BY_TIME = {
    "hour": "unit-an-hour",
    "day": "unit-a-day",
    "week": "unit-a-week",
    "year": "unit-a-year",
}


@lru_cache(1024)
def unit(code: str) -> str:
    """Return a unit as a text that can be said in any language.

    Parameters
    ----------
    code : str
        As answers and trees name it; money under its currency.

    Examples
    --------
    >>> from ledger.messages import worded
    >>> unit("minutes per jar"), worded(unit("minutes per jar"), "de")
    ('minutes per jar', 'Minuten je Glas')
    """
    if speaker("en").has(_id(code)):
        return sentence(_id(code))
    if code.startswith("per "):
        return sentence("unit-each", below=unit(code.removeprefix("per ")))
    above, per, below = code.rpartition(" per ")
    if per:
        return sentence("unit-per", above=unit(above), below=unit(below))
    if code.startswith(_THOUSANDTH):
        return sentence("unit-thousandth", unit=unit(code.removeprefix(_THOUSANDTH)))
    found = _A.fullmatch(code)
    if found is not None and found["below"] in _BY_TIME:
        return sentence(_BY_TIME[found["below"]], unit=unit(found["above"]))
    if found is not None:
        return sentence("unit-a", above=unit(found["above"]), below=unit(found["below"]))
    much, of, what = code.partition(" of ")
    return sentence("unit-of", unit=unit(much), what=unit(what)) if of else fixed(code)


@lru_cache(4096)
def amount(text: str) -> str:
    """Return an amount as the household's measures write it as a text that can be said in any language.

    Parameters
    ----------
    text : str
        Numbers with their units, ``7 lb 3 oz``, ``2.00 per kg``, ``8 to 12 months``.
    """
    if (jars := _METRIC_JARS.fullmatch(text)) is not None:
        from ledger.messages.message import Measured, Message

        holds = Measured(f"{jars[2]} {jars[3]}")
        return Sentence(text, Message.of("told-jars-metric", n=int(jars[1]), holds=holds))
    pieces: list[str] = []
    at = 0
    for found in _NUMBERS.finditer(text):
        if found.start() != at:
            return measured(text)
        at = found.end()
        pieces.append(measured(found[1]))
        code = found[2].strip()
        if code.startswith("per "):
            pieces.append(sentence("unit-each", below=unit(code.removeprefix("per "))))
        elif code:
            pieces.append(sentence("unit-to") if code == "to" else _counted(found[1], code))
    return joined(" ", pieces) if pieces and at == len(text) else measured(text)


def _counted(number: str, code: str) -> str:
    """Return a unit behind a number: ``cup`` behind 2 says cups in a language that bends it."""
    ends = (f"{code}s", f"{code}es", f"{code.removesuffix('f')}ves")  # crates, boxes, loaves
    several = next((_id(one) for one in ends if speaker("en").has(_id(one))), None)
    if number == "1" or several is None:
        return unit(code)
    return Sentence(code, sentence(several).says)


def _id(code: str) -> str:
    return f"unit-name-{re.sub(r'[^a-z0-9]+', '-', code.lower()).strip('-')}"


def amount_later(text: str) -> SaidLater:
    """Return what `amount` returns, made when it is said: for what many rows of an answer hold."""
    return SaidLater(text, partial(_amount_says, text))


def _amount_says(text: str) -> Parameter:
    said = amount(text)
    return said.says if isinstance(said, Sentence) else said


def together(amounts: Sequence[str]) -> str:
    """Return amounts that belong together: ``3 lb and 12``."""
    from ledger.messages.message import Names

    if len(amounts) == 1:
        return amounts[0]
    return sentence("unit-together", amounts=Names(tuple(amounts)))
