"""A sheet in words, and what somebody agrees to who says yes."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from ledger.circle.call import Call
from ledger.circle.merge import DOMINATED, FEW, FEW_HAVE_ANY, LEFTOVER, NO_QUARTILES
from ledger.messages import Code, Day, Names, Sentence, fixed, joined, measured, sentence

__all__ = [
    "CONSENT",
    "amount_said",
    "asked_lines",
    "figure_said",
    "sheet_lines",
    "withheld_said",
]

CONSENT = (
    "circle-consent-figures",
    "circle-consent-cards",
    "circle-consent-class",
    "circle-consent-withdrawal",
)
"""Ids of what is said before the yes."""

_WITHHELD = {
    FEW: "circle-few",
    NO_QUARTILES: "circle-no-quartiles",
    FEW_HAVE_ANY: "circle-few-have-any",
    DOMINATED: "circle-dominated",
    LEFTOVER: "circle-leftover",
}


def amount_said(unit: str, value: float | None, currency: str = "") -> str:
    """Return a value of a figure in words, with its unit.

    Examples
    --------
    >>> amount_said("per mille", 143), amount_said("money", 325, "USD"), amount_said("count", None)
    ('14.3 %', '3.25 USD', 'not known')
    >>> amount_said("change", -25), amount_said("rate", 900)
    ('-2.5 points', '90.0 % of the minutes')
    """
    if value is None:
        return sentence("circle-not-known")
    saying = _SAYINGS.get(unit)
    if saying is not None:
        return saying(value)
    return measured(f"{value / 100:,.2f} {currency}" if unit == "money" else f"{value:,.0f}")


def _tenth(value: float) -> Sentence:
    return measured(f"{value / 10:.1f}")


_SAYINGS: Mapping[str, Callable[[float], str]] = {
    "per mille": lambda value: measured(f"{value / 10:.1f} %"),
    "change": lambda value: sentence("circle-change-said", n=_signed(value / 10, ".1f")),
    "minutes change": lambda value: sentence("circle-more-minutes-said", n=_signed(value, ".0f")),
    "rate": lambda value: sentence("circle-rate-said", n=_tenth(value)),
    "m2": lambda value: measured(f"{value / 100:,.2f} m²"),
    "g/m2": lambda value: sentence("circle-grams-said", n=round(value)),
    "minutes": lambda value: sentence("circle-minutes-said", n=round(value)),
    "hours": lambda value: sentence("circle-hours-said", n=round(value)),
    "jars": lambda value: sentence("circle-jars-said", n=round(value)),
    "batches": lambda value: sentence("circle-batches-said", n=round(value)),
}


def _signed(value: float, how: str) -> Sentence:
    return measured(f"{'+' if value > 0 else ''}{value:{how}}")


def figure_said(call: Call, name: str, value: int | None) -> str:
    """Return a figure of a sheet in words; one at a limit says so."""
    figure = call.figures[name]
    text = amount_said(figure.unit, value, call.currency)
    if value is not None and value == figure.high:
        return sentence("circle-or-more", amount=text)
    if value is not None and value == figure.low and figure.low not in (0, 1):
        return sentence("circle-or-less", amount=text)
    return text


def withheld_said(text: str) -> str:
    """Return why something of a release is withheld, as the release's file writes it, to be said in any language."""
    parts = text.split("; ")
    return joined("; ", [sentence(_WITHHELD[one]) if one in _WITHHELD else one for one in parts])


def asked_lines(call: Call) -> list[str]:
    """Return the group's call in lines."""
    lines: list[str] = [
        sentence(
            "circle-asks", who=call.name, year=call.season, day=Day(call.from_), day2=Day(call.to)
        ),
        sentence("circle-zones", names=Names(tuple(call.zones)), currency=Code(call.currency)),
    ]
    if call.products:
        named = (
            sentence("circle-product", item=one.item, method=fixed(one.method))
            for one in call.products
        )
        lines.append(sentence("circle-products", names=Names(tuple(named))))
    if call.crops:
        lines.append(sentence("circle-crops", names=Names(tuple(call.crops))))
    if call.before is not None:
        days = {"day": Day(call.before.from_), "day2": Day(call.before.to)}
        lines.append(sentence("circle-compared", **days))
    return lines


def sheet_lines(
    call: Call,
    zone: str,
    figures: Mapping[str, int | None],
    hints: Mapping[str, str] | None = None,
) -> list[tuple[str, str, str, str]]:
    """Return what a sheet holds: product or crop, label, value in words, meaning; in their order.

    Parameters
    ----------
    hints : mapping, optional
        What would make a figure known, by its name.
    """
    rows: list[tuple[str, str, str, str]] = [
        ("", sentence("circle-zone"), zone, sentence("circle-zone-means"))
    ]
    for name, figure in call.figures.items():
        meaning: str = figure.meaning
        if hints and name in hints and figures[name] is None:
            meaning = hints[name]
        rows.append((call.subject(name), figure.label, figure_said(call, name, figures[name]), meaning))  # fmt: skip
    return rows
