"""Signs of spoilage told of a jar: a caution before the question, the door's question, and the way to throw out.

Which signs, and how such a jar is thrown out: University of Missouri Extension, "I have found that some of my home-canned
food is spoiled" (2009), and Clemson Extension, "Discarding Spoiled Canned Foods Safely", both after the USDA guide.
"""

from __future__ import annotations

import pytest

from ledger import Answers, Book
from ledger.cli import main
from ledger.door import Entry
from ledger.errors import DANGER, NeedsAnswer
from ledger.saying.entries import entries_of
from ledger.saying.known import Known
from ledger.saying.reading import read

TRASH = "in a strong, closed bag into the rubbish"


@pytest.fixture
def run(place, capsys):
    """Run a command off a terminal; return its status and all that it said."""

    def go(*words):
        status = main([*words, "--book", place])
        return status, "".join(reversed(capsys.readouterr()))

    return go


@pytest.fixture
def place(tmp_path, fixed_day):
    path = str(tmp_path / "book.sqlite")
    with Book.open(path) as book:
        used = {"item": "green bean", "amount": "14 lb"}
        book.write(
            "put_up", makes="canned green beans", method="pressure", minutes=25, used=[used],
            made=[{"jars": 7, "jar": "quart jar"}], on="2026-07-01", answers=Answers(yes=True),
        )  # fmt: skip
        book.write(
            "put_up", makes="plum jam", method="boiling water", minutes=10, on="2026-07-02",
            used=[{"item": "plum", "amount": "9 lb"}], made=[{"jars": 9, "jar": "half-pint jar"}],
            answers=Answers(yes=True),
        )  # fmt: skip
    return path


def reading_of(place, text):
    with Book.open(place) as book:
        return read(text, Known(book.catalogue(), book.today(), book.log))


def asked(place, text):
    """Return the codes that the door asks of what a text says, and the first question."""
    codes, questions = [], []
    with Book.open(place) as book:
        reading = read(text, Known(book.catalogue(), book.today(), book.log))

        def take(doubt):
            codes.append(doubt.code)
            questions.append(doubt.question)
            return True

        for entry in entries_of(book.catalogue(), reading):
            book.ask(entry, Answers(ask=take), usual=False)
    return codes, questions


@pytest.mark.parametrize(
    ("text", "kind", "note"),
    [
        ("ate 1 quart of canned green beans with a bulging lid", "eaten", "with a bulging lid"),
        ("ate a quart of canned green beans, the lid was bulging", "eaten", "the lid was bulging"),
        ("opened a jar of canned green beans, it hissed and spurted", "eaten", "hissed and spurted"),
        ("had 1 jar of canned green beans that was leaking", "eaten", "that was leaking"),
        ("served 1 quart of canned green beans for 6, cloudy brine", "eaten", "cloudy brine"),
        ("opened 1 quart canned green beans, smelled off", "eaten", "smelled off"),
        ("ate moldy plum jam, 1 half pint", "eaten", "moldy"),
        ("scraped the mould off 1 half-pint plum jam and ate it", "eaten", "scraped the mould off"),
        ("tasted a jar of canned green beans, foamy", "eaten", "foamy"),
        ("ate 1 quart canned green beans, seal was broken", "eaten", "seal was broken"),
        ("gave 2 jars of canned green beans to Ann, one lid was bulging", "given_away", "one lid was bulging"),
        ("fed a bulging quart of canned green beans to the hens", "discarded", "bulging; to the hens"),
        ("composted 1 quart canned green beans, fizzing", "discarded", "fizzing"),
        ("counted 5 quarts canned green beans, one bulging", "counted", "one bulging"),
    ],
)  # fmt: skip
def test_a_sign_goes_into_the_note_and_is_asked_at_the_door(place, text, kind, note):
    (draft,) = reading_of(place, text).entries
    assert (draft.kind, draft.body["note"]) == (kind, note)
    codes, questions = asked(place, text)
    assert codes[0] == DANGER
    for words in (
        "may be a sign",
        "Do not taste",
        TRASH,
        "30 minutes",
        "poison centre",
        "Missouri",
    ):
        assert words in questions[0]


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("threw out a bulging jar of canned green beans", "spoiled"),
        ("threw out 1 quart of canned green beans because it leaked", "spoiled"),
        ("tossed a leaky jar of plum jam", "spoiled"),
        ("a jar of canned green beans spurted when I opened it, threw it out", "spoiled"),
        ("one jar of plum jam has mould on it, put it in the trash", "spoiled"),
        ("threw out 1 quart canned green beans, seal was broken", "seal failed"),
    ],
)
def test_a_jar_thrown_out_for_a_sign_says_why_and_how(place, run, text, why):
    reading = reading_of(place, text)
    (draft,) = reading.entries
    assert (draft.kind, draft.body["why"], reading.blocks) == ("discarded", why, False)
    assert DANGER not in asked(place, text)[0]
    status, said = run("say", text)
    assert status == 0, said
    assert TRASH in said


@pytest.mark.parametrize(
    "text",
    [
        "kept a bulging jar of canned green beans",
        "put a bulging jar of canned green beans back on the shelf",
        "found mold on a half pint of plum jam",
        "one of the canned green beans jars is bulging",
    ],
)
def test_what_became_of_such_a_jar_is_asked_thrown_out_first(place, run, text):
    (kind, *_) = [one for one in reading_of(place, text).questions if one.code == "became"]
    assert [str(one) for one in kind.options] == ["discarded", "counted", "eaten"]
    for more in ([], ["--yes"]):
        status, said = run("say", text, *more)
        assert status == 2
        assert said.index("Do not taste") < said.index("thrown out?")


@pytest.mark.parametrize(
    "text",
    [
        "ate 1 quart canned green beans, no bulging",
        "picked 10 lb grapes, some mouldy",
        "it was a cloudy day, picked 5 lb plums",
        "canned 7 quarts of green beans with pressure 25 minutes, one jar leaked",
        "threw out 3 lb moldy tomatoes",
    ],
)
def test_no_sign_of_a_jar_is_none(place, text):
    assert reading_of(place, text).signs == []


def test_off_a_terminal_nothing_is_written_not_even_with_yes(place, run):
    for more in ([], ["--yes"]):
        status, said = run("say", "ate 1 quart canned green beans, the lid was bulging", *more)
        assert status == 2
        assert "Do not taste" in said
    with Book.open(place) as book:
        assert [row for chunk in book.log.read(kinds=("eaten",)) for row in chunk] == []


def test_a_command_asks_the_same_of_its_note(run):
    status, said = run(
        "meal", "--ate", "1 quart canned green beans", "--note", "lid was bulging", "--yes"
    )
    assert status == 2
    assert "--knowingly" in said
    assert TRASH in said
    jam = ("discard", "1 half-pint jar plum jam", "--note", "mouldy", "--yes")
    assert run(*jam, "--why", "composted")[0] == 2
    assert run(*jam, "--why", "spoiled")[0] == 0


def test_the_name_of_a_known_item_is_no_sign(place):
    with Book.open(place) as book:
        book.write(
            "bought",
            lines=[{"item": "cloudy cider", "amount": "4 qt", "paid": "6"}],
            answers=Answers(yes=True),
        )
        body = {"ate": [{"item": "cloudy cider", "amount": "1 qt"}]}
        book.ask(Entry("eaten", body), Answers())
        with pytest.raises(NeedsAnswer, match="mould"):
            book.ask(Entry("eaten", {**body, "note": "mould in the bottle"}), Answers())
