"""What the door fills in: items, sorts, jars, lids, places, labels, weights."""

from __future__ import annotations

import pytest

from ledger import Answers, InputError, NeedsAnswer
from ledger.door import Texts
from ledger.kinds import KINDS

PLUM = {"item": "plum", "amount": "16 lb"}
BATCH = {"makes": "plum butter", "method": "boiling water", "used": [PLUM]}


def batch(book, made, **more):
    return book.write("put_up", {**BATCH, "made": made, **more}, on="2026-09-02")


@pytest.mark.parametrize("name", sorted(set(KINDS) - {"struck", "checked"}))
def test_example_of_every_kind_is_written(book, fixed_day, name):
    assert book.write(name, KINDS[name].example, on="2026-09-02").is_new
    assert book.check().is_whole


def test_new_items_are_described_by_their_use(book, fixed_day):
    lines = [
        {"item": "quart jars", "amount": "12", "paid": "14"},
        {"item": "lids", "amount": "24", "paid": "6"},
        {"item": "compost", "amount": "40 l", "paid": "9", "for_crop": "tomato"},
        {"item": "canner", "amount": "1", "paid": "120", "years": "20"},
        {"item": "firewood", "amount": "90 kWh", "paid": "12"},
        {"item": "salt", "amount": "1 lb", "paid": "0.6"},
    ]
    book.write("bought", {"lines": lines}, on="2026-05-01")
    book.write("planted", {"crop": "bean", "seed": {"item": "bean seeds", "amount": "20"}})
    known = book.catalogue()
    sorts = {name: known.facts(name).sort for name in known.names()}
    assert sorts == {
        "quart jar": "jar", "lids": "lid", "compost": "garden input", "tomato": "food",
        "canner": "equipment", "firewood": "fuel", "salt": "food", "bean": "food",
        "bean seeds": "supply",
    }  # fmt: skip


def test_description_stands_just_before_the_first_use(book, fixed_day):
    written = book.write("harvested", {**PLUM, "item": "plum spread"}, on="2026-09-02")
    assert [row.kind for row in book.history(newest_first=False)] == ["item_described", "harvested"]
    assert written.described[0].seq == written.event.seq - 1
    assert written.proposals == {}
    assert book.catalogue().facts("plum spread").food is None
    written = book.write("harvested", {**PLUM, "item": "burdock root"}, on="2026-09-02")
    assert written.proposals  # a food row is proposed, and not taken
    assert book.catalogue().facts("burdock root").food is None


def test_jars_are_whole_volumes_with_lids_and_a_place(book, fixed_day):
    made = batch(book, [{"jars": 11, "jar": "1/2 pint jar"}, {"amount": "1 cup", "kept": "fridge"}])
    # A half pint is 236.5882365 ml (NIST HB 44, appendix C: 1 gal = 231 in3); rounded once a jar.
    assert made.body["made"] == [
        {"n": 1, "jars": 11, "jar": "half-pint jar", "lids": "lid", "kept": "shelf",
         "whole": 11 * 236_588, "measure": "volume", "per": "half-pint jar", "times": 11_000},
        {"n": 2, "amount": "1 cup", "kept": "fridge", "whole": 236_588, "measure": "volume",
         "per": "cup", "times": 1000},
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("method", "kept"),
    [("pressure", "shelf"), ("dry", "shelf"), ("freeze", "freezer"), ("cellar", "cellar"),
     ("ferment", "fridge"), ("cook", "fridge")],
)  # fmt: skip
def test_place_follows_from_the_method(book, fixed_day, method, kept):
    assert batch(book, [{"amount": "1 qt"}], method=method).body["made"][0]["kept"] == kept


