"""Every page on every sort of book, at every moment, whatever its address asks: never blank, never a fault."""

from __future__ import annotations

import datetime as dt
import json
import logging
import re
from urllib.parse import unquote
from xml.etree import ElementTree

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from page_tools import Drawn, text_of, walk
from plotly.utils import PlotlyJSONEncoder

from dashboard.ask import Ask, words_of
from dashboard.data import Data, Moment
from dashboard.drawing import ask_of, draw_page, draw_why, moment_note
from dashboard.forms.specs import FORMS
from dashboard.pages import PAGES
from ledger import Answers, InputError

NAMES = [page.name for page in PAGES]
PATHS = [page.path for page in PAGES]
NONSENSE = "?season=x&item=nothing&rows=-1&batch=../../"
FAILED = "This could not be worked out"
MOST_TRACES = 30
BEFORE = {"as_of": "2020-01-01"}
MIDDLE = {"as_of": "2025-06-15", "known_at": "2025-07-01"}
UNKNOWN = {"known_at": "2020-01-01"}

MARKUP = "<b>plum</b> {n} %{x}"
SCRIPT = "<script>alert(1)</script>"
LINK = 'jam <a href="http://elsewhere.example">y</a>'
IMAGE = "<img src=x onerror=alert(1)>"
WHO = "<i>Ada</i>"

ONE = [
    ("harvested", {"item": "plum", "amount": "31 lb"}),
    ("bought", {"item": "sugar", "amount": "10 lb", "paid": "7.90"}),
    ("put_up", {"makes": "jam", "method": "cook", "used": [{"item": "plum", "amount": "3 lb"}],
                "made": [{"jars": 3, "jar": "pint jar"}]}),
    ("eaten", {"ate": [{"item": "plum", "amount": "2 lb"}]}),
    ("practised", {"skill": "grafting", "people": ["Ada"]}),
    ("counted", {"lines": [{"item": "plum", "amount": "2 lb"}], "missing": "eaten"}),
    ("planted", {"crop": "bean", "bed": "by the gate", "area": "40 sq ft"}),
    ("received", {"item": "quince", "amount": "4 lb", "how": "gift", "from": "a neighbour"}),
    ("given_away", {"item": "plum", "amount": "4 lb", "how": "gift", "to": "a neighbour"}),
    ("discarded", {"item": "plum", "amount": "1 lb", "why": "spoiled"}),
    ("price_seen", {"item": "plum", "amount": "1 lb", "price": "2.90"}),
    ("recipe_written", {"recipe": "plum jam", "makes": "plum jam", "method": "cook",
                        "uses": [{"item": "plum", "amount": "3 lb"}], "yields": "3 pints"}),
    ("target_set", {"item": "plum", "amount": "40 lb", "per": "year"}),
    ("item_described", {"item": "garlic", "sort": "food"}),
    ("setting_changed", {"name": "measures", "value": "metric"}),
]  # fmt: skip


def data_of(book, *events, on="2026-09-02"):
    for kind, body in events:
        book.write(kind, body, on=on, answers=Answers(yes=True))
    return Data(book)


def well(data, path, search="", moment=None, scheme="light"):
    """Return a page after looking that it is whole, and that a browser could be given it."""
    drawn = Drawn(ask_of(data, path, search, moment, scheme))
    assert FAILED not in drawn.text, drawn.text
    assert len(drawn.text.split()) > 8, (path, search, drawn.text)
    assert "Traceback" not in drawn.text
    wrong = re.search(r"(?<![\w'])(nan|NaN|NaT|None|inf|<NA>|datetime\.date)(?![\w'])", drawn.text)
    assert wrong is None, (path, search, drawn.text[max(0, wrong.start() - 80) : wrong.end() + 40])
    ids = [json.dumps(one.id) for one in walk(drawn.parts) if getattr(one, "id", None)]
    assert len(ids) == len(set(ids)), sorted(one for one in ids if ids.count(one) > 1)
    for one in walk(drawn.parts):
        inside = getattr(one, "children", None)
        if isinstance(inside, (list, tuple)):  # a list within a list is not drawn
            assert not any(isinstance(part, (list, tuple)) for part in inside), (path, one._type)
        assert not getattr(one, "dangerously_allow_html", False)
    json.dumps(drawn.parts, cls=PlotlyJSONEncoder)
    for graph in drawn.all("Graph"):
        assert 0 < len(graph.figure.data) < MOST_TRACES, (path, graph.id)
    return drawn


