"""A sheet in words, and what somebody agrees to who says yes."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from ledger.circle.call import Call

__all__ = ["CONSENT", "amount_said", "asked_lines", "figure_said", "sheet_lines"]

CONSENT = (
    "These figures and nothing else leave this household: no entry, no name, no place, no number of entries.",
    "Who gathers the sheets sees each of them under the number that your card gives, and not whose card it is.",
    "The class is told nothing that fewer than 10 households share; the public is told figures with noise alone.",
    "`croftbook circle withdraw` takes the sheet back and deletes it; what was told by then cannot be called back.",
)
"""What is said before the yes."""


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
        return "not known"
    sayings: Mapping[str, Callable[[], str]] = {
        "per mille": lambda: f"{value / 10:.1f} %",
        "change": lambda: f"{_signed(value / 10, '.1f')} points",
        "minutes change": lambda: f"{_signed(value, '.0f')} minutes",
        "money": lambda: f"{value / 100:,.2f} {currency}",
        "rate": lambda: f"{value / 10:.1f} % of the minutes",
        "m2": lambda: f"{value / 100:,.2f} m²",
        "g/m2": lambda: f"{value:,.0f} g a m²",
        "minutes": lambda: f"{value:.0f} minutes",
        "hours": lambda: f"{value:,.0f} hours",
        "count": lambda: f"{value:,.0f}",
    }
    saying = sayings.get(unit)
    return saying() if saying else f"{value:,.0f} {unit}"


def _signed(value: float, how: str) -> str:
    return f"{'+' if value > 0 else ''}{value:{how}}"


def figure_said(call: Call, name: str, value: int | None) -> str:
    """Return a figure of a sheet in words; one at a limit says so."""
    figure = call.figures[name]
    text = amount_said(figure.unit, value, call.currency)
    if value is not None and value == figure.high:
        return f"{text} or more"
    if value is not None and value == figure.low and figure.low not in (0, 1):
        return f"{text} or less"
    return text


def asked_lines(call: Call) -> list[str]:
    """Return the group's call in lines."""
    lines = [
        f"{call.name} asks about the season {call.season}, {call.from_} to {call.to}.",
        f"Zones: {', '.join(call.zones)}. Money in {call.currency}.",
    ]
    if call.products:
        named = (f"{one.item} ({one.method})" for one in call.products)
        lines.append(f"Put up: {', '.join(named)}.")
    if call.crops:
        lines.append(f"Crops: {', '.join(call.crops)}.")
    if call.before is not None:
        lines.append(f"Compared with the season {call.before.from_} to {call.before.to}, at home.")
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
    rows = [("", "Zone", zone, "as you say")]
    for name, figure in call.figures.items():
        meaning = figure.meaning
        if hints and name in hints and figures[name] is None:
            meaning = hints[name]
        rows.append((call.subject(name), figure.label, figure_said(call, name, figures[name]), meaning))  # fmt: skip
    return rows
