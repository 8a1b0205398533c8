"""Answers that are none: each with words in the household's language, as a page for people and a sentence for scripts."""

from __future__ import annotations

import logging

import pytest

from dashboard.app import make_app
from ledger.errors import BookDamaged

HTML = {"Accept": "text/html,application/xhtml+xml"}
WIRE = "/_dash-update-component"


@pytest.fixture
def app(book):
    return make_app(book)


@pytest.fixture
def client(app):
    return app.server.test_client()


@pytest.mark.parametrize(
    ("method", "path", "options", "status", "says"),
    [
        ("POST", "/position", {}, 405, "cannot be done at this address"),
        ("PUT", "/shelf", {}, 405, "cannot be done at this address"),
        ("GET", "/assets/none.js", {}, 404, "no such page"),
        ("GET", "/trust/croftbook.crt", {}, 404, "no such page"),
        ("POST", WIRE, {"data": b"x" * 2_000_001, "content_type": "application/json"}, 413, "more than an entry can hold"),
        ("POST", WIRE, {"data": b"{", "content_type": "application/json"}, 400, "could not be understood"),
        ("POST", WIRE, {"data": b"x"}, 415, ""),
        ("POST", WIRE, {"json": {}}, 400, ""),
        ("POST", WIRE, {"json": []}, 400, ""),
        ("POST", WIRE, {"json": {"output": "page.children", "inputs": "x", "outputs": 3}}, 400, ""),
        ("POST", WIRE, {"json": {"output": "no.such", "inputs": [], "outputs": {}}}, None, ""),
    ],
)  # fmt: skip
def test_every_failure_has_words(client, method, path, options, status, says, caplog):
    caplog.set_level(logging.CRITICAL)
    script = client.open(path, method=method, **options)
    assert script.status_code == status if status else 400 <= script.status_code <= 500, script.text
    assert len(script.json["said"]) > 10
    assert says in script.json["said"]
    page = client.open(path, method=method, headers=HTML, **options)
    assert page.status_code == script.status_code
    assert "<h1>Something is not right</h1>" in page.text
    assert 'href="/"' in page.text
    for text in (script.text, page.text):
        assert "Traceback" not in text
        assert "werkzeug" not in text.lower()


def test_german_household_is_told_in_german(client, book):
    book.write("setting_changed", name="language", value="de", on="2026-09-02")
    assert "Nichts wurde eingetragen" in client.post("/position").json["said"]
    assert '<html lang="de">' in client.post("/position", headers=HTML).text


def test_a_bug_is_a_page_of_ours_and_its_story_goes_to_the_terminal(app, caplog):
    @app.server.get("/broken")
    def broken():
        raise RuntimeError("a secret of the inside")

    client = app.server.test_client()
    page = client.get("/broken", headers=HTML)
    assert page.status_code == 500
    assert "What is written down is safe" in page.text
    assert "secret" not in page.text
    assert "a secret of the inside" in caplog.text


def test_damaged_book_is_said_and_the_language_is_the_last_known(client, book, monkeypatch, caplog):
    book.write("setting_changed", name="language", value="de", on="2026-09-02")
    assert client.get("/", headers=HTML).status_code == 200

    def damaged(*_args, **_options):
        raise BookDamaged("book.sqlite is damaged (rows). Restore it from a backup")

    monkeypatch.setattr(type(book.log), "position", damaged)
    monkeypatch.setattr(type(book), "catalogue", damaged)
    page = client.get("/", headers=HTML)
    assert page.status_code == 500
    assert '<html lang="de">' in page.text
    assert "book.sqlite" in page.text
