"""Whoever guesses waits, and nobody else; the passphrase is kept hashed."""

from __future__ import annotations

import pytest
from door_tools import WORDS

from dashboard.gate import Keeper
from dashboard.gate.waits import Waits, network_of
from ledger import InputError


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
