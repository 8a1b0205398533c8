"""What waited on a phone comes through the door as any entry: once, in its order, of the day on which it was typed."""

from __future__ import annotations

import uuid

import pytest

from dashboard.app import make_app
from dashboard.gate import Devices, Gate, Keeper
from ledger import Answers
from ledger.errors import BookUnreachable

TYPED = {"day": "2026-09-02", "at": "2026-09-02T07:30:00.000Z"}
HOME = {"base_url": "http://127.0.0.1"}


@pytest.fixture
def client(book, fixed_day):
    return make_app(book).server.test_client()


def form(*boxes, kind="harvested", when="2026-09-02", **more):
    said = [[field, row, text] for field, row, text in boxes]
    return {
        "id": str(uuid.uuid4()),
        **TYPED,
        "form": {"kind": kind, "when": when, "boxes": said, **more},
    }


def said(text, **more):
    return {"id": str(uuid.uuid4()), **TYPED, "said": {"text": text, **more}}


def send(client, *entries):
    answer = client.post("/waiting", json={"entries": entries}, **HOME)
    assert answer.status_code == 200, answer.text
    return answer.json["done"]


def lines(book):
    rows = [row for row in book.history(newest_first=False) if row.kind != "item_described"]
    return [(row.on, row.line) for row in rows]


def test_in_order_each_once_however_often_it_is_sent(client, book):
    entries = [
        form(("lines", 0, "31 lb plums")),
        said("picked 3 lb pears yesterday"),
        form(("lines", 0, "2 lb plums")),
    ]
    first = send(client, *entries)
    assert [one["state"] for one in first] == ["written"] * 3
    expected = [
        ("2026-09-02", "picked 31 lb plums"),
        ("2026-09-01", "picked 3 lb pear"),
        ("2026-09-02", "picked 2 lb plums"),
    ]
    assert lines(book) == expected
    assert {one["state"] for one in send(client, *entries)} == {"again"}
    assert {one["state"] for one in send(client, *reversed(entries))} == {"again"}
    assert lines(book) == expected
    assert book.log.get(entries[0]["id"]).typed_at == TYPED["at"]


def test_friday_is_the_friday_before_the_day_on_which_it_was_typed(client, book):
    assert send(client, form(("lines", 0, "3 lb plums"), when="friday"))[0]["state"] == "written"
    assert lines(book) == [("2026-08-28", "picked 3 lb plums")]


def test_what_stays_open_is_asked_and_those_behind_it_wait(client, book):
    first, asked, behind = (
        said("picked 3 lb plums"),
        said("picked 7 lb plums / 3 lb -"),
        said("picked 5 lb plums"),
    )
    done = send(client, first, asked, behind)
    assert [one["state"] for one in done] == ["written", "asks"]
    assert len(lines(book)) == 1
    question = done[1]["asked"][0]
    assert question["text"]
    asked["said"]["settling"] = [question["chips"][1]["answer"]]
    assert [one["state"] for one in send(client, asked, behind)] == ["written", "written"]
    assert [line for _, line in lines(book)] == [
        "picked 3 lb plum",
        "picked 7 lb plum",
        "picked 5 lb plum",
    ]


def test_a_doubt_of_a_form_is_asked_with_its_answer(client, book):
    book.write("harvested", {"item": "plum", "amount": "31 lb"}, on="2026-09-01")
    slip = form(("lines", 0, "3 lb plumb"))
    (done,) = send(client, slip)
    assert done["state"] == "asks"
    assert len(lines(book)) == 1
    slip["form"]["accepted"] = [done["asked"][0]["chips"][0]["answer"]]
    assert send(client, slip)[0]["state"] == "written"
    assert send(client, slip)[0]["state"] == "again"


def test_a_conflict_is_said(client, book):
    written = book.write("harvested", {"item": "plum", "amount": "31 lb"}, on="2026-09-01")
    correction = form(("lines", 0, "13 lb plum"), replaces=written.event.id)
    book.strike(written.event.id, "written twice")
    (done,) = send(client, correction)
    assert done["state"] in (
        "refused",
        "written",
    )  # either restores it, as on the page, or says why not
    other = {**form(("lines", 0, "99 lb pear")), "id": written.event.id}
    (done,) = send(client, other)
    assert done["state"] == "refused"
    assert "already in the book" in done["said"]
    wrong = send(client, form(("lines", 0, "3 c plums")))[0]
    assert (wrong["state"], "not a unit" in wrong["said"]) == ("refused", True)


