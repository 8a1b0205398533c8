"""Pictures to explore: a drawing, the sentence that it shows, and the table that it draws."""

from __future__ import annotations

from typing import Any

import plotly.graph_objects as go
from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.elements import dcc, html
from dashboard.figures._base import plain_names

__all__ = ["picture"]


def picture(
    ask: Ask, key: str, drawing: go.Figure, sentence: str, table: Any = None, *, height: int = 360
) -> Component:
    """Return a drawing that can be brushed, its sentence, its table and the buttons to save it folded away.

    Parameters
    ----------
    ask : Ask
    key : str
        Its name on the page, and the name of the file it is saved as.
    drawing : Figure
        Made in `dashboard.figures`.
    sentence : str
        What it shows, in one sentence: read by all, and heard in its place.
    table : component, optional
        The numbers that it draws.
    height : int
        Pixels.
    """
    drawing = plain_names(drawing.update_layout(height=height))
    words = ask.words
    save = [
        html.Button(
            words("picture.save", format=kind.upper()), type="button", className="button quiet-button",
            disable_n_clicks=True, **{"data-picture": f"picture-{key}", "data-format": kind},
        )
        for kind in ("png", "svg")
    ]  # fmt: skip
    return html.Figure(
        [
            html.Figcaption(sentence, id=f"says-{key}"),
            html.Div(
                dcc.Graph(
                    id=f"picture-{key}",
                    figure=drawing,
                    responsive=True,
                    config={
                        "displayModeBar": False, "scrollZoom": False, "doubleClick": "reset",
                        "showTips": False,  # which stand outside the page's parts, in English alone
                    },
                    style={"height": f"{height}px"},
                ),
                role="img",
                **{"aria-labelledby": f"says-{key}"},
            ),
            html.Details(
                [html.Summary(words("picture.table")), table, html.Div(save, className="tools")]
            ),
        ],
        className="picture",
    )  # fmt: skip
