"""Know-how: the year sheet, who can do what, what lapses, and the learning curve, as projected."""

from __future__ import annotations

import pytest
from page_tools import SVG, text_of, walk

MINUTES = (100, 80, 70, 66, 60, 58)


@pytest.fixture
def skilled(book, yes, fixed_day):
    """Six batches that grow quicker, a skill that lapsed, one held by one person, one never tried."""

    def write(kind, on, **body):
        book.write(kind, body, on=on, answers=yes)

    for i, minutes in enumerate(MINUTES):
        write("bought", f"2026-0{i + 3}-01", item="sugar", amount="2 lb", paid="2")
        write("put_up", f"2026-0{i + 3}-02", makes="plum butter", method="boiling water",
              used=[{"item": "sugar", "amount": "2 lb"}], made=[{"jars": 10, "jar": "half-pint jar"}],
              work=[{"person": "Ada", "minutes": str(minutes)}, {"person": "Ben", "minutes": "0"}])  # fmt: skip
    write("practised", "2024-02-03", skill="grafting", people=["Ada", "Ben"])
    write("practised", "2026-10-20", skill="<b>knitting</b>", people=["Ada"])
    write("practised", "2026-10-21", skill="<b>knitting</b>", people=["Ada"])
    write("target_set", "2026-01-01", skill="cheese making", times=1, per="year")
    return book


def cells(drawn):
    """Return the year sheet as {skill: [texts of its cells]}."""
    (table,) = drawn.fold("The year sheet").all("Table")
    out = {}
    for body in table.children[2:]:
        for row in body.children[1:]:
            name, *rest = row.children
            out[name.children] = [text(cell) for cell in rest]
    return out


def text(cell):
    return (text_of(cell).split() or [""])[-1]


def test_empty_book_says_what_would_be_here(page):
    drawn = page("/know-how")
    assert "Nothing has been practised yet" in drawn.text
    assert [link.href for link in drawn.of("Link")] == ["/write?kind=practised"]


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_one_practice_fills_a_page(book, page, fixed_day, scheme):
    book.write("harvested", {"item": "plum", "amount": "9 lb"}, on="2026-10-30")
    drawn = page("/know-how", scheme=scheme)
    assert cells(drawn) == {"growing plum": [*["0"] * 9, "1", "0", "", "1"]}
    assert "No entry says who did the work yet" in drawn.text
    assert "No batch yet says both" in drawn.text
    assert "not right" not in drawn.text


def test_year_sheet_is_the_projections(skilled, page):
    shown = cells(page("/know-how"))
    records = skilled.show("know-how", year_sheet="2026").records()
    assert {r["skill"] for r in records} == set(shown)
    for record in records:
        counts = [record[f"m{n:02d}"] for n in range(1, 13)] + [record["times"]]
        assert shown[record["skill"]] == ["" if n is None else str(n) for n in counts]
    assert shown["plum butter"][2:8] == ["1"] * 6


def test_sheet_stands_in_a_frame_that_the_keyboard_reaches(skilled, page):
    frames = page("/know-how").of("Div", className="sheet-frame")
    assert len(frames) == 2
    for frame in frames:
        assert (frame.tabIndex, frame.role) == ("0", "region")
        assert frame.to_plotly_json()["props"]["aria-label"]


def test_year_and_person_are_chosen_in_the_address(skilled, page):
    assert set(cells(page("/know-how", "?year=2024"))) == {"grafting"}
    shown = cells(page("/know-how", "?year=2024&person=Ben"))
    assert shown == {"grafting": ["0", "1", *["0"] * 10, "1"]}
    assert cells(page("/know-how", "?year=1066&person=Nobody")) == cells(page("/know-how"))


def test_every_figure_opens_to_arithmetic(skilled, page, opens):
    assert opens(page("/know-how")) > 25


def test_who_can_do_what_says_standing_and_times(skilled, page):
    part = page("/know-how").fold("Who can do what")
    for record in skilled.show("know-how").records():
        if record["person"]:
            assert f"{record['standing']} {record['times']}×" in part.text
    held = {(address, shown) for shown, address, _ in part.figures()}
    assert ("know-how/grafting/Ben", "Ben:  out of practice 1×") in held


