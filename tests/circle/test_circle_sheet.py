"""A season sheet: reckoned by hand, within its limits, sealed, and nothing of the household in it."""

from __future__ import annotations

import hashlib
import hmac
import json

import pytest
from circle_tools import BEFORE, call_of, figures_drawn
from hypothesis import given
from hypothesis import strategies as st

from ledger import Book
from ledger.circle import Sheet, sheet_of
from ledger.circle.figures import CHANGES, CROP, HOUSEHOLD, PRODUCT, clamped
from ledger.circle.reckon import figures_of, hints_of
from ledger.circle.seal import canonical, plain_card
from ledger.circle.sheet import read_paper
from ledger.circle.words import amount_said, sheet_lines
from ledger.errors import InputError

CARD = "ABCD-EFGH-IJKL-MN23"


def test_figures_are_those_reckoned_by_hand(season):
    """Two batches of 8 pints (4 US quarts) each a year; see `write_season` for what went in."""
    found = figures_of(season, call_of(before=BEFORE))
    by_hand = {
        "people": 4,
        "batches": 2,
        "judged": 2,
        "no_process": 2,  # plum butter: none is held
        "short": 0,
        "canned": 16,
        "unsealed": 1,
        "kept": 32,  # nobody ate of it
        "kept_over_year": 16,
        "own_weight": 1000,  # 3 kg of tomatoes, all grown
        "hours": 2,
        "spent": 2720,  # 24 lb of sugar at a dollar a pound, 16 lids at 0.20
        "p1_jars": 16,
        "p1_cost": 356,  # 27.20, and a tenth of 16 jars at 0.80, by 8 quarts
        "p1_minutes": 15,  # 120 by 8 quarts
        "p1_learning": None,  # from five batches on
        "c1_area": 200,
        "c1_yield": 2500,  # 5 kg on 2 m2
        "change_minutes": -5,  # 160 by 8 quarts before
        "change_unsealed": -62,  # 1 of 16 less 2 of 16: 62.5, half to even
        "change_short": 0,
    }
    assert {name: found[name] for name in by_hand} == by_hand
    # 1 kg lost; came in 5 kg, 40 lb and 24 lb a year; 8 lb of sugar stayed behind in 2025; 4 kg of then are gone
    there = 2 * 5000 - 4000 + (2 * 40 + 2 * 24) * 453.59237
    assert found["waste"] == round(1000 * 1000 / there)


def test_other_money_is_not_known_and_not_nought(season):
    found = figures_of(season, call_of(currency="EUR"))
    assert {found[name] for name in ("spent", "saved", "p1_cost")} == {None}


def test_missing_price_is_named(book, fixed_day):
    book.write("put_up", makes="plum butter", method="boiling water", used=[{"item": "quince", "amount": "2 lb"}],
               made=[{"jars": 2, "jar": "pint jar"}], on="2026-09-01")  # fmt: skip
    book.write("bought", lines=[{"item": "sugar", "amount": "2 lb", "paid": "2"}], on="2026-08-01")
    call = call_of()
    assert figures_of(book, call)["p1_cost"] is None
    lines = sheet_lines(call, "5", figures_of(book, call), hints_of(book, call))
    assert any("quince" in one and "croftbook price" in one for *_, one in lines)


def test_blank_season_gives_no_sheet_of_noughts(book):
    with pytest.raises(InputError, match="nothing is written down"):
        figures_of(book, call_of())


def test_sheet_holds_nothing_else_of_the_household(season):
    """No name, person, place, id, hash or number of events: every text of the book is looked for."""
    call = call_of(products=["plum butter/boiling water"])
    raw = sheet_of(season, call, CARD, "5").to_bytes().decode()
    told = {row[1] for chunk in season.log.read() for row in chunk} | {season.log.head().hash}
    told |= {"Ada", "sugar", "plum", "home", "season.sqlite", CARD, plain_card(CARD)}
    assert [text for text in told if text in raw] == []
    assert set(json.loads(raw)) == {
        "format", "call", "season", "zone", "member", "made_on", "figures", "check",
    }  # fmt: skip


