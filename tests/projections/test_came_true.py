"""The book grades itself: what was said is asked again as it was, and set beside what came."""

from __future__ import annotations

import datetime as dt
import itertools
import random
import uuid

import msgspec
import pytest
from books import state_of
from freezegun import freeze_time
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from questions.recomputed import recompute
from strategies import random_book

from ledger import Book
from ledger.errors import InputError, NotFound
from ledger.projections import PROJECTIONS
from ledger.questions.ahead import kept as said_kept
from ledger.questions.ahead.graded import Graded
from ledger.questions.ahead.said import EVERY, asked, earlier
from ledger.questions.ahead.widening import factor_of, lately
from ledger.questions.came_true import figures as came_figures
from ledger.questions.came_true import question as came_true
from ledger.questions.came_true.scores import graded
from ledger.replay.state import day_number, day_text

END = "2026-10-25"
WEEKS = 70


def household(seed=3, weeks=WEEKS):
    """Flour and rice bought in bulk and eaten, milk bought weekly; written down every evening."""
    rng, first = random.Random(seed), dt.date(2026, 10, 24) - dt.timedelta(weeks=weeks)

    def event(kind, day, **body):
        at = f"{day}T20:00:00.000000Z"
        return {"kind": kind, "on": str(day), "recorded_at": at, "body": body, "id": str(uuid.UUID(int=rng.getrandbits(128), version=4))}  # fmt: skip

    yield event(
        "item_described", first, item="milk", sort="food", measure="volume",
        keeps={"fridge": "7 days", "shelf": "7 days"},
    )  # fmt: skip
    for week in range(weeks):
        day = first + dt.timedelta(weeks=week)
        if week % 10 == 0:
            yield event("bought", day, item="flour", amount="6 kg", paid="5")
            yield event("bought", day, item="rice", amount="4 kg", paid="6")
        yield event("bought", day, item="milk", amount="2 l", paid="2")
        for n in range(1, 6):
            on = day + dt.timedelta(days=n)
            ate = [{"item": "milk", "amount": f"{rng.choice((250, 300, 350))} ml"}]
            if n == 3:
                ate.append({"item": "flour", "amount": f"{rng.choice((400, 500, 600))} g"})
            if rng.random() < 0.15:
                ate.append({"item": "rice", "amount": "300 g"})
            yield event("eaten", on, ate=ate)
        if week % 9 == 4:
            yield event(
                "discarded", day + dt.timedelta(days=6), why="spoiled", item="milk", amount="200 ml"
            )


def fill(book, events):
    done = book.import_events((n, 0, event) for n, event in enumerate(events, 1))
    assert done.is_kept, done
    return book


@pytest.fixture
def kept_folder(tmp_path, monkeypatch):
    """A cache folder of this test's own, and nothing in memory."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    said_kept._BOOKS.clear()
    yield tmp_path / "cache" / "croftbook" / "said"
    said_kept._BOOKS.clear()


@pytest.fixture
def home(tmp_path, kept_folder):
    """The simulated household's book, on the day after its last entry."""
    with freeze_time(f"{END} 12:00:00"), Book.open(tmp_path / "home.sqlite") as book:
        yield fill(book, household())


def plain(state):
    """Return what was said, as plain values."""
    said = [msgspec.to_builtins(one) for one in asked(state, earlier(state), factor_of)]
    return [{**one, "plants": None} for one in said]


# -- the simulated household --------------------------------------------------------------


def test_every_range_is_what_the_book_would_have_said_then(home):
    """Asked by hand at its own moment, the shelf says the same."""
    state = home.state()
    moments = earlier(state)
    assert [b - a for (a, _), (b, _) in itertools.pairwise(moments)] == [EVERY] * (len(moments) - 1)  # fmt: skip
    for said in asked(state, moments, factor_of)[::4]:
        day = day_text(said.day)
        shelf = home.show("shelf", items=True, as_of=day, known_at=day).to_dict()["records"]
        ranges = {one.item: one for one in said.ranges}
        for record in shelf:
            one = ranges[record["item"]]
            assert record["left"]["whole"] / 1000 == pytest.approx(one.stock)
            if said.factor == 1.0 and one.use[0] is not None:
                shown = [record["used_per_week"][end] for end in ("low", "likely", "high")]
                assert shown == pytest.approx(one.use)
            assert record["reaches_next_supply"] == one.chance or said.factor != 1.0