def test_lids_last_used_with_that_jar_are_taken(book, fixed_day):
    quart, pint = {"jars": 2, "jar": "quart jar"}, {"jars": 2, "jar": "pint jar"}
    batch(book, [quart], lids="wide lid")
    again = batch(book, [quart, pint]).body["made"]
    assert [one["lids"] for one in again] == ["wide lid", "lid"]
    assert batch(book, [{**quart, "lids": "lid"}]).body["made"][0]["lids"] == "lid"
    book.strike(book.history(kind="put_up")[0].id, "never was")
    assert batch(book, [quart]).body["made"][0]["lids"] == "wide lid"


def test_volume_of_a_jar_of_the_household_is_what_it_holds(book, fixed_day):
    with pytest.raises(InputError, match="how much one crock holds"):
        batch(book, [{"jars": 2, "jar": "crock"}])
    book.write("item_described", {"item": "crock", "sort": "jar", "holds": "5 l"})
    assert batch(book, [{"jars": 2, "jar": "crock"}]).body["made"][0]["whole"] == 10_000_000


def test_word_jar_may_be_left_out_where_kept_in_such_jars(book, fixed_day):
    book.write("item_described", {"item": "plum butter", "sort": "food", "measure": "volume"})
    ate = {"ate": [{"item": "plum butter", "amount": "3 half-pint"}]}
    exact = round(3 * 236_588.2365)
    assert book.write("eaten", ate).body["ate"][0]["whole"] == exact
    batch(book, [{"jars": 11, "jar": "half-pint jar"}])
    assert book.write("eaten", ate).body["ate"][0]["whole"] == 3 * 236_588 == exact - 1


def test_labels_are_a_run_as_long_as_the_jars(book, fixed_day):
    jars = {"jars": 11, "jar": "pint jar"}
    for labels in ({"from": 41, "to": 60}, {"from": 51, "to": 41}, {"from": "A1", "to": "B11"}):
        with pytest.raises(InputError) as refused:
            batch(book, [{**jars, "labels": labels}])
        assert refused.value.field == "made[0].labels"
    batch(book, [{**jars, "unsealed": 1, "labels": {"from": 41, "to": 50}}])


def test_jar_is_named_by_its_label(book, fixed_day, yes):
    batch(book, [{"jars": 2, "jar": "pint jar", "labels": {"from": "S26-041", "to": "S26-042"}}])
    meal = {"item": "plum butter", "amount": "1 pint jar"}
    assert not book.write("eaten", {"ate": [{**meal, "lot": "S26-042"}]}).notes
    wrong = book.write("eaten", {"ate": [{**meal, "lot": "S26-043"}]}, answers=yes)
    assert "has that label" in wrong.notes[0]


def test_lines_of_an_export_keep_their_whole_amount(book, fixed_day):
    stored = {"item": "plum", "amount": "1 lb", "n": 4, "whole": 453_591, "basis": "exact"}
    assert book.write("harvested", {"lines": [stored]}).body["lines"] == [stored]


@pytest.mark.parametrize(
    ("more", "field"),
    [
        ({"whole": 0}, "whole"),
        ({"whole": -5}, "whole"),
        ({"whole": 1 << 62}, "whole"),
        ({"whole": 5, "basis": "item"}, "basis"),
        ({"whole": 5, "basis": "exact", "per": "cup", "times": 1000}, "basis"),
    ],
)
def test_whole_amount_that_cannot_be_is_refused(book, fixed_day, more, field):
    with pytest.raises(InputError) as refused:
        book.write("harvested", {"lines": [{"item": "plum", "amount": "1 lb", **more}]})
    assert refused.value.field == field
    assert book.log.position() == 0


def test_amount_is_stored_as_it_was_said(book, fixed_day):
    body = {"item": "garlic", "sort": "food", "measure": "mass", "g_per": {"cloves": "5"}}
    book.write("item_described", body)
    line = book.write("harvested", {"item": "garlic", "amount": "3 cloves"}).body["lines"][0]
    assert {name: line[name] for name in ("whole", "measure", "per", "times")} == {
        "whole": 3000,
        "measure": "clove",
        "per": "clove",
        "times": 3000,
    }
    assert book.show("shelf").to_dict()["records"][0]["left"]["whole"] == 15_000


