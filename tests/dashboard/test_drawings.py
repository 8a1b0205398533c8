"""Drawings: well-formed, every label inside and none over another, colours of the scheme, few bytes."""

from __future__ import annotations

import itertools
import re
from urllib.parse import unquote
from xml.etree import ElementTree

import brotli
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dashboard.drawings import marks
from dashboard.drawings.batches import Season, batches, sparkline
from dashboard.drawings.beds import BEDS_AT_MOST, Bed, beds
from dashboard.drawings.crops_by_week import Crop, crops_by_week
from dashboard.drawings.home_and_shop import home_and_shop
from dashboard.drawings.hours_by_week import hours_by_week
from dashboard.drawings.hundred import hundred
from dashboard.drawings.lines import Line, lines
from dashboard.drawings.one_crop import one_crop
from dashboard.drawings.practice import practice
from dashboard.drawings.ranked import Bar, ranked
from dashboard.drawings.spans import Span, spans
from dashboard.drawings.steps import steps
from dashboard.theme import TOKENS

SVG = "{http://www.w3.org/2000/svg}"
SAID = 'Ours & the shop\'s: 5 < 6 "jars"'
MONTHS = tuple((f"{name}ember", name, name[0]) for name in (
    "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
))  # fmt: skip

NAMES = st.sampled_from(["plum", "Green beans", "Wild & given", "<i>kale</i>", "MMMMMMMMMMMM", "Grünkohl aus dem langen Beet am Zaun",
                         "x", "Kartoffeln, festkochend, aus eigener Nachzucht"])  # fmt: skip
FIGURES = st.sampled_from(["3", "1,547 lb", "$1,234.56", "12.345,67 €", "−210", "0"])
WIDTHS = st.sampled_from([marks.PHONE, marks.DESK])
SCHEMES = st.sampled_from(["light", "dark"])
WEEKLY = st.lists(st.one_of(st.none(), st.floats(0, 1e4)), min_size=1, max_size=53)
MONEY = st.floats(0.01, 1e4)


def boxes(root):
    """Return (text, left, top, right, bottom) of every label, as wide as its widest face makes it."""
    out = []
    for one in root.iter(f"{SVG}text"):
        room = marks.wide(one.text, one.get("class", ""))
        x, y = float(one.get("x")), float(one.get("y"))
        left = x - {"start": 0, "middle": 0.5, "end": 1}[one.get("text-anchor", "start")] * room
        out.append((one.text, left, y - 9.5, left + room, y + 2.5))
    return out


def whole(drawing, scheme, *, said=SAID):
    """Return a drawing's root after looking that it is whole."""
    root = ElementTree.fromstring(drawing)
    assert root.tag == f"{SVG}svg"
    assert root.find(f"{SVG}title").text == said
    width, height = (float(v) for v in root.get("viewBox").split()[2:])
    labels = boxes(root)
    for text, left, top, right, bottom in labels:
        assert text.strip(), "a label of nothing"
        assert left >= -0.6, (text, left)
        assert right <= width + 0.6, (text, right, width)
        assert top >= -1.5, (text, top)
        assert bottom <= height + 1, (text, bottom, height)
    for one, other in itertools.combinations(labels, 2):
        across = min(one[3], other[3]) - max(one[1], other[1])
        down = min(one[4], other[4]) - max(one[2], other[2])
        assert across <= 0.6 or down <= 0.6, (one, other)
    for bar in root.iter(f"{SVG}rect"):
        assert float(bar.get("x")) >= -0.1
        assert float(bar.get("x")) + float(bar.get("width")) <= width + 1.6
        assert float(bar.get("y")) + float(bar.get("height")) <= height + 0.1
    text = ElementTree.tostring(root, "unicode")
    assert "var(" not in text
    assert "nan" not in re.sub(r">[^<]*<", "><", drawing)
    used = set(re.findall(r"#[0-9a-f]{6}", drawing.partition("</style>")[0]))
    assert used <= set(TOKENS[scheme].values()), "a colour of no scheme"
    return root


@st.composite
def crops(draw):
    weeks = draw(st.integers(1, 53))
    values = st.lists(st.one_of(st.none(), st.floats(0, 1e4)), min_size=weeks, max_size=weeks)
    one = st.builds(
        Crop, NAMES, values, values, FIGURES, FIGURES, st.sampled_from([1, 0, -1, None])
    )
    return draw(st.lists(one, min_size=1, max_size=24))


@settings(max_examples=60)
@given(crops(), WIDTHS, SCHEMES)
def test_calendar_is_whole(several, width, scheme):
    months = [(n, MONTHS[i][1:]) for i, n in enumerate(range(0, len(several[0].now), 4)) if i < 12]
    whole(
        crops_by_week(several, months, ("2026", "2025"), SAID, width=width, scheme=scheme), scheme
    )


