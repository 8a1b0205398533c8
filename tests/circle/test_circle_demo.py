"""`croftbook circle demo`: from nothing to a page."""

from __future__ import annotations

import json

from circle_tools import call_of

from ledger import Book
from ledger.circle import Circle
from ledger.circle.reckon import figures_of
from ledger.cli import main
from seed_demo import circle as sample


def test_demo_goes_from_books_to_a_page(tmp_path, capsys, fixed_day):
    where = tmp_path / "class"
    assert main(["circle", "demo", "--households", "10", "--out", str(where)]) == 0
    out, err = capsys.readouterr()
    said = json.loads(out.splitlines()[-1])
    assert (said["households"], said["page"]) == (10, str(where / "release.html"))
    assert max(map(len, out.splitlines()[:-1])) <= 80
    assert "10 sheets gathered" in err
    assert sample.NAME in (where / "release.html").read_text("utf-8")
    assert len(list((where / "books").glob("*.sqlite"))) == 10
    with Book.open(where / "books" / "004.sqlite", create=False) as book:
        assert book.check().is_whole
        held = Circle(where / "group").held()
        assert figures_of(book, sample.call_for(2026)) in [one.figures for one in held]
    assert main(["circle", "demo", "--households", "10", "--out", str(where)]) == 2


def test_sample_season_is_one_that_is_over(fixed_day):
    import datetime as dt

    assert sample.last_season(dt.date(2026, 10, 31)) == 2025
    assert sample.last_season(dt.date(2026, 11, 1)) == 2026


def test_drawn_sheets_are_sheets(tmp_path):
    circle = Circle.begin(tmp_path / "g", call_of())
    cards = circle.cards(200)
    (tmp_path / "all").write_bytes(b"".join(sample.sheets(circle.call, cards, 3)))
    done = circle.gather([tmp_path / "all"])
    assert (done.taken, done.refused) == (200, [])
    middle = sorted(one.figures["p1_minutes"] for one in circle.held())[100]
    assert 18 <= middle <= 36  # what they were drawn around
