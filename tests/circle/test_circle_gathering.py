"""Gathering: good sheets are kept, false and foreign ones refused by name, withdrawn ones forgotten."""

from __future__ import annotations

import json
import stat

import pytest
from circle_tools import call_of, figures_drawn

from ledger.circle import Circle, Sheet
from ledger.circle.seal import canonical, check_of, key_of, member_of, new_card
from ledger.circle.sheet import Withdrawal
from ledger.errors import InputError


def forged(circle, card, rng, **changes):
    """Return a sheet with other values and a seal that holds: what a member with a text editor could make."""
    body = json.loads(
        Sheet.make(circle.call, card, "5", figures_drawn(circle.call, rng), "2026-11-01").to_bytes()
    )
    del body["check"]
    for name, value in changes.items():
        where = body["figures"] if name in body["figures"] or name.startswith("x_") else body
        where[name] = value
    return canonical({**body, "check": check_of(key_of(circle.call.digest, card), body)})


def gather(circle, tmp_path, *lines, name="in.json"):
    path = tmp_path / name
    path.write_bytes(b"\n".join(lines) + b"\n")
    return circle.gather([path])


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"p1_cost": 49}, "line 1: p1_cost: 49 is beyond the limits, 50 to 3000"),
        ({"batches": 201}, "batches: 201 is beyond the limits"),
        ({"batches": 3.0}, "batches: 3.0 is no whole number"),
        ({"batches": True}, "batches: True is no whole number"),
        ({"batches": "3"}, "batches: '3' is no whole number"),
        ({"x_more": 1}, "x_more: is no figure of this call"),
        ({"short": 60, "judged": 1}, "short: 60 is more than judged, 1"),
        (
            {"unsealed": 3, "canned": None},
            "unsealed: 3 is more than canned, of which nothing is said",
        ),
        ({"zone": "9"}, "zone: '9' is none of this group"),
        ({"season": 2025}, "season: 2025 is not 2026"),
        ({"made_on": "yesterday"}, "made_on: 'yesterday' is not a day"),
        ({"made_on": "20261101"}, "made_on: '20261101' is not a day"),
        ({"name": "Hollow End"}, "contains unknown field `name`"),
        ({"format": "croftbook season sheet 2"}, "format: is of the later version 2"),
        ({"format": "a letter"}, "format: is no season sheet"),
        ({"call": "0" * 64}, "call: belongs to another call"),
        ({"member": "0" * 32}, "member: no card of this group makes this number"),
    ],
)
def test_false_sheet_is_refused_by_field_and_the_others_are_kept(
    circle, tmp_path, rng, changes, said
):
    good = forged(circle, circle.drawn[1], rng)
    done = gather(circle, tmp_path, forged(circle, circle.drawn[0], rng, **changes), good)
    assert (done.taken, len(done.refused)) == (1, 1)
    assert said in done.refused[0]
    assert done.refused[0].startswith("in.json, line 1: ")
    assert list(circle.sheets()) == [good.decode()]


def test_figure_left_out_is_named(circle, tmp_path, rng):
    body = json.loads(forged(circle, circle.drawn[0], rng))
    del body["check"], body["figures"]["waste"]
    raw = canonical({**body, "check": check_of(key_of(circle.call.digest, circle.drawn[0]), body)})
    assert "waste: is missing" in gather(circle, tmp_path, raw).refused[0]


@pytest.mark.parametrize(
    "raw", [b"{", b"[]", b"null", b"\xff\xfe", b"a" * 20_000, b'{"format": 1}', b"{" * 5000]
)
def test_rubbish_is_refused_with_its_line(circle, tmp_path, raw):
    done = gather(circle, tmp_path, raw)
    assert (done.taken, len(done.refused)) == (0, 1)
    assert done.refused[0].startswith("in.json, line 1: ")


def test_unsealed_and_strangers_sheets_are_refused(circle, tmp_path, rng):
    figures = figures_drawn(circle.call, rng)
    stranger = Sheet.make(circle.call, new_card(), "5", figures, "2026-11-01").to_bytes()
    body = json.loads(forged(circle, circle.drawn[0], rng))
    unsealed = canonical({**body, "check": "0" * 64})
    other = Sheet.make(call_of(), circle.drawn[0], "5", figures, "2026-11-01").to_bytes()
    said = gather(circle, tmp_path, stranger, unsealed, other).refused
    for text, wanted in zip(said, ("no card", "seal does not hold", "another call"), strict=True):
        assert wanted in text


def test_twice_is_refused_with_both_lines(circle, tmp_path, rng):
    first, second = (forged(circle, circle.drawn[0], rng) for _ in range(2))
    done = gather(circle, tmp_path, first, second)
    assert done.taken == 1
    assert "in.json, line 2: member: comes twice; the one of in.json, line 1 counts" in done.refused[0]  # fmt: skip
    assert "is held already" in gather(circle, tmp_path, first).refused[0]
    assert list(circle.sheets()) == [first.decode()]


