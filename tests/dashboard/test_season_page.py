"""Season: weeks, beds to scale, where it went, net and per hour, against another season, as projected."""

from __future__ import annotations

import math

import pytest
from page_tools import SVG, text_of, walk

from dashboard.parts.saying import days_said

LB = 453.59237


@pytest.fixture
def garden(book, yes, fixed_day):
    """Two seasons of tomatoes that change beds, plums of an old tree, onions nobody planted."""

    def write(kind, on, **body):
        book.write(kind, body, on=on, answers=yes)

    work = [{"person": "Ada", "minutes": "90"}]
    plant = {"crop": "tomato", "row": "20 ft", "area": "40 sq ft"}
    write("planted", "2024-03-01", crop="plum", plants=2, bed="orchard")
    write("bought", "2025-05-10", item="tomato", amount="1 lb", paid="2.00")
    write("planted", "2025-05-10", **plant, bed="south bed", plants=10)
    for day, pounds in (("2025-08-05", 10), ("2025-08-19", 20), ("2025-09-16", 5)):
        write("harvested", day, item="tomato", amount=f"{pounds} lb", bed="south bed")
    write("discarded", "2025-12-01", why="too old", item="tomato", amount="36 lb")
    write("planted", "2026-05-12", **plant, bed="long bed", plants=12, work=work)
    write("planted", "2026-05-13", crop="<i>kale</i>", bed="long bed", area="10 sq ft", plants=5)
    write("harvested", "2026-08-04", item="tomato", amount="12 lb", trimmed="2 lb", work=work)
    write("harvested", "2026-08-20", item="tomato", amount="18 lb")
    write("harvested", "2026-09-02", item="<i>kale</i>", amount="3 lb")
    write("harvested", "2026-09-02", item="plum", amount="30 lb", bed="orchard")
    write("harvested", "2026-09-03", item="onion", amount="3 lb")
    write("given_away", "2026-08-21", how="gift", item="tomato", amount="4 lb")
    return book


def pounds(values):
    return grams([value * LB if value is not None else None for value in values])


def grams(values):
    return [None if value is None or math.isnan(value) else round(value) for value in values]


def test_empty_book_says_what_would_be_here(page):
    drawn = page("/season")
    assert "Nothing has been picked yet" in drawn.text
    assert [link.href for link in drawn.of("Link")] == ["/write?kind=harvested"]


@pytest.mark.parametrize(
    ("kind", "body"),
    [
        ("harvested", {"item": "plum", "amount": "9 lb"}),
        ("harvested", {"item": "cabbage", "amount": "3 heads"}),
        ("planted", {"crop": "tomato", "plants": 3, "bed": "south bed"}),
    ],
)
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_one_entry_fills_a_page(book, page, yes, fixed_day, kind, body, scheme):
    book.write(kind, body, on="2026-10-30", answers=yes)
    drawn = page("/season", scheme=scheme)
    assert "not right" not in drawn.text
    assert body.get("item", body.get("crop")) in drawn.text


def test_seasons_to_choose_are_those_of_the_book(garden, page):
    def chosen(search):
        return page("/season", search).chosen("season")

    assert [text for text, _ in chosen("")] == ["2026", "2025", "2024"]
    assert ("2026", True) in chosen("")
    assert chosen("?season=1066") == chosen("")
    assert ("2025", True) in chosen("?season=2025")
    assert sum(is_chosen for _, is_chosen in chosen("?season=2025")) == 1


def test_weeks_of_a_crop_are_the_projections(garden, page):
    drawn = page("/season", "?crop=tomato")
    answer = garden.show("season", season="2026", crop="tomato", weeks=True)
    seen, rows = drawn.drawing("season-week"), answer.records()
    most = max(max(row["picked_g"] or 0, row["last_season_g"] or 0) for row in rows)
    for kind, name in (("f-leaf", "picked_g"), ("f-quiet", "last_season_g")):
        tall = [height for _, _, height in seen.bars(kind)]
        wanted = [row[name] for row in rows if row[name]]
        assert [t / 56 for t in tall] == pytest.approx([w / most for w in wanted], abs=0.01)
    text = drawn.text
    for row in rows:
        for name in ("picked", "last_season", "so_far", "last_season_so_far"):
            assert (row["in_words"][name] or "–") in text
    (whole,) = (r for r in garden.show("season", by="crop").records() if r["crop"] == "tomato")
    shown = {(address, field): said for said, address, field in drawn.figures()}
    assert shown[whole["why"], "published_high_g"] == whole["in_words"]["published"]


