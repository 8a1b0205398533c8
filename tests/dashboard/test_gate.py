"""The gate: nothing without the passphrase, under another name or from elsewhere; sessions end when they are ended."""

from __future__ import annotations

import datetime as dt
import sqlite3
import stat

import pytest
from freezegun import freeze_time

from dashboard.app import make_app
from dashboard.away.open import OPEN
from dashboard.gate import Devices, Gate, Keeper
from dashboard.gate.entrance import device_name
from dashboard.gate.waits import Waits, network_of
from dashboard.look import FONT, SHEET
from ledger import Book, InputError

WORDS = "seven plums in a row"
OTHER = "eight pears on a plate"
PHONE = "Mozilla/5.0 (Linux; Android 15) AppleWebKit/537.36 Chrome/140.0 Mobile Safari/537.36"
COOKIES = ("croftbook", "croftbook-device")
HTML = {"Accept": "text/html,application/xhtml+xml"}


@pytest.fixture
def keeper(tmp_path):
    keeper = Keeper(tmp_path / "gate.json")
    keeper.set(WORDS)
    return keeper


@pytest.fixture
def devices(tmp_path):
    devices = Devices(tmp_path / "data" / "devices.sqlite")
    yield devices
    devices.close()


@pytest.fixture
def gate(keeper, devices):
    return Gate(keeper, devices, ["kitchen.local"])


@pytest.fixture
def open_book(tmp_path):
    with Book.open(tmp_path / "book.sqlite") as book:
        yield book


@pytest.fixture
def app(open_book, gate):
    return make_app(open_book, gate=gate)


@pytest.fixture
def client(app):
    return app.server.test_client()


@pytest.fixture
def signed_in(app):
    """Return a function that gives one more browser, signed in."""

    def start(agent=PHONE, passphrase=WORDS, **more):
        client = app.server.test_client()
        said = {"passphrase": passphrase}
        answer = client.post("/enter", data=said, headers={"User-Agent": agent}, **more)
        assert answer.status_code == 303, answer.text
        return client

    return start


def is_in(client):
    return client.get("/position").status_code == 200


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


# Sessions are rows, and end


def test_secrets_are_stored_as_digests_in_a_file_of_their_owners(devices, signed_in):
    client = signed_in()
    secrets = [client.get_cookie(name).value for name in COOKIES]
    assert all(len(one) >= 43 for one in secrets)  # 256 bits
    raw = devices.path.read_bytes()
    assert all(one.encode() not in raw for one in secrets)
    assert stat.S_IMODE(devices.path.stat().st_mode) == 0o600
    assert stat.S_IMODE(devices.path.parent.stat().st_mode) == 0o700
    with sqlite3.connect(devices.path) as file:
        assert file.execute("SELECT count(*) FROM sessions").fetchone() == (1,)
    file.close()


def test_leaving_ends_the_session_for_good(signed_in):
    client = signed_in()
    kept = client.get_cookie("croftbook").value
    other = signed_in()
    answer = client.post("/leave")
    assert answer.headers["Location"] == "/enter"
    assert client.get_cookie("croftbook") is None
    client.set_cookie("croftbook", kept)  # as somebody would who copied it
    assert not is_in(client)
    assert is_in(other)


def test_new_passphrase_ends_every_session_at_once(keeper, tmp_path, signed_in):
    clients = [signed_in() for _ in range(3)]
    assert all(is_in(one) for one in clients)
    Keeper(tmp_path / "gate.json").set(OTHER)  # another program, beside the running server
    assert not any(is_in(one) for one in clients)
    keeper.set(WORDS)  # the old one again lets nobody back
    assert not any(is_in(one) for one in clients)


def test_no_passphrase_lets_nobody_in(keeper, client, signed_in):
    before = signed_in()
    keeper.path.unlink()
    assert not is_in(before)
    assert client.post("/enter", data={"passphrase": ""}).status_code == 401
    keeper.path.write_text("[]")
    assert not is_in(before)
    assert client.post("/enter", data={"passphrase": WORDS}).status_code in (401, 429)


