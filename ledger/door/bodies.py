"""Bodies, kind by kind, from what was typed (and checked) to what is stored."""

from __future__ import annotations

import re
from collections.abc import Callable
from decimal import Decimal
from typing import Any

from ledger.amounts import canonical, parse_measure
from ledger.door._money import check_money
from ledger.door.batches import put_up
from ledger.door.lines import MOST, Lines, first_measure, join, line_fields, several_lines
from ledger.door.settings import check_setting
from ledger.door.testing import gauge_tested
from ledger.door.winter import (
    flock_counted,
    frost_seen,
    meter_read,
    person_described,
    seed_checked,
)
from ledger.errors import InputError
from ledger.items import ItemFacts
from ledger.messages import Message
from ledger.reference import foods
from ledger.reference.crossing import Weights

__all__ = ["missing_paid", "resolve"]

Body = dict[str, Any]
_SPAN = re.compile(r"\s*\d+(\.\d+)?\s*(day|week|month|year)s?\s*", re.IGNORECASE)


def resolve(kind: str, body: Body, lines: Lines) -> Body:
    """Return a checked typed body as it is stored.

    Raises
    ------
    InputError, NeedsAnswer
        Naming the field.
    """
    work: Callable[[Body, Lines], Body] | None = _RESOLVERS.get(kind)
    return work(body, lines) if work is not None else body


def _currency(lines: Lines) -> str:
    return lines.catalogue.setting("currency", lines.on, "USD") or "USD"


def _needs(several: list[Any], name: str, what: str) -> None:
    if not several:
        raise InputError(name, "is empty", f"Write down {what}")


def _harvested(body: Body, lines: Lines) -> Body:
    _needs(body["lines"], "lines", "what was picked")
    # a bare 0 says that the crop failed; 0 lb is a slip
    failed = all(str(line.get("amount")).strip() == "0" for line in body["lines"])
    out = several_lines(body["lines"], "lines", lines, zero=failed)
    for line, field in zip(out, line_fields(out, "lines"), strict=True):
        if "trimmed" in line:
            _trim(line, join(field, "trimmed"), lines)
        elif "trimmed_whole" in line:
            raise InputError(
                join(field, "trimmed"), Message.of("refusal-missing"), "Leave `trimmed_whole` out"
            )
    return {**body, "lines": out}


def _trim(line: Body, field: str, lines: Lines) -> None:
    facts = lines.facts(line["item"])
    assert facts is not None
    if line.get("trimmed_whole") is None:
        amount = lines.amount(line["trimmed"], field)
        line["trimmed"] = amount.text
        said = lines.measured(amount, line["item"], facts, field)
        line |= {f"trimmed_{name}": value for name, value in said.items()}
    if not 0 <= line["trimmed_whole"] <= _most_trimmed(line, facts):
        raise InputError(
            field,
            f"{line['trimmed']} is more than the {line['amount']} picked",
            "Write the part of it that was thrown away",
        )


def _most_trimmed(line: Body, facts: ItemFacts) -> int:
    """Return the most that can have been trimmed off a line, in the whole units of the trimmings.

    Where the two cannot be set beside each other any amount may be right.
    """
    trimmed = line.get("trimmed_measure")
    if trimmed is None or trimmed == line.get("measure"):
        return int(line["whole"])
    if line.get("measure") is None:
        return MOST
    own = Weights(line["item"], facts)
    whole, off = (
        own.come(one, unit, "mass")
        for one, unit in ((line["measure"], line.get("per")), (trimmed, line.get("trimmed_per")))
    )
    if (whole.measure, off.measure) != ("mass", "mass"):
        return MOST
    grams = (whole.factor or 1) * (line["times"] if whole.of_times else line["whole"])
    each = (off.factor or 1) * (line["trimmed_times"] if off.of_times else line["trimmed_whole"])
    return int(line["trimmed_whole"] if each <= grams else 0)


