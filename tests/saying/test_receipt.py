"""Receipts, invented; what stands on them was added up by hand."""

from __future__ import annotations

import pytest
from saying.kitchen_said import TODAY, short

from ledger import Answers, Book
from ledger.saying.entries import entries_of
from ledger.saying.known import Known
from ledger.saying.language import language
from ledger.saying.reading import read
from ledger.saying.settled import Settled

ENGLISH = """Corner Market
08/30/2026 14:22
SUGAR 10 LB            7.90
EGGS DOZ               2.50
MILK 1 GAL             3.79
BREAD                  3.50
BANANAS
0.756 kg x 2.99        2.26
MAGAZINE               4.50
2 x RICE 5 LB         11.00
COUPON                -1.00
SUBTOTAL              34.45
TAX                    0.92
TOTAL                 35.37
CASH                  50.00
CHANGE                14.63
"""
GERMAN = """Hofladen am Bach
12.08.2026
Milch 1 l              1,19
Eier 10 St             2,90
Kartoffeln 2 kg        3,40 A
Zeitschrift            4,50
SUMME EUR             11,99
MWST 7%                0,52
BAR                   20,00
RÜCKGELD               8,01
"""


def test_a_receipt_of_many_lines(known):
    assert short(read(ENGLISH, known)) == (
        "bought@2026-08-30 10 lb sugar paid=7.90, 12 egg paid=2.50, 1 gal milk paid=3.79, 1 bread paid=3.50, "
        "0.756 kg banana paid=2.26, 10 lb rice paid=10; note=1 off rice; other=MAGAZINE 4.50; receipt_total=35.37; "
        "shop=Corner Market ~belongs"
    )


def test_a_quantity_stands_before_its_article_and_words_in_any_order(known):
    text = "corner market\n2 @ 1.99\nMILK 1 GAL 3.98\nSUGAR GRAN 10LB 7.90\nRICE 2 LB @ 1.29/LB 2.58\nPASTA RICE 1 LB 2.58"
    asked = read(text, known)
    assert short(asked) == (
        "bought 2 gal milk paid=3.98, 10 lb sugar paid=7.90, 2 lb rice paid=2.58, 1 lb pasta paid=2.58; "
        "shop=corner market ?which"
    )
    assert asked.questions[0].options == ["pasta", "rice"]


def test_a_german_receipt(known_in_euros):
    assert short(read(GERMAN, known_in_euros)) == (
        "bought@2026-08-12 1 l Milch paid=1.19, 10 egg paid=2.90, 2 kg potato paid=3.40; "
        "other=Zeitschrift 4.50; receipt_total=11.99; shop=Hofladen am Bach ~belongs"
    )


def test_a_total_that_does_not_come_out_is_asked(known):
    asked = read(
        ENGLISH.replace("TOTAL                 35.37", "TOTAL                 45.37"), known
    )
    assert [one.code for one in asked.questions if not one.waits] == ["total"]


def test_the_total_without_the_tax_comes_out_too(known):
    asked = read(
        ENGLISH.replace("TOTAL                 35.37", "TOTAL                 34.45"), known
    )
    assert not [one for one in asked.questions if not one.waits]


def test_a_missing_price_is_named_by_its_line(known):
    reading = read(ENGLISH.replace("BREAD                  3.50", "BREAD"), known)
    (price,) = [one for one in reading.questions if one.code == "price"]
    assert "BREAD" in price.text
    assert price.waits


def test_every_line_finds_a_place(known):
    for text in (ENGLISH, GERMAN):
        reading = read(text, known)
        body = reading.entries[0].body
        articles = sum(line.strip()[:1].isalnum() for line in text.splitlines()[2:-5])
        assert len(body["lines"]) + len(body["other"]) >= articles - 2
        assert not reading.left_over


def test_sentences_with_prices_are_no_receipt(known):
    text = "bought 10 lb sugar 7.90\nbought 5 lb rice 6.10\nbought 2 lb pasta 3.00"
    assert len(read(text, known).entries) == 3


def test_so_many_at_a_price_are_so_many_packs(known):
    """2 x 3.49 is 6.98: the price itself says that there were two."""
    text = (
        "CORNER SHOP\n2 @ 3.49 BUTTER 1 LB 6.98\nMILK 1 QT 2 x 1.20 2.40\n3 @ 9.99 SUGAR 10 LB 7.90\n"
        "TOTAL 17.28\n"
    )
    said = short(read(text, known))
    assert "2 lb butter paid=6.98, 2 qt milk paid=2.40" in said
    assert "30 lb sugar" not in said  # three at 9.99 are not 7.90: nothing is made of it


def test_jars_and_lids_are_what_they_are(known):
    text = (
        "feed barn\nQT JARS 12 14.99\nWM PINT MASON JARS 12PK 15.99\n8OZ JELLY JARS 12CT 9.99\n"
        "2 x HALF PT JARS 12 19.98\nREG LIDS 12 3.49\nSTRAWBERRY JAM 12 OZ 3.99"
    )
    found = read(text, known)
    assert short(found) == (
        "bought 12 quart jar paid=14.99, 12 pint jar paid=15.99, 12 half-pint jar paid=9.99, "
        "24 half-pint jar paid=19.98, 12 lid paid=3.49, 12 oz strawberry jam paid=3.99; shop=feed barn"
    )
    assert {found.sorts.get(one, "known") for one in ("quart jar", "half-pint jar")} <= {
        "jar", "known",
    }  # fmt: skip
    assert found.sorts.get("lid", "lid") == "lid"