def test_pictures_speak_the_households_measures(garden, page, yes):
    garden.write("setting_changed", {"name": "measures", "value": "metric"}, on="2026-10-01", answers=yes)  # fmt: skip
    drawn = page("/season", "?crop=tomato")
    frame = garden.show("season", season="2026", crop="tomato", weeks=True).frame
    best = frame["picked_g"].astype(float).max()
    assert f"{best / 1000:.2f} kg" in drawn.drawing("season-week").labels
    assert {"kilograms"} <= set(drawn.text.split())
    assert "per m²" in drawn.text
    assert " lb" not in drawn.text


def test_overview_has_every_crop_picked(garden, page):
    seen = page("/season").drawing("season-weeks")
    assert {"Tomatoes", "Plums", "Onions", "<i>kale</i>"} <= set(seen.labels)
    rows = garden.show("season", season="2026", weeks=True).records()
    assert len(seen.steps("f-leaf")) == sum(bool(row["picked_g"]) for row in rows)
    assert len(seen.steps("f-quiet")) == sum(bool(row["last_season_g"]) for row in rows)
    assert all(tall > 0 for tall in seen.steps("f-leaf"))
    assert all(tall < 0 for tall in seen.steps("f-quiet"))


def test_beds_are_drawn_to_the_scale_of_their_ground(garden, page):
    drawn = page("/season")
    seen = drawn.drawing("season-beds")
    ((left, long, _),) = seen.bars("f-soil s-soil")
    cuts = [
        float(one.get("d")[1:].split()[0])
        for one in seen.root.iter(f"{SVG}path")
        if one.get("class") == "line s-soil thin"
    ]
    tomato, kale = cuts[0] - left, cuts[1] - cuts[0]
    assert tomato == pytest.approx(4 * kale, rel=0.02)
    assert tomato + kale == pytest.approx(long, rel=0.01)
    assert {"long bed", "tomatoes", "<i>kale</i>"} <= set(seen.labels)
    assert "plum" in drawn.section("Where it grew").text.partition("Not drawn")[2]


def test_beds_say_what_each_crop_gave(garden, page):
    shown = {(a, f): text for text, a, f in page("/season").section("Where it grew").figures()}
    for record in garden.show("season", season="2026").records():
        if record["picked_g"]:
            assert shown[record["why"], "picked_g"].endswith(record["in_words"]["picked"])


def test_where_it_went_adds_up_to_what_was_kept(garden, page):
    drawn = page("/season")
    part = drawn.fold("Where it went")
    shown = {(a, f): text for text, a, f in part.figures()}
    for record in garden.show("season", by="crop").records():
        fates = {name: grams for name, grams in record["where_it_went"].items() if grams}
        assert sum(fates.values()) == pytest.approx(record["kept_g"] or 0)
        for name in fates:
            assert (record["why"], f"where_it_went.{name}") in shown
    assert "given away 4 lb" in part.text


def test_net_and_per_hour_are_the_projections(garden, page):
    drawn = page("/season").fold("Left over inputs, and by the hour")
    record = next(r for r in garden.show("season", by="crop").records() if r["crop"] == "tomato")
    shown = {(address, field): text for text, address, field in drawn.figures()}
    assert shown[record["why"], "net"] == f"Left over inputs:  ${record['net']:.2f}"
    assert shown[record["why"], "net_per_hour"] == f"Net per hour:  ${record['net_per_hour']:.2f}"


def test_crops_without_a_price_say_what_is_missing(book, page, yes, fixed_day):
    book.write("harvested", {"item": "plum", "amount": "9 lb"}, on="2026-10-01", answers=yes)
    drawn = page("/season")
    assert "No shop price is known of any crop yet" in drawn.text
    assert "No shop price of plum is known" in drawn.text
    assert "–" in drawn.fold("Left over inputs, and by the hour").text


