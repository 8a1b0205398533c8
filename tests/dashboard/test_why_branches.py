"""Trees of figures in pieces: nothing lost, nothing twice, no answer above its bound, no place that is none."""

from __future__ import annotations

import math
from html.parser import HTMLParser
from urllib.parse import urlencode

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from page_tools import Drawn

from dashboard.app import make_app
from dashboard.ask import Ask
from dashboard.drawing import ask_of, draw_branch, draw_why
from dashboard.pages import PAGES
from dashboard.parts.branches import MOST, NEXT, WIDE, Rest, branch, found, mark_of
from dashboard.parts.why import tree
from dashboard.words import Words
from ledger.projections import Node

BYTES = 120_000
"""Most bytes of an answer on the sample household: 301 lines, the longest of them entries of 300 letters."""
SEARCHES = {
    "our_table": ("?basis=value",), "season": ("?season=2025",), "next_season": ("?for=energy",),
    "stocking_up": ("?budget=20&trips=2&price_rise=10&shortage=6",),
    "winter": ("?asks=no_power", "?asks=when_to_sow", "?asks=whole_year", "?asks=hens"),
}  # fmt: skip


class Lines(HTMLParser):
    """The lines of an answer as a browser sees them: (text, place or None, are there parts below it)."""

    def __init__(self, text):
        super().__init__(convert_charrefs=True)
        self.root = {"parts": []}
        self._in = [self.root]
        self.feed(text)
        self.close()

    def handle_starttag(self, tag, attributes):
        if tag == "li":
            own = {"text": "", "parts": [], "at": None, "rest": ("class", "rest") in attributes}
            self._in[-1]["parts"].append(own)
            self._in.append(own)
        elif tag == "details":
            said = dict(attributes)
            self._in[-1]["at"] = (said["data-place"], said["data-mark"]) if "data-place" in said else None  # fmt: skip

    def handle_endtag(self, tag):
        if tag == "li":
            self._in.pop()

    def handle_data(self, text):
        if len(self._in) > 1:
            self._in[-1]["text"] += text


def count(line):
    return sum(1 + count(part) for part in line["parts"])


def fetched(line, ask_for):
    """Return (text, parts) of a line, everything fetched that is not there, rests put into their lists."""
    parts = line["parts"]
    if line["at"]:
        assert not parts
        parts = Lines(ask_for(*line["at"])).root["parts"]
        assert parts
    out = []
    for part in parts:
        whole = fetched(part, ask_for)
        out += whole[1] if part["rest"] else [whole]
    return line.get("text", ""), out


LABELS = st.sampled_from(["plum", "<b>plum</b>", "sugar & salt", "1 < 2"])
HOWS = st.sampled_from(["sum", "sum", "product", "highest", "lowest", "method"])


@st.composite
def nodes(draw, deep=4):
    """Return a tree, some of whose lists are long; every line of it has a name of its own."""
    lines = 0

    def node(depth):
        nonlocal lines
        lines += 1
        value = draw(st.integers(-999, 999))
        own = Node(f"{draw(LABELS)} {lines}", float(value), "jars")
        wide = draw(st.sampled_from([0, 0, 1, 2, 5] if depth else [1, 3, WIDE + 5, WIDE + 6, 700]))
        if depth < deep and wide and lines < 1500:
            own.how = draw(HOWS)
            if wide > 9 or draw(st.integers(0, 9)) == 0:
                many = wide if wide > 9 else draw(st.sampled_from([66, 320]))
                own.parts = [Node(f"p{lines}.{n} of it", float(n % 7 - 3), "jars") for n in range(many)]  # fmt: skip
                own.parts[draw(st.integers(0, many - 1))] = node(depth + 1)
            else:
                own.parts = [node(depth + 1) for _ in range(wide)]
        return own

    return node(0)


def whole(node):
    """Return a tree as names and sets of them: a long sum is shown in another order."""
    return node.label, frozenset(whole(part) for part in node.parts)


def read(shown):
    """Return what was fetched in the form of `whole`."""
    text, parts = shown
    names = [read(part) for part in parts]
    assert len(set(names)) == len(names), "a part was shown twice"
    return text.rpartition(": ")[0], frozenset(names)


