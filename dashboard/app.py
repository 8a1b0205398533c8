"""The app factory: pages, files, the gate before them, and what the browser is told."""

from __future__ import annotations

import re
from typing import Any

import flask
from dash import Dash, html
from markupsafe import escape

from dashboard import look, static
from dashboard.away.routes import add_away, head_links
from dashboard.callbacks import wire
from dashboard.data import Data
from dashboard.failing import say_failures
from dashboard.files import add_files
from dashboard.forms.bed_placing import wire_beds
from dashboard.forms.billing import wire_bill
from dashboard.forms.callbacks import wire_forms
from dashboard.forms.happening import wire_happened
from dashboard.forms.householding import wire_household
from dashboard.forms.shelving import wire_shelving
from dashboard.forms.ticking import wire_ticking
from dashboard.gate import Gate
from dashboard.pages import Page, page_at
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
        charting = static.charting_script()
        preload = f'<meta name="charting" content="{charting}">'
        preload += f'<meta name="parts" content="{static.parts_version()}">'
        if page is not None and page.has_pictures:
            for script in (charting, static.drawing_part()):
                preload += f'<link rel="preload" as="script" href="{script}">'
        return (
            f'<!DOCTYPE html>\n<html lang="{words.language}">\n<head>{parts["metas"]}'
            f'<meta name="viewport" content="width=device-width, initial-scale=1, viewport-fit=cover">'
            f"<title>{escape(titled(words, page))}</title>{head_links(scheme_said())}"
            f'<link rel="stylesheet" href="{look.sheet_link()}">{parts["css"]}{preload}</head>\n'
            f'<body class="{chosen_scheme() or "auto"}">{parts["app_entry"]}<noscript>{words("shell.noscript")}'
            f"</noscript><footer>{parts['config']}{parts['scripts']}{parts['renderer']}</footer></body>\n</html>"
        )


def titled(words: Words, page: Page | None) -> str:
    """Return what the browser calls a page; its script says it again on the way to another."""
    name = words("shell.name")
    return f"{words(f'nav.{page.name}')} · {name}" if page else name


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
    hashes: list[str] = []

    @app.server.after_request
    def policy(response: flask.Response) -> flask.Response:
        if not hashes:
            hashes.extend(app.csp_hashes())
        response.headers["Content-Security-Policy"] = (
            "default-src 'self'; script-src 'self' " + " ".join(hashes) + "; "
            "style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; connect-src 'self'; "
            "object-src 'none'; base-uri 'none'; frame-ancestors 'none'; form-action 'self'"
        )
        response.headers["X-Content-Type-Options"] = "nosniff"
        response.headers["Referrer-Policy"] = "same-origin"
        response.headers["Server"] = "croftbook"  # no version of anything to strangers
        if re.match(r"text/html|application/json", response.content_type or ""):
            response.headers["Cache-Control"] = "no-store"
        return response