def eaten(item):
    """Return (day, whole units / 1000) of everything that went of an item, from the entries."""
    out = []
    for event in household():
        body = event["body"]
        lines = body.get("ate", []) if event["kind"] == "eaten" else [body]
        if event["kind"] not in ("eaten", "discarded"):
            continue
        for line in lines:
            if line["item"] == item:
                out.append((day_number(event["on"]), float(line["amount"].split()[0]), event["kind"]))  # fmt: skip
    return out


@pytest.mark.parametrize("item", ["flour", "rice", "milk"])
def test_what_came_is_what_was_written_down(home, item):
    """The outcome of each range, worked out again in plain loops over the entries."""
    state = home.state()
    number, went = state.facts.find(item), eaten(item)
    last, seen = state.as_of_day, 0
    said = {one.day: {r.item: r for r in one.ranges} for one in asked(state, earlier(state))}
    for one in (g for g in graded(state) if g.item == number):
        if one.kind == "used a week" and one.came is not None and item == "flour":
            assert one.day + 84 <= last
            used = sum(x for day, x, kind in went if one.day < day <= one.day + 84 and kind == "eaten")  # fmt: skip
            assert one.came == pytest.approx(used / 12)  # there is always some flour
            assert one.held == (one.said[0] <= one.came <= one.said[2])
            seen += 1
        if one.kind == "runs out" and one.held is not None:
            left = said[one.day][item].stock
            gone = None
            for day, x, _ in went:
                if day > one.day and gone is None:
                    left -= x
                    gone = day if left <= 1e-6 else None
            assert one.came_on == gone
            early, late = (one.day + int(x * 7 + 0.01) for x in (one.said[0], one.said[2]))
            assert late < last
            assert one.held == (gone is not None and early <= gone <= late)
            seen += 1
    assert seen > 5


def test_the_answer_counts_what_was_graded(home):
    found = home.show("came-true", by="item").to_dict()
    every = [g for g in graded(home.state()) if g.held is not None]
    for kind in ("runs out", "used a week", "lasts till more comes", "keeps"):
        rows = [r for r in found["records"] if r["said"] == kind]
        whole, alone = rows[0], rows[1:]
        assert whole["item"] is None
        assert whole["graded"] == sum(r["graded"] for r in alone) == sum(g.kind == kind for g in every)  # fmt: skip
        assert whole["held"] == sum(r["held"] for r in alone)
        if kind != "lasts till more comes":
            sides = (whole["below"] or 0) + (whole["above"] or 0)
            assert whole["held"] + sides == whole["graded"]
    ranges = found["totals"]
    assert ranges["in_words"][0].startswith(f"{ranges['ranges_held']} of {ranges['ranges']} ")
    assert ranges["ranges"] > 40


def test_what_spoiled_before_its_day_did_not_keep(book):
    """By the word of the moment before the lot came: a later one is hindsight."""

    def event(kind, on, **body):
        return {"kind": kind, "on": on, "recorded_at": f"{on}T20:00:00.000000Z", "body": body}

    events = [
        event("item_described", "2026-05-01", item="quince", sort="food", measure="mass", keeps={"shelf": "10 days"}),
        event("harvested", "2026-08-01", item="quince", amount="4 kg"),
        event("discarded", "2026-08-05", why="spoiled", item="quince", amount="1 kg"),
        event("item_described", "2026-08-06", item="quince", sort="food", keeps={"shelf": "3 days"}),
        event("eaten", "2026-08-07", ate=[{"item": "quince", "amount": "3 kg"}]),
        event("harvested", "2026-09-01", item="quince", amount="4 kg"),
        event("discarded", "2026-09-09", why="spoiled", item="quince", amount="4 kg"),
    ]  # fmt: skip
    with freeze_time(f"{END} 12:00:00"):
        fill(book, events)
        keeps = book.show("came-true", item="quince").to_dict()["records"]
        record = next(r for r in keeps if r["said"] == "keeps")
        # ten days said, four came; three days said by the second time, and nothing within them
        assert (record["graded"], record["held"], record["below"]) == (2, 1, 1)
        node = book.why(record["why"], "held")
        assert [part.value for part in node.parts] == [0, 1]