class OneTree:
    """A door to one tree."""

    def __init__(self, node):
        self.node = node

    def why(self, address, field, moment):
        return self.node

    def mark(self):
        return 7


def one_tree(node, language="en"):
    return Ask(OneTree(node), Words(language))


@given(nodes())
@settings(deadline=None, max_examples=60)
def test_any_tree_fetched_piece_by_piece_is_the_whole_tree(node):
    ask = one_tree(node)
    sizes = []

    def ask_for(place, mark):
        answer, status = draw_branch(ask, {"address": "a/b", "place": place, "mark": mark})
        assert status == 200
        sizes.append(count(Lines(answer["drawn"]).root))
        return answer["drawn"]

    drawn = Lines(getattr(tree(ask, node, "a/b", None), "data-still"))
    assert count(drawn.root) <= MOST + 1
    (root,) = [fetched(line, ask_for) for line in drawn.root["parts"]]
    assert read(root) == whole(node)
    assert all(size <= MOST for size in sizes)


@given(st.lists(st.integers(-(10**6), 10**6), min_size=WIDE + 6, max_size=900), st.sampled_from(["", "≥", "≤", "≈"]))  # fmt: skip
@settings(deadline=None, max_examples=50)
def test_a_long_sum_and_the_line_for_its_rest_come_to_the_whole(values, mark):
    parts = [Node(str(n), value / 8, "USD") for n, value in enumerate(values)]
    parts[-1].mark = mark
    node = Node("all", sum(values) / 8, "USD", "sum", parts)
    at, seen = branch(node), []
    while True:
        seen += at.parts
        shown = [abs(one.node.value) for one in seen]
        assert shown == sorted(shown, reverse=True)
        if at.rest is None:
            break
        rest = Rest.of(at.rest)
        assert rest.count == len(values) - len(seen)
        assert math.fsum(one.node.value for one in seen) + rest.value == pytest.approx(node.value)
        assert rest.mark == (mark if all(one.node is not parts[-1] for one in seen) else "")
        assert len(at.parts) <= NEXT + 5
        at = found(node, at.rest.place)
    assert len(seen) == len(values)


def test_the_rest_of_a_list_says_what_it_comes_to_in_both_languages():
    def said(how, language, unit="jars"):
        parts = [Node(f"n{n}", float(n), unit if n else "jars") for n in range(100)]
        node = Node("all", 4950.0, "jars", how, parts)
        drawn = tree(one_tree(node, language), node, "a/b", None)
        root = Lines(getattr(drawn, "data-still")).root["parts"][0]
        return root["text"].partition(" ")[2], root["parts"][-1]["text"]

    assert said("sum", "en") == ("4,950 jars is the sum of 100 parts, the largest first", "40 more, together 780 jars")  # fmt: skip
    assert said("sum", "de") == ("4.950 Gläser ist die Summe aus 100 Teilen, die größten zuerst", "40 weitere, zusammen 780 Gläser")  # fmt: skip
    assert said("highest", "en")[1] == "40 more, the highest of them 99 jars"
    assert said("lowest", "de")[1] == "40 weitere, das kleinste davon 60 Gläser"
    assert said("method", "en") == ("4,950 jars is reckoned from 100 parts", "40 more")
    assert said("sum", "en", "pints")[1] == "40 more"  # of two units: they come to nothing together


BAD = ["x", "-1", "0.", ".", "0..1", "9999999", "99", "0.0.0.0.0", ":", ":99", "0:1:2", "²", "0 ", "../..", "0\n", "9" * 5000]  # fmt: skip


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("place", BAD)
def test_a_place_that_is_none_is_said_in_a_sentence(place, language):
    node = Node("all", 3.0, "jars", "sum", [Node("a", 1.0), Node("b", 2.0)])
    answer, status = draw_branch(one_tree(node, language), {"address": "a/b", "place": place})
    assert (status, set(answer)) == (404, {"said"})
    assert answer["said"] == Words(language)("why.no_branch")


