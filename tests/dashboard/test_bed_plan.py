"""Where beds lie: read and written again, refused by name, and drawn where they lie, to scale."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dashboard.data import Data
from dashboard.drawings.plan import LaidBed, LaidCrop, plan
from dashboard.forms.bed_places import write_beds
from ledger import Book
from ledger.errors import InputError
from ledger.kinds.bed_plan import PLAN_EXAMPLE, Lie, read_plan, write_plan

METRES = st.floats(0, 500).map(lambda n: round(n, 2))
SIZES = st.floats(0.1, 100).map(lambda n: round(n, 2))
ID = "0190b1a2-0000-4000-8000-000000000002"


@given(
    st.lists(st.tuples(METRES, METRES, SIZES, SIZES, st.integers(0, 359)), min_size=1, max_size=20)
)
def test_a_plan_is_read_as_it_was_written(several):
    lies = [Lie(f"bed {n}", *one) for n, one in enumerate(several)]
    assert read_plan(write_plan(lies, "m")) == lies
    feet = read_plan(write_plan(lies, "ft"))
    for one, other in zip(lies, feet, strict=True):  # half a hundredth of a foot
        assert other.x_m == pytest.approx(one.x_m, abs=0.0016)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "names no bed"),
        ("south bed", "says no bed's place"),
        ("south bed: 5 7, 0 x 15 ft", "is no garden's bed"),
        ("a: 1 1, 2 x 2 m; A: 3 3, 2 x 2 m", "is there twice"),
    ],
)
def test_what_is_no_plan_is_refused_with_what_would_be_right(text, says):
    with pytest.raises(InputError, match=says):
        read_plan(text)


def test_the_example_is_right_and_a_foot_is_a_foot():
    south, long = read_plan(PLAN_EXAMPLE)
    assert (south.length_m, south.width_m) == pytest.approx(
        (27.432, 4.572)
    )  # 90 and 15 times 0.3048
    assert long.turned == 90


def test_boxes_become_a_setting_once_and_a_wrong_one_is_named(tmp_path):
    with Book.open(tmp_path / "book.sqlite") as book:
        data = Data(book)
        with pytest.raises(InputError, match="south bed") as refused:
            write_beds(data, ["south bed"], [["0", "0", "", "4", "0"]], ID)
        assert refused.value.field == "length"
        for _ in range(2):
            write_beds(data, ["south bed"], [["1,5", "2", "30", "4", "450"]], ID)
        assert book.catalogue().setting("bed_plan") == "south bed: 1.5 2, 30 x 4 ft, 90"
        assert book.log.position() == 1


def laid(turned=0):
    crops = [LaidCrop("tomato", "tomato", 20, 20), LaidCrop("bean", "bean", 10, 20)]
    return [
        LaidBed("south bed", 0, 0, 20, 4, 0, crops, free="at rest"),
        LaidBed("long bed", 2, 6, 10, 2, turned, [LaidCrop("tomato", "tomato", 10, 20)]),
    ]


@pytest.mark.parametrize("width", [358, 560])
def test_beds_are_as_large_as_they_are_and_rows_as_far_apart(width):
    root = ElementTree.fromstring(
        plan(laid(), "said", bar_of=(5, "5 m"), width=width, scheme="light")
    )
    beds = [one for one in root.iter() if one.get("class") == "f-soil s-soil"]
    sizes = [(float(one.get("width")), float(one.get("height"))) for one in beds]
    k = sizes[0][0] / 20
    assert sizes[0] == pytest.approx((20 * k, 4 * k), abs=0.11)
    assert sizes[1] == pytest.approx((10 * k, 2 * k), abs=0.11)
    bar = next(one for one in root.iter() if "v4h" in (one.get("d") or ""))
    assert float(re.search(r"v4h([\d.]+)v", bar.get("d"))[1]) == pytest.approx(5 * k, abs=0.11)
    rows = [one.get("d") for one in root.iter() if one.get("stroke-dasharray")]
    assert [one.count("H") for one in rows] == [4, 8, 4]  # 1 m, 0.5 m and 0.5 m apart


def test_a_turned_bed_turns_and_its_words_do_not():
    drawn = plan(laid(90), "said", bar_of=(5, "5 m"), width=358, scheme="light")
    assert drawn.count("<text") == drawn.replace("rotate(0", "").count("<text")
    turned = re.findall(r'<g transform="rotate\(90 [^)]*\)">(.*?)</g>', drawn)
    assert len(turned) == 1
    assert "<text" not in turned[0]