def test_what_lapsed_and_what_one_person_holds(skilled, page):
    drawn = page("/know-how")
    rusty = drawn.section("Gone rusty (2)")  # as many as it lists
    assert rusty.text.count("Grafting") == 2
    assert "Ada" in rusty.text
    assert "plum butter" not in rusty.text.lower()
    assert "Never tried: cheese making" in drawn.text
    alone = drawn.fold("One pair of hands only (1)")
    assert "<b>knitting</b>" in alone.text
    assert "Ada" in alone.text
    assert "grafting" not in alone.text


def test_markup_in_a_skill_is_text(skilled, page):
    drawn = page("/know-how")
    assert not [one for one in walk(drawn.parts) if getattr(one, "dangerously_allow_html", False)]
    assert "<b>knitting</b>" in cells(drawn)


def test_wanted_practice_is_shown(skilled, page):
    rows = page("/know-how").fold("Wanted practice")
    assert rows.text.count("cheese making") == 1
    assert ("Wanted:  1", "know-how/cheese+making", "target_times") in rows.figures()


def test_learning_curve_draws_each_batch_and_its_range(skilled, page):
    drawn = page("/know-how", "?skill=plum+butter")
    frame = skilled.show("know-how", curve="plum butter").frame
    seen = drawn.drawing("learning")
    dots, curve = seen.dots(), seen.lines("s-leaf")
    top = float(frame["fitted_high"].max())
    k = (dots[0] - dots[-1]) / (MINUTES[0] - MINUTES[-1]) * 10
    zero = dots[0] - k * MINUTES[0] / 10
    assert dots == pytest.approx([zero + k * m / 10 for m in MINUTES], abs=0.15)
    assert curve == pytest.approx([zero + k * v for v in frame["fitted_likely"]], abs=0.15)
    assert zero + k * max(top, MINUTES[0] / 10) == pytest.approx(34, abs=0.3)  # the range has room
    band = next(one for one in seen.root.iter(f"{SVG}path") if one.get("class") == "f-soft")
    heights = [float(p.split()[1].rstrip("z")) for p in band.get("d")[1:].split("L")]
    assert heights[: len(frame)] == pytest.approx(
        [zero + k * v for v in frame["fitted_high"]], abs=0.15
    )
    assert heights[: len(frame) - 1 : -1] == pytest.approx(
        [zero + k * v for v in frame["fitted_low"]], abs=0.15
    )
    fields = {f for _, _, f in drawn.fold("How practice pays").figures()}
    assert {"learning_rate", "learning_rate_low", "learning_rate_high"} <= fields


def test_too_few_batches_have_points_and_no_curve(book, page, yes, fixed_day):
    book.write(
        "bought", {"item": "milk", "amount": "1 gal", "paid": "4"}, on="2026-10-01", answers=yes
    )
    body = {"makes": "soft cheese", "method": "cook", "made": [{"amount": "1 lb"}],
            "used": [{"item": "milk", "amount": "1 gal"}], "work": [{"person": "Ada", "minutes": "40"}]}  # fmt: skip
    book.write("put_up", body, on="2026-10-02", answers=yes)
    drawn = page("/know-how")
    assert "too few batches" in drawn.text
    seen = drawn.drawing("learning")
    assert len(seen.dots()) == 1
    assert seen.lines("s-leaf") == []
    assert "1 of at least 5 batches" in drawn.text


def test_moment_is_obeyed(skilled, page, opens):
    drawn = page("/know-how", as_of="2024-12-31")
    assert set(cells(drawn)) == {"grafting"}
    assert "plum butter" not in drawn.text
    assert opens(drawn) > 3


