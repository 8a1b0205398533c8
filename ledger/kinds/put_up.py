"""A batch: what went in, how it was put up, and what came out."""

from __future__ import annotations

from typing import Annotated, Any, Literal

import msgspec

from ledger.amounts import format_whole, parse_measure
from ledger.errors import InputError, NeedsAnswer
from ledger.items import item_key
from ledger.kinds import telling
from ledger.kinds.fields import Decimal, ItemName, Note, Pressure, Rating, Text, Whole, about
from ledger.kinds.kind import BATCH, Form, Kind, Phase
from ledger.kinds.methods import CANNING, Method, kept_by
from ledger.kinds.parts import Acid, FuelLine, Made, Struct, UsedLine, Work
from ledger.kinds.resolving import Body, Resolver, first_measure, several_lines
from ledger.kinds.upcasting import LINES
from ledger.labels import split_label
from ledger.messages import Message, measured, sentence
from ledger.messages.words import word
from ledger.reference.crossing import Weights


class PutUp(Struct, kw_only=True):
    """One preserving or cooking session."""

    makes: Annotated[ItemName, about("Makes", "What it makes", "plum butter")]
    method: Annotated[Method, about("Method", "How it was put up", "boiling water")]
    used: Annotated[
        list[UsedLine],
        about("Used", "What went in, line by line", [{"item": "plum", "amount": "16 lb"}]),
    ]
    made: Annotated[
        list[Made],
        about("Made", "What came out", [{"jars": 11, "jar": "half-pint jar", "kept": "shelf"}]),
    ]
    lids: Annotated[ItemName | None, about("Lids", "Which lids were used", "lid")] = None
    minutes: Annotated[Decimal | None, about("Minutes", "Minutes of processing", "10")] = None
    gauge: Annotated[
        Literal["dial", "weighted"] | None, about("Gauge", "The canner's gauge", "dial")
    ] = None
    psi: Annotated[
        Pressure | None, about("Pressure", "Pressure on the gauge: psi, kPa or bar", "11")
    ] = None
    headspace: Annotated[
        Text | None, about("Headspace", "Room left at the top of the jar", "1/4 in")
    ] = None
    acid: Annotated[
        list[Acid] | None,
        about("Acid", "Acid added", [{"acid": "lemon juice", "amount": "1 tbsp", "per": "jar"}]),
    ] = None
    pack: Annotated[Literal["hot", "raw"] | None, about("Pack", "Hot or raw pack", "hot")] = None
    schedule: Annotated[Text | None, about("Schedule", "The published schedule followed", "")] = (
        None
    )
    altitude: Annotated[
        Text | None, about("Altitude", "If other than the kitchen's", "2600 ft")
    ] = None
    loads: Annotated[Whole | None, about("Loads", "Canner loads", 2)] = None
    fuel: Annotated[
        list[FuelLine] | None,
        about("Fuel", "Fuel burnt", [{"metered": "electricity", "amount": "2.4 kWh"}]),
    ] = None
    equipment: Annotated[list[ItemName] | None, about("Equipment", "Durables used", ["canner"])] = (
        None
    )
    work: Annotated[
        list[Work] | None,
        about("Work", "Who worked and how long", [{"person": "Ada", "minutes": "90"}]),
    ] = None
    recipe: Annotated[Text | None, about("Recipe", "The recipe followed", "plum butter")] = None
    times: Annotated[Decimal | None, about("Times", "How many times the recipe", "1.5")] = None
    went: Annotated[Rating | None, about("Went", "How it went, 1 to 5", 4)] = None
    note: Annotated[Note | None, about("Note", "Anything worth remembering", "a little thin")] = (
        None
    )


def tell(body: dict[str, Any]) -> str:
    """Say it in one line."""
    shown = [
        {**line, "item": f"{line['item']} (strained out)"} if line.get("strained") else line
        for line in body["used"]
    ]
    used = f" from {telling.lines(shown)}" if shown else ""
    return f"put up {telling.made(body['made'])} of {body['makes']} ({body['method']}){used}"


def says(body: dict[str, Any]) -> Message:
    """Return what `tell` says, as a message."""
    shown = [
        {**line, "item": f"{line['item']} (strained out)"} if line.get("strained") else line
        for line in body["used"]
    ]
    return Message.of(
        "told-put-up",
        made=telling.made_said(body["made"]),
        makes=body["makes"],
        method=telling.word(body["method"]),
        used=telling.lines_said(shown) if shown else None,
    )


_LEAST = 0.5
"""Grams per ml that what was canned weighs at the least: it is food in its juice or in water, and the
jars are full (common practice, no source). Only a slip of a digit comes to less in than that."""


