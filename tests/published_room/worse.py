"""Published batches made from the packaged tables, and one thing in them made worse.

A batch is the body of a ``put_up`` with ``altitude``, judged by the road that the book takes. `BASES`
holds one for every printed cell that was read in a publication: its recipe at the bounds, its jar,
pack, time, pressure, headspace and acid. `STRICT` names ways to make one thing worse than printed;
each gives the worse body, or None where the batch has no such thing.
"""

from __future__ import annotations

import copy
import random
import re
from collections.abc import Callable
from fractions import Fraction
from typing import Any

from ledger.published import batch_of, verdict_of
from ledger.published.batch import KINDS
from ledger.reference.bounds import bounds_of
from ledger.reference.schedules import Cell, Schedule, load_schedules, products

__all__ = ["BASES", "STRICT", "able", "apart", "rank", "standing"]

Body = dict[str, Any]
_POUND = 453.59237
_SIZES = ["half-pint", "pint", "quart", "half-gallon"]
_JAR_ML = {"half-pint": 237, "pint": 473, "quart": 946, "half-gallon": 1893}


def standing(body: Body) -> str:
    """Return how a batch stands, by the road that the book takes."""
    return verdict_of(batch_of(body, grams=_grams)).standing


def rank(found: str) -> int:
    """Return a standing's place, 0 the gravest; over and as published are one."""
    return min(KINDS.index(found), KINDS.index("beyond it"))


def _grams(line: Body) -> float | None:
    found = re.fullmatch(r"([\d.]+) lb", line["amount"])
    return float(found[1]) * _POUND if found else None


def _text(number: Fraction | int) -> str:
    return f"{float(number):g}"


def _body(line: Schedule, cell: Cell) -> Body:
    """Write a batch down as its printed line, cell and recipe say."""
    product = products()[line.product]
    body: Body = {
        "makes": {"clams": "clams"}.get(line.product, product.label.split(" (")[0]),
        "method": line.method,
        "used": _recipe(line.product),
        "made": [{"jars": 4, "jar": f"{line.jar} jar", "kept": "shelf"}],
        "minutes": _text(cell.minutes or 0),
        "headspace": f"{_text(line.headspace_in)} in",
        "altitude": f"{max(cell.low_ft, 100)} ft",
    }
    if line.gauge:
        body |= {"gauge": line.gauge, "psi": _text(cell.psi or 0)}
    if line.pack != "unstated":
        body["pack"] = line.pack
    citric = [one for one in line.acids if one[0] == "citric acid"]
    for name, figure, unit in citric[:1]:
        body["acid"] = [{"acid": name, "amount": f"{_text(figure)} {unit}", "per": "jar"}]
    if line.acids and not citric:
        _, figure, unit = line.acids[0]
        juice = {"item": "bottled lemon juice", "amount": f"{_text(figure * 4)} {unit}"}
        body["used"].append(juice)
    return body


def _recipe(product: str) -> list[Body]:
    bounds = [one for one in bounds_of(product) if one.amount is not None and one.basis]
    measured = next((one for one in bounds if one.basis_unit in ("lb", "cup")), None)
    first = products()[product].ingredients[0]
    needed = [{"item": item, "amount": amount} for item, amount in _NEEDED.get(product, ())]
    if measured is None:
        return [{"item": _SAID.get(product, first), "amount": "10 lb"}, *needed]
    basis = f"{_text(measured.basis or 1)} {measured.basis_unit}"
    lines = [{"item": _SAID.get(product, measured.basis_part), "amount": basis}, *needed]
    for one in bounds:
        if one.bound == "at_least" and one.basis_unit == measured.basis_unit:
            name = _BOTTLED.get(one.names[0], one.names[0])
            lines.append(
                {"item": name, "amount": f"{_text(one.amount or 0)} {one.unit.split()[0]}"}
            )
    return lines


