"""The one check of names: each can be told from others, and `also` leads in no circle."""

from __future__ import annotations

import unicodedata
from typing import Any

from ledger.errors import InputError
from ledger.items import item_key
from ledger.known.catalogue import Catalogue
from ledger.messages import Message, Typed

__all__ = ["check_names"]

Body = dict[str, Any]

_NAMES = frozenset(
    (
        "item", "makes", "crop", "jar", "lids", "for_crop", "shop_equivalent", "feeds", "equipment",
        "also", "skill", "recipe",
    )
)  # fmt: skip


def check_names(kind: str, body: Body, catalogue: Catalogue) -> None:
    """Refuse a name without a letter, digit or picture, and one that another name of it claims.

    Parameters
    ----------
    kind : str
    body : dict
        Checked, as typed.

    Raises
    ------
    InputError
    """
    _check_letters(body)
    if kind != "item_described":
        return
    own = item_key(body["item"])
    for other in body.get("also") or ():
        key = item_key(other)
        if key != own and catalogue.canonical(own) == key:
            raise InputError(
                "also",
                Message.of("refusal-name-of-another", item=body["item"], other=other),
            )


def _check_letters(body: Any, field: str = "") -> None:
    if isinstance(body, list):
        for i, part in enumerate(body):
            _check_letters(part, f"{field}[{i}]")
    elif isinstance(body, dict):
        for name, value in body.items():
            at = f"{field}.{name}" if field else name
            if isinstance(value, str):
                several = [value] if name in _NAMES else []
            else:
                several = value if isinstance(value, list) and name in _NAMES else []
                _check_letters(value, at)
            for one in several:
                if isinstance(one, str) and not _is_name(one):
                    raise InputError(at, Message.of("refusal-not-a-name", text=Typed(one[:40])))


def _is_name(text: str) -> bool:
    return any(c.isalnum() or unicodedata.category(c) == "So" for c in text)