@pytest.fixture(autouse=True)
def no_fault(caplog, fixed_day):
    """Nothing may go wrong silently: a page's fault is logged, and what is logged fails the test."""
    yield
    faults = [one.getMessage() for one in caplog.records if one.levelno >= logging.ERROR]
    assert faults == []


@pytest.mark.parametrize("path", PATHS)
def test_empty_book_says_what_would_be_there(book, path):
    drawn = well(Data(book), path)
    well(Data(book), path, NONSENSE)
    assert drawn.text.startswith(drawn.ask.words(f"nav.{PAGES[PATHS.index(path)].name}"))
    starts = [one.href for one in drawn.all("Link") if str(one.href).startswith("/write?kind=")]
    assert starts or path in ("/", "/more")  # a new book's first page asks
    for href in starts:
        assert href.partition("kind=")[2] in FORMS


@pytest.mark.parametrize("kind", [kind for kind, _ in ONE])
def test_book_of_one_event(book, kind):
    data = data_of(book, *[one for one in ONE if one[0] == kind])
    for path in PATHS:
        for search in ("", NONSENSE, "?rows=all"):
            well(data, path, search)
        well(data, path, moment={"as_of": "2026-09-02"})


@pytest.mark.parametrize("moment", [BEFORE, UNKNOWN], ids=["before", "unknown"])
def test_book_before_its_first_event(book, moment):
    """Whatever was written later, nothing had happened, or nothing was known: one book of every kind is enough."""
    data = data_of(book, *ONE)
    for path in PATHS:
        well(data, path, moment=moment)


@pytest.mark.parametrize("path", PATHS)
@pytest.mark.parametrize(
    "moment", [None, BEFORE, UNKNOWN, MIDDLE], ids=["now", "before", "unknown", "middle"]
)
def test_sample_book_at_every_moment(demo, path, moment):
    for search in ("", NONSENSE, "?rows=all"):
        # a scheme changes colours alone: one moment shows them
        for scheme in ("light",) if search or moment else ("light", "dark"):
            drawn = well(demo, path, search, moment, scheme)
    note = text_of(moment_note(drawn.ask))
    assert bool(note) == (moment is not None)


@pytest.mark.parametrize("path", ["/shelf", "/jar-cost", "/our-table", "/season", "/worth-it"])
def test_nothing_is_shown_of_what_had_not_happened(demo, path):
    before, now = well(demo, path, moment=BEFORE), well(demo, path)
    assert before.figures() == []
    assert len(now.figures()) > 5


class Recorder(dict):
    """An address's choices that remembers which of them a page reads."""

    def __init__(self):
        super().__init__()
        self.read = set()

    def get(self, key, otherwise=None):
        self.read.add(key)
        return super().get(key, otherwise)


def choices_read(data):
    """Return the name of every choice that any page reads, or offers."""
    found = set()
    for page in PAGES:
        query = Recorder()
        ask = Ask(data, words_of(data), query=query, path=page.path)
        parts = draw_page(ask)
        found |= query.read
        ids = [getattr(one, "id", None) for one in walk(parts)]
        found |= {one["choice"] for one in ids if isinstance(one, dict) and "choice" in one}
    return sorted(found)


ODD = st.one_of(
    st.sampled_from([
        "", " ", "0", "-1", "-0.5", "1e999", "nan", "inf", "٣", "1,5", "9" * 400, "../../", "x", "all", "yes", "none",
        "2025", "2026-02-30", "2026-13-01", "0000", "plum", "tomato", "energy", "%", "'", "\"", "\\", "\x00", "{n}",
        "<b>x</b>", "5f0c0a0e-7f7e-4c57-9d3b-0f6a1f0e2c11", "5f0c", "harvested", "struck", "🍅", "a=b&c", "true",
    ]),
    st.text(max_size=12),
)  # fmt: skip


