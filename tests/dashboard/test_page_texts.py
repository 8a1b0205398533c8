"""The texts of the pages: each is used, each that is asked for is there, and each belongs to something."""

from __future__ import annotations

import ast
import re
import string
from pathlib import Path

import pytest
from freezegun import freeze_time
from page_tools import draw

import dashboard
from dashboard.forms.specs import FORMS
from dashboard.pages import PAGES
from dashboard.words import LANGUAGES, Words, catalogue
from ledger import Book
from ledger.kinds import KINDS
from ledger.projections import PROJECTIONS, Node
from ledger.questions.compared.compare import COLUMNS as COMPARED


def fields_of(text):
    return {name for _, name, _, _ in string.Formatter().parse(text) if name is not None}


@pytest.mark.parametrize("language", LANGUAGES)
def test_placeholders_are_those_of_english(language):
    english, other = catalogue("en"), catalogue(language)
    wrong = {
        key: (fields_of(english[key]), fields_of(text))
        for key, text in other.items()
        if key in english and fields_of(english[key]) != fields_of(text)
    }
    assert wrong == {}
    assert all(text.strip() == text and text for text in other.values())
    assert not [key for key, text in other.items() if "" in fields_of(text)]


# Every text is used: named in the source, met while pages are drawn, or of a kind that a field,
# a column, a kind of entry or a word of an answer asks for by its name.

SOURCES = [
    path.read_text("utf-8")
    for path in sorted(Path(dashboard.__file__).parent.rglob("*.py"))
]  # fmt: skip
LEDGER = "".join(
    path.read_text("utf-8")
    for path in sorted((Path(dashboard.__file__).parents[1] / "ledger").rglob("*.py"))
)
SOMETIMES = {
    "jar_cost.half_gallon_jar": "something was put up in such a jar",
    "search.sorts.batch": "a batch is found",
    "our_table.of_weight_metric": "the household's measures are metric",
    "next_season.by_asked": "the address wants something otherwise",
    **{
        key: why
        for start, why in {
            "as_published.answer_": "such a standing is the gravest of all batches",
            "asks.": "a page has no answer of the day",
            "worth_it.no_": "something has no known price",
            "worth_it.yes_": "something has no known price",
            "components.": "such a part costs something",
            "know_how.none_": "a list is empty",
            "next_season.first_": "such a thing comes first",
            "our_table.answer_": "energy is not known, or measures are metric",
            "our_table.share_": "the months are asked by something else",
            "season.a_": "no plants are written down",
            "season.answer_": "less than last year, nothing counted, or no season before",
        }.items()
        for key in catalogue("en")
        if key.startswith(start)
    },
    **{
        key: "there is one of it"
        for key in catalogue("en")
        if key.removesuffix("_one") != key and key.removesuffix("_one") in catalogue("en")
    },
    **{
        key: "such a choice is offered"
        for key in catalogue("en")
        if key.startswith(("begin.altitude_", "begin.language_", "begin.measures_", "begin.gauge_"))
    },
    **{
        f"begin.{part}_{step}": "a new book is at that step"
        for part in ("answer", "under")
        for step in ("house", "pantry", "first")
    },
    "beds.under_m": "the household's measures are metric",
    "begin.head_first": "a new book is at that step",
    "search.sorts.person": "somebody is named so",
    "search.also": "an item was found by another of its names",
    "search.found_one": "one entry alone has the words",
    "closer.no_price": "no batch has a price",
    "closer.never": "an item was never in the house",
    "as_published.more_left": "many things are in danger",
    "as_published.total_questions": "the schedule asks more than was said",
    "as_published.total_needs": "a batch's needs are known",
    "next_season.from_asked": "totals name who wished so",
    "stocking_up.still_wanted": "packs are wanted after the last trip",
    "stocking_up.would_spoil": "packs would pass their date",
    "today.to_check_yourself": "batches are to be checked",
    "today.to_check_yourself_one": "a batch is to be checked",
    "today.not_recorded_one": "a batch says too little",
    "today.look": "batches are to be looked up",
    "today.look_one": "a batch is to be looked up",
    "today.and_more": "more than three things are to be looked up",
    "today.not_recorded": "batches say too little",
    **{f"today.things_{n}": "so many things press" for n in range(4)},
    **{f"today.more_{n}": "so many things press beside a danger" for n in range(3)},
    **{
        f"jars.{jar}.{n}": "so many jars of it are there"
        for jar in ("quart_jar", "pint_jar", "half-pint_jar")
        for n in ("one", "many")
    },
    **{key: "the shell is drawn" for key in catalogue("en") if key.startswith(("bar.", "groups."))},
    "touched.received": "what went in had been given",
    "touched.found": "a count found what went in",
    "touched.unrecorded": "what went in was never written down",
    "touched.lost": "a count missed some of it",
    "touched.discarded": "some of it was thrown out",
    "devices.put_out": "another device is signed in",
    "devices.forget": "another device is known and not signed in",
    **{
        f"failing.{status}": "a request is answered so" for status in (400, 401, 404, 405, 413, 429)
    },
    **{
        key: "the server speaks TLS"
        for key in catalogue("en")
        if re.fullmatch(r"trust\.(iphone|android|computer)\.(title|step\d)", key)
    },
}
"""Keys put together from parts, with what must be so for a page to use them."""


