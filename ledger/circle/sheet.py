"""A season sheet: what leaves a household, and nothing else does."""

from __future__ import annotations

import datetime as dt
import hmac
import re
from collections.abc import Mapping
from typing import Annotated, Any

import msgspec
from msgspec import Meta

from ledger.circle.call import Call
from ledger.circle.figures import Figure
from ledger.circle.seal import canonical, check_of, key_of, member_of
from ledger.errors import InputError
from ledger.messages import Code, Message, Names, Typed

__all__ = ["FORMAT", "WITHDRAWAL", "Sheet", "Withdrawal", "read_paper", "sheet_schema"]

FORMAT = "croftbook season sheet 1"
WITHDRAWAL = "croftbook withdrawal 1"
LONGEST = 16_384
"""Bytes of one sheet at most; one of 41 figures has about 900."""

_Hex32 = Annotated[str, Meta(pattern="^[0-9a-f]{32}$")]
_Hex64 = Annotated[str, Meta(pattern="^[0-9a-f]{64}$")]
_LATER = re.compile(r"croftbook (season sheet|withdrawal) (\d+)")
_PAIRS = (
    ("short", "judged"), ("no_process", "judged"), ("not_recorded", "judged"), ("unsealed", "canned"),
    ("kept_over_year", "kept"),
)  # fmt: skip
"""A part and its whole: a sheet whose part is more is false."""


