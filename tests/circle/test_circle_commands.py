"""The commands of a circle as typed, at home and in the group."""

from __future__ import annotations

import json

import pytest
from circle_tools import write_season

from ledger import Book
from ledger.cli import main

BEGIN = [
    "--name", "Hill class", "--season", "2026", "--from", "2026-01-01", "--to", "2026-10-31",
    "--before-from", "2025-01-01", "--before-to", "2025-10-31", "--crop", "tomato", "--zone", "5", "--zone", "6",
    "--product", "plum butter/boiling water",
]  # fmt: skip


@pytest.fixture
def say(capsys, fixed_day, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)

    def go(*words):
        status = main(["circle", *map(str, words)])
        return status, *capsys.readouterr()

    return go


@pytest.fixture
def home(say, tmp_path):
    """A group begun, a card, and a household's book."""
    assert say("begin", "group", *BEGIN)[0] == 0
    with Book.open(tmp_path / "home.sqlite") as book:
        write_season(book)
    _, out, _ = say("cards", "group", 3)
    return out.split()


def test_from_call_to_gathered_sheet(say, home, tmp_path):
    card = home[0]
    made = ("sheet", "group/call.json", "--card", card, "--zone", "5", "--out", "s.json", "--book", "home.sqlite")  # fmt: skip
    status, out, err = say(*made)
    assert (status, out) == (2, "")
    assert "nobody is here to say yes, and nothing was written" in err
    assert not (tmp_path / "s.json").exists()
    status, out, err = say(*made, "--yes")
    assert status == 0, err
    assert json.loads(out) == {"written": "s.json", "figures": 29}
    for text in ("Cost a quart", "3.56 USD", "These figures and nothing else leave this household"):
        assert text in err
    status, out, _ = say("gather", "group", "s.json", "nothing.json")
    assert (status, json.loads(out)) == (1, {"taken": 1, "refused": 1, "withdrawn": 0})
    assert say("sheets", "group")[1] == (tmp_path / "s.json").read_text()
    assert say("withdraw", "group/call.json", "--card", card, "--out", "w.json")[0] == 0
    status, out, _ = say("gather", "group", "w.json")
    assert (status, json.loads(out)) == (0, {"taken": 0, "refused": 0, "withdrawn": 1})
    assert say("sheets", "group")[1] == ""


def test_sheet_is_said_in_german(say, home):
    status, _, err = say("sheet", "group/call.json", "--card", home[0], "--zone", "5", "--out", "s.json", "--yes",
                         "--book", "home.sqlite", "--language", "de")  # fmt: skip
    assert status == 0
    assert "Ansätze" in err
    assert "Diese Zahlen und nichts anderes" in err


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("sheet group/call.json --card ABC --zone 5 --out s.json", "card: this is no card"),
        ("sheet group/call.json --card {} --zone 9 --out s.json", "zone: '9' is none of this group"),
        ("sheet home.sqlite --card {} --zone 5 --out s.json", "call: home.sqlite is no JSON"),
        ("sheet none.json --card {} --zone 5 --out s.json", "call: there is no file none.json"),
        ("sheet group/call.json --card {} --zone 5 --out home.sqlite --yes", "out: home.sqlite is there"),
        ("begin group --name N --season 2026 --from 2026-01-01 --to 2026-02-01 --zone 5", "folder: group is not empty"),
        ("begin new --name N --season 2020 --from 2026-01-01 --to 2026-02-01 --zone 5", "season: 2020 is no year"),
        ("begin new --name N --season 2026 --from 2026-01-01 --to 2026-02-01 --zone 5 --before-to 2025-01-01", "before-from: is missing"),
        ("cards group 0", "number: 0 cards cannot be made"),
        ("cards nowhere 3", "folder: nowhere holds no group"),
    ],
)  # fmt: skip
def test_bad_input_is_two_and_one_sentence(say, home, tmp_path, line, said):
    before = (tmp_path / "home.sqlite").read_bytes()
    words = line.format(home[0]).split()
    status, out, err = say(*words, *(["--book", "home.sqlite"] if words[0] == "sheet" else []))
    assert (status, out) == (2, ""), err
    assert f"croftbook: {said}" in err
    assert "Traceback" not in err
    assert not (tmp_path / "s.json").exists()
    assert not (tmp_path / "new").exists()
    assert (tmp_path / "home.sqlite").read_bytes() == before


def test_tell_page_budget_and_beside(say, tmp_path):
    from ledger.circle import Circle
    from seed_demo import circle as sample

    assert say("begin", "group", *BEGIN)[0] == 0
    circle = Circle("group")
    (tmp_path / "all").write_bytes(b"".join(sample.sheets(circle.call, circle.cards(40))))
    assert say("gather", "group", "all")[0] == 0
    status, out, err = say("tell", "group", "--out", "r.json", "--page", "r.html")
    assert status == 0, err
    assert json.loads(out.splitlines()[-1])["households"] == 40
    assert max(map(len, out.splitlines()[:-1])) <= 80
    assert say("page", "r.json", "--out", "again.html")[0] == 0
    assert (tmp_path / "again.html").read_bytes() == (tmp_path / "r.html").read_bytes()
    first = (tmp_path / "r.json").read_bytes()
    assert say("tell", "group", "--out", "r.json")[0] == 0
    assert (tmp_path / "r.json").read_bytes() == first
    assert say("tell", "group", "--out", "r.csv", "--csv")[0] == 0
    assert (tmp_path / "r.csv").read_text().startswith("figure,product,method,crop,zone,n,low")
    status, out, err = say("tell", "group", "--out", "p.json", "--private")
    assert (status, out) == (2, "")
    assert not (tmp_path / "p.json").exists()
    assert json.loads(say("budget", "group")[1]) == {"epsilon_spent": 0.0, "epsilon_left": 1.0}
    with Book.open(tmp_path / "home.sqlite") as book:
        write_season(book)
    words = ("beside", "r.json", "group/call.json", "--zone", "5", "--book", "home.sqlite", "--out", "o.html")  # fmt: skip
    status, out, err = say(*words)
    assert status == 0, err
    assert "3.56 USD" in out
    assert "yours: 3.56 USD" in (tmp_path / "o.html").read_text("utf-8")
    assert "3.56" not in (tmp_path / "r.html").read_text("utf-8")
    status, out, _ = say(*words[:-2], "--language", "de")
    assert "Eures" in out


def test_nothing_is_spent_where_the_release_cannot_be_written(say, tmp_path):
    assert say("begin", "group", *BEGIN)[0] == 0
    (tmp_path / "letter.txt").write_text("dear")
    for out in ("letter.txt", "no/such/folder.json", "."):
        status, _, err = say("tell", "group", "--out", out)
        assert (status, "out: " in err) == (2, True), err
    assert (tmp_path / "letter.txt").read_text() == "dear"