def test_later_sheet_replaces_and_an_earlier_is_refused(circle, hand_in, tmp_path, rng):
    card = circle.drawn[:1]
    hand_in(circle, card, made_on="2026-11-02")
    assert "is before the day of the sheet held" in hand_in(circle, card, made_on="2026-11-01").refused[0]  # fmt: skip
    assert hand_in(circle, card, made_on="2026-11-03").taken == 1
    assert len(list(circle.sheets())) == 1
    assert circle.changed() == 1


def test_withdrawn_sheet_is_in_no_byte_of_the_folder(circle, hand_in, tmp_path, rng):
    hand_in(circle, circle.drawn)
    gone = member_of(circle.call.digest, circle.drawn[3])
    text = next(one for one in circle.sheets() if gone in one)
    body = json.loads(text)
    parts = [body["check"].encode(), json.dumps(body["figures"]).encode(), text[:400].encode()]
    assert any(parts[0] in file.read_bytes() for file in circle.folder.iterdir())
    done = gather(circle, tmp_path, Withdrawal.make(circle.call, circle.drawn[3]).to_bytes())
    assert (done.withdrawn, done.refused) == (1, [])
    for file in circle.folder.iterdir():
        raw = file.read_bytes()
        assert not [part for part in parts if part in raw], file.name
    assert circle.members()[gone] is True
    assert "withdrew, and no later sheet" in hand_in(circle, circle.drawn[3:4]).refused[0]
    again = gather(circle, tmp_path, Withdrawal.make(circle.call, circle.drawn[3]).to_bytes())
    assert "withdrew already" in again.refused[0]


def test_withdrawal_of_a_stranger_takes_nothing(circle, hand_in, tmp_path):
    hand_in(circle, circle.drawn)
    body = json.loads(Withdrawal.make(circle.call, circle.drawn[0]).to_bytes())
    forged = canonical({**body, "member": member_of(circle.call.digest, circle.drawn[1])})
    assert "seal does not hold" in gather(circle, tmp_path, forged).refused[0]
    assert len(circle.held()) == 30


def test_call_changed_afterwards_is_refused(circle, hand_in):
    hand_in(circle, circle.drawn)
    path = circle.folder / "call.json"
    path.write_bytes(path.read_bytes().replace(b"tomato", b"potato"))
    with pytest.raises(InputError, match="was changed after the group was begun"):
        Circle(circle.folder)


def test_folder_is_its_owners_alone_and_holds_no_card(circle):
    assert stat.S_IMODE(circle.folder.stat().st_mode) == 0o700
    for file in circle.folder.iterdir():
        assert stat.S_IMODE(file.stat().st_mode) == 0o600, file
        raw = file.read_bytes()
        assert not [one for one in circle.drawn if one.encode() in raw or one.replace("-", "").encode() in raw]  # fmt: skip


def test_cards_are_drawn_once_and_differ(circle):
    assert len({*circle.drawn, *circle.cards(300)}) == 330
    assert len(circle.members()) == 330


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ({"products": ["plum butter"]}, "product: 'plum butter' does not say how"),
        ({"products": ["plum butter/magic"]}, "product: 'magic' is no way of putting up"),
        ({"products": ["a/cook", "A/cook"]}, "product: one is named twice"),
        ({"products": [f"p{n}/cook" for n in range(7)]}, "product: 7 are named. Name 6 at most"),
        ({"crops": ["<b>"]}, "crop: '<b>' cannot be shown"),
        ({"zones": []}, "zone: none is named"),
        ({"currency": "dollars"}, "currency: 'dollars' is no currency"),
        ({"ask": ["income"]}, "ask: 'income' is no figure"),
        ({"ask": ["change_waste"]}, "ask: change_waste needs a season before"),
        ({"ask": ["cost"], "products": []}, "ask: cost needs a product"),
        ({"before": ("2026-01-01", "2026-02-01")}, "before-to: 2026-02-01 is not before"),
        ({"before": ("2025-02-30", "2025-03-01")}, "before-from: '2025-02-30' is not a day"),
    ],
)
def test_call_that_nobody_can_answer_is_refused(more, said):
    with pytest.raises(InputError) as refused:
        call_of(**more)
    assert said in str(refused.value)


def test_call_of_a_later_version_is_refused(tmp_path):
    path = tmp_path / "call.json"
    path.write_bytes(canonical({**call_of().to_dict(), "format": "croftbook call 2"}))
    from ledger.circle import Call

    with pytest.raises(InputError, match="later format 'croftbook call 2'"):
        Call.read(path)