def test_what_a_line_of_jars_does_not_say_is_asked(known):
    text = "corner market\nRICE 1 LB 1.29\nCANNING JARS 12.99\nWIDE LIDS 4.99"
    first = read(text, known)
    assert [(one.code, one.about) for one in first.questions] == [
        ("which", "CANNING JARS"), ("amount", "CANNING JARS"), ("amount", "WIDE LIDS"),
    ]  # fmt: skip
    assert not any(one.waits for one in first.questions)
    answers = dict(zip((one.key for one in first.questions), ("pint jar", "6", "12"), strict=True))
    settled = read(text, known, settled=Settled(answers))
    assert settled.questions == []
    assert [(one["item"], one["amount"]) for one in settled.entries[0].body["lines"]] == [
        ("rice", "1 lb"), ("pint jar", "6"), ("lid", "12"),
    ]  # fmt: skip


def test_feed_of_hens_goes_into_eggs_and_stands_on_no_shelf(tmp_path):
    with Book.open(tmp_path / "feed.sqlite") as book:
        text = "feed barn\nLAYER FEED 50LB 18.99\nQT JARS 12 14.99\nGOAT FEED 50LB 17.99"
        found = read(text, Known(book.catalogue(), TODAY, book.log))
        book.enter_all(entries_of(book.catalogue(), found), Answers(yes=True))
        facts = {name: book.catalogue().facts(name) for name in ("layer feed", "goat feed")}
        assert (facts["layer feed"].sort, facts["layer feed"].feeds) == ("garden input", "egg")
        assert facts["goat feed"].sort == "supply"
        shelf = book.show("shelf")
        assert [one["item"] for one in shelf.records()] == ["goat feed"]
        assert shelf.totals["jars"]["quart jar"]["empty"] == 12


def test_a_german_till_without_umlauts(known):
    text = "Hofladen\nHUEHNERFUTTER 25KG 13,99\nEINMACHGLAESER 230ML 6ST 8,99\nDECKEL 10ER 2,99"
    found = read(text, known, words=language("de"))
    assert [(one["item"], one["amount"]) for one in found.entries[0].body["lines"]] == [
        ("hühnerfutter", "25 kg"), ("230 ml jar", "6"), ("lid", "10"),
    ]  # fmt: skip
    assert found.sorts["hühnerfutter"] == "hen feed"
    assert found.sorts["230 ml jar"] == "jar"


CARD = """Hofmarkt Lindenau
Zucker 1 kg             1,19 A
Kartoffeln 2 kg         4,98 A
Zwischensumme           6,17
Summe                   6,17
{paid}
"""
PAID = (
    "girocard 6,17", "Kartenzahlung 6,17", "Gegeben EC-Cash 6,17", "EC-Karte 6,17", "Kreditkarte 6,17",
    "Gegeben BAR 10,00\nRückgeld 3,83", "MwSt 7% 0,40", "USt A 7% 5,77 0,40 6,17", "A 7,00% 5,77 0,40 6,17",
    "inkl. MwSt 7% 0,40", "Netto 5,77\nBrutto 6,17", "Zu zahlen 6,17\nKontaktlos",
    "Vielen Dank für Ihren Einkauf\nBon-Nr. 4711\nTerminal-ID 54012345\nBeleg-Nr. 1234\nUhrzeit 14:32",
)  # fmt: skip


@pytest.mark.parametrize("paid", PAID)
def test_how_a_german_receipt_was_paid_is_no_ware(known, paid):
    asked = read(CARD.format(paid=paid), known)
    assert short(asked) == (
        "bought 1 kg sugar paid=1.19, 2 kg potato paid=4.98; receipt_total=6.17; shop=Hofmarkt Lindenau"
    )
    assert asked.questions == []


def test_a_deposit_that_came_back_takes_nothing_off_the_food(known):
    text = "Hofmarkt\nZucker 1 kg 1,19\nMilch 1 l 1,29\nPfand 0,25\nLeergut -0,50\nSumme 2,23\ngirocard 2,23"
    asked = read(text, known)
    assert short(asked) == (
        "bought 1 kg sugar paid=1.19, 1 l Milch paid=1.29; note=Leergut -0,50; other=Pfand 0.25; "
        "receipt_total=2.23; shop=Hofmarkt ~belongs"
    )


def test_what_only_begins_like_such_a_line_is_a_ware(known):
    text = "Hofmarkt\nKartoffeln 2 kg 4,98\nBarsch 1 kg 9,90\nKarten 1,00\nSumme 15,88"
    assert [line["item"] for line in read(text, known).entries[0].body["lines"]] == ["potato"]
    assert {one["words"] for one in read(text, known).entries[0].body["other"]} == {
        "Barsch 1 kg",
        "Karten",
    }


def test_a_sum_alone_is_read_as_nothing(known):
    assert read("21 EUR", known).entries == []


def test_a_name_before_an_article_is_kept(known):
    asked = read("Corner Market\nZorblatt SUGAR 2 LB 3.99\nRICE 2 LB 2.58\nTOTAL 6.57", known)
    assert "zorblatt" in str(asked.as_json()).lower()
