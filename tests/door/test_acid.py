"""Acid as people type it: its words in any order, its unit in the letters that were typed."""

from __future__ import annotations

import pytest

from ledger import InputError
from ledger.amounts import parse_amount
from ledger.door.texts import Texts


@pytest.fixture
def texts(book):
    return Texts(book.catalogue())


@pytest.mark.parametrize(
    "text",
    [
        "1 tbsp lemon juice", "lemon juice 1 tbsp", "lemon juice: 1 tbsp", "1 tbsp of Lemon Juice per jar",
        "1 tbsp per jar lemon juice",
    ],
)  # fmt: skip
def test_order_does_not_matter(texts, text):
    assert texts.acid(text) == {"acid": "lemon juice", "amount": "1 tbsp", "per": "jar"}


def test_a_batch_and_its_strength_are_kept(texts):
    said = texts.acid("2 cup vinegar 5% per batch")
    assert said == {"acid": "vinegar 5%", "amount": "2 cup", "per": "batch"}


def test_a_capital_letter_is_no_small_one(texts):
    """T is often a tablespoon; t is a tonne. Neither is guessed at."""
    said = texts.acid("1 T lemon juice")
    assert said["amount"] == "1 T"
    with pytest.raises(InputError, match="Write tbsp"):
        parse_amount(said["amount"])


@pytest.mark.parametrize("text", ["lemon juice", "1 tbsp rhubarb", ""])
def test_what_is_no_acid_with_an_amount_is_refused(texts, text):
    with pytest.raises(InputError, match="is not an acid and its amount"):
        texts.acid(text)


@pytest.mark.parametrize(
    ("text", "acid"),
    [
        ("1 EL Zitronensaft je Glas", ("lemon juice", "1 EL", "jar")),
        ("1 EL Zitronensaft aus der Flasche pro Glas", ("lemon juice", "1 EL", "jar")),
        ("1/4 TL Zitronensäure", ("citric acid", "1/4 TL", "jar")),
        ("2 EL Essig 5% je Glas", ("vinegar 5%", "2 EL", "jar")),
        ("Essig (5 %) 2 EL", ("vinegar 5%", "2 EL", "jar")),
        ("500 ml 5%iger Essig je Ansatz", ("vinegar 5%", "500 ml", "batch")),
    ],
)
def test_an_acid_is_read_in_german_too(texts, text, acid):
    assert texts.acid(text) == dict(zip(("acid", "amount", "per"), acid, strict=True))


@pytest.mark.parametrize(
    "text", ["2 EL Essig je Glas", "Zitronensaft", "1 EL frischer Zitronensaft", "1 EL Essig 6%"]
)
def test_vinegar_without_its_strength_and_fresh_juice_are_no_acid_in_german_either(texts, text):
    with pytest.raises(InputError):
        texts.acid(text)