def _bought(body: Body, lines: Lines) -> Body:
    _needs(body["lines"] or body.get("other") or [], "lines", "what was bought")
    out = []
    for line, field in zip(body["lines"], line_fields(body["lines"], "lines"), strict=True):
        if line.get("paid") is not None:
            check_money(line["paid"], join(field, "paid"), _currency(lines))
        elif not lines.answers.spoken:
            raise missing_paid(join(field, "paid"))
        use = "garden" if "for_crop" in line else "durable" if "years" in line else "food"
        stored = lines.line(line, field, use=use)
        if "for_crop" in line:
            stored["for_crop"], _ = lines.item(line["for_crop"], "food", join(field, "for_crop"))
        for name in ("uses", "years"):
            _above_zero(line, name, join(field, name))
        out.append(stored)
    if body.get("receipt_total") is not None:
        check_money(body["receipt_total"], "receipt_total", _currency(lines))
    for i, one in enumerate(body.get("other") or ()):
        check_money(one["paid"], f"other[{i}].paid", _currency(lines))
    return {**body, "lines": out}


def missing_paid(field: str) -> InputError:
    """Return the refusal of a purchase that does not say what was paid."""
    return InputError(
        field, Message.of("refusal-missing"), "What was paid for this line, for example '3.40'"
    )


def _above_zero(line: Body, name: str, field: str) -> None:
    if name in line and float(line[name]) <= 0:
        raise InputError(field, "is 0", f"Write how many {name} one of it gives, or leave it out")


def _received(body: Body, lines: Lines) -> Body:
    _needs(body["lines"], "lines", "what came")
    for line, field in zip(body["lines"], line_fields(body["lines"], "lines"), strict=True):
        if "value" in line:
            check_money(line["value"], join(field, "value"), _currency(lines))
    return {**body, "lines": several_lines(body["lines"], "lines", lines)}


def _planted(body: Body, lines: Lines) -> Body:
    crop, _ = lines.item(body["crop"], "food", "crop")
    out = {**body, "crop": crop}
    if "area" in body:
        parse_measure(body["area"], "area", "area")
    if "row" in body:
        parse_measure(body["row"], "length", "row")
    if "seed" in body:
        out["seed"] = {**lines.line(body["seed"], "seed", use="seed"), "n": 1}
    return out


def _recipe(body: Body, lines: Lines) -> Body:
    _needs(body["uses"], "uses", "what the recipe takes")
    amount = lines.amount(body["yields"], "yields")
    makes, facts = lines.item(body["makes"], "food", "makes", first_measure(amount))
    lines.measured(amount, makes, facts, "yields")
    uses = several_lines(body["uses"], "uses", lines)
    return {**body, "makes": makes, "yields": amount.text, "uses": uses}


def _eaten(body: Body, lines: Lines) -> Body:
    _needs(body["ate"], "ate", "what was eaten")
    if body.get("guests") is not None:
        if not body.get("people"):
            raise InputError("guests", "needs people", "Write how many ate in all: --people 6")
        if body["guests"] > body["people"]:
            raise InputError(
                "guests",
                f"{body['guests']} is more than the {body['people']} people",
                "Write how many of them were guests",
            )
    out = {**body, "ate": several_lines(body["ate"], "ate", lines)}
    if body.get("left"):
        shares = sum(Decimal(one["share"]) for one in body["left"])
        if shares > 1:
            raise InputError(
                "left",
                f"the shares add up to {shares}",
                "They are parts of one dish: at most 1 together",
            )
        out["left"] = several_lines(
            [{"kept": "fridge", **one} for one in body["left"]], "left", lines
        )
    return out


def _lines_only(body: Body, lines: Lines) -> Body:
    _needs(body["lines"], "lines", "what it was")
    if "got" in body:
        check_money(body["got"], "got", _currency(lines))
    return {**body, "lines": several_lines(body["lines"], "lines", lines)}


def _counted(body: Body, lines: Lines) -> Body:
    _needs(body["lines"], "lines", "what was there")
    return {**body, "lines": several_lines(body["lines"], "lines", lines, zero=True)}


def _price(body: Body, lines: Lines) -> Body:
    check_money(body["price"], "price", _currency(lines))
    return lines.line(body, "")