def test_every_figure_opens(home):
    figures = ("graded", "held", "share_held", "expected", "below", "above", "score", "score_of_base", "open")  # fmt: skip
    for record in home.show("came-true", by="item").to_dict()["records"]:
        for figure in figures:
            node = home.why(record["why"], figure)
            if record[figure] is not None:
                assert node.value == pytest.approx(record[figure]), figure
                assert not node.parts or recompute(node) == pytest.approx(record[figure])


@pytest.mark.parametrize(
    ("address", "figure"),
    [("came-true/rains", None), ("came-true/runs-out/cheese", None), ("came-true/runs-out", "rain")],
)  # fmt: skip
def test_what_is_no_grade_is_refused(home, address, figure):
    with pytest.raises(NotFound):
        home.why(address, figure)
    with pytest.raises(InputError):
        home.show("came-true", item="cheese")


def test_plants_are_set_beside_the_season_that_followed(book):
    """What was said before each season's first planting, against what a plant brought then."""

    def event(kind, on, **body):
        return {"kind": kind, "on": on, "recorded_at": f"{on}T20:00:00.000000Z", "body": body}

    picked = {2022: 40, 2023: 44, 2024: 36, 2025: 4, 2026: 41}
    events = []
    for year, kilos in picked.items():
        events += [
            event("planted", f"{year}-05-10", crop="tomato", plants=10, bed="south bed", area="40 sq ft"),
            event("harvested", f"{year}-08-20", item="tomato", amount=f"{kilos} kg", bed="south bed"),
            event("eaten", f"{year}-08-25", ate=[{"item": "tomato", "amount": f"{min(kilos, 30)} kg"}]),
        ]  # fmt: skip
    with freeze_time("2027-01-15 12:00:00"):
        fill(book, events)
        state = book.state()
        said = [g for g in graded(state) if g.kind == "yield"]
        assert [day_text(g.day)[:4] for g in said] == ["2023", "2024", "2025", "2026"]
        for one, year in zip(said, (2023, 2024, 2025, 2026), strict=True):
            then = book.show("next-season", as_of=day_text(one.day), known_at=day_text(one.day))
            record = then.to_dict()["records"][0]
            assert then.totals["season"] == year
            assert one.said[0] == pytest.approx(record["yield_g"]["low"])
            assert one.came == pytest.approx(picked[year] * 100)
            assert one.held == (picked[year] * 100 >= record["yield_g"]["low"])
        assert [g.held for g in said] == [True, True, False, True]
        answer = book.show("next-season").to_dict()
        assert answer["records"][0]["held_text"] == "3 of 4"
        assert any(one.startswith("3 of 4 earlier yields") for one in answer["totals"]["in_words"])


# -- kept by the head -----------------------------------------------------------------------


def test_it_is_kept_and_asked_only_once(home, kept_folder, monkeypatch):
    before = home.show("came-true", by="item").to_dict()
    files = list(kept_folder.iterdir())
    assert len(files) == 1
    assert files[0].stat().st_mode & 0o077 == 0

    def never(*_):
        raise AssertionError("asked again")

    said_kept._BOOKS.clear()
    monkeypatch.setattr("ledger.questions.ahead.said.state_at", never)
    monkeypatch.setattr("ledger.questions.planning.said.state_at", never)
    with Book.open(home.log.path) as again:
        assert again.show("came-true", by="item").to_dict() == before
        # an entry changes what came, not what was said
        again.write("eaten", ate=[{"item": "flour", "amount": "500 g"}], on=END)
        assert again.show("came-true").to_dict()["totals"]["moments"] > 0


@pytest.mark.parametrize("damage", ["gone", "rubbish", "half"])
def test_the_file_may_be_deleted_or_damaged(home, kept_folder, damage):
    before = home.show("came-true", by="item").to_dict()
    file = next(kept_folder.iterdir())
    if damage == "gone":
        file.unlink()
    else:
        file.write_bytes(b"rubbish" if damage == "rubbish" else file.read_bytes()[:500])
    said_kept._BOOKS.clear()
    with Book.open(home.log.path) as again:
        assert again.show("came-true", by="item").to_dict() == before