def test_calendar_stands_up_and_hangs_down_in_one_measure_a_crop():
    drawing = crops_by_week(
        [Crop("plum", [10, 40, None], [5, None, 20], "50 lb", "25 lb", 1)],
        [(0, ("Aug", "A"))], ("2026", "2025"), SAID, width=358, scheme="light",
    )  # fmt: skip
    up, down = (re.findall(r"v(-?[\d.]+)h", one) for one in _ways(drawing, "f-leaf", "f-quiet"))
    assert [float(v) for v in up] == pytest.approx([-10 / 40 * 27 * 0.58, -27 * 0.58], abs=0.06)
    assert [float(v) for v in down] == pytest.approx(
        [5 / 40 * 27 * 0.3, 20 / 40 * 27 * 0.3], abs=0.06
    )
    assert [t for t, *_ in boxes(ElementTree.fromstring(drawing)) if t in "↑↓="] == ["↑"]


def _ways(drawing, *kinds):
    found = dict(re.findall(r'<path class="([^"]+)" d="([^"]+)"', drawing))
    return [found[kind] for kind in kinds]


@settings(max_examples=40)
@given(WEEKLY, WIDTHS, SCHEMES, FIGURES)
def test_packet_is_whole(weeks, width, scheme, most):
    last = weeks[::-1]
    drawing = one_crop(weeks, last, SAID, ends=("28 July", "29 September"), most=most, width=width, scheme=scheme)  # fmt: skip
    root = whole(drawing, scheme)
    tall = [
        float(one.get("height")) for one in root.iter(f"{SVG}rect") if one.get("class") == "f-leaf"
    ]
    assert len(tall) <= sum(1 for v in weeks if v)


@settings(max_examples=60)
@given(
    st.lists(st.tuples(NAMES, st.lists(st.one_of(st.none(), st.floats(0, 100)), min_size=12, max_size=12)),
             min_size=1, max_size=4),
    WIDTHS, SCHEMES, st.booleans(),
)  # fmt: skip
def test_lines_are_whole(several, width, scheme, is_noted):
    kinds = ("s-rule", "s-quiet thin", "s-straw", "s-leaf thick")
    made = [Line(marks.shortened(n, 90), v, kinds[i]) for i, (n, v) in enumerate(several)]
    last = next((v for v in made[-1].values if v is not None), None)
    note = (made[-1].values.index(last), last, "20") if is_noted and last is not None else None
    ticks = [(0, "0"), (50, "50"), (100, "100")]
    drawing = lines(
        made, MONTHS, SAID, ticks=ticks, unit="%", note=note, width=width, scheme=scheme
    )
    root = whole(drawing, scheme)
    known = [one for one in made if any(v is not None for v in one.values)]
    assert len(
        [p for p in root.iter(f"{SVG}path") if p.get("class", "").startswith("line s-")]
    ) == len(known)


@settings(max_examples=60)
@given(
    st.lists(st.tuples(NAMES, st.floats(-1e4, 1e4), FIGURES), min_size=1, max_size=12),
    WIDTHS, SCHEMES,
)  # fmt: skip
def test_steps_are_whole(rows, width, scheme):
    total = ("Better off by", sum(much for _, much, _ in rows), "$2,624")
    whole(steps(rows, total, SAID, width=width, scheme=scheme), scheme)


def test_steps_begin_where_the_last_ended():
    rows = [("a", 100.0, "100"), ("b", 50.0, "50"), ("c", -30.0, "−30")]
    root = whole(steps(rows, ("sum", 120.0, "120"), SAID, width=358, scheme="light"), "light")
    bars = list(root.iter(f"{SVG}rect"))
    x = [float(one.get("x")) for one in bars]
    end = [float(one.get("x")) + float(one.get("width")) for one in bars]
    assert x[1] == pytest.approx(end[0], abs=0.2)
    assert end[2] == pytest.approx(end[1], abs=0.2)  # what is lost goes back from where it stood
    assert x[2] == pytest.approx(end[3], abs=0.2)  # and the sum reaches just there
    assert [one.get("class") for one in bars] == ["f-leaf", "f-leaf", "back", "f-ink"]


@settings(max_examples=60)
@given(MONEY, MONEY, st.one_of(st.none(), MONEY), WIDTHS, SCHEMES, NAMES, FIGURES)
def test_home_and_shop_is_whole(paid, time, shop, width, scheme, name, figure):
    ours = [(paid, "paid out, $0.64", "paid"), (time, "own time, $0.65", "time")]
    other = None if shop is None else (shop, name, figure)
    drawing = home_and_shop(ours, ("Ours", figure), other, SAID, width=width, scheme=scheme)
    root = whole(drawing, scheme)
    if shop is not None:
        wide = {one.get("class"): float(one.get("width")) for one in root.iter(f"{SVG}rect")
                if one.get("class") in ("f-leaf", "f-straw")}  # fmt: skip
        if wide.keys() == {"f-leaf", "f-straw"} and min(wide.values()) > 1:
            assert wide["f-leaf"] / wide["f-straw"] == pytest.approx(paid / shop, rel=0.1)


