"""Pages of a book on PostgreSQL whose server stops: said in the family's language, nothing lost, mended by itself."""

from __future__ import annotations

import pytest
from faults_tools import tell

from dashboard.app import make_app
from ledger import Book

pytestmark = pytest.mark.postgres
HTML = {"Accept": "text/html"}


@pytest.fixture
def pages(server):
    folder, url = server
    with Book.open(url) as book:
        book.write("setting_changed", name="language", value="de", on="2026-09-02")
        client = make_app(book).server.test_client()
        assert client.get("/", headers=HTML).status_code == 200
        yield folder, client


def drawn(client, path):
    wires = client.get("/_dash-dependencies").json
    wire = next(one for one in wires if "page.children" in one["output"])
    values = {"url.pathname": path, "url.search": "", "seen.data": 1, "moment.data": None, "scheme.data": "dark", "main.data-address": None}  # fmt: skip
    inputs, state = (
        [{**one, "value": values[f"{one['id']}.{one['property']}"]} for one in wire[part]]
        for part in ("inputs", "state")
    )
    outputs = [
        dict(zip(("id", "property"), one.rsplit(".", 1), strict=True))
        for one in wire["output"].strip(".").split("...")
    ]
    body = {"output": wire["output"], "outputs": outputs, "inputs": inputs, "changedPropIds": ["url.pathname"], "state": state}  # fmt: skip
    return client.post("/_dash-update-component", json=body)


def test_stopped_server_is_said_and_mends_itself(pages):
    folder, client = pages
    tell("halt", folder)
    try:
        page = client.get("/shelf", headers=HTML)
        assert page.status_code == 503
        assert "Das Buch ist nicht erreichbar" in page.text
        assert 'src="/again.js"' in page.text  # the browser asks again by itself
        assert page.headers["Retry-After"]
        for answer in (
            client.get("/position"),
            client.get("/files/shelf.csv"),
            drawn(client, "/shelf"),
        ):
            assert answer.status_code == 503
            assert answer.json["said"].startswith(
                "Die Datenbank, in der das Buch liegt, antwortet nicht"
            )
        assert client.get("/health").status_code == 200  # the pages live, whatever the book does
        assert b"127.0.0.1" not in page.data
        assert b"psycopg" not in page.data
    finally:
        tell("again", folder)
    assert client.get("/shelf", headers=HTML).status_code == 200
    assert client.get("/position").json["position"] > 0
    assert drawn(client, "/shelf").status_code == 200