def resolve(body: Body, lines: Resolver) -> Body:
    """Return a checked batch as it is stored: amounts, jars, lids and places filled in.

    Raises
    ------
    InputError, NeedsAnswer
        Naming the field.
    """
    if not body["made"]:
        raise InputError(
            "made",
            Message.of("refusal-makes-nothing"),
        )
    out = {**body, "used": several_lines(body["used"], "used", lines)}
    first = body["made"][0]
    measure = (
        "volume"
        if first.get("jars")
        else first_measure(lines.amount(first["amount"], "made.amount"))
        if first.get("amount")
        else None
    )
    out["makes"], facts = lines.item(body["makes"], "food", "makes", measure)
    if "lids" in body:
        out["lids"], _ = lines.item(body["lids"], "lids", "lids")
    out["made"] = [
        _made(made, out, lines, facts, f"made[{i}]") for i, made in enumerate(body["made"])
    ]
    if "fuel" in body:
        out["fuel"] = [_fuel(fuel, f"fuel[{i}]", lines) for i, fuel in enumerate(body["fuel"])]
    if "equipment" in body:
        out["equipment"] = [
            lines.item(one, "equipment", "equipment")[0] for one in body["equipment"]
        ]
    if "altitude" in body:
        parse_measure(body["altitude"], "length", "altitude")
    if "headspace" in body:
        parse_measure(body["headspace"], "length", "headspace")
    if "acid" in body:
        out["acid"] = [{"per": "jar", **acid} for acid in body["acid"]]
        for i, acid in enumerate(body["acid"]):
            lines.amount(acid["amount"], f"acid[{i}].amount")
    _balance(out, lines)
    return out


def _made(made: Body, body: Body, lines: Resolver, facts: Any, field: str) -> Body:
    out = {**made, "kept": made.get("kept") or kept_by(body["method"])}
    if made.get("jars") is None and not made.get("amount"):
        raise InputError(
            field,
            Message.of("refusal-no-jars-no-amount"),
        )
    if made.get("jars") is not None:
        _jarred(out, body, lines, field)
        if made.get("whole") is None:
            return {**out, **lines.jars(out, body["makes"], facts, field)}
        return lines.carried(out, field)
    for name in ("jar", "unsealed", "labels", "lids"):
        if name in made:
            raise InputError(f"{field}.{name}", Message.of("refusal-needs-jars"))
    amount = lines.amount(made["amount"], f"{field}.amount")
    out["amount"] = amount.text
    if made.get("whole") is not None:
        return lines.carried(out, field)
    return {**out, **lines.measured(amount, body["makes"], facts, f"{field}.amount")}


def _jarred(out: Body, body: Body, lines: Resolver, field: str) -> None:
    """Fill in the jar and its lids; look whether jars, unsealed ones and labels go together."""
    jars, unsealed = out["jars"], out.get("unsealed", 0)
    if not jars:
        raise InputError(
            f"{field}.jars", Message.of("refusal-zero"), Message.of("refusal-how-many-jars")
        )
    if out.get("amount"):
        raise InputError(f"{field}.amount", Message.of("refusal-beside-jars"))
    out["jar"], _ = lines.item(
        out.get("jar") or _only_jar(body["makes"], lines, field), "jar", f"{field}.jar"
    )
    if unsealed > jars:
        raise InputError(
            f"{field}.unsealed",
            Message.of("refusal-unsealed-over-jars", unsealed=unsealed, jars=jars),
        )
    last = lines.catalogue.lids_of.get(item_key(out["jar"]))
    out["lids"], _ = lines.item(
        out.get("lids") or body.get("lids") or last or _lids(lines), "lids", f"{field}.lids"
    )
    if "labels" in out:
        _check_labels(out["labels"], jars, unsealed, f"{field}.labels")


def _lids(lines: Resolver) -> str:
    """Return the name of lids that nobody named: ``lid`` where the book has such, else its language's word."""
    known = lines.catalogue.facts("lid") is not None
    return "lid" if known else word(lines.catalogue.setting("language") or "en", "lid")


def _check_labels(labels: Body, jars: int, unsealed: int, field: str) -> None:
    """Refuse labels that are no run of numbers, or more than there are jars."""
    prefix, low = split_label(labels["from"])
    other, high = split_label(labels["to"])
    if low is None or high is None or prefix != other or not low <= high:
        raise InputError(
            field,
            Message.of("refusal-no-run-of-labels", first=labels["from"], last=labels["to"]),
        )
    if not jars - unsealed <= high - low + 1 <= jars:
        raise InputError(
            field,
            Message.of(
                "refusal-labels-on-jars",
                first=labels["from"],
                last=labels["to"],
                n=high - low + 1,
                jars=jars,
            ),
        )