@settings(max_examples=40)
@given(
    st.lists(st.builds(Season, st.sampled_from(["2024", "2025"]), st.lists(MONEY, min_size=1, max_size=30),
                       st.one_of(st.none(), MONEY), st.just("shop 1.28")), min_size=1, max_size=4),
    WIDTHS, SCHEMES,
)  # fmt: skip
def test_batches_are_whole(seasons, width, scheme):
    root = whole(batches(seasons, "$1.29", SAID, width=width, scheme=scheme), scheme)
    assert len(list(root.iter(f"{SVG}circle"))) == sum(len(one.costs) for one in seasons)


@given(st.lists(MONEY, min_size=1, max_size=60), SCHEMES)
def test_sparkline_is_whole(values, scheme):
    whole(sparkline(values, SAID, scheme=scheme), scheme)


@pytest.mark.parametrize("own", [0, 1, 13, 100])
def test_hundred_bites(own):
    root = whole(hundred(own, SAID, scheme="dark"), "dark")
    filled = [one for one in root.iter(f"{SVG}circle") if one.get("class") == "f-leaf"]
    assert len(filled) == own
    assert len(list(root.iter(f"{SVG}circle"))) == 100


@st.composite
def some_beds(draw):
    crop = st.tuples(NAMES, NAMES, st.floats(0.5, 2000))
    one = st.builds(Bed, NAMES, st.one_of(st.just(""), NAMES), st.floats(1, 5000),
                    st.lists(crop, max_size=9), st.just("at rest"))  # fmt: skip
    return draw(st.lists(one, min_size=1, max_size=18))


@settings(max_examples=80)
@given(some_beds(), WIDTHS, SCHEMES)
def test_beds_are_whole(several, width, scheme):
    root = whole(beds(several, SAID, bar_of=(500, "500 sq ft"), width=width, scheme=scheme), scheme)
    strips = [one for one in root.iter(f"{SVG}rect") if one.get("class") == "f-soil s-soil"]
    assert len(strips) == min(len(several), BEDS_AT_MOST)


def test_beds_are_drawn_to_one_scale():
    several = [
        Bed("a", "", 100, [("plum", "plum", 25)], "at rest"),
        Bed("b", "", 50, [], "at rest"),
    ]
    root = whole(beds(several, SAID, bar_of=(20, "20 sq ft"), width=358, scheme="light"), "light")
    strips = [
        float(one.get("width"))
        for one in root.iter(f"{SVG}rect")
        if one.get("class") == "f-soil s-soil"
    ]
    assert strips[0] == pytest.approx(2 * strips[1], abs=0.2)


@settings(max_examples=40)
@given(WEEKLY, WIDTHS, SCHEMES)
def test_practice_is_whole(minutes, width, scheme):
    curve = [(v * 0.8, v, v * 1.2) if v is not None else None for v in minutes]
    axes = ("batch", "minutes for a quart")
    drawing = practice(
        minutes, curve, SAID, axes=axes, last="12 minutes", width=width, scheme=scheme
    )
    root = whole(drawing, scheme)
    assert len(list(root.iter(f"{SVG}circle"))) == sum(v is not None for v in minutes)


@settings(max_examples=40)
@given(st.lists(st.floats(0, 60), min_size=1, max_size=53), WIDTHS, SCHEMES)
def test_hours_are_whole(hours, width, scheme):
    weeks = [(f"{n + 1} Aug", h) for n, h in enumerate(hours)]
    whole(hours_by_week(weeks, "8½ hours", SAID, width=width, scheme=scheme), scheme)


@settings(max_examples=30)
@given(st.lists(st.builds(Bar, NAMES, st.just("83 %"), st.floats(-20, 1e4), st.none() | st.floats(0, 1e4), st.booleans()), min_size=1, max_size=8), WIDTHS, SCHEMES)  # fmt: skip
def test_ranked_bars_are_whole(rows, width, scheme):
    whole(ranked(rows, SAID, mark="where it should end", width=width, scheme=scheme), scheme)


