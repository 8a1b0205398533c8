"""Files and small answers beside the pages: answers as CSV, the end of the log, health."""

from __future__ import annotations

from typing import Any

import flask

from dashboard.data import Data, Moment
from ledger.errors import LedgerError
from ledger.projections import PROJECTIONS

__all__ = ["add_files"]


def add_files(server: flask.Flask, data: Data) -> None:
    """Add the routes that give data without a page."""

    @server.get("/files/<name>.csv")
    def csv(name: str) -> Any:
        if name not in list(PROJECTIONS):
            return flask.Response(f"There is no question {name!r}.\n", 404, mimetype="text/plain")
        said = flask.request.args
        known = {option.name: option for option in PROJECTIONS[name].options}
        options = {
            key[2:]: (True if known[key[2:]].kind == "flag" else value)
            for key, value in said.items()
            if key.startswith("o.") and key[2:] in known
        }
        if "o.against" in said:
            options["against"] = said["o.against"]
        try:
            answer = data.show(name, Moment(said.get("as_of"), said.get("known_at")), **options)
        except LedgerError as error:
            return flask.Response(f"{error}\n", 400, mimetype="text/plain")
        return flask.Response(
            answer.frame.to_csv(index=False),
            mimetype="text/csv",
            headers={"Content-Disposition": f'attachment; filename="{name}.csv"'},
        )

    @server.get("/position")
    def position() -> Any:
        return {"position": data.position()}

    @server.get("/health")
    def health() -> Any:
        return {"status": "well", "position": data.position()}