def _target(body: Body, lines: Lines) -> Body:
    if ("skill" in body) == ("item" in body):
        raise InputError(
            "item",
            "a target is for an item or for a skill",
            'Write "24 half-pint jars plum butter", or --skill',
        )
    if "skill" in body:
        if not body.get("times"):
            raise InputError(
                "times",
                Message.of("refusal-missing"),
                "Write how many times, for example --times 3",
            )
        return body
    if "amount" not in body:
        raise InputError("amount", Message.of("refusal-missing"), "Write how much of it is wanted")
    line = lines.line({"item": body["item"], "amount": body["amount"]}, "")
    if body.get("whole") is not None:  # an export's word stays
        lines.carried({"whole": body["whole"]}, "")
        line = {name: line[name] for name in ("item", "amount")}
        if body.get("measure") is None:
            line["basis"] = body.get("basis", "exact")
        return {**body, **line}
    return {**body, **{name: line[name] for name in ("item", "amount", "whole", "measure")}}


def _described(body: Body, lines: Lines) -> Body:
    name, out = body["item"], dict(body)
    out |= _units_of(body, lines)
    if "food" in body:
        out["food"] = _food(body["food"], name, lines)
    if "holds" in body and lines.amount(body["holds"], "holds").measure != "volume":
        raise InputError("holds", f"{body['holds']} is not a volume", 'Write it like "1 qt"')
    for place, span in (body.get("keeps") or {}).items():
        if not _SPAN.fullmatch(span):
            raise InputError(
                f"keeps.{place}",
                f"{span!r} is not a length of time",
                'Write it like "12 months" or "4 days"',
            )
    for key in ("shop_equivalent", "feeds"):
        if key in body:
            out[key] = lines.catalogue.name(body[key])
    for key in ("uses", "years"):
        _above_zero(body, key, key)
    if "also" in body:
        out["also"] = [" ".join(other.split()) for other in body["also"]]
    out["item"] = lines.catalogue.name(name)
    return out


def _units_of(body: Body, lines: Lines) -> Body:
    """Return what one of a unit weighs and how many pieces it is, units by their own names."""
    out: Body = {}
    if "g_per" in body:
        out["g_per"] = {
            canonical(unit, lines.measures) or unit: grams for unit, grams in body["g_per"].items()
        }
        if any(float(grams) <= 0 for grams in body["g_per"].values()):
            raise InputError("g_per", "a weight is 0", 'Write grams, for example "clove 5"')
    if "g_per_ml" in body and float(body["g_per_ml"]) <= 0:
        raise InputError("g_per_ml", "is 0", "Write grams per millilitre, for example 1.03")
    if "pieces_per" in body:
        known = lines.facts(body["item"])
        out["pieces_per"] = {
            **((known.pieces_per if known else None) or {}),
            **{canonical(unit) or unit: many for unit, many in body["pieces_per"].items()},
        }
        if any(float(many) <= 0 for many in out["pieces_per"].values()):
            raise InputError("pieces_per", "is 0", 'Write pieces, for example "packet 12"')
    return out


def _food(said: str, item: str, lines: Lines) -> str:
    """Return the id of a food-table row: by id, by its own name, or by an everyday name."""
    if foods.by_id(said) is not None:
        return said
    row = foods.by_description(said)
    if row is not None:
        return row.id
    plain = lines.plain(said)
    if plain is not None:
        return plain.food
    near = "; ".join(p.description for p in (foods.propose(said, 3) or foods.propose(item, 3)))
    raise InputError(
        "food",
        f"{said!r} is not a row of the food table",
        f"It may be: {near}" if near else "",
    )


def _setting(body: Body, lines: Lines) -> Body:
    check_setting(body["name"], body["value"])
    return body


_RESOLVERS: dict[str, Callable[[Body, Lines], Body]] = {
    "item_described": _described,
    "planted": _planted,
    "harvested": _harvested,
    "bought": _bought,
    "received": _received,
    "recipe_written": _recipe,
    "put_up": put_up,
    "eaten": _eaten,
    "given_away": _lines_only,
    "discarded": _lines_only,
    "counted": _counted,
    "gauge_tested": gauge_tested,
    "price_seen": _price,
    "target_set": _target,
    "setting_changed": _setting,
    "person_described": person_described,
    "seed_checked": seed_checked,
    "frost_seen": frost_seen,
    "flock_counted": flock_counted,
    "meter_read": meter_read,
}
