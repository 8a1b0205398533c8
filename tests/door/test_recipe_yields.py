"""What a recipe yields, as what a batch made: quarts that were canned are jars, which rules of canning look at."""

from __future__ import annotations

import pytest

from ledger import Answers, Book
from ledger.door.recipes import from_recipe

FRIDGE = {"kept": "fridge"}


@pytest.fixture(scope="module")
def book(tmp_path_factory):
    with Book.open(tmp_path_factory.mktemp("yields") / "book.sqlite") as book:
        yield book


@pytest.mark.parametrize(
    ("method", "yields", "times", "made"),
    [
        ("pressure", "7 qt", None, [{"jars": 7, "jar": "quart jar"}]),
        (
            "pressure",
            "7 qt",
            "1/2",
            [{"jars": 3, "jar": "quart jar"}, {"amount": "473 ml", **FRIDGE}],
        ),
        ("boiling water", "4 half-pints", "2", [{"jars": 8, "jar": "half-pint jar"}]),
        ("boiling water", "9 pt", None, [{"jars": 9, "jar": "pint jar"}]),
        ("boiling water", "2 l", None, [{"amount": "2 l"}]),  # no jar's size is said
        ("ferment", "9 qt", None, [{"amount": "9 qt"}]),
    ],
)
def test_canned_quarts_are_jars(book, method, yields, times, made):
    recipe = {"recipe": f"{method} {yields}", "makes": "sauce", "method": method,
              "uses": [{"item": "tomato", "amount": "20 lb"}], "yields": yields}  # fmt: skip
    book.write("recipe_written", recipe, answers=Answers(yes=True))
    said = {"recipe": recipe["recipe"], **({"times": times} if times else {})}
    assert from_recipe(book.catalogue(), said)["made"] == made
