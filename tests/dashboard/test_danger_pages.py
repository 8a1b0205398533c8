"""Danger on the pages: first, in words with the day, in both languages; never green, never a colour alone."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from danger_tools import AGAINST, OPEN, SAID, YES, draw, send
from page_tools import text_of, walk

import dashboard
from dashboard.data import Data
from dashboard.drawing import ask_of
from dashboard.parts.danger import to_discard
from ledger.published import MARKED


@pytest.mark.parametrize("path", ["/", "/shelf"])
def test_danger_stands_first_on_today_and_shelf(kitchen, path):
    data, language, batch = kitchen
    drawn = draw(data, path)
    cards = [one for one in walk(drawn.parts) if getattr(one, "className", "") == "danger"]
    assert [one.role for one in cards] == ["alert"]
    words, title = SAID[language]
    text = text_of(cards[0])
    assert words in text
    assert title in text
    body = [one for one in walk(drawn.parts) if one._type in ("Section", "Ul")]
    assert drawn.text.index(words) < drawn.text.index(text_of(body[-1]))
    hrefs = [one.href for one in walk(cards[0]) if one._type == "Link"]
    assert hrefs == [
        f"/write?kind=discarded&batch={batch}",
        f"/as-published?batch={batch}#batch",
        f"/touched?by=batch&of={batch}",
    ]


@pytest.mark.parametrize("path", ["/shelf", "/history", "/touched?by=item&of=green+bean"])
def test_rows_bear_a_sign_and_the_words(kitchen, path):
    data, language, _ = kitchen
    page, _, search = path.partition("?")
    drawn = draw(data, page, f"?{search}" if search else "")
    marks = [one for one in walk(drawn.parts) if "mark-grave" in str(getattr(one, "className", ""))]
    assert marks
    for mark in marks:
        assert text_of(mark).startswith("! ")
        assert SAID[language][0] in text_of(mark)


def test_card_goes_when_the_jars_are_thrown_out(kitchen):
    data, _, _ = kitchen
    data.book.write(
        "discarded",
        item="canned green beans",
        amount="7 quart jars",
        why="other",
        on="2026-09-20",
        answers=YES,
    )
    for path in ("/", "/shelf"):
        assert not [
            one for one in walk(draw(data, path).parts) if getattr(one, "className", "") == "danger"
        ]


def test_touched_page_answers_and_says_what_is_wrong(kitchen):
    data, language, batch = kitchen
    drawn = draw(data, "/touched", f"?by=batch&of={batch}")
    assert ("Still there" if language == "en" else "Noch da") in drawn.text
    prints = [one for one in drawn.all("Button") if "data-print" in one.to_plotly_json()["props"]]
    assert len(prints) == 1
    wrong = draw(data, "/touched", "?by=item&of=moonshine")
    assert wrong.choice("of").error
    assert "moonshine" in wrong.choice("of").error
    back = draw(data, "/touched", f"?by=batch&of={batch}&back=1")
    assert ("Picked" if language == "en" else "Geerntet") in back.text
    assert draw(data, "/touched", "?by=nonsense&of=%3Cb%3E").text


def told_by(module, messages):
    """Return the English messages that a module of the ledger says by id."""
    ids = re.findall(r'"([a-z]+(?:-[a-z0-9]+)+)"', module.read_text("utf-8"))
    told = [messages[id_] for id_ in ids if id_ in messages]
    assert told, module
    return told


def test_no_word_of_these_pages_calls_food_safe_or_fine():
    never = re.compile(
        r"\b(safe|unsafe|ok|fine|good|passed|approved|certified|sterile|probably|almost|slightly)\b",
        re.IGNORECASE,
    )
    words = dashboard.words.catalogue("en")
    said = [text for key, text in words.items() if key.startswith(("danger.", "touched."))]
    ledger = Path(dashboard.__file__).parents[1] / "ledger"
    texts = [path.read_text("utf-8") for path in (ledger / "messages" / "en").glob("*.ftl")]
    entries = re.compile(r"^([a-z][\w-]*) =((?:.*\n)(?:[ }].*\n|\n)*)", re.MULTILINE)
    messages = dict(pair for text in texts for pair in entries.findall(text))
    for name in (
        "opened.py",
        "questions/shared/standing.py",
        "questions/shelf/standing.py",
        "questions/shared/gauges.py",
    ):
        said += told_by(ledger / name, messages)
    assert [text for text in said if never.search(text)] == []


def test_danger_is_red_with_words_and_no_tick():
    css = (Path(dashboard.__file__).parent / "assets" / "croft.css").read_text("utf-8")
    rules = [line for line in css.splitlines() if line.startswith((".danger", ".mark"))]
    assert not [line for line in rules if "--leaf" in line]
    assert "✓" not in css


@pytest.fixture
def years(book, fixed_day):
    """Nine batches of beans done so over the years, and one soup that nothing published covers."""
    book.write("harvested", item="green bean", amount="300 lb", on="2015-09-01")
    days = [f"{year}-09-12" for year in range(2018, 2027)]
    for n, day in enumerate(days):
        made = [{"jars": 1 + n % 2, "jar": "quart jar", "kept": "shelf"}]
        book.write("put_up", {**AGAINST, "made": made}, on=day, answers=YES)
    soup = {"makes": "chicken soup", "method": "pressure", "minutes": "90", "psi": "11", "gauge": "dial",
            "altitude": "800 ft", "pack": "hot",
            "used": [{"item": "chicken", "amount": "10 lb"}, {"item": "dry pasta", "amount": "1 lb"}],
            "made": [{"jars": 5, "jar": "quart jar", "kept": "shelf"}]}  # fmt: skip
    book.write("put_up", soup, on="2026-09-14", answers=YES)
    return Data(book)


def test_headline_names_everything_in_danger_that_is_left(years):
    said = text_of(draw(years, "/as-published").parts)
    assert (
        "9 batches stand against every published process. For one batch no tested process is held."
        in said
    )
    assert "Still there: 13 quarts canned green beans, 5 quarts chicken soup." in said
    for n in range(8):
        years.book.write(
            "put_up", {**AGAINST, "makes": f"green beans row {n}"}, on="2026-09-15", answers=YES
        )
    drawn = draw(years, "/as-published")
    assert "And 2 more." in drawn.text
    (link,) = [
        one for one in walk(drawn.parts) if one._type == "Link" and text_of(one) == "And 2 more."
    ]
    assert link.href == "/shelf"


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("path", ["/", "/shelf"])
def test_batches_alike_are_told_together_each_with_its_own_way(years, path, language):
    years.book.write("setting_changed", name="language", value=language, on="2026-01-01")
    drawn = draw(years, path)
    (card,) = [one for one in walk(drawn.parts) if getattr(one, "className", "") == "danger"]
    beans, soup = [one for one in walk(card) if one._type == "Li"]
    said = {"en": "Canned green beans , 13 quarts in 9 batches, shelf: against every published process: do not taste, discard",
            "de": "gegen jede veröffentlichte Vorschrift: nicht kosten, wegwerfen"}[language]  # fmt: skip
    assert said in " ".join(text_of(beans).split())
    assert "13" in text_of(beans)
    links = {one.href: text_of(one) for one in walk(beans) if one._type == "Link"}
    batches = [
        row for row in years.show("as-published").rows() if row["item"] == "canned green beans"
    ]
    remedy, *ways = links  # the remedy first, once a food
    assert remedy.startswith("/write?kind=discarded&batch=")
    assert set(ways) == {f"/as-published?batch={row['batch']}#batch" for row in batches}
    assert [text for text in links.values() if "2026" in text]
    alone = [one.href for one in walk(soup) if one._type == "Link"]
    assert [href.split("?")[0] for href in alone] == ["/write", "/as-published", "/touched"]
    assert "2026" in text_of(soup)
    assert not [one for one in walk(card) if one._type == "Details"]  # nothing of it folds
    assert "%" not in text_of(card)


@pytest.mark.parametrize("language", ["en", "de"])
def test_throwing_out_is_a_form_filled_in_with_all_of_that_food(years, language):
    years.book.write("setting_changed", name="language", value=language, on="2026-01-01")
    card = next(
        one for one in walk(draw(years, "/").parts) if getattr(one, "className", "") == "danger"
    )
    for line, item, jars in zip(
        [one for one in walk(card) if one._type == "Li"],
        ("canned green beans", "chicken soup"), (13, 5), strict=True,
    ):  # fmt: skip
        href = next(one.href for one in walk(line) if one._type == "Link")
        batch = href.partition("&batch=")[2]
        body = to_discard(ask_of(years, "/write", href.partition("/write")[2]), batch)
        assert {one["item"] for one in body["lines"]} == {item}
        form = draw(years, "/write", href.partition("/write")[2])
        filled = [str(getattr(one, "value", "")) for one in walk(form.parts)]
        assert sum(item in text for text in filled) == len(body["lines"])
        assert {type(one) for line in body["lines"] for one in line.values()} | {
            type(body["note"])
        } == {str}
        years.book.write("discarded", body, on="2026-09-20", answers=YES)
        left = [row for row in years.show("shelf").rows() if row["item"] == item]
        assert (left, jars) == ([], sum(int(one["amount"].split()[0]) for one in body["lines"]))
    assert not [
        one for one in walk(draw(years, "/").parts) if getattr(one, "className", "") == "danger"
    ]


GARLIC = {
    "makes": "garlic in oil", "method": "cook",
    "used": [{"item": "garlic", "amount": "4 oz"}, {"item": "olive oil", "amount": "8 oz"}],
    "made": [{"jars": 2, "jar": "half-pint jar", "kept": "fridge"}],
}  # fmt: skip


@pytest.fixture(params=["en", "de"])
def oil(book, fixed_day, request):
    """Garlic in oil in the fridge, which is to be looked up before it is eaten, and due within days."""
    book.write("setting_changed", name="language", value=request.param, on="2026-01-01")
    book.write("put_up", GARLIC, on=Data(book).today().isoformat(), answers=YES)
    data = Data(book)
    (row,) = [row for row in data.show("shelf").rows() if row["item"] == "garlic in oil"]
    assert row["standing"] in MARKED
    assert 0 <= row["days_left"] <= 7
    return data, request.param


def test_what_bears_a_mark_is_never_said_to_be_eaten(oil):
    data, _ = oil
    today = draw(data, "/")
    lines = [text_of(one) for one in walk(today.parts) if one._type == "Li"]
    about = [one for one in lines if "arlic in oil" in one or "Garlic in oil" in one]
    assert not [one for one in about if re.search(r"^\W*(Eat |Bis .* essen|Heute essen)", one)]
    soon = [one for one in walk(today.parts) if getattr(one, "className", "") == "days soon"]
    assert not [one for one in soon if "arlic" in text_of(one)]
    said = next(
        text_of(one) for one in walk(draw(data, "/shelf").parts) if "answer" in str(getattr(one, "className", ""))
    )  # fmt: skip
    assert "arlic" not in said


def test_the_question_before_it_is_opened_names_its_danger(oil):
    data, language = oil
    _, shown = send(data, "eaten", {("ate", 0): "1 half-pint jar garlic in oil"})
    said = {"en": "Under oil or fat spores of botulism can grow", "de": "Sporen des Botulismus"}
    assert shown.className in ("caution grave", "danger")
    assert said[language] in text_of(shown)


def test_a_batch_s_findings_lead_to_who_had_it(kitchen):
    data, _, batch = kitchen
    drawn = draw(data, "/as-published", f"?batch={batch}")
    assert f"/touched?by=batch&of={batch}" in [
        one.href for one in walk(drawn.parts) if one._type == "Link"
    ]


SHORT = {**OPEN, "psi": "6"}
UNSAID = {**OPEN, "makes": "canned snap beans"}


@pytest.mark.parametrize("grave", [AGAINST, SHORT])
def test_today_speaks_of_what_is_in_danger_in_its_card_alone(book, fixed_day, grave):
    """Batches in danger are never to be looked up; what is only open is, by its name."""
    for month in (7, 8):
        book.write("put_up", grave, on=f"2026-{month:02d}-12", answers=YES)
    data = Data(book)
    drawn = draw(data, "/")
    assert [one for one in walk(drawn.parts) if getattr(one, "className", "") == "danger"]
    assert not re.search(r"look (it|them) up|still to be checked|not written down", drawn.text)
    book.write("put_up", UNSAID, on="2026-09-12", answers=YES)
    (standing,) = [r["standing"] for r in data.show("shelf").rows() if "snap" in r["item"]]
    assert standing in ("not recorded", "to check yourself")
    todo = [
        text_of(one)
        for one in walk(draw(data, "/").parts)
        if getattr(one, "className", "") == "todo"
    ]
    (line,) = [one for one in todo if "look it up" in one]
    assert "Canned snap beans: look it up before its jars are eaten" in line
    assert "ne batch" in line
    assert not [one for one in todo if "green beans" in one and "look" in one]


def test_nothing_is_said_to_be_saved_by_what_bears_a_mark(kitchen):
    data, language, _ = kitchen
    for item, paid in (("lid", "2"), ("canned green beans", "50")):
        data.book.write(
            "price_seen",
            item=item,
            amount="1" if item == "lid" else "1 qt",
            price=paid,
            on="2026-09-01",
            answers=YES,
        )
    drawn = draw(data, "/jar-cost")
    assert "canned green beans" in str(data.show("jar-cost").cautions[0].text)
    assert saving_of(drawn) == []
    signs = of_class(drawn, "sign-alone mark-grave")
    assert len(signs) == 3  # in the glance, in the batches of the item, and in all batches
    (under,) = of_class(drawn, "mark mark-grave")
    assert all(SAID[language][0] in text_of(one) for one in (*signs, under))
    gone = {"item": "canned green beans", "amount": "7 quart jars", "why": "other"}
    data.book.write("discarded", gone, on="2026-09-20", answers=YES)
    assert not data.show("jar-cost").cautions
    drawn = draw(data, "/jar-cost")
    assert saving_of(drawn) == []
    (under,) = of_class(drawn, "mark mark-grave")
    assert text_of(under) == SAID[language][0].partition(":")[0]  # nothing is left to be thrown out


def of_class(drawn, name):
    return [one for one in walk(drawn.parts) if getattr(one, "className", "") == name]


def saving_of(drawn):
    """Return the figures of a page that say what was saved."""
    opens = [one.to_plotly_json()["props"].get("data-field", "") for one in drawn.all("Button")]
    return [field for field in opens if field.startswith("saved")]


def test_the_shelf_counts_jars_to_look_up_one_by_one(book, fixed_day):
    book.write("put_up", OPEN, on="2026-09-12", answers=YES)
    made = [{"jars": 7, "jar": "quart jar", "kept": "shelf", "unsealed": 1}]
    good = {**OPEN, "headspace": "1 in", "loads": 1, "made": made}
    book.write("put_up", good, on="2026-09-14", answers=YES)
    book.write("put_up", {**AGAINST, "makes": "green beans"}, on="2026-09-15", answers=YES)
    said = " ".join(text_of(draw(Data(book), "/shelf").parts).split())
    assert "6 jars not marked, 7 to look up, 8 not to be eaten." in said
