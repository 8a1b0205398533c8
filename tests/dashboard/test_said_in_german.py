"""What a German page or command shows is a message, a fixed word, or what the household wrote."""

from __future__ import annotations

import json
import re

import pytest
from page_tools import Drawn, walk

from dashboard.data import Data
from dashboard.drawing import ask_of, draw_why
from dashboard.forms.reading import Typed
from dashboard.forms.writing import write_form
from dashboard.pages import PAGES
from dashboard.parts.saying import say
from dashboard.words import Words
from ledger.errors import InputError, NeedsAnswer
from ledger.messages import Day, Message, Sentence, sentence
from ledger.messages import Typed as TypedText
from ledger.messages.words import word
from ledger.published import CAUTIONS, SHORT
from ledger.reference.schedules import products

DE = Words("de", "metric", "EUR")


def test_cautions_are_said_whole():
    for text in (SHORT, *(part for caution in CAUTIONS for part in caution)):
        assert DE.said(text) != text
        numbers = re.findall(r"\d+", text)
        assert [n for n in numbers if n not in re.findall(r"\d+", DE.said(text))] == []


# -- nothing left in English ------------------------------------------------------------

QUOTED = re.compile(
    r'|[\d.,]+(?:\s?%)?|`croftbook [^`]*`|[A-Z]{3}|\d{4}-\d\d|".*"|.*\b(were read|bands were cut off|table line covers)\b.*',
    re.DOTALL,
)
"""What stays: nothing, a number, a command as it is typed, a currency, a month, a published product's name, remarks of the tables."""


def written(value):
    """Yield every text that stands in what the household wrote down."""
    if isinstance(value, str):
        yield value.casefold()
    elif isinstance(value, dict):
        for one in value.values():
            yield from written(one)
    elif isinstance(value, list):
        for one in value:
            yield from written(one)


@pytest.fixture
def unsaid(demo, monkeypatch):
    """Return the plain texts that were to be said: neither fixed words nor what the household wrote."""
    monkeypatch.setattr("dashboard.drawing.words_of", lambda data: DE)
    names = {name.casefold() for name in demo.book.catalogue().names()}
    names |= {product.label.casefold() for product in products().values()}
    for chunk in demo.book.log.read():
        for row in chunk:
            names.update(written(json.loads(next(one for one in row if str(one).startswith("{")))))
    shown = set()

    def is_known(text, of=""):
        several = [one.casefold() for one in (text, *text.split(", "))]
        return (
            isinstance(text, Sentence)
            or QUOTED.fullmatch(text) is not None
            or word("de", text, of) != text
            or several[0] in names
            or all(one in names for one in several[1:])
        )

    def hearing(say_it):
        def heard(self, text, of=""):
            if not is_known(text, of):
                shown.add(text)
            return say_it(self, text, of) if of else say_it(self, text)

        return heard

    for name in ("said", "fixed"):
        monkeypatch.setattr(Words, name, hearing(getattr(Words, name)))
    return shown


SEARCHES = {
    "as_published": ("?product=green beans&method=pressure", "?product=salsa", "?off=30 h",
                     "?product=pumpkin butter&method=boiling water", "?product=zzz"),
    "next_season": ("?want:tomato=5&for=energy", "?want:zz=3"),
    "our_table": ("?basis=weight", "?basis=value"),
    "season": ("?season=2025",),
    "stocking_up": ("?budget=20&trips=2&price_rise=10&shortage=6", "?budget=bad"),
    "winter": ("?asks=no_power", "?asks=when_to_sow", "?asks=whole_year", "?asks=hens"),
}  # fmt: skip


@pytest.fixture(scope="module")
def opened():
    """Return the sorts of figures whose arithmetic was read already."""
    return set()


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_pages_and_their_arithmetic_say_nothing_in_english(demo, unsaid, page, opened, fixed_day):
    for search in ("", *SEARCHES.get(page.name, ())):
        drawn = Drawn(ask_of(demo, page.path, search))
        for _, address, field in drawn.figures():
            kind = (address.partition("/")[0], field)
            if kind not in opened:  # one figure of each sort
                opened.add(kind)
                draw_why(ask_of(demo, "/"), {"address": address, "field": field})
    assert unsaid == set()


