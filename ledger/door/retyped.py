"""A stored body as the short texts it could be typed from: what a form is filled with.

The inverse of `ledger.door.texts` and `ledger.door.filling`: typed again, the texts give the body.
"""

from __future__ import annotations

from typing import Any

__all__ = ["retyped"]

_KEPT_LAST = {"shelf", "fridge", "freezer", "cellar"}


def retyped(body: dict[str, Any]) -> dict[str, Any]:
    """Return a body's fields as texts by name.

    Returns
    -------
    dict
        A text for each field; for a list, a list of texts. For lists of lines and made entries,
        what stands beside the text (``paid``, ``labels``) is in ``beside[name][i]`` as texts.

    Examples
    --------
    >>> retyped({"lines": [{"item": "sugar", "amount": "10 lb", "paid": "7.90"}], "shop": "corner shop"})
    {'beside': {'lines': [{'paid': '7.90'}]}, 'lines': ['10 lb sugar'], 'shop': 'corner shop'}
    """
    out: dict[str, Any] = {"beside": {}}
    for name, value in body.items():
        if isinstance(value, list) and value and isinstance(value[0], dict):
            out[name] = [_part(name, part) for part in value]
            out["beside"][name] = [_beside(name, part) for part in value]
        elif name == "seed":
            out[name] = _line(value)
        elif isinstance(value, dict):
            out[name] = [f"{key} {one}" for key, one in value.items()]
        elif isinstance(value, list):
            out[name] = [str(one) for one in value]
        else:
            out[name] = str(value)
    return out


def _part(name: str, part: dict[str, Any]) -> str:
    if name == "made":
        many = f"{part['jars']} {_jars(part)}" if "jars" in part else str(part["amount"])
        return f"{many} {part['kept']}" if part.get("kept") in _KEPT_LAST else many
    if name == "left":
        return f"{_line(part)} {part.get('kept', 'fridge')} {part['share']}"
    if name == "work":
        return f"{part['person']} {part['minutes']}"
    if name == "acid":
        return f"{part['acid']} {part['amount']} per {part.get('per', 'jar')}"
    if name == "other":
        return f"{part['words']} {part['paid']}"
    if name == "fuel" and "metered" in part:
        return f"{part['metered']} {part['amount']}"
    return _line(part)


def _jars(part: dict[str, Any]) -> str:
    jar = str(part["jar"])
    return f"{jar}s" if part["jars"] != 1 and jar.endswith("jar") else jar


def _line(part: dict[str, Any]) -> str:
    lot = f" from lot {part['lot']}" if part.get("lot") else ""
    out = ", strained out" if part.get("strained") else ""
    return f"{part['amount']} {part['item']}{lot}{out}"


def _beside(name: str, part: dict[str, Any]) -> dict[str, str]:
    own = {
        "item",
        "amount",
        "lot",
        "strained",
        "n",
        "whole",
        "basis",
        "measure",
        "per",
        "times",
        *(f"trimmed_{one}" for one in ("whole", "measure", "per", "times")),
    }
    if name == "made":
        own |= {"jars", "jar", "kept"}
    elif name in ("left", "work", "acid", "fuel", "other"):
        return {}
    out = {key: str(value) for key, value in part.items() if key not in own and key != "labels"}
    if "labels" in part:
        out["labels"] = f"{part['labels']['from']}..{part['labels']['to']}"
    return out