_BOTTLED = {
    "vinegar": "vinegar 5%", "lemon juice": "bottled lemon juice",
    "lemon or lime juice": "bottled lime juice",
}  # fmt: skip
#: what a kitchen would write where a product has several foods or the form has to be said
_SAID = {
    "peaches": "yellow peach", "nectarines": "yellow nectarine", "carrots": "sliced carrot",
    "beets": "sliced beet", "potatoes_white": "cubed potato", "fish_smoked": "smoked salmon",
    "pumpkin_winter_squash_cubed": "cubed pumpkin", "dry_beans_or_peas": "dry kidney bean",
    "sweet_potatoes_pieces_or_whole": "sweet potato pieces", "fruit_puree": "plum",
    "mushrooms_whole_or_sliced": "sliced button mushroom", "corn_cream_style": "cream style corn",
    "chicken_or_rabbit_bone_in": "chicken with bones", "meat_ground_or_chopped": "ground beef",
    "chicken_or_rabbit_boneless": "boneless chicken", "corn_whole_kernel": "whole kernel corn",
    "meat_strips_cubes_chunks": "beef cubes", "berries_whole": "gooseberry",
    "berry_syrup": "raspberry juice", "jam_peach_liquid_pectin": "yellow peach",
}  # fmt: skip


#: what a product is named for and its bounds do not measure
_NEEDED = {
    "soup_with_seafood": [("cod", "2 lb")], "tomatoes_with_okra_or_zucchini": [("okra", "3 lb")],
    "beans_dry_with_sauce": [("tomato juice", "1 qt")], "mexican_tomato_sauce": [("chile", "2 lb")],
    "pie_filling_apple": [("clear jel", "0.25 cup")],
    "jam_peach_liquid_pectin": [("liquid pectin", "1 package")],
}  # fmt: skip


def _bases() -> list[tuple[Schedule, Cell, Body]]:
    return [
        (line, cell, _body(line, cell))
        for line in load_schedules()
        if line.confirmed
        for cell in line.cells
        if cell.minutes is not None
    ]


BASES = _bases()


# -- one thing worse ------------------------------------------------------------------------