@settings(max_examples=150, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(drawn=st.data())
def test_whatever_an_address_asks_is_answered(demo, drawn):
    names = [
        *choices_read_of(demo),
        "kind",
        "replaces",
        "like",
        "strike",
        "want:tomato",
        "want:no such",
    ]
    path = drawn.draw(st.sampled_from(PATHS))
    query = drawn.draw(st.dictionaries(st.sampled_from(names), ODD, max_size=5))
    ask = Ask(demo, words_of(demo), query=query, path=path)
    parts = draw_page(ask)
    text = text_of(parts)
    assert FAILED not in text, (path, query)
    assert len(text.split()) > 3


_READ: list[str] = []


def choices_read_of(data):
    if not _READ:
        _READ.extend(choices_read(data))
    return _READ


def test_choices_are_found(demo):
    assert {"item", "season", "rows", "batch", "find", "year", "basis", "crop"} <= set(
        choices_read(demo)
    )


@pytest.mark.parametrize("search", [
    "kind=harvested&replaces=zzzz", "kind=harvested&replaces=5f0c0a0e-7f7e-4c57-9d3b-0f6a1f0e2c11",
    "kind=harvested&like=../../", "kind=struck", "kind=nothing", "kind=harvested&kind=bought", "kind=",
    "kind=bought&replaces=a", "kind=bought&like=0",
])  # fmt: skip
def test_form_of_nothing_known_says_so(demo, search):
    well(demo, "/write", f"?{search}")


def test_book_whose_names_hold_markup_shows_them_as_text(book):
    data = data_of(
        book,
        ("harvested", {"lines": [{"item": MARKUP, "amount": "31 lb", "bed": IMAGE}], "work": [{"person": WHO, "minutes": "30"}]}),
        ("planted", {"crop": MARKUP, "variety": SCRIPT, "bed": IMAGE, "plants": 3, "area": "100 sq ft"}),
        ("bought", {"lines": [{"item": SCRIPT, "amount": "10 lb", "paid": "7"}], "shop": IMAGE}),
        ("bought", {"lines": [{"item": LINK, "amount": "1 pint jar", "paid": "4"}], "shop": IMAGE}),
        ("put_up", {"makes": LINK, "method": "cook", "used": [{"item": MARKUP, "amount": "3 lb"}, {"item": SCRIPT, "amount": "1 lb"}],
                    "made": [{"jars": 3, "jar": "pint jar"}], "work": [{"person": WHO, "minutes": "30"}]}),
        ("eaten", {"ate": [{"item": MARKUP, "amount": "3 lb"}, {"item": LINK, "amount": "1 pint jar"}], "people": 2}),
        ("practised", {"skill": SCRIPT, "people": [WHO]}),
        ("target_set", {"item": LINK, "amount": "12 pint jars", "per": "year"}),
        ("target_set", {"item": SCRIPT, "amount": "12 lb", "per": "year"}),
    )  # fmt: skip
    seen, pictures, labels = "", "", ""
    for path in PATHS:
        drawn = well(data, path)
        seen += drawn.text
        for one in walk(drawn.parts):
            assert one._type not in ("Markdown", "DangerouslySetInnerHTML"), path
            for name in ("href", "src"):
                assert not str(getattr(one, name, "")).startswith(("javascript", "http", "<"))
            if str(getattr(one, "src", "")).startswith("data:image/svg+xml;charset"):
                drawing = ElementTree.fromstring(unquote(one.src.partition(",")[2]))
                kinds = {part.tag.rpartition("}")[2] for part in drawing.iter()}
                assert kinds <= {"svg", "title", "style", "text", "rect", "path", "circle"}
                labels += " ".join(
                    part.text for part in drawing.iter() if part.tag.endswith("text")
                )
        for graph in drawn.all("Graph"):
            shown = graph.figure.to_plotly_json()
            for trace in shown["data"]:  # what tells tiles apart is not shown
                trace.pop("ids", None), trace.pop("parents", None)
            pictures += json.dumps(shown, cls=PlotlyJSONEncoder)
    for name in (MARKUP, SCRIPT, LINK, WHO):
        assert name in seen, name
    # A picture reads tags and %{...} in the names it is given: they are given as what they look like.
    assert "plum" in labels
    assert "<b>plum" in labels.lower()
    for tag in ("<b>", "<script", "<a href", "<img", "<i>"):
        assert tag not in pictures, tag
    for template in re.findall(r'"(?:hover|text)template": "(.*?)(?<!\\)"', pictures):
        assert "plum" not in template
        assert "jam" not in template


@pytest.mark.parametrize(
    "address", ["", "shelf", "shelf/", "shelf/nothing", "no-such/x", "../../", "shelf/" + "9" * 500]
)
@pytest.mark.parametrize("field", [None, "", "nothing", "left.whole"])
def test_panel_of_a_figure_that_is_not_there_says_so(demo, address, field):
    said = text_of(draw_why(ask_of(demo, "/shelf"), {"address": address, "field": field}))
    assert FAILED not in said
    assert len(said) > 10


def test_two_batches_of_a_day_have_a_mark_each(book):
    batch = {"makes": "jam", "method": "cook", "made": [{"jars": 3, "jar": "pint jar"}]}
    for amount in ("3 lb", "6 lb"):
        book.write("bought", {"item": "plum", "amount": amount, "paid": "3"}, on="2026-09-01")
        used = [{"item": "plum", "amount": amount}]
        book.write("put_up", {**batch, "used": used}, on="2026-09-02", answers=Answers(yes=True))
    drawn = well(Data(book), "/jar-cost")
    assert len(drawn.drawing("batches").dots()) == 2
    assert text_of(drawn.parts).count("2 Sep 2026") >= 2


def test_unknown_address_says_so_and_leads_home(book):
    for path in ("/no-such", "/files", "//", "/Shelf"):
        text = text_of(draw_page(ask_of(Data(book), path)))
        assert path == "//" or "There is no such page" in text


def test_fault_of_a_page_is_said_and_logged_but_hides_nothing_else(demo, monkeypatch, caplog):
    def fault(_ask):
        raise ZeroDivisionError("a secret")

    page = PAGES[NAMES.index("shelf")]
    monkeypatch.setattr("dashboard.drawing.page_at", lambda _: type(page)("shelf", "/shelf", fault))
    text = text_of(draw_page(ask_of(demo, "/shelf")))
    assert FAILED in text
    assert "secret" not in text
    assert "ZeroDivisionError" in caplog.text
    caplog.clear()

    def refuses(_ask):
        raise InputError("season", "is not one", "Write a year")

    monkeypatch.setattr(
        "dashboard.drawing.page_at", lambda _: type(page)("shelf", "/shelf", refuses)
    )
    assert "season: is not one" in text_of(draw_page(ask_of(demo, "/shelf")))


def test_moment_of_an_ask_is_passed_to_every_question(demo):
    ask = ask_of(demo, "/shelf", "?rows=all", MIDDLE)
    assert ask.moment == Moment(**MIDDLE)
    assert ask.day == dt.date(2025, 6, 15)
    assert ask.show("shelf").as_of == "2025-06-15"


def test_a_few_days_of_meals_give_no_share(book, yes, fixed_day):
    """Below a fortnight the page says from when it tells, as the answer does, and draws no bites."""
    book.write("harvested", {"item": "plum", "amount": "5 lb"}, on="2026-09-01", answers=yes)
    book.write("eaten", {"ate": [{"item": "plum", "amount": "1 lb"}]}, on="2026-09-02", answers=yes)
    drawn = well(Data(book), "/our-table")
    assert "Shares are told from 14 days with meals on; so far: 1." in drawn.text
    assert "of every 100" not in drawn.text