def test_seal_is_hmac_of_the_canonical_sheet(rng):
    """RFC 2104 by the standard library, the digests spelled out here a second time."""
    call = call_of()
    sheet = Sheet.make(call, CARD.lower(), "5", figures_drawn(call, rng), "2026-11-01")
    plain = CARD.replace("-", "")
    body = json.loads(sheet.to_bytes())
    assert body["member"] == hashlib.sha256(f"member\0{call.digest}\0{plain}".encode()).hexdigest()[:32]  # fmt: skip
    key = hashlib.sha256(f"key\0{call.digest}\0{plain}".encode()).digest()
    check = body.pop("check")
    text = json.dumps(body, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    assert check == hmac.new(key, text.encode(), "sha256").hexdigest()
    assert call.digest == hashlib.sha256(canonical(call.to_dict())).hexdigest()


def test_any_byte_changed_is_refused(rng):
    call = call_of()
    sheet = Sheet.make(call, CARD, "5", figures_drawn(call, rng), "2026-11-01")
    raw, keys = sheet.to_bytes(), {sheet.member: _key(call)}
    assert read_paper(raw, call, keys) == sheet
    for at in range(len(raw)):
        for other in (raw[at] ^ 1, raw[at] ^ 32):
            bad = raw[:at] + bytes([other]) + raw[at + 1 :]
            with pytest.raises(InputError):
                read_paper(bad, call, keys)
    for at in range(0, len(raw), 7):
        for bad in (raw[:at], raw[:at] + b" " + raw[at:], raw + raw[at:]):
            with pytest.raises(InputError):
                read_paper(bad, call, keys)


def _key(call):
    from ledger.circle.seal import key_of

    return key_of(call.digest, CARD)


@given(st.floats(-1e9, 1e9), st.sampled_from([*HOUSEHOLD, *CHANGES, *PRODUCT, *CROP]))
def test_every_value_ends_within_the_limits(value, figure):
    found = clamped(figure, value)
    assert figure.low <= found <= figure.high
    if figure.low <= value <= figure.high:
        assert abs(found - value) <= 0.5


@given(st.text(max_size=30))
def test_a_card_is_a_card_or_refused(text):
    try:
        plain = plain_card(text)
    except InputError:
        return
    assert len(plain) == 16
    assert plain_card(plain.lower()) == plain


def test_card_is_read_as_people_write_it():
    assert plain_card(" abcd efgh-ijkl mn23 ") == "ABCDEFGHIJKLMN23"
    assert plain_card("0BCD-1FGH-8JKL-MN23") == "OBCDIFGHBJKLMN23"


@pytest.mark.parametrize(
    ("unit", "value", "said"),
    [("per mille", 0, "0.0 %"), ("money", -50, "-0.50 USD"), ("change", 25, "+2.5 points"),
     ("g/m2", 2441, "2,441 g a m²"), ("jars", 12, "12 jars"), ("minutes", None, "not known")],
)  # fmt: skip
def test_amounts_are_said_with_their_units(unit, value, said):
    assert amount_said(unit, value, "USD") == said


def test_every_figure_is_shown_with_its_meaning(season):
    call = call_of(before=BEFORE)
    figures = figures_of(season, call)
    lines = sheet_lines(call, "5", figures)
    assert len(lines) == 1 + len(figures)
    assert all(meaning and value for _, _, value, meaning in lines)
    assert ("plum butter (boiling water)", "Cost a quart", "3.56 USD") in [one[:3] for one in lines]


def test_book_is_opened_by_its_household(tmp_path, season):
    """The same book asked twice gives the same sheet, byte for byte."""
    call = call_of()
    with Book.open(tmp_path / "season.sqlite", create=False) as again:
        assert sheet_of(again, call, CARD, "5") == sheet_of(season, call, CARD, "5")


def test_page_of_docs_and_schema_are_those_of_the_code():
    from pathlib import Path

    from ledger.circle.sheet import sheet_schema
    from ledger.docs import circle_page

    docs = Path(__file__).parents[2] / "docs"
    text = (docs / "circle.md").read_text("utf-8")
    assert circle_page(text) == text
    assert json.loads((docs / "schema" / "season_sheet.json").read_text("utf-8")) == json.loads(json.dumps(sheet_schema()))  # fmt: skip