def test_fraction_before_a_jar_is_settled_in_texts(book):
    texts = Texts(book.catalogue(), Answers(yes={"jar-fraction"}))
    assert texts.made("11 1/2 pint jars fridge") == {
        "jars": 11, "jar": "half-pint jar", "kept": "fridge",
    }  # fmt: skip
    assert texts.line("11 1/2 pint jars plum butter") == {
        "item": "plum butter", "amount": "11 half-pint jars",
    }  # fmt: skip


def test_thousands_in_texts_are_settled_by_the_answer(book):
    book.write("setting_changed", {"name": "language", "value": "de"})
    with pytest.raises(NeedsAnswer, match="1500"):
        Texts(book.catalogue()).line("1.500 g plum")
    texts = Texts(book.catalogue(), Answers(yes={"thousands"}))
    assert texts.line("1.500 g plum") == {"item": "plum", "amount": "1500 g"}
    with pytest.raises(InputError, match="thousands") as caught:
        texts.other("magazine 1.250")
    assert caught.value.field == "other"


@pytest.mark.parametrize("paid", ["8,99 €", "8.99 EUR", "£8.99", "CHF 8.99"])
def test_money_of_another_currency_is_refused(book, paid):
    with pytest.raises(InputError, match="is not in USD") as caught:
        Texts(book.catalogue()).number(paid, "money", "paid")
    assert caught.value.field == "paid"
    book.write("setting_changed", {"name": "currency", "value": "EUR"})
    if "€" in paid or "EUR" in paid:
        assert Texts(book.catalogue()).number("8.99 €", "money", "paid") == "8.99"


@pytest.mark.parametrize("paid", ["8.99 euros", "five euros", "€8.99", "50 pence"])
def test_money_in_words_of_another_currency_is_refused(book, paid):
    with pytest.raises(InputError, match="is not in USD"):
        Texts(book.catalogue()).number(paid, "money", "paid")


def test_other_spending_in_another_currency_is_refused(book):
    with pytest.raises(InputError, match="is not in USD"):
        Texts(book.catalogue()).other("magazine 4.50 €")


def test_dollars_are_no_euros_and_what_was_typed_may_be_set(book):
    texts = Texts(book.catalogue())
    assert texts.other("magazine $4.50") == {"words": "magazine", "paid": "4.50"}
    book.write("setting_changed", {"name": "currency", "value": "CAD"})
    assert Texts(book.catalogue()).number("$5", "money", "paid") == "5"
    book.write("setting_changed", {"name": "currency", "value": "EUR"})
    with pytest.raises(InputError, match=r"not in EUR.*setting currency USD"):
        Texts(book.catalogue()).number("$5", "money", "paid")


def test_money_of_the_book_s_currency_may_have_its_sign(book):
    texts = Texts(book.catalogue())
    assert {texts.number(said, "money", "paid") for said in ("$8.99", "8.99 USD", "USD 8.99", "8.99")} == {"8.99"}  # fmt: skip


def test_decimal_comma_where_the_language_has_it(book, fixed_day):
    with pytest.raises(InputError, match="comma"):
        book.write("harvested", {"item": "plum", "amount": "1,5 kg"})
    book.write("setting_changed", {"name": "language", "value": "de"})
    assert (
        book.write("harvested", {"item": "plum", "amount": "1,5 kg"}).body["lines"][0]["whole"]
        == 1_500_000
    )


def test_only_the_doubts_named_are_taken(book, fixed_day):
    from ledger import NeedsAnswer

    body = {"item": "plum", "amount": "11 t"}
    with pytest.raises(NeedsAnswer):
        book.write("harvested", body, answers=Answers(yes={"future"}))
    assert book.write("harvested", body, answers=Answers(yes={"absurd"})).is_new
