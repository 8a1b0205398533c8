"""How long things keep by the charts, and a freezer that was off. Expected figures typed by hand."""

from __future__ import annotations

import pytest

from ledger.errors import InputError
from ledger.published import freezer_off, holds_for, hours_of, keeps_for
from ledger.reference.storage import freezing_headspace, power_cut

# Method, item, place, opened, and the span as printed:
# NCHFP storing home-canned jams and jellies; USDA FSIS shelf-stable chart; FDA refrigerator and freezer chart;
# University of Georgia, So Easy to Preserve (drying); Utah State University food storage; bulletin 539 guide 6
KEEPS = [
    ("pressure", "green bean", "shelf", False, "12 months"),
    ("boiling water", "plum butter", "shelf", False, "12 months"),
    ("pressure", "green bean", "fridge", True, "3 to 4 days"),
    ("boiling water", "plum jam", "fridge", True, "1 month"),
    ("boiling water", "peaches", "fridge", False, "1 week"),
    ("jam uncooked", "strawberry jam", "fridge", False, "4 weeks"),
    ("freeze", "winter soup", "freezer", False, "2 to 3 months"),
    ("freeze", "green beans", "freezer", False, "12 to 18 months"),
    ("freeze", "blackberries", "freezer", False, "8 to 12 months"),
    (None, "ground beef", "freezer", False, "3 to 4 months"),
    (None, "whole chicken", "freezer", False, "12 months"),
    (None, "chicken breast", "freezer", False, "9 months"),
    (None, "bacon", "freezer", False, "1 month"),
    ("freeze", "chicken stock", "freezer", False, "2 to 3 months"),
    ("dry", "dried apple", "shelf", False, "6 to 12 months"),
    ("dry", "beef jerky", "shelf", False, "1 to 2 months"),
    ("dry", "dried tomatoes", "shelf", False, "4 to 12 months"),
    (None, "rice", "shelf", False, "24 months"),
    ("ferment", "dill pickle", "fridge", False, "4 to 6 months"),
    (None, "blackberry", "fridge", False, "3 days"),
    (None, "apricot", "fridge", False, "3 weeks"),
]


@pytest.mark.parametrize(("method", "item", "kept", "opened", "span"), KEEPS)
def test_period_as_printed(method, item, kept, opened, span):
    found = keeps_for("food", method, item, kept, opened=opened)
    assert found.span == span
    assert found.source
    assert found.low_days <= found.high_days


@pytest.mark.parametrize(
    ("sort", "method", "item", "kept"),
    [
        ("jar", None, "quart jar", "shelf"),
        ("food", None, "potato", "cellar"),
        ("food", None, "mystery", "shelf"),
        ("food", None, "strawberry jam", "fridge"),
    ],
)
def test_nothing_published_is_none(sort, method, item, kept):
    assert keeps_for(sort, method, item, kept) is None


# FoodSafety.gov, Frozen food and power outages (28 January 2021): with ice crystals; thawed and warm
CHART = [
    ("ground beef", "refreeze", "discard"),
    ("chicken", "refreeze", "discard"),
    ("trout", "refreeze", "discard"),
    ("winter soup", "refreeze", "discard"),
    ("chicken stock", "refreeze", "discard"),
    ("milk", "refreeze", "discard"),
    ("ice cream", "discard", "discard"),
    ("soft cheese", "refreeze", "discard"),
    ("cheddar cheese", "refreeze", "refreeze"),
    ("apple juice", "refreeze", "refreeze"),
    ("frozen blackberry", "refreeze", "refreeze"),
    ("frozen green bean", "refreeze", "discard"),
    ("bread", "refreeze", "refreeze"),
    ("cheesecake", "refreeze", "discard"),
    ("pie crust", "refreeze", "refreeze"),
    ("flour", "refreeze", "refreeze"),
    ("pizza", "refreeze", "discard"),
]


@pytest.mark.parametrize(("item", "cold", "warm"), CHART)
def test_chart_for_a_stopped_freezer(item, cold, warm):
    (found,) = freezer_off(30, [item])
    assert (found.cold, found.warm) == (cold, warm)


def test_unknown_thing_is_taken_like_meat():
    (found,) = freezer_off(30, ["mystery parcel"])
    assert found.kind is None
    assert found.warm == "discard"


def test_without_items_every_kind_is_told():
    assert len(freezer_off(12)) == len(power_cut())


@pytest.mark.parametrize(
    ("hours", "words"), [(10, "half full or more"), (30, "a half-full one 24"), (60, "longer than")]
)
def test_hours_by_themselves_decide_nothing(hours, words):
    found = holds_for(hours)
    assert words in found.text
    assert "decide nothing" in found.text


@pytest.mark.parametrize(
    ("text", "hours"), [("30 h", 30), ("30 hours", 30), ("2 days", 48), ("12", 12), ("1.5 d", 36)]
)
def test_times_are_read(text, hours):
    assert hours_of(text) == hours


@pytest.mark.parametrize("text", ["", "a while", "-3 h", "0 h"])
def test_bad_times_are_refused_by_name(text):
    with pytest.raises(InputError, match="freezer_off"):
        hours_of(text)


# NCHFP, Headspace to allow between packed food and closure
@pytest.mark.parametrize(
    ("pack", "top", "container", "inches"),
    [
        ("liquid", "wide", "pint", 0.5),
        ("liquid", "wide", "quart", 1),
        ("liquid", "narrow", "pint", 0.75),
        ("liquid", "narrow", "quart", 1.5),
        ("dry", "narrow", "quart", 0.5),
        ("juice", "wide", "pint", 0.5),
        ("juice", "narrow", "quart", 1.5),
    ],
)
def test_freezing_headspace_as_printed(pack, top, container, inches):
    assert freezing_headspace(pack, top, container)[0] == inches
