"""German beside English: the same keys and placeholders, nothing left in English, every page drawn."""

from __future__ import annotations

import re
from functools import cache

import plotly.graph_objects as go
import pytest
from page_tools import Drawn, walk

from dashboard.data import Data
from dashboard.drawing import ask_of
from dashboard.forms.form import form_of
from dashboard.forms.specs import FORMS
from dashboard.pages import PAGES
from dashboard.words import Words, catalogue
from ledger.amounts import parse_measure
from ledger.door import Answers
from ledger.door.filling import fill
from ledger.door.texts import Texts
from ledger.messages.words import column as heading
from ledger.projections import Column

EN, DE = catalogue("en"), catalogue("de")
OWN = ("columns.",)
"""Groups in which a language says as much as it needs: the other says it with the answer itself."""
SAME = {
    "shell.name": "a name",
    "jars.other": "signs alone",
    "shelf.a2": "numbers",
    "shelf.a3": "numbers",
    "forms.jars": "signs alone",
    "examples.work": "a name and a number",
    "examples.labels": "numbers",
    "as_published.one": "signs alone",
    "know_how.who_what": "two names",
    "next_season.patch": "a name and an amount",
    "season.counted": "an amount and a name",
    "season.only_counted": "an amount and a name",
    "next_season.m2": "a unit",
    "next_season.amount": "signs alone",
    "season.m2": "a unit",
    "examples.reads": "a number and a unit",
    "examples.meter_read.reads": "a number and a unit",
    "jar.like": "a label",
    "touched.like_lot": "a label",
    "touched.like_batch": "an id",
    "touched.like_purchase": "an id",
    "touched.like_meal": "an id",
    "touched.like_gauge": "gauges are named as the door reads them",
    "touched.like_schedule": "the published tables are in English",
    "trust.android.title": "a name",
    "beds.bar_ft": "a number and a unit",
    "beds.bar_m": "a number and a unit",
    "begin.language_en": "a language in its own words",
    "begin.language_de": "a language in its own words",
    "begin.altitude_us": "a number and a unit",
    "begin.altitude_uk": "a number and a unit",
    "begin.altitude_metric": "a number and a unit",
    "closer.kg": "a unit",
    "closer.lb": "a unit",
    "batch.inches_mm": "a number and a unit",
    "batch.psi_kpa": "a number and a unit",
    "labels.count": "signs alone",
    "labels.a4": "a paper's name and its size",
    "labels.letter": "a paper's name and its size",
    "labels.mm": "a number and a unit",
    "labels.chip": "signs alone",
}
"""Texts that are the same in both, with the reason."""


def test_both_languages_have_the_same_keys():
    assert {k for k in EN if not k.startswith(OWN)} == {k for k in DE if not k.startswith(OWN)}


def test_only_listed_texts_are_the_same():
    assert {key for key, text in EN.items() if DE.get(key) == text} == set(SAME)
    assert {key for key in DE if key.startswith("columns.") and DE[key] == EN.get(key)} == set()


def test_every_choice_of_a_form_has_a_german_word():
    words = Words("de", "metric", "EUR")
    raw = {
        (kind, field.name, one)
        for kind, form in FORMS.items()
        for field in form.fields
        for one in field.choices
        if words.word("answers", one, field.name) == one
    }
    assert raw == set()


def test_every_field_has_a_label():
    shown = {
        (kind, name)
        for kind, form in FORMS.items()
        for name in (*form.first, *form.more, *form.in_row, *form.beside)
    }
    for texts in (EN, DE):
        lacking = {
            (kind, name)
            for kind, name in shown
            if not {f"fields.{kind}.{name}", f"fields.any.{name}"} & set(texts)
        }
        assert lacking == set()


def test_german_examples_can_be_read(book, fixed_day):
    book.write("setting_changed", name="language", value="de")
    book.write("setting_changed", name="measures", value="metric")
    texts = Texts(book.catalogue(), Answers(yes=True))
    for key, example in DE.items():
        group, _, rest = key.partition(".")
        kind, _, name = rest.rpartition(".")
        if group != "examples" or name in ("labels", "headspace"):
            continue
        kinds = [
            form for form in FORMS.values()
            if name in (*form.first, *form.more) and kind in ("", form.kind)
        ]  # fmt: skip
        kinds.sort(key=lambda form: not form.is_parts(name))
        if not kinds:  # a line of its own
            assert texts.line(example, name)["item"]
            continue
        described = kinds[0].named(name)
        body = {}
        fill(body, [described], {name: [example] if described.is_list else example}, texts)
        assert body[name]
    assert texts.labels(DE["examples.labels"])
    assert parse_measure(DE["examples.headspace"], "length", "headspace")


# -- pages drawn -------------------------------------------------------------------------


@pytest.fixture
def german(demo, monkeypatch):
    """The sample household with its pages in German, in metric measures."""
    words = Words("de", "metric", "EUR")
    monkeypatch.setattr("dashboard.drawing.words_of", lambda data: words)
    return demo