def test_findings_of_every_batch_are_said(demo, unsaid, fixed_day):
    for batch in set(demo.show("as-published").frame["batch"]):
        Drawn(ask_of(demo, "/as-published", f"?batch={batch}"))
    assert unsaid == set()


def numbers(text):
    """Return the digits of each number in a text, but for commands and for the months of days."""
    text = re.sub(r"`[^`]*`|(?<=m)2", "", text)
    text = re.sub(r"(\d{4})-\d\d-0?(\d+)", r"\1 \2", text)
    return sorted(re.findall(r"\d+", re.sub(r"(?<=\d)[.,](?=\d)", "", text)))


def test_no_number_is_lost_or_changed(demo, fixed_day):
    """A minute, a pressure or an acid said otherwise could hurt somebody."""
    texts = {row.line for row in demo.history()}
    for name in ("as-published", "shelf", "our-table", "season", "know-how"):
        answer = demo.show(name)
        texts |= {one.text for one in answer.assumptions} | set(answer.totals.get("in_words", ()))
        for findings in answer.frame.get("findings", ()):
            texts |= {str(one[part]) for one in findings for part in ("text", "published", "done")}
        texts |= {text for several in answer.frame.get("advice", ()) for text in several or ()}
    for product in ("green beans", "tomatoes", "apple sauce", "salsa", "dill pickles"):
        asked = demo.show("as-published", product=product, altitude="2600 ft")
        texts |= {record["text"] for record in asked.records()}
        texts |= {
            text for part in ("needs", "steps") for text in (asked.totals.get(part) or {}).values()
        }
    assert len(texts) > 2000
    assert {text for text in texts if numbers(text) != numbers(DE.said(text))} == set()


def test_every_entry_is_told(demo, unsaid):
    for row in demo.history():
        DE.said(row.line)
    assert unsaid == set()


# -- refusals, doubts and ways on -------------------------------------------------------


@pytest.mark.parametrize(
    ("box", "text", "said"),
    [
        ("lines", "plum", "beginnt nicht mit einer Zahl"),
        ("lines", "0 lb plum", "ist nichts"),
        ("lines", "-3 lb plum", "ist unter null"),
        ("lines", "3 lb", "nennt kein Ding"),
    ],
)
def test_forms_refuse_in_german(book, box, text, said, fixed_day):
    typed = Typed("harvested", day="today", by=None, boxes={(box, 0): text})
    outcome = write_form(Data(book), DE, typed)
    assert said in outcome.errors[box, 0]
    assert book.log.position() == 0


def test_errors_are_said_with_what_would_be_right():
    error = InputError("amount", Message.of("refusal-no-number-first", text=TypedText("plum")))
    problem, wanted = error.parts("de")
    assert problem == "\u201eplum\u201c beginnt nicht mit einer Zahl" or problem.endswith(
        "beginnt nicht mit einer Zahl"
    )
    assert DE.refusal(error, named=False) == f"{problem}. {wanted}"
    assert DE.refusal(error).endswith(f": {problem}. {wanted}")
    assert Words("en").refusal(error) == str(error)
    doubt = NeedsAnswer("future", "on", sentence("doubt-future", day=Day("2026-12-24")))
    assert DE.refusal(doubt) == "24. Dez. 2026 kommt erst noch; stimmt der Tag?"


def test_commands_are_ways_on_the_page(demo):
    ask = ask_of(demo, "/")

    def links(text):
        return [(one._type, getattr(one, "href", None)) for one in walk(say(ask, text))]

    assert links('one of: `croftbook price "1 qt salt" 4.50` takes one') == [
        ("Link", "/write?kind=price_seen")
    ]
    assert links("see `croftbook show as-published`") == [("Link", "/as-published")]
    assert links("`croftbook item NAME --keeps`") == [("Link", "/write?kind=item_described")]
    assert links("give `--work`") == [("Code", None)]
    assert links("`croftbook price \"grandma's`") == [
        ("Code", None)
    ]  # cannot be read: as it is typed
    (button,) = walk(
        say(ask, "dry bean: ask `croftbook why 'worth-it/2026/garden/dry bean' worth`")
    )
    props = button.to_plotly_json()["props"]
    assert (props["data-why"], props["data-field"]) == ("worth-it/2026/garden/dry bean", "worth")
