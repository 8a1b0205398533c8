"""Bodies, kind by kind, from what was typed (and checked) to what is stored."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from ledger.amounts import canonical, canonical_jar, parse_measure
from ledger.door._money import check_money
from ledger.door.lines import Lines
from ledger.door.settings import check_setting
from ledger.errors import InputError, NeedsAnswer
from ledger.events import kept_by
from ledger.items import item_key
from ledger.reference import foods

__all__ = ["resolve"]

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


def _several(
    several: list[Body], name: str, lines: Lines, use: str = "food", *, zero: bool = False
) -> list[Body]:
    return [
        lines.line(line, i, f"{name}[{i - 1}]" if len(several) > 1 else name, use=use, zero=zero)
        for i, line in enumerate(several, 1)
    ]


def _needs(several: list[Any], name: str, what: str) -> None:
    if not several:
        raise InputError(name, "is empty", f"Write down {what}")


def _harvested(body: Body, lines: Lines) -> Body:
    _needs(body["lines"], "lines", "what was picked")
    out = []
    for line in _several(body["lines"], "lines", lines):
        if "trimmed" in line and "trimmed_whole" not in line:
            amount = lines.amount(line["trimmed"], "trimmed")
            facts = lines.facts(line["item"])
            assert facts is not None
            trimmed = lines.measured(amount, line["item"], facts, "trimmed")["whole"]
            if trimmed > line["whole"]:
                raise InputError(
                    "trimmed",
                    f"{line['trimmed']} is more than the {line['amount']} picked",
                    "Write the part thrown away",
                )
            line["trimmed_whole"] = trimmed
        out.append(line)
    return {**body, "lines": out}


def _bought(body: Body, lines: Lines) -> Body:
    _needs(body["lines"], "lines", "what was bought")
    out = []
    for i, line in enumerate(body["lines"], 1):
        field = f"lines[{i - 1}]" if len(body["lines"]) > 1 else "lines"
        check_money(line["paid"], "paid", _currency(lines))
        use = "garden" if "for_crop" in line else "durable" if "years" in line else "food"
        stored = lines.line(line, i, field, use=use)
        if "for_crop" in line:
            stored["for_crop"], _ = lines.item(line["for_crop"], "food", f"{field}.for_crop")
        out.append(stored)
    return {**body, "lines": out}


def _received(body: Body, lines: Lines) -> Body:
    _needs(body["lines"], "lines", "what came")
    for line in body["lines"]:
        if "value" in line:
            check_money(line["value"], "value", _currency(lines))
    return {**body, "lines": _several(body["lines"], "lines", lines)}


def _planted(body: Body, lines: Lines) -> Body:
    crop, _ = lines.item(body["crop"], "food", "crop")
    out = {**body, "crop": crop}
    if "area" in body:
        parse_measure(body["area"], "area", "area")
    if "row" in body:
        parse_measure(body["row"], "length", "row")
    if "seed" in body:
        out["seed"] = lines.line(body["seed"], 1, "seed", use="seed")
    return out


def _recipe(body: Body, lines: Lines) -> Body:
    _needs(body["uses"], "uses", "what the recipe takes")
    makes, _ = lines.item(
        body["makes"], "food", "makes", lines.amount(body["yields"], "yields").measure
    )
    return {**body, "makes": makes, "uses": _several(body["uses"], "uses", lines)}


def _put_up(body: Body, lines: Lines) -> Body:
    if not body["made"]:
        raise InputError(
            "made",
            "this batch makes nothing",
            'Write what came out, for example "11 half-pint jars"',
        )
    out = {**body, "used": _several(body["used"], "used", lines)}
    first = body["made"][0]
    measure = (
        "volume"
        if first.get("jars")
        else lines.amount(first["amount"], "made.amount").measure
        if first.get("amount")
        else None
    )
    out["makes"], facts = lines.item(body["makes"], "food", "makes", measure)
    if "lids" in body:
        out["lids"], _ = lines.item(body["lids"], "lids", "lids")
    out["made"] = [
        _made(made, i, out, lines, facts, f"made[{i - 1}]" if len(body["made"]) > 1 else "made")
        for i, made in enumerate(body["made"], 1)
    ]
    if "fuel" in body:
        out["fuel"] = [_fuel(fuel, i, lines) for i, fuel in enumerate(body["fuel"], 1)]
    if "equipment" in body:
        out["equipment"] = [
            lines.item(one, "equipment", "equipment")[0] for one in body["equipment"]
        ]
    if "altitude" in body:
        parse_measure(body["altitude"], "length", "altitude")
    if "headspace" in body:
        parse_measure(body["headspace"], "length", "headspace")
    for acid in body.get("acid") or ():
        lines.amount(acid["amount"], "acid.amount")
    _balance(out, lines)
    return out


def _made(made: Body, n: int, body: Body, lines: Lines, facts: Any, field: str) -> Body:
    out = {**made, "kept": made.get("kept") or kept_by(body["method"])}
    given = "whole" in made
    if made.get("jars") is not None:
        if not made["jars"]:
            raise InputError(f"{field}.jars", "is 0", "Write how many jars came out")
        if made.get("amount"):
            raise InputError(
                f"{field}.amount", "stands beside jars", "Write jars or an amount, not both"
            )
        jar = made.get("jar") or _only_jar(body["makes"], lines, field)
        out["jar"], _ = lines.item(canonical_jar(jar) or jar, "jar", f"{field}.jar")
        if made.get("unsealed", 0) > made["jars"]:
            raise InputError(
                f"{field}.unsealed",
                f"{made['unsealed']} is more than the {made['jars']} jars",
                "Write how many of them did not seal",
            )
        lids = (
            made.get("lids")
            or body.get("lids")
            or lines.catalogue.lids_of.get(item_key(out["jar"]), "lid")
        )
        out["lids"], _ = lines.item(lids, "lids", f"{field}.lids")
        if not given:
            out |= lines.jars(out, body["makes"], facts, field)
    elif made.get("amount"):
        if not given:
            amount = lines.amount(made["amount"], f"{field}.amount")
            out |= lines.measured(amount, body["makes"], facts, f"{field}.amount")
    else:
        raise InputError(
            field,
            "says neither jars nor an amount",
            'Write it like "11 half-pint jars" or "1 cup fridge"',
        )
    out["n"] = made.get("n") or n
    return out


def _only_jar(makes: str, lines: Lines, field: str) -> str:
    known = lines.catalogue.jars_of.get(lines.catalogue.key(makes), set())
    if len(known) == 1:
        return next(iter(known))
    raise InputError(f"{field}.jar", "is missing", "Write which jar, for example quart jar")


def _fuel(fuel: Body, n: int, lines: Lines) -> Body:
    field = f"fuel[{n - 1}]"
    if (fuel.get("item") is None) == (fuel.get("metered") is None):
        raise InputError(
            field,
            "needs a fuel from stock or a meter",
            'Write "1 lb propane" or "electricity 2.4 kWh"',
        )
    if fuel.get("item") is not None:
        return lines.line(fuel, n, field, use="fuel")
    amount = lines.amount(fuel["amount"], f"{field}.amount")
    if amount.measure != "energy":
        raise InputError(
            f"{field}.amount",
            f"{fuel['amount']} is not an amount of energy",
            "Write it in kWh, MJ, BTU or therms",
        )
    return {**fuel, "n": n, "whole": amount.whole, "basis": "exact"}


def _balance(body: Body, lines: Lines) -> None:
    """Ask when a batch weighs more than what went in plus a tenth: water may have been added."""
    went_in = [_grams(line["item"], line["whole"], lines) for line in body["used"]]
    came_out = [_grams(body["makes"], made["whole"], lines) for made in body["made"]]
    if not body["used"] or None in went_in or None in came_out:
        return
    into, out = sum(g for g in went_in if g is not None), sum(g for g in came_out if g is not None)
    if out > into * 1.1:
        lines.answers.settle(
            NeedsAnswer(
                "mass-balance",
                "made",
                f"{out / 1000:.2f} kg came out of {into / 1000:.2f} kg; was water added?",
                "yes, it is right",
            )
        )


def _grams(item: str, whole: int, lines: Lines) -> float | None:
    facts = lines.facts(item)
    if facts is None:
        return None
    if facts.measure == "mass":
        return whole / 1000
    if facts.measure == "volume" and facts.g_per_ml is not None:
        return whole / 1000 * float(facts.g_per_ml)
    if facts.measure == "count" and facts.g_per and "piece" in facts.g_per:
        return whole / 1000 * float(facts.g_per["piece"])
    return None


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
    out = {**body, "ate": _several(body["ate"], "ate", lines)}
    if body.get("left"):
        shares = [float(one["share"]) for one in body["left"]]
        if sum(shares) > 1 + 1e-12:
            raise InputError(
                "left",
                f"the shares add up to {sum(shares):g}",
                "They are parts of one dish: at most 1 together",
            )
        out["left"] = _several(body["left"], "left", lines)
    return out


def _lines_only(body: Body, lines: Lines) -> Body:
    _needs(body["lines"], "lines", "what it was")
    if "got" in body:
        check_money(body["got"], "got", _currency(lines))
    return {**body, "lines": _several(body["lines"], "lines", lines)}


def _counted(body: Body, lines: Lines) -> Body:
    _needs(body["lines"], "lines", "what was there")
    return {**body, "lines": _several(body["lines"], "lines", lines, zero=True)}


def _price(body: Body, lines: Lines) -> Body:
    check_money(body["price"], "price", _currency(lines))
    stored = lines.line(body, 1, "price")
    stored.pop("n")
    return stored


def _target(body: Body, lines: Lines) -> Body:
    if ("skill" in body) == ("item" in body):
        raise InputError(
            "item",
            "a target is for an item or for a skill",
            'Write "24 half-pint jars plum butter", or --skill',
        )
    if "skill" in body:
        if not body.get("times"):
            raise InputError("times", "is missing", "Write how many times, for example --times 3")
        return body
    if "amount" not in body:
        raise InputError("amount", "is missing", "Write how much of it is wanted")
    line = lines.line({"item": body["item"], "amount": body["amount"]}, 1, "target")
    return {**body, "item": line["item"], "whole": line["whole"], "basis": line["basis"]}


def _described(body: Body, lines: Lines) -> Body:
    name, out = body["item"], dict(body)
    if "g_per" in body:
        out["g_per"] = {
            canonical(unit, lines.measures) or unit: grams for unit, grams in body["g_per"].items()
        }
        if any(float(grams) <= 0 for grams in body["g_per"].values()):
            raise InputError("g_per", "a weight is 0", 'Write grams, for example "clove 5"')
    if "g_per_ml" in body and float(body["g_per_ml"]) <= 0:
        raise InputError("g_per_ml", "is 0", "Write grams per millilitre, for example 1.03")
    if "food" in body and foods.by_id(body["food"]) is None:
        near = ", ".join(f"{p.food_id} {p.description}" for p in foods.propose(name, 3))
        raise InputError(
            "food",
            f"{body['food']!r} is not a row of the food table",
            f"It may be: {near}" if near else "",
        )
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
        if key in body and not lines.catalogue.is_item(body[key]):
            out[key] = " ".join(body[key].split())
    out["item"] = lines.catalogue.name(name)
    return out


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
    "put_up": _put_up,
    "eaten": _eaten,
    "given_away": _lines_only,
    "discarded": _lines_only,
    "counted": _counted,
    "price_seen": _price,
    "target_set": _target,
    "setting_changed": _setting,
}