SEARCHES = {
    "stocking_up": ("", "?budget=20&trips=2&price_rise=10&shortage=6"),
    "as_published": ("", "?product=green beans&method=pressure", "?off=30 h"),
    "next_season": ("", "?want:tomato=5&for=energy"),
    "our_table": ("", "?basis=weight"),
    "jar_cost": ("", "?item=*"),
}


def sentences():
    """Return English texts as patterns: those long enough to be met only where they are shown."""
    for key, text in EN.items():
        if key in SAME or DE.get(key) == text:
            continue
        parts = [re.escape(part) for part in re.split(r"\{\w+\}", text)]
        said = "".join(re.split(r"\{\w+\}", text)).strip(" ,.:()")
        if len(said) > 3:
            yield key, re.compile(r"(?<![\w-])" + r".{1,60}?".join(parts) + r"(?![\w-])")


PATTERNS = dict(sentences())


def shown(parts):
    """Return all that is read in some parts; what the ledger says is held to its own (test_phrases)."""
    said = []

    def visit(part):
        if isinstance(part, (list, tuple)):
            for one in part:
                visit(one)
            return
        if isinstance(part, str):
            said.append(part)
            return
        kind = getattr(part, "_type", None)
        if kind is None:
            return
        for name in (
            "label",
            "placeholder",
            "title",
            "empty",
            "closes",
            "aria-label",
            "data-label",
            "legend",
        ):
            value = part.to_plotly_json()["props"].get(name)
            if isinstance(value, str):
                said.append(value)
        if kind in ("Choice", "OneOf"):
            said.extend(one["label"] for one in part.options)
        if kind == "Graph":
            said.extend(texts_of(part.figure))
        visit(getattr(part, "children", None))

    visit(parts)
    return said


def texts_of(figure):
    figure = go.Figure(figure)
    for trace in figure.data:
        if trace.name:
            yield trace.name
    for axis in (*figure.select_xaxes(), *figure.select_yaxes()):
        if axis.title.text:
            yield axis.title.text
    for note in figure.layout.annotations:
        yield note.text


WHOLE = {
    "examples.headspace",  # "1 in diesem Jahr"
    "batch.lemon_juice",  # "1 × bottled lemon juice", as the household named it
    "bill.last",  # two words and two names
    "days.several",
    "winter.n_eggs",
    "winter.n_hours",
    "winter.n_months",
    "today.n_days",  # "fridge 4 days", as the door reads it
    *(
        f"jars.{jar}.{n}"
        for jar in ("quart_jar", "pint_jar", "half-pint_jar")
        for n in ("one", "many")
    ),
}
"""Texts so short that they are part of what somebody typed: these are looked for by themselves, after a number."""


READ = {DE[key] for key in SAME if key.startswith("examples.")}
"""Examples that are typed alike in both languages, as the door reads them."""
NAMED = re.compile(r"[\d.,]+ eggs")
"""A thing of the sample household, counted, by the name it has there."""


def english(texts):
    """Return the English texts of the catalogue that stand among those shown, by key."""
    return {key: text for text in texts for key in english_in(text)}


@cache
def english_in(text):
    """Return the keys of the English texts that stand in one; most texts stand on every page."""
    plain = text.strip()
    if text in READ or NAMED.fullmatch(plain):
        return ()
    return [
        key
        for key, pattern in PATTERNS.items()
        if (pattern.fullmatch(plain) and (key not in WHOLE or plain[:1].isdigit()))
        or (" " in EN[key] and key not in WHOLE and pattern.search(text))
    ]


def test_the_search_finds_english(demo, fixed_day):
    """Prove that it can fail: drawn in English, every page is full of English."""
    for page in PAGES:
        assert english(shown(Drawn(ask_of(demo, page.path)).parts)), page.path


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_no_page_says_anything_in_english(german, page, fixed_day):
    asked = set()
    label = Words.label

    def heard(self, question, column):
        asked.add((question, column.name))
        return label(self, question, column)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Words, "label", heard)
        for search in SEARCHES.get(page.name, ("",)):
            drawn = Drawn(ask_of(german, page.path, search))
            assert drawn.ask.words.language == "de"
            assert english(shown(drawn.parts)) == {}
    own = {one for one in asked if heading("de", *one) is None}
    assert own == set()


@pytest.mark.parametrize("kind", FORMS)
def test_no_form_says_anything_in_english(german, kind, fixed_day):
    form = form_of(ask_of(german, "/write", f"?kind={kind}"), kind)
    assert english(shown(form)) == {}
    assert any(one._type in ("Box", "Choice") for one in walk(form))


def test_an_empty_book_speaks_german_by_its_setting(book, fixed_day):
    for page in PAGES:
        drawn = Drawn(ask_of(Data(book), page.path))
        assert drawn.ask.words.language == "en"
    book.write("setting_changed", name="language", value="de")
    for page in PAGES:
        drawn = Drawn(ask_of(Data(book), page.path))
        assert drawn.ask.words.language == "de"
        assert DE[f"nav.{page.name}"] in drawn.text
        assert english(shown(drawn.parts)) == {}


def test_a_column_without_a_german_heading_keeps_its_own():
    assert Words("de").label("shelf", Column("no_such", "Its own", "", "")) == "Its own"