def test_it_is_never_believed_of_another_head(home, tmp_path, kept_folder):
    """A book that begins alike and goes on otherwise is asked anew, though its file is the same one."""
    home.show("came-true")
    other = [event for event in household() if event["on"] < "2026-01-01"]
    said_kept._BOOKS.clear()
    with Book.open(tmp_path / "other.sqlite") as book:
        fill(book, other)
        mine = plain(book.state())
    said_kept._BOOKS.clear()
    for file in kept_folder.iterdir():
        file.unlink()
    with Book.open(tmp_path / "other.sqlite") as book:
        assert plain(book.state()) == mine


def test_a_folder_that_cannot_be_written_is_no_trouble(home, tmp_path, monkeypatch):
    (tmp_path / "taken").write_text("a file where the folder would be")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "taken"))
    said_kept._BOOKS.clear()
    assert home.show("came-true").to_dict()["totals"]["ranges"] > 0


# -- little known ---------------------------------------------------------------------------


def test_an_empty_book_and_one_typed_in_today_say_nothing_yet(book, fixed_day):
    assert book.show("came-true").to_dict()["totals"]["missing"]
    for event in household():
        if event["on"] < "2025-09-01":
            book.write(event["kind"], event["body"], on=event["on"])
    answer = book.show("came-true").to_dict()
    # everything was written down today: at no earlier moment did the book say anything
    assert answer["records"] == []
    assert answer["totals"]["moments"] == 0
    assert lately(book.state()).factor == 1.0


def test_a_book_left_alone_is_not_asked_for_ever(home):
    years_later = earlier(home.state(as_of="2060-01-01"))
    assert len(years_later) < WEEKS // 4 + 4
    assert years_later[-1][0] <= day_number(END) + 84
    assert home.show("came-true", as_of="2060-01-01").to_dict()["totals"]["ranges"] > 0


# -- whatever is in the book ------------------------------------------------------------------


def sorted_plain(said):
    """Return what was said as plain objects, the ranges in an order that no later event changes."""
    out = msgspec.to_builtins(said)
    out["ranges"].sort(key=lambda one: (one["item"], one["measure"]))
    return out


@settings(max_examples=12, suppress_health_check=list(HealthCheck))
@given(seed=st.integers(0, 10_000))
def test_what_was_said_is_not_changed_by_what_came_later(seed):
    """Cut off after the moment, the book says the same of it."""
    events = random_book(random.Random(seed), 60)
    state = state_of(events, as_of="2026-12-31")
    moments = earlier(state)
    if not moments:
        return
    day, known = moments[len(moments) // 2]
    whole = asked(state, [(day, known)])[0]
    cut = state_of(events[:known], as_of="2026-12-31")
    assert sorted_plain(asked(cut, [(day, known)])[0]) == sorted_plain(whole)


@settings(max_examples=8, suppress_health_check=list(HealthCheck))
@given(seed=st.integers(0, 10_000))
def test_any_book_can_be_graded(seed):
    state = state_of(random_book(random.Random(seed), 60), as_of="2026-12-31")
    for record in PROJECTIONS["came-true"].build(state, by="item").rows():
        assert 0 <= record["held"] <= record["graded"]
        if record["score"] is not None:
            assert record["score"] >= 0


def test_a_perfect_forecast_scores_nought(monkeypatch, home):
    """Were every range what came and every chance sure, nothing would be off and all would hold."""
    state = home.state()
    perfect = [
        Graded(g.kind, g.item, g.day, (float(g.held),) if len(g.said) == 1 else (g.came,) * 3, g.came, g.came_on, True if len(g.said) == 3 else g.held, g.base)
        for g in graded(state)
        if g.held is not None and g.came is not None and g.kind in ("runs out", "used a week", "lasts till more comes")
    ]  # fmt: skip
    monkeypatch.setattr(came_figures, "graded", lambda _: perfect)
    for record in came_true.build(state).rows():
        assert record["score"] == pytest.approx(0)
        assert record["score"] <= record["score_of_base"]
