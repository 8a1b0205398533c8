"""Jars that no canner closed, as they are told of: cautioned, asked about, and marked."""

from __future__ import annotations

import json

import pytest
from saying.kitchen_said import bodies


@pytest.mark.parametrize(
    "text",
    [
        "oven canned 3 pints of green beans",
        "open kettle canned 5 pints of tomato jam",
        "steam canned 4 quarts of chicken soup",
        "7 Litergläser grüne Bohnen im Backofen eingekocht",
        "3 half-pint jars of basil pesto in oil, kept on the shelf",
        "made 3 pints tomato jam, open kettle",
        "dry canned 4 quarts of potatoes",
        "4 quarts of carrots, hot fill",
        "canned 4 quarts of carrots, inversion",
        "made 6 half-pints of carrot jam, turned upside down",
        "made 6 half-pints of carrot jam, sealed with paraffin",
        "6 half-pints of carrot jam, wax seal",
        "put up 6 pints of carrots, not processed",
        "vacuum sealed 3 quarts of chicken soup",
        "canned 4 pints of green beans in the dishwasher",
        "canned 4 pints of green beans in the microwave",
        "canned 4 pints of green beans in the slow cooker",
        "canned 4 pints of green beans in the multi-cooker",
        "canned 4 pints of green beans, electric pressure cooker",
    ],
)
def test_what_is_no_canner_is_cautioned_of_and_a_yes_makes_no_pressure_of_it(run, place, text):
    done = run("say", text, "--yes")
    assert done.exit_code != 0
    asked = str(done.exception)
    assert "spores of botulism" in asked.split("How was", maxsplit=1)[0].lower()
    assert not bodies(place, "put_up")


@pytest.mark.parametrize(
    "text",
    [
        "canned 7 quarts of peaches in the oven",
        "7 quarts peaches, open kettle",
        "canned 5 pints strawberry jam, sealed with paraffin",
        "7 Gläser Pfirsiche im Backofen eingekocht",
    ],
)
def test_of_fruit_it_is_said_that_nothing_is_published_so(run, place, text):
    """UIUC_UNSAFE: open kettle, inversion, oven and the like for no food."""
    done = run("say", text, "--yes")
    assert done.exit_code != 0
    asked = str(done.exception).partition("How was")[0]
    assert "no process is published for it with any food" in asked
    assert "University of Illinois Extension" in asked
    assert not bodies(place, "put_up")


@pytest.mark.parametrize(
    ("text", "stands"),
    [
        ("canned 7 pints of peaches in boiling water, hot pack, inverted", "no published process"),
        ("canned 7 pints of peaches in boiling water, flipped", "no published process"),
        (
            "canned 4 pints of green beans under pressure in the multi-cooker",
            "no published process",
        ),
        ("canned 4 pints of green beans in the pressure cooker", "to check yourself"),
    ],
)
def test_what_closed_the_jars_is_marked(run, text, stands):
    assert run("say", text, "--yes").exit_code == 0
    shown = json.loads(run("show", "as-published", "--json").stdout)
    assert stands in {one["kind"] for one in shown["records"][0]["findings"]}


@pytest.mark.parametrize(
    "text", ["vacuum sealed 3 lb ground beef", "froze 3 lb ground beef, vacuum packed"]
)
def test_what_is_vacuum_packed_for_the_freezer_brings_no_caution(run, text):
    assert "CAUTION" not in run("say", text, "--yes").output
