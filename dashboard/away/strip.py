"""The strip that says what waits on this phone; assets/away.js fills it."""

from __future__ import annotations

import json

from dash.development.base_component import Component

from dashboard.elements import html
from dashboard.forms.specs import FORMS
from dashboard.words import Words, catalogue

__all__ = ["waiting"]


def waiting(words: Words) -> Component:
    """Return the place of the strip, with every text that the phone says by itself."""
    said = {
        key.removeprefix("away."): words(key)
        for key in catalogue("en")
        if key.startswith("away.") and key != "away.shortcuts"
    }
    said["kinds"] = {kind: words.kind(kind) for kind in FORMS}
    return html.Div(
        id="waiting",
        className="waiting",
        **{"data-words": json.dumps(said), "aria-label": words("away.label"), "role": "region"},
    )
