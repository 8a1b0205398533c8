"""The gate: nothing without the passphrase, under another name or from elsewhere."""

from __future__ import annotations

import pytest
from door_tools import WORDS
from gate_tools import COOKIES, HTML, is_in

from dashboard.app import make_app
from dashboard.away.open import OPEN
from dashboard.gate import Gate
from dashboard.look import FONT, SHEET


def routes(app):
    for rule in app.server.url_map.iter_rules():
        path = str(rule).replace("<name>", "shelf")
        for name in ("<string:package_name>", "<package_name>"):
            path = path.replace(name, "dash")
        for name in ("<path:fingerprinted_path>", "<path:path>", "<path:filename>"):
            path = path.replace(name, "croft.js")
        for method in sorted(rule.methods - {"HEAD", "OPTIONS"}):
            yield method, path


# Nothing without the passphrase


def test_every_route_is_closed_without_the_passphrase(app, client):
    tried = list(routes(app))
    assert len(tried) > 14
    for method, path in tried:
        if path in (
            "/enter",
            "/health",
            "/trust",
            "/trust/croftbook.crt",
            "/leave",
            *OPEN,
            SHEET,
            FONT,
        ):
            continue
        answer = client.open(path, method=method, json={} if method == "POST" else None)
        assert answer.status_code in (401, 403), (method, path, answer.status_code)
        assert b"harvest" not in answer.data
        assert "said" in answer.json


def test_what_is_open_tells_nothing_of_the_book(client, open_book):
    open_book.write("harvested", item="quince", amount="12 lb", on="2026-09-02")
    for path in ("/enter", "/health", "/trust", *(one for one in OPEN if not one.endswith("png"))):
        text = client.get(path).text
        assert "quince" not in text
        assert "position" not in text or path == "/worker.js"  # which names the route
    client.get("/assets/croft.css").close()
    assert client.get("/health").json == {"status": "alive"}
    assert client.get("/trust/croftbook.crt").status_code == 404


def test_passphrase_opens_and_cookies_are_guarded(client):
    answer = client.post("/enter", data={"passphrase": WORDS})
    assert (answer.status_code, answer.headers["Location"]) == (303, "/")
    said = answer.headers.getlist("Set-Cookie")
    assert [one.partition("=")[0] for one in said] == list(COOKIES)
    for cookie in said:
        for part in ("HttpOnly", "SameSite=Strict", "Expires=", "Path=/"):
            assert part in cookie
        assert "Secure" not in cookie  # a browser would not send it back without TLS
        assert "Domain" not in cookie
    assert is_in(client)
    assert client.get("/files/shelf.csv").status_code == 200


def test_over_tls_cookies_are_secure_and_of_this_host_alone(client):
    secure = {"base_url": "https://kitchen.local"}
    answer = client.post("/enter", data={"passphrase": WORDS}, **secure)
    for cookie in answer.headers.getlist("Set-Cookie"):
        assert cookie.startswith("__Host-croftbook")
        assert "Secure" in cookie
    assert client.get("/position", **secure).status_code == 200
    assert client.get("/position", base_url="http://kitchen.local").status_code == 401


def test_browser_is_led_to_the_entrance(client):
    answer = client.get("/shelf", headers=HTML)
    assert (answer.status_code, answer.headers["Location"]) == (302, "/enter")
    assert "passphrase" in client.get("/enter").text


def test_without_tls_the_entrance_says_so(client):
    assert "cross the network in the open" in client.get("/enter").text
    assert "cross the network" not in client.get("/enter", base_url="https://localhost").text
    assert "serve --lan --tls" in client.get("/trust").text


def test_entrance_speaks_the_households_language(client, open_book):
    open_book.write("setting_changed", name="language", value="de", on="2026-09-02")
    page = client.get("/enter").text
    assert '<html lang="de">' in page
    assert "Das Kennwort des Haushalts" in page
    assert client.get("/position").json["said"].startswith("Dieses Gerät ist abgemeldet")


# Names and origins


@pytest.mark.parametrize(
    "host",
    [
        "evil.example", "127.0.0.1.evil.example", "", "evil.example@localhost", "localhost@evil.example",
        "kitchen.local.evil.example", "[::1", "[::2]", "127.1", "0", "kitchen_local", "localhost,evil.example",
    ],
)  # fmt: skip
def test_other_names_are_refused(client, host):
    answer = client.get("/enter", headers={"Host": host, **HTML})
    assert answer.status_code in (400, 403)
    assert "passphrase" not in answer.text


@pytest.mark.parametrize(
    "host", ["localhost:8050", "127.0.0.1", "[::1]:8050", "kitchen.local", "KITCHEN.local:1"]
)
def test_own_names_are_answered(client, host):
    assert client.get("/health", headers={"Host": host}).status_code == 200


def test_refused_name_is_a_page_of_ours(client):
    answer = client.get("/", headers={"Host": "<b>evil.example", **HTML})
    assert answer.status_code in (400, 403)
    assert "<b>evil" not in answer.text
    page = client.get("/", headers={"Host": "evil.example", **HTML}).text
    assert "not kept under the name evil.example" in page
    assert "--host-name" in page


@pytest.mark.parametrize(
    "headers",
    [
        {"Origin": "http://evil.example"}, {"Sec-Fetch-Site": "cross-site"}, {"Sec-Fetch-Site": "same-site"}, {"Origin": "null"},
        {"Origin": "http://localhost.evil.example"}, {"Origin": "http://localhost:8051"}, {"Origin": "[::1"}, {"Origin": ""},
    ],
)  # fmt: skip
def test_writing_from_elsewhere_is_refused(signed_in, headers):
    client = signed_in()
    for path in ("/_dash-update-component", "/leave", "/devices/out", "/enter"):
        assert client.post(path, json={}, headers=headers).status_code == 403, path
    assert is_in(client)


def test_gate_needs_both_a_passphrase_and_a_place_for_sessions(keeper, devices):
    with pytest.raises(ValueError, match="place for its sessions"):
        Gate(keeper)
    with pytest.raises(ValueError, match="place for its sessions"):
        Gate(devices=devices)


def test_book_without_gate_answers_only_this_machine(open_book):
    client = make_app(open_book).server.test_client()
    assert client.get("/position").status_code == 200
    assert client.get("/position", headers={"Host": "192.168.1.9:8050"}).status_code == 403