def _only_jar(makes: str, lines: Resolver, field: str) -> str:
    known = lines.catalogue.jars_of(makes)
    if len(known) == 1:
        return next(iter(known))
    raise InputError(f"{field}.jar", Message.of("refusal-missing"), Message.of("refusal-which-jar"))


def _fuel(fuel: Body, field: str, lines: Resolver) -> Body:
    if (fuel.get("item") is None) == (fuel.get("metered") is None):
        raise InputError(
            field,
            Message.of("refusal-needs-fuel"),
        )
    if fuel.get("item") is not None:
        return lines.line(fuel, field, use="fuel")
    amount = lines.amount(fuel["amount"], f"{field}.amount")
    if amount.measure != "energy":
        raise InputError(
            f"{field}.amount",
            sentence("refusal-not-energy", amount=measured(fuel["amount"])),
        )
    return {**fuel, "whole": amount.whole, "measure": "energy"}


def _balance(body: Body, lines: Resolver) -> None:
    """Ask when a batch weighs more than what went in plus a tenth: water may have been added."""
    went_in = [_grams(line["item"], line, lines) for line in body["used"]]
    wet = _LEAST if body["method"] in CANNING else None
    came_out = [_grams(body["makes"], made, lines, wet) for made in body["made"]]
    if not went_in:
        return  # what went in was not said, and is asked later
    into, out = [g for g in went_in if g is not None], [g for g in came_out if g is not None]
    if len(into) < len(went_in) or len(out) < len(came_out):
        return
    if sum(out) > sum(into) * 1.1:
        question = sentence(
            "doubt-water-added",
            out=measured(_mass(sum(out), lines)),
            into=measured(_mass(sum(into), lines)),
        )
        lines.answers.settle(
            NeedsAnswer("mass-balance", "made", question, sentence("doubt-yes-right"))
        )


def _mass(grams: float, lines: Resolver) -> str:
    return format_whole(round(grams * 1000), "mass", measures=lines.measures)


def _grams(item: str, line: Body, lines: Resolver, wet: float | None = None) -> float | None:
    """Return what an amount of an item weighs by the household's own weights, or None.

    `wet` is grams per ml to take where a volume has no weight that is known.
    """
    facts = lines.facts(item)
    if facts is None:
        return None
    said = line.get("measure") or facts.measure
    if said is None:
        return None
    own = Weights(item, msgspec.structs.replace(facts, food=None))
    if said == "mass":
        return int(line["whole"]) / 1000
    come = own.come(said, line.get("per") if "measure" in line else None, "mass")
    if come.factor is not None and come.weight is not None and come.weight.source == "item":
        many = line["times"] if come.of_times else line["whole"]
        return float(come.factor * many) / 1000
    return int(line["whole"]) / 1000 * wet if wet is not None and said == "volume" else None


KIND = Kind(
    name="put_up",
    command="putup",
    title="Put up",
    summary="write down a batch: what went in and what came out",
    body=PutUp,
    phase=Phase.BATCH,
    supplies={"made": BATCH},
    draws=("used", "fuel", "lids"),
    resolve=resolve,
    words=("makes",),
    typed=(
        'putup "plum butter" --used "16 lb plum" --used "3 lb sugar" --made "11 half-pint jars" '
        '--made "1 cup fridge" --method "boiling water" --minutes 10',
        'putup "plum butter" --times 1.5      (from the recipe of that name)',
    ),
    tell=tell,
    says=says,
    form=Form(
        (
            "recipe",
            "times",
            "makes",
            "method",
            "used",
            "made",
            "minutes",
            "gauge",
            "psi",
            "headspace",
            "pack",
            "acid",
            "work",
        ),
        steps=(
            ("what", ("recipe", "times", "makes", "used")),
            ("out", ("made",)),
            ("done", ("method", "minutes", "gauge", "psi", "headspace", "pack", "acid")),
            ("who", ("work",)),
        ),
        icon="put-up",
        common=3,
    ),
    v=2,
    upcasters=LINES,
    example={
        "makes": "plum butter",
        "method": "boiling water",
        "used": [{"item": "plum", "amount": "16 lb"}, {"item": "sugar", "amount": "3 lb"}],
        "made": [
            {"jars": 11, "jar": "half-pint jar", "kept": "shelf"},
            {"amount": "1 cup", "kept": "fridge"},
        ],
        "minutes": "10",
    },
)