def test_sessions_end_by_themselves_when_unused(signed_in):
    with freeze_time("2026-06-01 12:00:00") as clock:
        client = signed_in()
        for _ in range(5):  # used now and then it goes on
            clock.tick(dt.timedelta(days=20))
            assert is_in(client)
        clock.tick(dt.timedelta(days=31))
        assert not is_in(client)
        clock.move_to("2026-09-10")
        assert not is_in(client)


def test_a_session_that_was_planted_is_not_taken_over(client, devices):
    """Fixation: whatever a browser brings along, signing in gives it secrets that nobody had before."""
    planted = {"croftbook": "known to the attacker", "croftbook-device": "this one too"}
    for name, value in planted.items():
        client.set_cookie(name, value)
    assert client.post("/enter", data={"passphrase": WORDS}).status_code == 303
    for name, value in planted.items():
        assert client.get_cookie(name).value != value
    thief = client.application.test_client()
    for name, value in planted.items():
        thief.set_cookie(name, value)
    assert not is_in(thief)


def test_signing_in_anew_replaces_the_devices_earlier_session(signed_in, devices, keeper):
    client = signed_in()
    old = client.get_cookie("croftbook").value
    client.post("/enter", data={"passphrase": WORDS})
    assert is_in(client)
    client.set_cookie("croftbook", old)
    assert not is_in(client)
    assert len(devices.all(keeper.stamp)) == 1


@pytest.mark.parametrize(
    "value",
    [
        "",
        "1",
        "true",
        "eyJpbiI6dHJ1ZX0.aMzq3g.0000",
        "' OR 1=1 --",
        "\x00",
        "a" * 4_000,
        "None",
        "é",
        "*",
    ],
)
def test_forged_cookies_let_nobody_in(signed_in, client, value):
    signed_in()
    for name in (*COOKIES, "session", "__Host-croftbook"):
        client.set_cookie(name, value)
    assert not is_in(client)
    assert client.get("/enter").status_code == 200


def test_device_secret_is_no_session(signed_in, client):
    mine = signed_in()
    client.set_cookie("croftbook", mine.get_cookie("croftbook-device").value)
    client.set_cookie("croftbook-device", mine.get_cookie("croftbook-device").value)
    assert not is_in(client)


# The list of devices


def test_devices_are_listed_and_signed_out_one_by_one(signed_in, devices, keeper):
    phone = signed_in(PHONE)
    desk = signed_in("Mozilla/5.0 (X11; Linux x86_64; rv:140.0) Gecko/20100101 Firefox/140.0")
    page = phone.get("/devices", headers=HTML).text
    assert "Android, Chrome" in page
    assert "Linux, Firefox" in page
    assert page.count("this device") == 1
    there = {one.name: one for one in devices.all(keeper.stamp)}
    assert (
        phone.post("/devices/out", data={"device": there["Linux, Firefox"].id}).status_code == 303
    )
    assert not is_in(desk)
    assert is_in(phone)
    assert "Firefox" not in phone.get("/devices").text
    assert (
        desk.post("/enter", data={"passphrase": WORDS}).status_code == 303
    )  # it comes back with it


def test_all_others_are_signed_out(signed_in):
    clients = [signed_in() for _ in range(4)]
    clients[1].post("/devices/out", data={"device": "others"})
    assert [is_in(one) for one in clients] == [False, True, False, False]


@pytest.mark.parametrize("said", ["", "x", "-1", "0", "9" * 30, "1 OR 1=1", "٣", "other"])
def test_devices_that_are_none_change_nothing(signed_in, said):
    client = signed_in()
    assert client.post("/devices/out", data={"device": said}).status_code == 303
    assert is_in(client)


def test_device_names_are_escaped(signed_in):
    page = signed_in("<script>alert(1)</script>").get("/devices").text
    assert "<script>" not in page
    assert device_name("<script>Firefox") == "Firefox"
    assert device_name("") == ""


