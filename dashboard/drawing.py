"""Drawing a page: which one, at which moment, and what is said when it cannot be drawn."""

from __future__ import annotations

import logging
from collections.abc import Mapping
from typing import Any

from dashboard.ask import Ask, read_query, words_of
from dashboard.data import Data, Moment
from dashboard.elements import dcc, html
from dashboard.pages import page_at
from dashboard.parts.alerts import alert
from dashboard.parts.branches import found, mark_of
from dashboard.parts.saying import linked
from dashboard.parts.why import drawn_branch, moved, tree
from dashboard.words import Words
from ledger.errors import BookUnreachable, LedgerError, NotFound

__all__ = ["ask_of", "draw_branch", "draw_page", "draw_why", "moment_note", "trouble"]

_log = logging.getLogger("croftbook.dashboard")


def ask_of(
    data: Data,
    path: str | None,
    search: str | None = None,
    moment: dict[str, str | None] | None = None,
    scheme: str | None = None,
) -> Ask:
    """Return what a page is given, from what the browser said."""
    moment = moment or {}
    return Ask(
        data,
        words_of(data),
        Moment(moment.get("as_of"), moment.get("known_at")),
        read_query(search),
        scheme if scheme in ("light", "dark") else "light",
        path or "/",
    )


def draw_page(ask: Ask) -> list[Any]:
    """Return what is on a page: its title and its parts, or a sentence on why it cannot be drawn."""
    page = page_at(ask.path)
    words = ask.words
    if page is None:
        return [
            _run(ask, words("shell.lost")),
            html.P(words("shell.lost_text", path=ask.path)),
            dcc.Link(words("nav.today"), href="/", className="button"),
        ]
    top = [*_banner(ask), _run(ask, page.titled(ask) if page.titled else words(f"nav.{page.name}"))]
    try:
        return [*top, *_flat(page.draw(ask))]
    except BookUnreachable:
        raise  # no page: the browser says so, keeps what it shows, and asks again
    except LedgerError as error:
        return [*top, trouble(ask, words.refusal(error))]
    except Exception:
        _log.exception("page %s", ask.path)
        return [*top, trouble(ask, words("shell.failed"))]


def _run(ask: Ask, name: str) -> Any:
    """Return a page's name over its rule, with the day that is looked at."""
    return html.Div(
        [html.H1(name), html.Span(ask.words.long_day(ask.day), className="when")], className="run"
    )


def _banner(ask: Ask) -> list[Any]:
    """Return what every page says above all else while the book on disk does not hold."""
    try:
        found = ask.data.watch.trouble(ask.data.mark())
    except LedgerError as error:
        found = [str(error)]
    if not found:
        return []
    words = ask.words
    return [
        alert(
            [html.P(words("shell.damaged_text")), html.Ul([html.Li(words.said(one)) for one in found])],
            title=words("shell.damaged"), kind="damaged",
        )
    ]  # fmt: skip


def _flat(drawn: Any) -> list[Any]:
    """Return what a page gave as one list, with what is not there left out."""
    if isinstance(drawn, (list, tuple)):
        return [one for part in drawn for one in _flat(part)]
    return [] if drawn is None else [drawn]


def draw_why(ask: Ask, asked: dict[str, str | None]) -> Any:
    """Return the arithmetic of a figure, or a sentence on why there is none."""
    address, field = asked.get("address") or "", asked.get("field")
    try:
        return tree(ask, ask.data.why(address, field, ask.moment), address, field)
    except BookUnreachable:
        raise
    except LedgerError as error:
        return trouble(ask, ask.words.refusal(error))
    except Exception:
        _log.exception("why %s %s", address, field)
        return trouble(ask, ask.words("shell.failed"))


def draw_branch(ask: Ask, asked: Mapping[str, str]) -> tuple[dict[str, str], int]:
    """Return a branch of a figure's arithmetic in markup, or a sentence on why there is none.

    Parameters
    ----------
    ask : Ask
    asked : mapping
        ``address`` and ``field`` of the figure, ``place`` in its tree, and the ``mark`` with which that
        place was drawn.

    Returns
    -------
    answer : dict
        ``drawn``, what stands below the line; where there is nothing to open, ``said``.
    status : int
        Of the answer, RFC 9110; 409: what stands around the branch is no longer so.
    """
    address, field = asked.get("address", ""), asked.get("field")
    try:
        one = found(ask.data.why(address, field, ask.moment), asked.get("place", ""))
    except BookUnreachable:
        raise
    except LedgerError as error:
        return {"said": ask.words.refusal(error)}, 404 if isinstance(error, NotFound) else 400
    except Exception:
        _log.exception("branch of %s %s", address, field)
        return {"said": ask.words("shell.failed")}, 500
    if one is None:
        return {"said": ask.words("why.no_branch")}, 404
    if asked.get("mark", mark_of(one)) != mark_of(one):
        return {"said": ask.words("why.moved"), "drawn": moved(ask, address, field)}, 409
    return {"drawn": drawn_branch(ask, one)}, 200


def moment_note(ask: Ask) -> Any:
    """Return a line that says which moment is looked at; nothing when it is now."""
    if ask.moment.is_now:
        return None
    words = ask.words
    parts = []
    if ask.moment.as_of:
        parts.append(words("moment.as_of", day=words.day(ask.moment.as_of)))
    if ask.moment.known_at:
        parts.append(words("moment.known_at", day=words.day(ask.moment.known_at)))
    return html.Div(
        [html.Span(", ".join(parts)), _back(words)],
        className="moment-note",
    )


def _back(words: Words) -> Any:
    return html.Button(
        words("moment.back"), type="button", id="back-to-now", className="button quiet-button",
        disable_n_clicks=True,
    )  # fmt: skip


def trouble(ask: Ask, text: str) -> Any:
    """Return something that went wrong, in the place where it belongs."""
    return alert(linked(ask, text), title=ask.words("shell.trouble"))