class Sheet(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """One household's figures of one season; no name, no place, no event.

    Attributes
    ----------
    call : str
        Digest of the call.
    season : int
    zone : str
    member : str
        The number that the card gives in this call.
    made_on : str
        A day.
    figures : dict of str to int or None
        Whole numbers within the limits of the format; None: not known.
    check : str
        Seal: HMAC-SHA256 under the key that the card gives.
    """

    format: str
    call: _Hex64
    season: int
    zone: str
    member: _Hex32
    made_on: str
    figures: dict[str, int | None]
    check: _Hex64

    @classmethod
    def make(
        cls, call: Call, card: str, zone: str, figures: Mapping[str, int | None], made_on: str
    ) -> Sheet:
        """Return a sealed sheet.

        Raises
        ------
        InputError
            The zone is none of the call, or the card is none.
        """
        check_zone(call, zone)
        body = {
            "format": FORMAT, "call": call.digest, "season": call.season, "zone": zone,
            "member": member_of(call.digest, card), "made_on": made_on, "figures": dict(figures),
        }  # fmt: skip
        return msgspec.convert({**body, "check": check_of(key_of(call.digest, card), body)}, cls)

    def to_bytes(self) -> bytes:
        """Return the sheet as its file holds it."""
        return canonical(msgspec.to_builtins(self))


class Withdrawal(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """A household takes its sheet back."""

    format: str
    call: _Hex64
    member: _Hex32
    check: _Hex64

    @classmethod
    def make(cls, call: Call, card: str) -> Withdrawal:
        """Return a sealed withdrawal."""
        body = {
            "format": WITHDRAWAL,
            "call": call.digest,
            "member": member_of(call.digest, card),
        }
        return msgspec.convert({**body, "check": check_of(key_of(call.digest, card), body)}, cls)

    def to_bytes(self) -> bytes:
        """Return the withdrawal as its file holds it."""
        return canonical(msgspec.to_builtins(self))


def check_zone(call: Call, zone: str) -> None:
    """Refuse a zone that the call does not name.

    Raises
    ------
    InputError
    """
    if zone not in call.zones:
        raise InputError(
            "zone",
            Message.of("refusal-no-zone", text=Typed(zone[:60]), names=Names(tuple(call.zones))),
        )


def read_paper(raw: bytes, call: Call, keys: Mapping[str, bytes]) -> Sheet | Withdrawal:
    """Return the sheet or withdrawal that some bytes are, checked against call, card and limits.

    Parameters
    ----------
    keys : mapping of str to bytes
        The key of each member's card.

    Raises
    ------
    InputError
        With the field that is wrong.
    """
    if len(raw) > LONGEST:
        raise InputError("sheet", Message.of("refusal-sheet-too-big", n=len(raw), most=LONGEST))
    body = _decoded(raw)
    cls = _kind_of(body)
    if body.get("call") != call.digest:
        raise InputError(
            "call",
            Message.of("refusal-other-call"),
            Message.of(
                "refusal-sheets-of-call", name=Typed(call.name), season=Code(str(call.season))
            ),
        )
    _check_types(body.get("figures"))
    try:
        paper: Sheet | Withdrawal = msgspec.convert(body, cls)
    except msgspec.ValidationError as error:
        raise _told(str(error)) from None
    if paper.member not in keys:
        raise InputError(
            "member",
            Message.of("refusal-no-card-makes-it"),
        )
    plain = {name: value for name, value in body.items() if name != "check"}
    if not hmac.compare_digest(check_of(keys[paper.member], plain), paper.check):
        raise InputError("check", Message.of("refusal-seal-broken"))
    if canonical(body) != raw:
        raise InputError("sheet", Message.of("refusal-sheet-spelling"))
    if isinstance(paper, Sheet):
        _check_figures(paper, call)
    return paper


_ANEW = "Make it anew with `croftbook circle sheet`"


def _decoded(raw: bytes) -> dict[str, Any]:
    try:
        body = msgspec.json.decode(raw)
    except (msgspec.DecodeError, UnicodeDecodeError):
        raise InputError("sheet", Message.of("refusal-no-json")) from None
    if not isinstance(body, dict):
        raise InputError("sheet", Message.of("refusal-no-season-sheet"))
    return body


def _kind_of(body: dict[str, Any]) -> type[Sheet] | type[Withdrawal]:
    said = body.get("format")
    if said == FORMAT:
        return Sheet
    if said == WITHDRAWAL:
        return Withdrawal
    found = _LATER.fullmatch(said) if isinstance(said, str) else None
    if found:
        raise InputError("format", Message.of("refusal-sheet-later", version=Code(str(found[2]))))
    raise InputError("format", Message.of("refusal-no-season-sheet"))


def _check_types(figures: Any) -> None:
    for name, value in figures.items() if isinstance(figures, dict) else ():
        if value is not None and type(value) is not int:
            raise InputError(
                name[:40], Message.of("refusal-no-whole-figure", text=Code(f"{value!r:.40}"))
            )


def _told(error: str) -> InputError:
    """Return the refusal of what a check of types found."""
    problem, _, path = error.partition(" - at `$")
    field = path.strip("`.") or "sheet"
    return InputError(
        field,
        Message.of("refusal-as-read", text=Code(problem[:1].lower() + problem[1:])),
        Message.of("refusal-sheet-anew"),
    )


def _check_figures(sheet: Sheet, call: Call) -> None:
    check_zone(call, sheet.zone)
    if sheet.season != call.season:
        raise InputError(
            "season",
            Message.of("refusal-season-is-not", found=sheet.season, wanted=call.season),
            Message.of("refusal-sheet-anew"),
        )
    try:
        good = dt.date.fromisoformat(sheet.made_on).isoformat() == sheet.made_on
    except ValueError:
        good = False
    if not good:
        raise InputError(
            "made_on",
            Message.of("refusal-not-a-day", text=Typed(sheet.made_on[:20])),
            Message.of("refusal-sheet-anew"),
        )
    for name in {*call.figures, *sheet.figures}:
        if name not in sheet.figures:
            raise InputError(name, Message.of("refusal-missing"), Message.of("refusal-sheet-anew"))
        if name not in call.figures:
            raise InputError(name[:40], Message.of("refusal-no-figure-of-call"))
        _check_limits(name, call.figures[name], sheet.figures[name])
    for part, whole in _PAIRS:
        a, b = sheet.figures[part], sheet.figures[whole]
        if a is not None and (b is None or a > b):
            raise InputError(
                part, Message.of("refusal-part-over-whole", a=a, whole=Code(whole), b=b)
            )


def _check_limits(name: str, figure: Figure, value: int | None) -> None:
    if value is not None and not figure.low <= value <= figure.high:
        raise InputError(
            name, Message.of("refusal-beyond-limits", value=value, low=figure.low, high=figure.high)
        )


def sheet_schema() -> dict[str, Any]:
    """Return the JSON Schema of a season sheet."""
    schema = msgspec.json.schema(Sheet)
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "season sheet",
        **schema,
    }
