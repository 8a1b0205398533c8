"""Pages that need no script: signing in, the list of devices, and what is said when a page fails."""

from __future__ import annotations

from typing import Any

import flask

from dashboard.look import sheet_link
from dashboard.words import Words

__all__ = ["plain_page", "refusal"]


def plain_page(
    words: Words, template: str, title: str, *, status: int = 200, again_s: int = 0, **values: Any
) -> flask.Response:
    """Return a page made on the server, of `dashboard/templates`.

    Parameters
    ----------
    words : Words
    template : str
    title : str
    status : int
    again_s : int
        Seconds after which the browser asks again by itself; 0: never.
    **values
        What the template shows; every value is escaped.
    """
    scheme = flask.request.cookies.get("scheme", "auto")
    text = flask.render_template(
        f"{template}.html", words=words, title=title, again_s=again_s,
        scheme=scheme if scheme in ("light", "dark") else "auto", look=sheet_link(), **values,
    )  # fmt: skip
    return flask.Response(text, status)


def refusal(
    words: Words, title: str, said: str, status: int, *, again_s: int = 0, home: bool = True
) -> flask.Response:
    """Return an answer that is none, for whoever asked: a page, or a sentence for a script.

    Parameters
    ----------
    words : Words
    title, said : str
        In the household's language.
    status : int
        Of the answer, RFC 9110.
    again_s : int
        Seconds after which to ask again.
    home : bool
        Whether to show a way to the first page.
    """
    if "text/html" in flask.request.headers.get("Accept", ""):
        way = ("/", words("nav.today")) if home else None
        answer = plain_page(
            words, "said", title, status=status, again_s=again_s, texts=[said], alert=True, way=way
        )
    else:
        answer = flask.jsonify({"said": said})
        answer.status_code = status
    if again_s:
        answer.headers["Retry-After"] = str(again_s)
    return answer
