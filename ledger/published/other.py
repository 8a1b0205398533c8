"""Freezing, drying, fermenting, pickling cold and jam: what the tables print, beside a batch.

Only figures that the tables hold are compared, in the same kinds as for canning. What a batch has
no field for (temperature, days of conditioning, size of the freezer) is left to the reader, with
the printed figure.
"""

from __future__ import annotations

from fractions import Fraction

from ledger.items import item_key
from ledger.published.batch import BatchDone, Finding
from ledger.published.danger import danger_of, in_oil
from ledger.published.finding import find
from ledger.published.ingredients import ingredient_findings
from ledger.published.jars import jar_size
from ledger.published.judging import Judgement
from ledger.published.parts import Part, how_much, parts_of
from ledger.published.recipe import recipe_findings, vinegar_findings
from ledger.published.sealed import sealed_findings
from ledger.published.words import cite, inches, number, plain
from ledger.reference.schedules_sources import source
from ledger.reference.storage import Figure, figures, freezing_headspace

__all__ = ["OTHER_METHODS", "has_figures", "judge_other"]

OTHER_METHODS = ("freeze", "dry", "ferment", "pickle cold", "jam uncooked")
_LB_G = Fraction("453.59237")
_NO_FOOD_TABLE = frozenset(
    ("starter", "sourdough", "dough", "levain", "bread", "beer", "wine", "mead", "cider", "vinegar", "kombucha")
)  # fmt: skip
_WARM = ("shelf", "cellar")
_LEAST_SALT = Fraction(2, 100)
"""Of the weight of cabbage; below it a kraut is short, whatever is commonly stated."""
_SLACK = Fraction(3, 100)
"""Salt is measured in spoons and cabbage on a kitchen scale: three parts in a hundred."""


def has_figures(makes: str, method: str) -> bool:
    """Return whether such tables are for what was made so: not for bread starters and drinks."""
    if method != "ferment":
        return method in OTHER_METHODS
    return not _NO_FOOD_TABLE & set(item_key(makes).split())


def judge_other(batch: BatchDone) -> Judgement:
    """Return a batch of another method beside the figures that the tables print for it."""
    found: list[tuple[Finding, str]] = {
        "freeze": _freeze,
        "dry": _dry,
        "ferment": _ferment,
        "pickle cold": _pickle,
        "jam uncooked": _jam,
    }[batch.method](batch)
    headspace = next((f.published for f, _ in found if f.field == "headspace"), None)
    return Judgement(
        find(batch.makes).candidates if batch.method == "ferment" else (),
        None,
        {"minutes": None, "psi": None, "headspace_in": headspace, "acid": None},
        {
            "minutes": plain(batch.minutes),
            "psi": plain(batch.psi),
            "headspace_in": plain(batch.headspace_in),
            "acid": None,
        },
        (*sealed_findings(batch), *(finding for finding, _ in found)),
        tuple(dict.fromkeys(where for _, where in found)),
        danger=danger_of(batch, (), ()),
    )


def _asked(
    field: str, published: str, question: str, figure: Figure, *, askable: bool = False
) -> tuple[Finding, str]:
    """Return a question; most of these figures have no place in an entry."""
    text = f"Published: {published}. {question}"
    kind = "not recorded" if askable else "to check yourself"
    return Finding(field, published, None, kind, text), cite(figure.source)


def _freeze(batch: BatchDone) -> list[tuple[Finding, str]]:
    out = []
    for one in batch.jars:
        size = jar_size(one.jar)
        wide, narrow = (freezing_headspace("liquid", top, size or "") for top in ("wide", "narrow"))
        if wide is None or narrow is None:
            continue
        low, high = wide[0], narrow[0]
        published = (
            f"{inches(low)} (wide mouth) or {inches(high)} (narrow), packed in liquid, {size}s"
        )
        text = f"Published: {published}."
        done = batch.headspace_in
        if done is None:
            kind, text = (
                "not recorded",
                f"{text} How much room was left? Food grows as it freezes, and glass breaks.",
            )
        elif done < low:
            kind, text = "short of it", f"{text} Done: {inches(done)}: glass may break."
        elif done < high:
            kind = "to check yourself"
            text = f"{text} Done: {inches(done)}. Was the mouth wide or narrow?"
        else:
            kind = "as published" if done == high else "beyond it"
            text = f"{text} Done: {inches(done)}."
        shown = Finding("headspace", published, plain(done), kind, text)
        out.append((shown, cite(wide[1])))
    load = figures("freezer", "any", "max_load_in_24_hours")[0]
    published = (
        f"{number(load.low)} to {number(load.high)} lb at a time for each cubic foot of freezer"
    )
    out.append(
        _asked(
            "load",
            published,
            "How large is the freezer, and how much went in within 24 hours?",
            load,
        )
    )
    return out


