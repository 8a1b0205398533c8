"""One jar: what a label's square leads to, or the letters under it; use it, or read why not."""

from __future__ import annotations

from typing import Any
from urllib.parse import urlencode

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.elements import dcc, html
from dashboard.pages._page import Page
from dashboard.parts import choices, nothing_yet, section
from dashboard.parts.alerts import alert
from dashboard.parts.choices import written
from dashboard.parts.danger import danger_card, grave_batches, mark_of
from dashboard.parts.jars import jars_of
from ledger.labels import split_label

__all__ = ["PAGE", "draw"]

_LEAST = 4
"""So many characters of an entry's id are told from a label."""


def draw(ask: Ask) -> Any:
    """Return the jars that an address or some letters mean, with what can be done."""
    if ask.is_empty:
        return nothing_yet(ask, "jar", "put_up")
    words = ask.words
    of, label = ask.query.get("of", "").strip(), ask.query.get("label", "").strip()
    asked = choices(written("of", words("jar.of"), of, words("jar.like")))
    if not of:
        return [html.P(words("jar.says")), asked]
    rows = ask.show("shelf").records()
    found = [(row, mine) for row in rows if (mine := _meant(row, of, label)) is not None]
    if not found:
        away = alert(words("jar.nothing", of=label or of), heard="status")
        history = dcc.Link(
            words("jar.history"), href=f"/history?{urlencode({'find': of.partition(':')[0]})}",
            className="button quiet-button",
        )  # fmt: skip
        return [asked, away, html.Div(history, className="tools")]
    return [
        danger_card(ask, [row for row, _ in found]),
        *(_card(ask, row, mine) for row, mine in found),
        asked,
    ]


def _meant(row: dict[str, Any], of: str, label: str) -> str | None:
    """Return the label that is meant in a record, '' where no single jar is; None: not this one."""
    labels = {_read(jar.label): jar.label for jar in jars_of(row) if jar.label}
    entry, _, number = of.partition(":")
    if len(entry) >= _LEAST and row["lot"].startswith(entry.lower()):
        if number and row["lot"].partition(":")[2] != number:
            return None
        return labels.get(_read(label), "")
    return labels.get(_read(of))


def _read(label: str) -> tuple[str, int | None]:
    """Return a label as it is compared: without regard to capitals and leading noughts."""
    return split_label(label.upper())


def _card(ask: Ask, row: dict[str, Any], label: str) -> Component:
    words = ask.words
    asked_for = ask.query.get("label", "")
    facts = [
        words("jar.of_day", day=words.day(row["on"])),
        words("jar.left", left=words.said(row["left"]["text"])),
    ]
    if row["kept"]:
        facts.append(words("jar.kept", kept=words.word("answers", row["kept"])))
    if row["use_by"]:
        facts.append(words("jar.use_by", day=words.day(row["use_by"])))
    gone = words("jar.gone", label=asked_for) if asked_for and not label else None
    return section(
        f"{row['item']}{f', {label}' if label else ''}",
        mark_of(ask, row),
        html.Ul([html.Li(one) for one in facts]),
        None if gone is None else alert(gone, heard="status"),
        html.Div(_ways(ask, row, label), className="tools"),
    )


def _ways(ask: Ask, row: dict[str, Any], label: str) -> list[Component]:
    words = ask.words
    jar = {"jar": row["lot"], **({"label": label} if label else {})}
    ways = [
        ("jar.give", f"/write?{urlencode({'kind': 'given_away', **jar})}"),
        ("jar.discard", f"/write?{urlencode({'kind': 'discarded', **jar})}"),
        ("jar.touched", f"/touched?{urlencode({'by': 'lot', 'of': row['lot']})}"),
    ]
    is_grave = bool(grave_batches([row]))
    if is_grave:  # what stands in danger has no button that opens it
        ways = ways[1:]
    else:
        ways.insert(0, ("jar.use", f"/write?{urlencode({'kind': 'eaten', **jar})}"))
    return [
        dcc.Link(
            words(text),
            href=href,
            className="button" if at == 0 and not is_grave else "button quiet-button",
        )
        for at, (text, href) in enumerate(ways)
    ]


PAGE = Page("jar", "/jar", draw)