def test_a_book_that_is_away_keeps_the_queue(client, book, monkeypatch):
    def away(*_args, **_more):
        raise BookUnreachable("postgresql://x cannot be reached")

    monkeypatch.setattr(type(book), "enter_all", away)
    answer = client.post("/waiting", json={"entries": [form(("lines", 0, "3 lb plums"))]}, **HOME)
    assert answer.status_code == 503
    monkeypatch.undo()
    assert lines(book) == []


@pytest.mark.parametrize(
    "raw",
    [
        b"", b"[]", b"{}", b'{"entries": [{}]}', b'{"entries": 3}', b"\xff\xfe",
        b'{"entries": [{"id": "x", "day": "2026-09-02", "at": "", "said": {"text": "a"}}]}',
        b'{"entries": [{"id": "00000000-0000-4000-8000-000000000000", "day": "2026-13-02", "at": "", "said": {"text": "a"}}]}',
        b'{"entries": [{"id": "00000000-0000-4000-8000-000000000000", "day": "2026-09-02", "at": ""}]}',
    ],
)  # fmt: skip
def test_anything_else_is_refused_whole(client, book, raw):
    answer = client.post("/waiting", data=raw, content_type="application/json", **HOME)
    assert answer.status_code == 400
    assert answer.json["said"]
    assert book.log.position() == 0


def test_it_is_behind_the_same_gate_as_forms(book, tmp_path, fixed_day):
    keeper = Keeper(tmp_path / "gate.json")
    keeper.set("seven plums in a row")
    client = make_app(
        book, gate=Gate(keeper, Devices(tmp_path / "devices.sqlite"))
    ).server.test_client()
    entry = {"entries": [form(("lines", 0, "3 lb plums"))]}
    assert client.post("/waiting", json=entry, **HOME).status_code == 401
    client.post("/enter", data={"passphrase": "seven plums in a row"}, **HOME)
    elsewhere = client.post(
        "/waiting", json=entry, headers={"Origin": "http://elsewhere.example"}, **HOME
    )
    assert elsewhere.status_code == 403
    assert book.log.position() == 0
    answer = client.post("/waiting", json=entry, headers={"Origin": "http://127.0.0.1"}, **HOME)
    assert answer.json["done"][0]["state"] == "written"
    for path in (
        "/croftbook.webmanifest",
        "/worker.js",
        "/sign.svg",
    ):  # asked for without a session
        other = make_app(
            book, gate=Gate(keeper, Devices(tmp_path / "devices.sqlite"))
        ).server.test_client()
        assert other.get(path, **HOME).status_code == 200
        assert "plum" not in other.get(path, **HOME).text


def tap(act, key="canned plum\x1fpint jar", **more):
    return {"id": str(uuid.uuid4()), **TYPED, "shelf": {"act": act, "key": key, **more}}


def test_taps_on_the_shelf_are_written_once_in_their_order(client, book):
    yes = Answers(yes=True)
    book.write("received", item="plum", amount="40 lb", how="gift", on="2026-08-20", answers=yes)
    body = {"makes": "canned plum", "method": "boiling water", "minutes": "25", "pack": "hot",
            "used": [{"item": "plum", "amount": "10 lb"}],
            "made": [{"jars": 5, "jar": "pint jar", "kept": "shelf"}]}  # fmt: skip
    book.write("put_up", body, on="2026-08-20", answers=yes)
    taps = [tap("opens"), tap("back"), tap("back"), tap("opens", "quince\x1fpint jar")]
    done = []
    for one in taps:  # each may be asked about, as at the table
        (said_,) = send(client, one)
        while said_["state"] == "asks":
            one["shelf"].setdefault("accepted", []).append(said_["asked"][0]["chips"][0]["answer"])
            (said_,) = send(client, one)
        done.append(said_["state"])
    assert done == ["written", "written", "refused", "refused"]
    opened = [(row.state, row.on) for row in book.history(kind="eaten")]
    assert opened == [("struck", "2026-09-02")]
    assert send(client, taps[0])[0]["state"] == "again"
    assert send(client, taps[1])[0]["state"] == "again"
    assert len(book.history(kind="struck")) == 1


@pytest.mark.parametrize(
    "shelf", [{"act": "eat", "key": "a\x1fb"}, {"act": "opens", "key": "plum"}]
)
def test_a_tap_that_names_no_board_is_none(client, shelf):
    entry = {"id": str(uuid.uuid4()), **TYPED, "shelf": shelf}
    assert client.post("/waiting", json={"entries": [entry]}, **HOME).status_code == 400
