"""The app factory: pages, files, the gate before them, and what the browser is told."""

from __future__ import annotations

import re
from typing import Any

import flask
from dash import Dash, html
from markupsafe import escape

from dashboard import bundle, look, static
from dashboard.away.routes import add_away, head_links
from dashboard.callbacks import wire
from dashboard.data import Data
from dashboard.failing import say_failures
from dashboard.files import add_files
from dashboard.first import GUARD, first, guard_hash
from dashboard.forms.bed_placing import wire_beds
from dashboard.forms.billing import wire_bill
from dashboard.forms.callbacks import wire_forms
from dashboard.forms.happening import wire_happened
from dashboard.forms.householding import wire_household
from dashboard.forms.shelving import wire_shelving
from dashboard.forms.ticking import wire_ticking
from dashboard.gate import Gate
from dashboard.pages import page_at
from dashboard.sample import Sample, back
from dashboard.shell import layout
from dashboard.words import Words
from ledger.book import Book

__all__ = ["make_app"]


class _App(Dash):
    """Dash with a page of its own around the app: the language is said, and pictures are fetched ahead."""

    def __init__(self, data: Data, **options: Any) -> None:
        self.data = data
        super().__init__(**options)

    def interpolate_index(self, **parts: Any) -> str:
        """Return the page that the browser loads first."""
        from dashboard.ask import words_of

        self.data.position()  # a book that cannot be read is said at once, by a page without scripts
        words = words_of(self.data)
        page = page_at(flask.request.path)
        charting, library = static.charting_script(), bundle.library()
        ahead = f'<meta name="charting" content="{charting}">'
        ahead += f'<meta name="parts" content="{static.parts_version()}">'
        ahead += f'<meta name="library" content="{" ".join(library)}">'
        if page is not None and page.has_pictures:
            for script in (*library, static.drawing_part(), charting):
                ahead += f'<link rel="preload" as="script" href="{script}">'
        drawn = first(self, self.data, scheme_said())
        return (
            f'<!DOCTYPE html>\n<html lang="{words.language}">\n<head>{parts["metas"]}'
            f'<meta name="viewport" content="width=device-width, initial-scale=1, viewport-fit=cover">'
            f"<title>{escape(titled(words, drawn.title if drawn else None))}</title>{head_links(scheme_said())}"
            f'<script>{GUARD}</script><link rel="stylesheet" href="{look.sheet_link()}">{look.font_ahead()}'
            f'<script id="_dash-renderer" src="{bundle.script_link()}" defer></script>{ahead}</head>\n'
            f'<body class="{chosen_scheme() or "auto"}">{drawn.html() if drawn else ""}{parts["app_entry"]}'
            f"<noscript>{words('shell.noscript')}</noscript>{parts['config']}</body>\n</html>"
        )


def titled(words: Words, name: str | None) -> str:
    """Return what the browser calls a page; its script says it again on the way to another."""
    return f"{name} · {words('shell.name')}" if name else words("shell.name")


def chosen_scheme() -> str | None:
    """Return light or dark where somebody chose it on this device, else None: its system says."""
    said = flask.request.cookies.get("scheme")
    return said if said in ("light", "dark") else None


def scheme_said() -> str:
    """Return light or dark: as chosen, else as the device's system was seen to be."""
    seen = flask.request.cookies.get("system")
    return chosen_scheme() or ("dark" if seen == "dark" else "light")


def make_app(
    book: Book,
    *,
    gate: Gate | None = None,
    sample: Sample | None = None,
    sample_of: int | None = None,
) -> Dash:
    """Return the dashboard of a book.

    Parameters
    ----------
    book : Book
    gate : Gate, optional
        Who is let in; default: whoever asks this machine by its own name.
    sample : Sample, optional
        Opens the invented household beside the book.
    sample_of : int, optional
        This is the invented household itself: the port of the household's own book, 0 where there is none.

    Returns
    -------
    Dash
        ``app.server`` is the WSGI application.
    """
    data = Data(book)
    data.has_sample = sample is not None
    server = flask.Flask("dashboard")
    (gate or Gate()).guard(server, data)
    say_failures(server, data)
    app = _App(
        data,
        name="dashboard",
        server=server,
        title="Croftbook",
        update_title=None,
        suppress_callback_exceptions=True,
        compress=False,
        assets_folder=str(static.ASSETS),
    )
    app.layout = lambda: _layout(data, sample_of)
    wire(app, data)
    wire_forms(app, data)
    wire_happened(app, data)
    wire_shelving(app, data)
    wire_household(app, data)
    wire_beds(app, data)
    wire_bill(app, data)
    wire_ticking(app, data)
    add_files(server, data)
    add_away(server, data)
    if sample is not None:
        sample.add(server)
    look.add_look(server)
    bundle.add_bundle(server)
    static.keep_compressed(server)
    _say_policy(app)
    return app


def _layout(data: Data, sample_of: int | None) -> Any:
    from dashboard.ask import words_of

    if not flask.has_request_context():
        return html.Div()
    return layout(
        data, words_of(data), scheme_said(), None if sample_of is None else back(sample_of)
    )


def _say_policy(app: Dash) -> None:
    """Tell the browser to load nothing from elsewhere and to run no script but the app's own."""

    @app.server.after_request
    def policy(response: flask.Response) -> flask.Response:
        response.headers["Content-Security-Policy"] = (
            f"default-src 'self'; script-src 'self' {guard_hash()}; "
            "style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; connect-src 'self'; "
            "object-src 'none'; base-uri 'none'; frame-ancestors 'none'; form-action 'self'"
        )
        response.headers["X-Content-Type-Options"] = "nosniff"
        response.headers["Referrer-Policy"] = "same-origin"
        response.headers["Server"] = "croftbook"  # no version of anything to strangers
        if re.match(r"text/html|application/json", response.content_type or ""):
            response.headers["Cache-Control"] = "no-store"
        return response
