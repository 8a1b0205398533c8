"""Sessions are rows: they end when they are ended, device by device, and are never taken over."""

from __future__ import annotations

import datetime as dt
import sqlite3
import stat

import pytest
from door_tools import WORDS
from freezegun import freeze_time
from gate_tools import COOKIES, HTML, PHONE, is_in

from dashboard.app import make_app
from dashboard.gate import Keeper
from dashboard.gate.entrance import device_name

OTHER = "eight pears on a plate"


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