def test_many_skills_come_when_asked_for(book, page, fixed_day):
    for i in range(15):
        book.write("practised", {"skill": f"skill {i:02d}", "people": ["Ada"]}, on="2026-10-01")
    for day in ("2026-10-02", "2026-10-03"):
        book.write("practised", {"skill": "skill 12", "people": ["Ada"]}, on=day)
    few = list(cells(page("/know-how")))
    assert few == [
        "skill 12",
        *(f"skill {i:02d}" for i in range(5)),
    ]  # the most practised, then by name
    assert "Show all 15" in page("/know-how").text
    every = list(cells(page("/know-how", "?rows=year-sheet")))
    assert every == [f"skill {i:02d}" for i in range(15)]


def test_many_batches_are_thinned_in_the_drawing(skilled, page, monkeypatch):
    monkeypatch.setattr("dashboard.pages._know_how_sheets._POINTS", 3)
    assert len(page("/know-how", "?skill=plum+butter").drawing("learning").dots()) == 3


def test_what_rusts_next_is_said_first_with_its_day(skilled, page, opens):
    drawn = page("/know-how")
    told = skilled.show("know-how")
    rows = [r for r in told.records() if r["person"] and r["rusts_on"]]
    rows = [r for r in rows if r["skill"] not in told.totals["in_danger"]]
    first = min(rows, key=lambda row: (row["rusts_on"], row["skill"]))
    (answer,) = (one for one in drawn.all("P") if getattr(one, "className", "") == "answer")
    assert first["person"] in text_of(answer)
    assert first["skill"] in text_of(answer)
    shown = {(address, field): said for said, address, field in drawn.figures()}
    assert shown[first["why"], "rusts_in_days"].split()[0] == str(first["rusts_in_days"])
    squares = next(one for one in drawn.all("Span") if getattr(one, "className", "") == "yr")
    assert len(squares.children) == 12


BEANS = {"makes": "canned green beans", "method": "boiling water", "minutes": "20", "altitude": "800 ft",
         "used": [{"item": "green bean", "amount": "14 lb"}], "made": [{"jars": 7, "jar": "quart jar"}]}  # fmt: skip


@pytest.mark.parametrize(("language", "said"), [
    ("en", "the only batch of boiling water stands in danger (canned green beans of"),
    ("de", "Der einzige Ansatz"),
])  # fmt: skip
def test_skill_whose_only_batch_stands_in_danger_says_so(
    book, yes, page, fixed_day, language, said
):
    book.write("setting_changed", name="language", value=language, on="2026-01-01")
    book.write("put_up", BEANS, on="2026-10-20", answers=yes)
    told = book.show("know-how")
    assert set(told.frame["standing"]) == {"in hand"}
    assert set(told.totals["in_danger"]) == {"boiling water", "canned green beans"}
    assert "All in hand." not in told.totals["in_words"]
    drawn = page("/know-how")
    assert not [one for one in drawn.all("Li") if getattr(one, "className", "") == "sk"]
    (answer,) = (one for one in drawn.all("P") if getattr(one, "className", "") == "answer")
    assert said in " ".join(text_of(answer).split())  # nobody is told to practise it again so
    links = [one for one in drawn.all("Link") if one.href == "/as-published"]
    assert len(links) >= 2
    work = [{"person": "Ada", "minutes": "60"}]
    book.write("put_up", {**BEANS, "work": work}, on="2026-10-21", answers=yes)
    english = language == "en"
    fold = page("/know-how").fold("Who can do what" if english else "Wer was kann")
    held = [text_of(one) for one in fold.all("Td") if "2" in text_of(one) or "1" in text_of(one)]
    assert held
    assert all(("all in danger" if english else "alle in Gefahr") in one for one in held)
    notes = [text_of(one) for one in fold.all("Li")]
    assert len(notes) == 2
    assert all(("in danger" if english else "in Gefahr") in one for one in notes)
    jam = {
        "makes": "kraut",
        "method": "ferment",
        "used": [],
        "made": [{"amount": "2 qt", "kept": "fridge"}],
    }
    book.write("put_up", jam, on="2026-10-21", answers=yes)
    assert "ferment" not in book.show("know-how").totals["in_danger"]