def _less_time(_line: Schedule, _cell: Cell, body: Body, by: random.Random) -> Body | None:
    minutes = Fraction(body["minutes"])
    if minutes <= 1:
        return None
    return {**body, "minutes": _text(minutes - by.choice([1, max(minutes // 4, 1), minutes // 2]))}


def _less_pressure(line: Schedule, _cell: Cell, body: Body, by: random.Random) -> Body | None:
    if line.gauge is None or "kPa" in body["psi"]:
        return None
    psi = Fraction(body["psi"])
    step = by.choice([1, 2, Fraction(1, 2)]) if line.gauge == "dial" else 5
    return {**body, "psi": _text(psi - step)} if psi > step else None


def _in_kpa(line: Schedule, _cell: Cell, body: Body, by: random.Random) -> Body | None:
    """A dial in kPa just under the printed psi (1 psi is 6.894757 kPa)."""
    if line.gauge != "dial" or "kPa" in body["psi"]:
        return None
    return {**body, "psi": f"{int(float(body['psi']) * 6.894757) - by.choice([1, 4])} kPa"}


def _higher(line: Schedule, cell: Cell, body: Body, by: random.Random) -> Body | None:
    above = [
        one
        for one in line.cells
        if one.low_ft > cell.low_ft
        and ((one.minutes or 999) > (cell.minutes or 0) or (one.psi or 0) > (cell.psi or 0))
    ]
    if not above:
        return None
    return {**body, "altitude": by.choice([f"{one.low_ft + 400} ft" for one in above])}


def _larger_jar(line: Schedule, _cell: Cell, body: Body, by: random.Random) -> Body | None:
    """A jar larger than any that is printed."""
    same = [one for one in load_schedules() if one.product == line.product]
    largest = max((one.jar for one in same), key=lambda jar: _JAR_ML.get(jar, 0))
    if largest not in _SIZES[:-1]:
        return None
    jar = by.choice(_SIZES[_SIZES.index(largest) + 1 :])
    return {**body, "made": [{"jars": 4, "jar": f"{jar} jar", "kept": "shelf"}]}


def _less_headspace(_line: Schedule, _cell: Cell, body: Body, _by: random.Random) -> Body | None:
    return {**body, "headspace": f"{_text(Fraction(body['headspace'].split()[0]) / 2)} in"}


def _lines(body: Body, word: str) -> list[int]:
    return [n for n, one in enumerate(body["used"]) if word in one["item"]]


def _weaker_vinegar(_line: Schedule, _cell: Cell, body: Body, by: random.Random) -> Body | None:
    if not (places := _lines(body, "vinegar")):
        return None
    out = copy.deepcopy(body)
    said = ["vinegar 4%", "vinegar 2.5 %", "40 grain vinegar", "vinegar", "home-made vinegar"]
    said += ["white vinegar 4 percent", "Essig 4,5 %", "diluted vinegar 5%", "vinegar (4%)"]
    out["used"][places[0]]["item"] = by.choice(said)
    return out


def _less_acid(_line: Schedule, _cell: Cell, body: Body, by: random.Random) -> Body | None:
    """Less of the vinegar, the lemon juice or the jar's acid than printed."""
    out = copy.deepcopy(body)
    places = _lines(body, "vinegar") + _lines(body, "lemon")
    if places:
        return _scaled(out, by.choice(places), by.choice([Fraction(1, 2), Fraction(4, 5)]))
    if "acid" not in body:
        return None
    amount, unit = body["acid"][0]["amount"].split()
    out["acid"][0]["amount"] = f"{_text(Fraction(amount) / 2)} {unit}"
    return out


def _scaled(body: Body, place: int, factor: Fraction) -> Body:
    amount, unit = body["used"][place]["amount"].split(maxsplit=1)
    body["used"][place]["amount"] = f"{_text(Fraction(amount) * factor)} {unit}"
    return body


def _more_vegetables(line: Schedule, _cell: Cell, body: Body, by: random.Random) -> Body | None:
    """A low-acid part at twice its bound."""
    units = {one["amount"].split()[1] for one in body["used"][:1]}
    bounds = [
        one
        for one in bounds_of(line.product)
        if one.bound == "at_most" and one.amount and one.confirmed and one.judges == "low-acid part"
        and one.basis_unit in units and one.unit.split()[0] in ("cup", "lb", "clove")
    ]  # fmt: skip
    if not bounds:
        return None
    one = by.choice(bounds)
    amount = f"{_text((one.amount or 0) * 2)} {one.unit.split()[0]}"
    return {**body, "used": [*body["used"], {"item": one.names[0], "amount": amount}]}


def _water(line: Schedule, _cell: Cell, body: Body, _by: random.Random) -> Body | None:
    """Twice the water that the brine may have, and a cup where it may have none."""
    for one in bounds_of(line.product):
        if one.judges == "dilution" and one.bound == "at_most" and one.amount is not None:
            amount = f"{_text(one.amount * 2 + 1)} cup"
            return {**body, "used": [*body["used"], {"item": "water", "amount": amount}]}
    return None


def _low_acid_part(_line: Schedule, _cell: Cell, body: Body, by: random.Random) -> Body | None:
    parts = [
        ("bacon", "1 lb"), ("cream", "2 cup"), ("egg noodles", "1 lb"), ("Speck", "500 g"),
        ("rice", "2 cup"), ("butter", "1 cup"), ("chanterelle", "1 lb"), ("Leberwurst", "300 g"),
        ("cheese", "1 lb"), ("Reis", "2 cup"), ("Sahne", "500 ml"), ("wheat flour", "3 cup"),
    ]  # fmt: skip
    item, amount = by.choice(parts)
    return {**body, "used": [*body["used"], {"item": item, "amount": amount}]}


def _another_form(line: Schedule, _cell: Cell, body: Body, by: random.Random) -> Body | None:
    product = products()[line.product]
    if product.group not in ("vegetable", "meat") or {"puree", "ground"} & product.forms:
        return None
    out = copy.deepcopy(body)
    word = by.choice(["mashed", "pureed", "puree of", "pürierte"])
    out["used"][0]["item"] = f"{word} {out['used'][0]['item']}"
    return out


def _another_method(line: Schedule, _cell: Cell, body: Body, by: random.Random) -> Body | None:
    """Boiling water, cooking or an oven for what is printed under pressure alone."""
    if not products()[line.product].low_acid or line.method != "pressure":
        return None
    out = {name: value for name, value in body.items() if name not in ("gauge", "psi")}
    return {**out, "method": by.choice(["boiling water", "cook", "cellar"])}


def _appliance(line: Schedule, _cell: Cell, body: Body, by: random.Random) -> Body | None:
    """An appliance that confirms nothing; for food of little acid a steam canner too."""
    said = ["electric multicooker", "oven", "slow cooker", "microwave", "multi-cooker"]
    said += ["electric pressure cooker"] if line.method == "pressure" else []
    said += ["steam canner"] if line.method == "pressure" else []
    return {**body, "equipment": [by.choice(said)]}


def _note(_line: Schedule, _cell: Cell, body: Body, by: random.Random) -> Body | None:
    said = [
        "open kettle",
        "done in the oven",
        "turned upside down to seal",
        "im Backofen eingekocht",
    ]
    return {**body, "note": by.choice(said)}


def _slip(_line: Schedule, _cell: Cell, body: Body, by: random.Random) -> Body | None:
    """A food misspelt or in a language of no table."""
    out = copy.deepcopy(body)
    item = out["used"][0]["item"]
    letters = list(item)
    place = by.randrange(1, len(letters) - 1)
    foreign = by.choice(["fazulove struky", "kaalrabarber", "zorkel", "brambory"])
    letters[place : place + 2] = letters[place : place + 2][::-1]
    misspelt = "".join(letters)
    out["used"][0]["item"] = by.choice([foreign, misspelt if misspelt != item else foreign])
    return out


def _unwritten(line: Schedule, _cell: Cell, body: Body, by: random.Random) -> Body | None:
    """A field that the process rests on, not written down."""
    fields = ["minutes", "headspace", "altitude"] + (["psi", "gauge"] if line.gauge else [])
    drop = by.choice(fields)
    return {name: value for name, value in body.items() if name != drop}


Worse = Callable[[Schedule, Cell, Body, random.Random], "Body | None"]
STRICT: dict[str, Worse] = {
    "less time": _less_time, "less pressure": _less_pressure, "a dial in kPa": _in_kpa,
    "higher up": _higher, "a larger jar": _larger_jar, "less headspace": _less_headspace,
    "weaker vinegar": _weaker_vinegar, "less acid": _less_acid, "more vegetables": _more_vegetables,
    "more water": _water, "a low-acid part": _low_acid_part, "another form": _another_form,
    "another method": _another_method, "an appliance": _appliance, "a word in the note": _note,
    "a word unknown": _slip, "a field unwritten": _unwritten,
}  # fmt: skip


def able(name: str) -> list[int]:
    """Return the places in `BASES` of batches that stand as published and can be made worse so."""
    return [
        place
        for place, (line, cell, body) in enumerate(BASES)
        if STRICT[name](line, cell, body, random.Random(0)) is not None
        and rank(standing(body)) == rank("as published")
    ]


def apart(body: Body, once: Body, twice: Body) -> bool:
    """Whether the second change left the first as it was.

    It changed another field, or added lines; and it left out nothing that the first is read by: what a
    pressure or a time is worth hangs together with gauge, altitude and jar.
    """
    first = {name for name in {*body, *once} if body.get(name) != once.get(name)}
    second = {name for name in {*once, *twice} if once.get(name) != twice.get(name)}
    heat = {"minutes", "psi", "gauge", "altitude", "made", "method"}
    if first & heat and (set(once) - set(twice)) & heat:
        return False
    added = twice["used"][: len(once["used"])] == once["used"]
    return not (first & second) or (first & second == {"used"} and added)
