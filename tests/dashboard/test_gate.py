"""The gate: nothing is given without the passphrase, nothing under another name, nothing from elsewhere."""

from __future__ import annotations

import pytest

from dashboard.app import make_app
from dashboard.gate import Gate, Keeper
from ledger import Book, InputError

WORDS = "seven plums in a row"


@pytest.fixture
def keeper(tmp_path):
    keeper = Keeper(tmp_path / "gate.json")
    keeper.set(WORDS)
    return keeper


@pytest.fixture
def app(tmp_path, keeper):
    return make_app(Book.open(tmp_path / "book.sqlite"), gate=Gate(keeper, ["kitchen.local"]))


@pytest.fixture
def client(app):
    return app.server.test_client()


def routes(app):
    for rule in app.server.url_map.iter_rules():
        path = str(rule).replace("<name>", "shelf")
        for name in ("<string:package_name>", "<package_name>"):
            path = path.replace(name, "dash")
        for name in ("<path:fingerprinted_path>", "<path:path>", "<path:filename>"):
            path = path.replace(name, "croft.js")
        for method in sorted(rule.methods - {"HEAD", "OPTIONS"}):
            yield method, path


def test_every_route_is_closed_without_the_passphrase(app, client):
    tried = list(routes(app))
    assert len(tried) > 10
    for method, path in tried:
        if path in ("/enter", "/health"):
            continue
        answer = client.open(path, method=method, json={} if method == "POST" else None)
        assert answer.status_code in (401, 403), (method, path, answer.status_code)
        assert b"harvest" not in answer.data


def test_passphrase_opens_and_session_cookie_is_guarded(client):
    answer = client.post("/enter", data={"passphrase": WORDS})
    assert answer.status_code == 302
    cookie = answer.headers["Set-Cookie"]
    for part in ("HttpOnly", "SameSite=Strict", "Expires="):
        assert part in cookie
    assert client.get("/position").status_code == 200
    assert client.get("/files/shelf.csv").status_code == 200
    client.post("/leave")
    assert client.get("/position").status_code == 401


def test_wrong_words_are_slowed_down(client, keeper):
    for _ in range(4):
        assert client.post("/enter", data={"passphrase": "plums"}).status_code == 401
    assert keeper.wait_s() > 0
    assert client.post("/enter", data={"passphrase": WORDS}).status_code == 401
    keeper._not_before = 0.0
    assert client.post("/enter", data={"passphrase": WORDS}).status_code == 302


def test_browser_is_led_to_the_entrance(client):
    answer = client.get("/shelf", headers={"Accept": "text/html"})
    assert (answer.status_code, answer.headers["Location"]) == (302, "/enter")
    assert b"passphrase" in client.get("/enter").data


@pytest.mark.parametrize("host", ["evil.example", "127.0.0.1.evil.example", ""])
def test_other_names_are_refused(client, host):
    assert client.get("/enter", headers={"Host": host}).status_code == 403


@pytest.mark.parametrize("host", ["localhost:8050", "127.0.0.1", "[::1]:8050", "kitchen.local"])
def test_own_names_are_answered(client, host):
    assert client.get("/health", headers={"Host": host}).status_code == 200


@pytest.mark.parametrize(
    "headers",
    [{"Origin": "http://evil.example"}, {"Sec-Fetch-Site": "cross-site"}, {"Origin": "null"}],
)
def test_writing_from_elsewhere_is_refused(client, headers):
    client.post("/enter", data={"passphrase": WORDS})
    answer = client.post("/_dash-update-component", json={}, headers=headers)
    assert answer.status_code == 403


def test_passphrase_is_stored_hashed_and_only_for_its_owner(keeper):
    text = keeper.path.read_text()
    assert WORDS not in text
    assert "$argon2id$" in text
    assert keeper.path.stat().st_mode & 0o077 == 0
    with pytest.raises(InputError, match="fewer than"):
        keeper.set("short")


def test_new_passphrase_ends_old_sessions(tmp_path, keeper):
    book = Book.open(tmp_path / "book.sqlite")
    first = make_app(book, gate=Gate(keeper)).server.test_client()
    first.post("/enter", data={"passphrase": WORDS})
    cookie = first.get_cookie("croftbook").value
    keeper.set("eight pears on a plate")
    later = make_app(book, gate=Gate(keeper)).server.test_client()
    later.set_cookie("croftbook", cookie)
    assert later.get("/position").status_code == 401


def test_book_without_gate_answers_only_this_machine(tmp_path):
    client = make_app(Book.open(tmp_path / "book.sqlite")).server.test_client()
    assert client.get("/position").status_code == 200
    assert client.get("/position", headers={"Host": "192.168.1.9:8050"}).status_code == 403