@settings(max_examples=30)
@given(st.lists(st.tuples(NAMES, st.floats(0, 1), st.floats(0, 1), st.none() | st.floats(0, 1), st.booleans()), min_size=1, max_size=8), WIDTHS, SCHEMES)  # fmt: skip
def test_spans_are_whole(rows, width, scheme):
    several = [Span(name, "4 Jun", [(a, max(a, b), "f-leaf")], ring, looks) for name, a, b, ring, looks in rows]  # fmt: skip
    months = [(n / 10, (name, name[:1])) for n, name in enumerate(("Mar", "Apr", "May", "Jun"))]
    whole(spans(several, months, SAID, width=width, scheme=scheme, now=(0.2, "today")), scheme)


def test_drawing_is_an_image_of_few_bytes():
    year = [float(n % 11) or None for n in range(30)]
    several = [Crop(f"crop {n}", year, year[::-1], "100 lb", "90 lb", 1) for n in range(24)]
    drawing = crops_by_week(
        several, [(0, ("Jun", "J"))], ("2026", "2025"), SAID, width=540, scheme="light"
    )
    source = marks.as_source(drawing)
    assert unquote(source).endswith(drawing)
    assert not re.search(r"[<>\"#%&](?![0-9A-F]{2})", source.partition(",")[2].replace("%", ""))
    assert len(source) < 60_000
    assert len(brotli.compress(source.encode(), quality=4)) < 9_000


def test_labels_along_an_axis_grow_shorter_and_then_fewer():
    many = [(x * 12.0, words) for x, words in enumerate(MONTHS)]
    far = [(x * 120.0, words) for x, words in enumerate(MONTHS)]
    assert "January"[:3] in marks.along(far, 10, 0, 2000)
    assert marks.along(many, 10, 0, 200).count("<text") < 12


@given(st.lists(st.floats(0, 100), max_size=12).map(sorted))
def test_places_are_spread(wanted):
    out = marks.spread(wanted, 10, 0, 200)
    assert all(b - a >= 10 - 1e-9 for a, b in itertools.pairwise(out))
    assert all(-1e-9 <= at <= 200 + 1e-9 for at in out)


@given(st.floats(1e-3, 1e9), st.integers(2, 5))
def test_scale_is_round_and_holds_all(top, many):
    ticks = marks.scale(top, many)
    assert ticks[0] == 0
    assert ticks[-1] >= top * (1 - 1e-9)
    assert ticks[-2] < top
    assert len(ticks) <= many + 2
    assert f"{ticks[1]:.12g}".strip("0.")[0] in "125"


LONG = ("Zu lange gelegen", "eine Pflanze bringt mindestens", "reicht bis zum Nachschub",
        "Better off than buying it all", "runs out between two days")  # fmt: skip

CROPS = ("Rote Johannisbeeren", "Sommerkürbisse", "Frühe Kartoffeln", "Black currants", "Chard")


def _drawn_by(kind, names, width):
    if kind == "steps":
        rows = [(name, 9.0, "1.515,20 €") for name in names]
        return steps(rows, ("Günstiger um", 45.0, "≈ 2.667 €"), SAID, width=width, scheme="light")
    if kind == "ranked":
        rows = [Bar(name, "100 %", 1.0, 0.8) for name in names]
        return ranked(rows, SAID, mark="sollte", width=width, scheme="light")
    if kind == "spans":
        rows = [Span(name, "12. Aug.", [(0.2, 0.5, "f-leaf")]) for name in names]
        return spans(rows, MONTHS_AT, SAID, width=width, scheme="light")
    crops = [Crop(name, [1.0] * 30, [2.0] * 30, "1.630", "1.432", 1) for name in names]
    return crops_by_week(crops, [(0, ("Juni", "J"))], ("2026", "2025"), SAID, width=width, scheme="light")  # fmt: skip


MONTHS_AT = [(n / 12, words) for n, words in enumerate(MONTHS)]


@pytest.mark.parametrize("kind", ["steps", "ranked", "spans", "crops_by_week"])
@pytest.mark.parametrize("width", [marks.PHONE, marks.DESK])
def test_long_names_take_two_lines_and_none_is_cut(kind, width):
    names = CROPS if kind == "crops_by_week" else LONG
    root = whole(_drawn_by(kind, names, width), "light")
    said = " ".join(one.text for one in root.iter(f"{SVG}text") if one.get("x") == "0.0")
    assert "…" not in said
    for name in names:
        assert name in said


@given(st.lists(st.sampled_from(["Zu", "lange", "gelegen", "x", "Wintergemüse"]), min_size=1, max_size=6), st.floats(40, 200))  # fmt: skip
def test_a_label_is_cut_between_words(words, room):
    said = " ".join(words)
    cut = marks.shortened(said, room)
    assert marks.wide(cut) <= room or cut == "…"
    kept = cut.removesuffix("…")
    if cut != said and " " in kept:
        assert words[: kept.count(" ") + 1] == kept.split(" ")