def _dry(batch: BatchDone) -> list[tuple[Finding, str]]:
    heat = figures("dried", "any", "drying_temperature")[0]
    out = [
        _asked(
            "temperature",
            f"{number(heat.low)} to {number(heat.high)} degrees F in a drier or oven",
            "At what temperature did it dry?",
            heat,
        )
    ]
    key = item_key(batch.makes)
    if "jerky" in key:
        for kind in ("red_meat", "poultry"):
            warm = figures("dried", f"jerky_{kind}", "preheat_internal_temperature")[0]
            published = (
                f"{number(warm.low)} degrees F inside, before drying ({kind.replace('_', ' ')})"
            )
            out.append(
                _asked(
                    "temperature", published, "Was it heated first, and how hot did it get?", warm
                )
            )
        return out
    rest = figures("dried", "dried_fruit", "conditioning_time")[0]
    published = (
        f"fruit: about {number(rest.low)} days loosely packed and stirred daily before storing"
    )
    return [*out, _asked("conditioning", published, "For how many days was it conditioned?", rest)]


def _ferment(batch: BatchDone) -> list[tuple[Finding, str]]:
    fit = find(batch.makes).candidates
    if "sauerkraut" in fit:
        strange = ingredient_findings("sauerkraut", parts_of(batch.used), batch)
        where = cite(figures("ferment", "sauerkraut", "salt_per_5_lb_cabbage")[0].source)
        return [
            _kraut_salt(batch),
            *_ferment_time("sauerkraut"),
            *((one, where) for one in strange if one.done),
        ]
    if "pickles_dill_fermented" in fit:
        salt = figures("ferment", "pickles_dill_fermented", "salt_per_4_lb")[0]
        parts = parts_of(batch.used)
        found = [
            *ingredient_findings("pickles_dill_fermented", parts, batch),
            *recipe_findings("pickles_dill_fermented", parts, batch),
        ]
        where = cite(salt.source)
        return [*((one, where) for one in found), *_ferment_time("pickles_dill_fermented")]
    text = f"The tables hold no figures for fermenting {batch.makes!r}. Ask an extension adviser for a tested recipe."
    return [(Finding("product", None, batch.makes, "no published process", text), "our own advice")]


def _ferment_time(food: str) -> list[tuple[Finding, str]]:
    warm, *cool = figures("ferment", food, "time")
    published = (
        f"{number(warm.low)} to {number(warm.high)} weeks at {warm.condition} degrees".replace(
            " F degrees", " degrees F"
        )
    )
    for one in cool:
        published += f", {number(one.low)} to {number(one.high)} at {one.condition}".removesuffix(
            " F"
        )
    return [_asked("time", published, "How long did it stand, and how warm?", warm)]


def _kraut_salt(batch: BatchDone) -> tuple[Finding, str]:
    """3 tbsp of canning salt for 5 lb of cabbage; 3/4 cup for 25 lb: the printed two differ."""
    low, high = (
        figures("ferment", "sauerkraut", "salt_per_25_lb_cabbage")[0],
        figures("ferment", "sauerkraut", "salt_per_5_lb_cabbage")[0],
    )
    where = cite(high.source)
    published = "3 tbsp canning salt for 5 lb of cabbage (3/4 cup for 25 lb)"
    pounds = _pounds(batch, "cabbage")
    spoons = _spoons(batch)
    roles = {part.role for part in parts_of(batch.used)}
    if "no_salt" in roles and "salt" not in roles:
        text = f"Published: {published}. Salt substitute and low-sodium salt are no salt for it."
        return Finding("salt", published, "salt substitute", "short of it", text), where
    if pounds is None or spoons is None:
        by_weight = figures("ferment", "sauerkraut", "salt_by_weight")[0]
        share = _by_weight(batch)
        text = f"Published: {published}."
        if share is not None:
            text += (
                f" Done: {float(share) * 100:.2f} percent by weight; {number(by_weight.low)} to "
                f"{number(by_weight.high)} percent is commonly stated, not confirmed here: look it up."
            )
            done = f"{float(share) * 100:.2f} %"
            kind = "short of it" if share < _LEAST_SALT else "to check yourself"
            return Finding("salt", published, done, kind, text), where
        text += " How much salt, in spoons or by weight, to how much cabbage by weight?"
        return Finding("salt", published, None, "not recorded", text), where
    least, most = low.low * 16 / 25 * pounds, high.high / 5 * pounds
    done = f"{number(spoons)} tbsp for {number(pounds)} lb"
    text = f"Published: {published}. Done: {done}."
    if spoons < least * (1 - _SLACK):
        kind, text = "short of it", f"{text} Too little salt lets it spoil."
    else:
        kind = "beyond it" if spoons > most * (1 + _SLACK) else "as published"
    return Finding("salt", published, done, kind, text), where