def test_another_season_is_set_against_it(garden, page):
    drawn = page("/season").fold("Against another season")
    answer = garden.show("season", season="2026", against="2025")
    assert days_said(drawn.ask, answer.totals["in_words"][0]) in drawn.text
    shown = {(address, field) for _, address, field in drawn.figures()}
    tomato = next(r for r in answer.records() if r["what"] == "tomato")
    assert (tomato["why"], "difference") in shown


def test_comparison_is_saved_as_csv(garden):
    from dashboard.app import make_app

    client = make_app(garden).server.test_client()
    found = client.get(
        "/files/season.csv?o.season=2026&o.against=2025", base_url="http://127.0.0.1"
    )
    assert found.status_code == 200
    assert found.text.startswith("why,what,")
    wrong = client.get("/files/season.csv?o.against=soon", base_url="http://127.0.0.1")
    assert wrong.status_code == 400
    assert "not a day" in wrong.text


@pytest.mark.parametrize("search", ["", "?season=2025", "?season=2024", "?crop=plum"])
def test_every_figure_opens_to_arithmetic(garden, page, opens, search):
    assert opens(page("/season", search)) > 5


def test_moment_is_obeyed(garden, page, opens):
    drawn = page("/season", as_of="2025-08-10")
    assert "onion" not in drawn.text
    assert "10 lb" in drawn.drawing("season-week").labels
    assert len(drawn.drawing("season-week").bars("f-leaf")) == 1
    assert opens(drawn) > 3


def test_markup_in_a_crop_is_text(garden, page):
    drawn = page("/season")
    assert "<i>kale</i>" in drawn.text
    assert not [one for one in walk(drawn.parts) if getattr(one, "dangerously_allow_html", False)]


def test_many_crops_are_drawn_in_part_and_said_so(book, page, yes, fixed_day):
    for i in range(30):
        body = {"item": f"crop {i:02d}", "amount": f"{i + 1} lb"}
        book.write("harvested", body, on="2026-09-01", answers=yes)
    drawn = page("/season")
    names = {label for label in drawn.drawing("season-weeks").labels if label.startswith("Crop")}
    assert len(names) == 24
    assert "Crop 00" not in names
    assert "The 24 heaviest of 30 crops" in drawn.text


def test_answer_is_one_sentence_with_what_was_weighed(garden, page):
    answer = garden.show("season", season="2026")
    (said,) = (one for one in page("/season").all("P") if getattr(one, "className", "") == "answer")
    weighed = answer.totals["weighed_g"]
    assert weighed == pytest.approx(sum(r["picked_g"] or 0 for r in answer.records()))
    assert f"{weighed / LB:.0f} lb" in text_of(said)
    more = answer.totals["weighed_more_g"]
    assert f"{abs(more) / LB:.0f} {'more' if more > 0 else 'less'}" in " ".join(
        text_of(said).split()
    )


def test_page_needs_no_charting_script(garden, page):
    assert page("/season").of("Graph") == []


def test_every_drawing_says_what_it_shows(garden, page):
    drawn = page("/season")
    figures = drawn.all("Figure")
    assert len(figures) >= 3
    for figure in figures:
        for image in (one for one in walk(figure) if one._type == "Img"):
            assert len(image.alt.split()) > 3


def test_a_season_of_one_week_is_drawn_amid_others(page, book, yes, fixed_day):
    for item in ("tomato", "cabbage"):
        picked = {"lines": [{"item": item, "amount": "20 lb"}]}
        book.write("harvested", picked, on="2026-09-01", answers=yes)
    drawn = page("/season")
    week = drawn.drawing("season-week")
    assert [one for one in week.labels if "Aug" in one] == ["week of 27 Aug"]
    (wide,) = [wide for _, wide, high in week.bars("f-leaf") if high]
    assert wide < 60
    weeks = drawn.drawing("season-weeks")
    assert {"Aug", "Sep"} <= set(weeks.labels)
