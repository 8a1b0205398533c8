"""Canonical JSON, cards and the digests made from them."""

from __future__ import annotations

import base64
import hashlib
import hmac
import json
import secrets
from typing import Any

from ledger.errors import InputError
from ledger.messages import Message

__all__ = ["canonical", "check_of", "digest_of", "key_of", "member_of", "new_card", "plain_card"]

_CARD_BYTES = 10
_LETTERS = frozenset("ABCDEFGHIJKLMNOPQRSTUVWXYZ234567")
_MISREAD = str.maketrans("018", "OIB")


def canonical(value: Any) -> bytes:
    """Return JSON with sorted keys and no blanks, in UTF-8: one value has one spelling."""
    text = json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return text.encode()


def digest_of(value: Any) -> str:
    """Return the SHA-256 of a value's canonical JSON, hex."""
    return hashlib.sha256(canonical(value)).hexdigest()


def new_card() -> str:
    """Return a card: 80 random bits in the letters and digits of RFC 4648's base 32, in fours."""
    text = base64.b32encode(secrets.token_bytes(_CARD_BYTES)).decode()
    return "-".join(text[at : at + 4] for at in range(0, len(text), 4))


def plain_card(card: str) -> str:
    """Return a card as it is digested: capitals without blanks and hyphens, 0, 1, 8 read as O, I, B.

    Raises
    ------
    InputError
        It is no card.
    """
    plain = "".join(card.upper().replace("-", " ").split()).translate(_MISREAD)
    if len(plain) != 16 or not set(plain) <= _LETTERS:
        raise InputError(
            "card",
            Message.of("refusal-no-card"),
        )
    return plain


def _digest(*parts: str) -> hashlib._Hash:
    return hashlib.sha256("\0".join(parts).encode())


def member_of(call: str, card: str) -> str:
    """Return the number under which a card's sheet is kept: 32 hex digits."""
    return _digest("member", call, plain_card(card)).hexdigest()[:32]


def key_of(call: str, card: str) -> bytes:
    """Return the key with which a card's sheets are sealed: 32 bytes."""
    return _digest("key", call, plain_card(card)).digest()


def check_of(key: bytes, body: dict[str, Any]) -> str:
    """Return the seal of a sheet without its ``check``: HMAC-SHA256 (RFC 2104), hex."""
    return hmac.new(key, canonical(body), hashlib.sha256).hexdigest()