def literals():
    found = set()
    for source in SOURCES:
        found |= set(re.findall(r'words\("([\w.]+)"\)', source))  # also within templates of HTML
        for node in ast.walk(ast.parse(source)):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                found.add(node.value)
    for template in Path(dashboard.__file__).with_name("templates").glob("*.html"):
        found |= set(re.findall(r"""words\(["']([\w.]+)["']""", template.read_text("utf-8")))
    return found


@pytest.fixture(scope="module")
def met(demo, tmp_path_factory):
    """The keys that are asked for while every address is drawn, of the sample household and of an empty book."""
    seen, call = set(), Words.__call__

    def recorded(self, key, **values):
        seen.add(key)
        return call(self, key, **values)

    with (
        pytest.MonkeyPatch.context() as patch,
        freeze_time("2026-11-01 12:00:00"),
        Book.open(tmp_path_factory.mktemp("empty") / "book.sqlite") as book,
    ):
        patch.setattr(Words, "__call__", recorded)
        for path, query in addresses(demo):
            draw(demo.book, path, query)
            draw(book, path)
    return seen


def addresses(demo):
    batch = demo.show("as-published").frame["batch"].iloc[-1]
    for page in PAGES:
        yield page.path, {}
    for kind in FORMS:
        yield "/write", {"kind": kind}
    for query in (
        {"batch": batch},
        {"product": "green beans", "method": "pressure"},
        {"off": "30 h"},
    ):
        yield "/as-published", query
    for basis in ("weight", "value"):
        yield "/our-table", {"basis": basis}
    for by in ("item", "lot", "batch", "purchase", "gauge", "schedule", "meal"):
        yield "/touched", {"by": by}
    for item in ("tomato", "tomato sauce", "sugar"):
        yield "/touched", {"by": "item", "of": item}
        yield "/touched", {"by": "item", "of": item, "back": "1"}
    for of in ("plum", "tomato", "mill", "bed", "no such word"):
        yield "/search", {"of": of}
    yield "/stocking-up", {"budget": "5", "trips": "2"}
    yield "/next-season", {"want:tomato": "5"}


def test_every_text_is_used(met):
    used = literals() | met
    spare = [
        key
        for key in catalogue("en")
        if key not in used
        and key not in SOMETIMES
        and key.partition(".")[0]
        not in ("answers", "away", "columns", "examples", "fields", "how", "kinds", "states")
    ]
    assert spare == []
    assert set(SOMETIMES) <= set(catalogue("en"))


def test_every_text_that_is_asked_for_is_there(met):
    assert {key for key in met if key not in catalogue("en")} == set()
    source = "".join(SOURCES)
    named = set(re.findall(r'words\(\s*"([a-z_]+\.[\w.]+)"', source))
    assert {key for key in named if key not in catalogue("en")} == set()
    assert len(named) > 150


@pytest.mark.parametrize("language", LANGUAGES)
def test_texts_of_fields_columns_and_words_belong_to_something(language):
    texts = catalogue(language)
    columns = {
        name: {c.name for cs in (p.columns, *p.variants.values()) for c in cs} for name, p in PROJECTIONS.items()
    }  # fmt: skip
    columns["any"] = set().union(*columns.values(), (c.name for c in COMPARED))
    every = {field.name for form in FORMS.values() for field in form.fields} | {"line", "lines"}
    fields = {kind: {field.name for field in form.fields} for kind, form in FORMS.items()}
    for key in texts:
        group, _, rest = key.partition(".")
        name = rest.partition(".")[2]
        if group == "columns":
            assert name in columns[rest.partition(".")[0]], key
        elif group == "examples":
            assert rest.rpartition(".")[2] in every | {"day"}, key  # each form has a day
        elif group == "fields" and rest.startswith("any."):
            assert name in every, key
        elif group == "fields":
            assert name in fields[rest.partition(".")[0]] | {"line", "lines"}, key
        elif group == "kinds":
            assert rest.partition(".")[0] in KINDS, key
            assert name in ("title", "says"), key


def test_every_kind_and_page_has_its_texts():
    texts = catalogue("en")
    for kind in KINDS:
        assert {f"kinds.{kind}.title", f"kinds.{kind}.says"} <= set(texts)
    for page in PAGES:
        assert f"nav.{page.name}" in texts
        assert page.name == "more" or f"asks.{page.name}" in texts


@pytest.mark.parametrize("language", LANGUAGES)
def test_what_a_page_asks_is_more_than_its_name_again(language):
    texts = catalogue(language)
    bare = {key: text.rstrip("?") for key, text in texts.items() if key.startswith("asks")}
    same = [
        key for key, text in bare.items()
        if key.startswith("asks.") and text == bare.get(key.replace("asks.", "asks_short."))
    ]  # fmt: skip
    assert not same


def test_every_way_that_parts_give_a_figure_has_words():
    told = Node.__doc__.split("\n\n")[1].replace("``as written``", "")  # a leaf is not worked out
    ways = set(re.findall(r"``([\w ]+)``", told)) | set(re.findall(r'node\.how == "(\w+)"', LEDGER))
    ways |= set(re.findall(r'^    "(\w+)": (?:min|max|median)', LEDGER, re.MULTILINE))
    assert {"sum", "product", "quotient", "difference", "lowest", "highest"} <= ways
    assert {way for way in ways if f"how.{way}" not in catalogue("en")} == set()
    assert {
        key for key in catalogue("en") if key.startswith("how.") and key[4:] not in ways
    } == set()