def _pounds(batch: BatchDone, role: str) -> Fraction | None:
    """Return the weight of the cabbage, or of the salt, in pounds; None where it is not known."""
    found = [part for part in parts_of(batch.used) if _plays(part, role)]
    weights = [how_much(part, "lb") for part in found]
    if not found or any(one is None for one in weights):
        return None
    return sum((one for one in weights if one is not None), Fraction(0))


def _plays(part: Part, role: str) -> bool:
    return part.role == role or any(one.name == role for one in part.reading.foods)


def _spoons(batch: BatchDone) -> Fraction | None:
    """Return the salt in tablespoons where it was measured so."""
    found = [part for part in parts_of(batch.used) if part.role == "salt"]
    spoons = [how_much(part, "tbsp") for part in found]
    if not found or any(one is None for one in spoons):
        return None
    return sum((one for one in spoons if one is not None), Fraction(0))


def _by_weight(batch: BatchDone) -> Fraction | None:
    cabbage, salt = _pounds(batch, "cabbage"), _pounds(batch, "salt")
    return None if not cabbage or salt is None else salt / cabbage


def _pickle(batch: BatchDone) -> list[tuple[Finding, str]]:
    strength = figures("pickle", "quick_pickles", "vinegar_strength")[0]
    parts = [part for part in parts_of(batch.used) if not part.strained]
    vinegars = [part for part in parts if part.role == "vinegar"]
    if in_oil(batch, parts):
        return []  # what stands under oil is said by itself: vinegar changes nothing of it
    if at := [place for place in batch.kept if place in _WARM]:
        text = (
            f"Done: kept in the {at[0]}. For pickles that stand there the tables print a process in "
            "boiling water; nothing is published for them without. Keep them in the refrigerator."
        )
        found = Finding("storage", "refrigerator", at[0], "no published process", text)
        return [(found, cite(strength.source))]
    published = f"vinegar of {number(strength.low)} percent"
    if weak := vinegar_findings(vinegars):
        return [(one, cite(strength.source)) for one in weak]
    if not vinegars:
        question = "Which vinegar, and how much? Write its strength into its name: vinegar 5%."
        return [_asked("acid", published, question, strength, askable=True)]
    return [(_brine(parts, vinegars, published), cite(source("UMN_DILLY")))]


def _brine(parts: list[Part], vinegars: list[Part], published: str) -> Finding:
    """As much vinegar as water, at least: no other ratio is printed for pickles kept cold."""
    cups = [how_much(part, "cup") for part in vinegars]
    water = [how_much(part, "cup") for part in parts if part.role == "water"]
    named = vinegars[0].text
    if any(one is None for one in (*cups, *water)):
        text = f"Published: {published}, and as much of it as water. How many cups of each?"
        return Finding("acid", published, named, "not recorded", text)
    acid, thin = (sum((one for one in x if one is not None), Fraction(0)) for x in (cups, water))
    shown = f"{number(acid)} cups of {named} to {number(thin)} of water"
    text = f"Published: {published}, and as much of it as water. Done: {shown}."
    if acid < thin:
        return Finding("acid", published, shown, "short of it", f"{text} That thins the acid.")
    text += " For pickles kept cold no recipe was tested here: compare, and keep them in the refrigerator."
    return Finding("acid", published, shown, "to check yourself", text)


def _jam(batch: BatchDone) -> list[tuple[Finding, str]]:
    cold = figures("shelf_life", "jam_uncooked_freezer")[0]
    published = f"{number(cold.high)} weeks in the refrigerator, else the freezer"
    if at := [place for place in batch.kept if place in _WARM]:
        text = f"Published: {published}. Done: kept in the {at[0]}, where uncooked jam spoils."
        return [(Finding("storage", published, at[0], "short of it", text), cite(cold.source))]
    text = f"Published: {published}. Uncooked jam is not for the shelf."
    return [(Finding("storage", published, None, "as published", text), cite(cold.source))]