def test_the_house_answers_any_question_for_a_branch_with_a_sentence(book):
    client = make_app(book).server.test_client()
    for asked, status in (
        ({}, 404), ({"address": "shelf/nothing", "place": "0"}, 404), ({"address": "../..", "field": "x"}, 404),
        ({"address": "shelf/x", "as_of": "zzz"}, 400), ({"address": "no-such/x", "place": "0.0", "mark": "z"}, 404),
    ):  # fmt: skip
        answer = client.get("/why/branch", query_string=asked)
        assert answer.status_code == status, asked
        assert len(answer.json["said"]) > 10
        assert "Traceback" not in answer.text
    assert client.post("/why/branch").status_code == 405


def test_a_branch_that_an_entry_changed_is_not_set_below_the_old_line():
    part = Node("a", 1.0, "", "sum", [Node("c", 1.0)])
    ask = one_tree(Node("all", 3.0, "jars", "sum", [part, Node("b", 2.0)]))
    asked = {"address": "a/b", "field": "left", "place": "0", "mark": mark_of(branch(part))}
    assert draw_branch(ask, asked)[1] == 200
    part.value = part.parts[0].value = 4.0
    answer, status = draw_branch(ask, asked)
    assert status == 409
    assert answer["said"] in answer["drawn"]
    assert 'data-why="a/b"' in answer["drawn"]
    assert 'data-field="left"' in answer["drawn"]


def test_a_large_figure_is_worked_out_once_and_reached_to_its_last_leaf(
    demo, monkeypatch, fixed_day
):
    ask, opened, why = ask_of(demo, "/"), [], demo.book.why
    client = make_app(demo.book).server.test_client()

    def counted(*asked, **moment):
        opened.append(asked)
        return why(*asked, **moment)

    monkeypatch.setattr(demo.book, "why", counted)
    of = {"address": "came-true/keeps", "field": "share_held"}
    drawn = draw_why(ask, of)
    fetch = getattr(drawn, "data-of")

    def ask_for(place, mark):
        return client.get(f"{fetch}&{urlencode({'place': place, 'mark': mark})}").json["drawn"]

    (root,) = [fetched(line, ask_for) for line in Lines(getattr(drawn, "data-still")).root["parts"]]
    assert len(opened) == 2  # by the door of this test, and by the server's
    node = why(of["address"], of["field"])
    assert sum(1 for _ in every(root)) == sum(1 for _ in every((node, node.parts))) > 4000


def every(shown):
    """Yield every line of (text, parts), or of (node, its parts)."""
    yield shown[0]
    for part in shown[1]:
        yield from every(part if isinstance(part, tuple) else (part, part.parts))


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_no_figure_of_a_page_draws_more_than_its_bound(demo, page, fixed_day):
    """Every figure of every page of the sample household: what its tap brings, and the largest branch of it."""
    seen, sorts = set(), set()
    for search in ("", *SEARCHES.get(page.name, ())):
        some = [one[1:] for one in Drawn(ask_of(demo, page.path, search)).figures()]
        # of what is asked otherwise, figures of other sorts than the page itself has
        seen |= {one for one in some if not search or sort(*one) not in sorts}
        sorts |= {sort(*one) for one in some}
    ask = ask_of(demo, page.path)
    for address, field in seen:
        drawn = draw_why(ask, {"address": address, "field": field})
        assert drawn._type == "Ul", (address, field)
        text = getattr(drawn, "data-still")
        lines = Lines(text).root
        assert count(lines) <= MOST + 1, (address, field)
        assert len(text.encode()) <= BYTES, (address, field)
        waits = folded(lines)
        if waits:
            answer, status = draw_branch(ask, {"address": address, "field": field, "place": waits[-1][0], "mark": waits[-1][1]})  # fmt: skip
            assert status == 200
            assert len(answer["drawn"].encode()) <= BYTES
            assert count(Lines(answer["drawn"]).root) <= MOST


def sort(address, field):
    return address.partition("/")[0], field


def folded(line):
    """Return the places that are not there yet below a line."""
    return [one for part in line["parts"] for one in [*([part["at"]] if part["at"] else []), *folded(part)]]  # fmt: skip
