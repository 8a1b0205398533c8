"""Files and small answers beside the pages: answers as CSV, branches of arithmetic, the end of the log, health."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

import flask

from dashboard.ask import Ask, words_of
from dashboard.data import Data, Moment
from dashboard.drawing import ask_of, draw_branch
from dashboard.parts.why import BRANCHES
from dashboard.shown import table_shown
from ledger.cells import as_csv
from ledger.errors import BookError, InputError, LedgerError, NotFound
from ledger.messages import Code, Message, Names, Typed
from ledger.projections import PROJECTIONS

__all__ = ["add_files"]


def add_files(server: flask.Flask, data: Data) -> None:
    """Add the routes that give data without a page."""

    @server.get("/files/page.csv")
    def page() -> Any:
        said = flask.request.args
        own = ("path", "table", "moment.as_of", "moment.known_at")
        query = {key: value for key, value in said.items() if key not in own}
        moment = Moment(said.get("moment.as_of"), said.get("moment.known_at"))
        ask = Ask(data, words_of(data), moment, query, path=said.get("path", "/"))
        table = said.get("table", "")
        try:
            text = table_shown(ask, table)
        except NotFound as error:
            return flask.Response(f"{error}\n", 404, mimetype="text/plain")
        name = re.sub(r"[^\w-]", "-", table) or "table"
        # spreadsheets take UTF-8 for another writing without its mark at the beginning
        return flask.Response(
            "\ufeff" + text, mimetype="text/csv",
            headers={"Content-Disposition": f'attachment; filename="{name}.csv"'},
        )  # fmt: skip

    @server.get("/files/<name>.csv")
    def csv(name: str) -> Any:
        if name not in list(PROJECTIONS):
            return flask.Response(f"There is no question {name!r}.\n", 404, mimetype="text/plain")
        said = flask.request.args
        try:
            options = _options(name, said)
            answer = data.show(name, Moment(said.get("as_of"), said.get("known_at")), **options)
        except BookError:
            raise  # said as any page says it
        except LedgerError as error:
            return flask.Response(f"{error}\n", 400, mimetype="text/plain")
        return flask.Response(
            as_csv(answer.frame),
            mimetype="text/csv",
            headers={"Content-Disposition": f'attachment; filename="{name}.csv"'},
        )

    @server.get(BRANCHES)
    def branch() -> Any:
        said = flask.request.args
        moment = {name: said.get(name) for name in ("as_of", "known_at")}
        return draw_branch(ask_of(data, "/", None, moment), said)

    @server.get("/position")
    def position() -> Any:
        return {"position": data.mark()}

    @server.get("/health")
    def health() -> Any:
        return {"status": "alive"}  # whoever asks need not be known: nothing of the book is told


def _options(name: str, said: Mapping[str, str]) -> dict[str, Any]:
    """Return what an address asks a question with: ``o.season=2025`` and the like.

    Raises
    ------
    NotFound, InputError
        When the question has no such option or choice, which an answer to less would hide.
    """
    known = {option.name: option for option in PROJECTIONS[name].options}
    options: dict[str, Any] = {}
    for key, value in said.items():
        option = key.removeprefix("o.")
        if key in ("as_of", "known_at"):
            continue
        if option == key or option not in (*known, "against"):
            names = ", ".join(f"o.{one}" for one in known)
            raise NotFound(key, Message.of("refusal-no-option", name=Code(name), names=Code(names)))
        chosen = known.get(option)
        if chosen is not None and chosen.choices and value not in chosen.choices:
            raise InputError(
                option,
                Message.of("refusal-not-one", kind=Typed(value)),
                Message.of("refusal-take-one-of", names=Names(tuple(chosen.choices))),
            )
        options[option] = True if chosen is not None and chosen.kind == "flag" else value
    return options