def test_left_device_stays_listed_and_can_be_forgotten(signed_in, devices, keeper):
    gone, here = signed_in(), signed_in()
    gone.post("/leave")
    page = here.get("/devices").text
    assert "Not signed in" in page
    assert "Forget" in page
    assert [one.is_in for one in devices.all(keeper.stamp)].count(False) == 1


def test_local_book_has_nobody_to_sign_out(open_book):
    client = make_app(open_book).server.test_client()
    assert "nobody signs in" in client.get("/devices").text
    assert client.get("/enter").headers["Location"] == "/"
    assert client.post("/devices/out", data={"device": "1"}).status_code == 302
    assert client.post("/leave").status_code == 302


# Waiting


def guess(client, address, text="plums"):
    told = {"REMOTE_ADDR": address}
    return client.post("/enter", data={"passphrase": text}, environ_overrides=told)


def test_wrong_words_are_slowed_down_by_address(client):
    assert guess(client, "192.168.1.66").status_code == 401
    waits = guess(client, "192.168.1.66")
    assert waits.status_code == 429
    assert int(waits.headers["Retry-After"]) >= 1
    assert "other devices need not wait" in waits.text
    assert (
        guess(client, "192.168.1.66", WORDS).status_code == 429
    )  # the right one, too, has to wait
    assert guess(client, "192.168.1.10", WORDS).status_code == 303  # nobody else has


def test_known_device_is_not_slowed_by_a_stranger_at_its_own_address(signed_in, client):
    phone = signed_in()
    phone.post("/leave")
    for _ in range(6):
        guess(client, "127.0.0.1")
    assert guess(client, "127.0.0.1", WORDS).status_code == 429
    assert guess(phone, "127.0.0.1", WORDS).status_code == 303


def test_known_device_waits_for_its_own_mistakes(signed_in):
    phone = signed_in()
    assert guess(phone, "127.0.0.1").status_code == 401
    assert guess(phone, "10.0.0.9", WORDS).status_code == 429  # wherever it goes


def test_waits_double_to_a_minute_and_are_forgotten():
    now = [0.0]
    waits = Waits(lambda: now[0])
    said = []
    for _ in range(10):
        assert waits.begin("a") == 0
        said.append(round(waits.begin("a")))
        now[0] += said[-1]
    assert said == [1, 1, 2, 4, 8, 16, 32, 60, 60, 60]
    assert waits.begin("b") == 0
    now[0] += 4000
    assert waits.begin("a") == 0
    assert round(waits.begin("a")) == 1
    waits.right("a")
    assert waits.begin("a") == 0


def test_waits_keep_bounded_memory():
    waits = Waits()
    for n in range(20_000):
        waits.begin(f"address {n}")
    assert len(waits._kept) <= 10_000


@pytest.mark.parametrize(
    ("address", "stands_for"),
    [
        ("192.168.1.7", "192.168.1.7"), ("2001:db8:1:2:3:4:5:6", "2001:db8:1:2::/64"), ("::ffff:10.0.0.1", "10.0.0.1"),
        ("fe80::1%eth0", "fe80::/64"), (None, "elsewhere"), ("what", "elsewhere"),
    ],
)  # fmt: skip
def test_networks(address, stands_for):
    assert network_of(address) == stands_for


def test_passphrase_is_stored_hashed_and_only_for_its_owner(
    keeper, recommended_hasher, monkeypatch
):
    monkeypatch.setattr(Keeper, "hasher", recommended_hasher)
    keeper.set(WORDS)
    text = keeper.path.read_text()
    assert "m=65536,t=3,p=4" in text  # RFC 9106, section 4: the second recommended option
    assert keeper.fits(WORDS)
    assert WORDS not in text
    assert "$argon2id$" in text
    assert keeper.path.stat().st_mode & 0o077 == 0
    with pytest.raises(InputError, match="fewer than"):
        keeper.set("short")
    with pytest.raises(InputError, match="more than"):
        keeper.set("long" * 300)
    assert not keeper.fits("x" * 1_000_000)


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
