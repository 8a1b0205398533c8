"""The calendar file: read back with a general calendar library, and kept in place by its ids."""

from __future__ import annotations

import datetime as dt

import pytest
from freezegun import freeze_time
from icalendar import Calendar

from ledger import Book
from ledger.calendar_file import uid_of, write_calendar
from ledger.cli import main
from ledger.errors import InputError
from ledger.questions.month_by_month.question import Doing

TODAY = "2026-11-01 12:00:00"


def day(text):
    return (dt.date.fromisoformat(text) - dt.date(1970, 1, 1)).days


def events(path):
    return {str(e["UID"]): e for e in Calendar.from_ical(path.read_bytes()).walk("VEVENT")}


@pytest.fixture
def garden(tmp_path):
    where = tmp_path / "book.sqlite"
    with freeze_time(TODAY), Book.open(where) as book:
        book.write("planted", {"crop": "tomato", "plants": 20, "row": "20 ft"}, on="2026-05-20")
        book.write("frost_seen", {"frost": "last of spring", "seen": "2026-05-10"}, on="2026-05-10")
        book.write("frost_seen", {"frost": "first of fall", "seen": "2026-10-01"}, on="2026-10-01")
        milk = {
            "item": "milk",
            "sort": "food",
            "measure": "volume",
            "food": "01077",
            "keeps": {"fridge": "10 days"},
        }
        book.write("item_described", milk, on="2026-10-01")
        book.write(
            "bought",
            {"lines": [{"item": "milk", "amount": "1 l", "paid": "1", "kept": "fridge"}]},
            on="2026-10-30",
        )
        book.write("gauge_tested", {"gauge": "dial", "reads": "0"}, on="2026-06-01")
    return where


def test_calendar_is_written_and_read_back(garden, tmp_path, capsys):
    file = tmp_path / "household.ics"
    with freeze_time(TODAY):
        assert main(["calendar", str(file), "--book", str(garden)]) == 0
    assert " new, 0 changed, 0 cancelled, 0 as they were" in capsys.readouterr().out
    calendar = Calendar.from_ical(file.read_bytes())
    assert calendar["VERSION"] == "2.0"
    found = {str(e["SUMMARY"]): e for e in calendar.walk("VEVENT")}
    start = found["Start tomato indoors"]
    assert start["DTSTART"].dt == dt.date(2027, 3, 15)  # METHODS 5: 15 to 29 March
    assert start["DTEND"].dt == dt.date(2027, 3, 30)
    assert found["Eat milk: its last day"]["DTSTART"].dt == dt.date(2026, 11, 9)
    assert found["Have the gauge of dial tested"]["DTSTART"].dt == dt.date(2027, 6, 1)
    assert "croftbook why when-to-sow/2027/0.1/tomato" in str(start["DESCRIPTION"])


def test_written_again_nothing_changes(garden, tmp_path, capsys):
    file = tmp_path / "household.ics"
    with freeze_time(TODAY) as clock:
        main(["calendar", str(file), "--book", str(garden)])
        before = file.read_bytes()
        clock.tick(3600)
        main(["calendar", str(file), "--book", str(garden)])
    assert file.read_bytes() == before
    assert "0 new, 0 changed, 0 cancelled" in capsys.readouterr().out.splitlines()[-1]


def test_a_changed_day_keeps_its_id(garden, tmp_path):
    file = tmp_path / "household.ics"
    with freeze_time(TODAY):
        main(["calendar", str(file), "--book", str(garden)])
        before = events(file)
        with Book.open(garden) as book:
            book.write(
                "frost_seen", {"frost": "last of spring", "seen": "2025-05-24"}, on="2026-10-31"
            )
        main(["calendar", str(file), "--book", str(garden)])
    after = events(file)
    uid = next(
        u
        for u, e in before.items()
        if "indoors" in str(e["SUMMARY"]) and "Start" in str(e["SUMMARY"])
    )
    assert after[uid]["DTSTART"].dt == dt.date(2027, 3, 29)
    assert (int(before[uid]["SEQUENCE"]), int(after[uid]["SEQUENCE"])) == (0, 1)
    assert set(before) <= set(after)


def test_what_is_no_longer_to_be_done_is_cancelled_and_what_is_not_ours_stays(tmp_path):
    file = tmp_path / "household.ics"
    own = Doing(day("2027-05-01"), None, "sowing", "sow beans", "out/bean/2027", None)
    other = (
        b"BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//x//EN\r\nBEGIN:VEVENT\r\nUID:dentist@elsewhere\r\n"
        b"DTSTAMP:20260101T000000Z\r\nDTSTART;VALUE=DATE:20270102\r\nSUMMARY:Dentist\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n"
    )
    file.write_bytes(other)
    with freeze_time(TODAY):
        assert write_calendar(file, "book", [own]).new == 1
        done = write_calendar(file, "book", [])
        assert (done.cancelled, done.new) == (1, 0)
        found = events(file)
        assert str(found[uid_of("book", own.id)]["STATUS"]) == "CANCELLED"
        assert str(found["dentist@elsewhere"]["SUMMARY"]) == "Dentist"
        back = write_calendar(file, "book", [own])
        assert back.changed == 1
        assert "STATUS" not in events(file)[uid_of("book", own.id)]


def test_a_file_that_is_no_calendar_is_refused_and_kept(tmp_path):
    file = tmp_path / "notes.ics"
    file.write_text("not a calendar")
    with pytest.raises(InputError, match="no calendar"):
        write_calendar(file, "book", [])
    assert file.read_text() == "not a calendar"
    with pytest.raises(InputError):
        write_calendar(tmp_path / "no" / "such.ics", "book", [])


@pytest.mark.parametrize(
    ("args", "said"),
    [
        (["plan.txt"], "file: "),
        (["plan.ics", "--months", "0"], "months: "),
        (["plan.ics", "--risk", "7"], "risk: "),
    ],
)
def test_bad_words_are_refused(garden, tmp_path, capsys, monkeypatch, args, said):
    monkeypatch.chdir(tmp_path)
    with freeze_time(TODAY):
        assert main(["calendar", *args, "--book", str(garden)]) == 2
    assert said in capsys.readouterr().err
    assert not list(tmp_path.glob("plan.*"))


def test_ids_are_those_of_the_book():
    assert uid_of("one", "gauge/dial/2027") == uid_of("one", "gauge/dial/2027")
    assert uid_of("one", "gauge/dial/2027") != uid_of("two", "gauge/dial/2027")
