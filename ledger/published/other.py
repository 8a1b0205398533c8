"""Freezing, drying, fermenting, pickling cold and jam: what the tables print, beside a batch.

Only figures that the tables hold are compared, in the same kinds as for canning. What a batch has
no field for (temperature, days of conditioning, size of the freezer) is left to the reader, with
the printed figure.
"""

from __future__ import annotations

from fractions import Fraction

from ledger.items import item_key
from ledger.messages import Choice, Typed, joined, measured, sentence
from ledger.published.batch import BatchDone, Finding
from ledger.published.danger import danger_of, in_oil
from ledger.published.finding import find
from ledger.published.ingredients import ingredient_findings
from ledger.published.jars import jar_size
from ledger.published.judging import Judgement
from ledger.published.parts import Part, how_much, parts_of
from ledger.published.recipe import recipe_findings, vinegar_findings
from ledger.published.sealed import sealed_findings
from ledger.published.words import cite, figure, fixed, inches, plain, sizes_word
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
    field: str, published: str, question: str, printed: Figure, *, askable: bool = False
) -> tuple[Finding, str]:
    """Return a question; most of these figures have no place in an entry."""
    text = joined(" ", (_published(published), question))
    kind = "not recorded" if askable else "to check yourself"
    return Finding(field, published, None, kind, text), cite(printed.source)


def _published(printed: str) -> str:
    return sentence("finding-published", printed=printed)


def _done(done: str) -> str:
    return sentence("finding-done", done=done)


def _freeze(batch: BatchDone) -> list[tuple[Finding, str]]:
    out = []
    for one in batch.jars:
        size = jar_size(one.jar)
        wide, narrow = (freezing_headspace("liquid", top, size or "") for top in ("wide", "narrow"))
        if wide is None or narrow is None:
            continue
        low, high = wide[0], narrow[0]
        published = sentence(
            "finding-freezing-room", x=inches(low), x2=inches(high), sizes=sizes_word(size or "")
        )
        texts, done = [_published(published)], batch.headspace_in
        if done is None:
            kind = "not recorded"
            texts.append(sentence("finding-freezing-room-ask"))
        elif done < low:
            kind = "short of it"
            texts.append(sentence("finding-glass-may-break", x=inches(done)))
        elif done < high:
            kind = "to check yourself"
            texts += [_done(inches(done)), sentence("finding-mouth-ask")]
        else:
            kind = "as published" if done == high else "beyond it"
            texts.append(_done(inches(done)))
        text = joined(" ", texts)
        shown = Finding("headspace", published, plain(done), kind, text)
        out.append((shown, cite(wide[1])))
    load = figures("freezer", "any", "max_load_in_24_hours")[0]
    published = sentence("finding-freezer-load", n=figure(load.low), n2=figure(load.high))
    out.append(
        _asked(
            "load",
            published,
            sentence("finding-freezer-load-ask"),
            load,
        )
    )
    return out


def _dry(batch: BatchDone) -> list[tuple[Finding, str]]:
    heat = figures("dried", "any", "drying_temperature")[0]
    out = [
        _asked(
            "temperature",
            sentence("finding-drying-heat", n=figure(heat.low), n2=figure(heat.high)),
            sentence("finding-drying-heat-ask"),
            heat,
        )
    ]
    key = item_key(batch.makes)
    if "jerky" in key:
        for row, of in (("jerky_red_meat", "red-meat"), ("jerky_poultry", "poultry")):
            warm = figures("dried", row, "preheat_internal_temperature")[0]
            published = sentence("finding-jerky-heat", n=figure(warm.low), kind=Choice(of))
            out.append(_asked("temperature", published, sentence("finding-jerky-heat-ask"), warm))
        return out
    rest = figures("dried", "dried_fruit", "conditioning_time")[0]
    published = sentence("finding-conditioning", n=figure(rest.low))
    return [*out, _asked("conditioning", published, sentence("finding-conditioning-ask"), rest)]


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
    text = sentence("finding-no-fermenting", item=Typed(batch.makes))
    ours = sentence("published-our-own-advice")
    return [(Finding("product", None, batch.makes, "no published process", text), ours)]


def _ferment_time(food: str) -> list[tuple[Finding, str]]:
    warm, *cool = figures("ferment", food, "time")
    several = [
        sentence(
            "finding-weeks-at",
            n=figure(warm.low),
            n2=figure(warm.high),
            temperature=warm.condition.removesuffix(" F"),
        )
    ]
    for one in cool:
        at = one.condition.removesuffix(" F")
        several.append(
            sentence("finding-weeks-cooler", n=figure(one.low), n2=figure(one.high), temperature=at)
        )
    return [_asked("time", joined(", ", several), sentence("finding-weeks-ask"), warm)]


def _kraut_salt(batch: BatchDone) -> tuple[Finding, str]:
    """3 tbsp of canning salt for 5 lb of cabbage; 3/4 cup for 25 lb: the printed two differ."""
    low, high = (
        figures("ferment", "sauerkraut", "salt_per_25_lb_cabbage")[0],
        figures("ferment", "sauerkraut", "salt_per_5_lb_cabbage")[0],
    )
    where = cite(high.source)
    published = sentence("finding-kraut-salt")
    pounds = _pounds(batch, "cabbage")
    spoons = _spoons(batch)
    roles = {part.role for part in parts_of(batch.used)}
    if "no_salt" in roles and "salt" not in roles:
        text = joined(" ", (_published(published), sentence("finding-no-salt-for-it")))
        done = sentence("finding-salt-substitute")
        return Finding("salt", published, done, "short of it", text), where
    if pounds is None or spoons is None:
        by_weight = figures("ferment", "sauerkraut", "salt_by_weight")[0]
        share = _by_weight(batch)
        if share is not None:
            percent = f"{float(share) * 100:.2f}"
            by = sentence(
                "finding-salt-by-weight",
                n=measured(percent),
                n2=figure(by_weight.low),
                n3=figure(by_weight.high),
            )
            kind = "short of it" if share < _LEAST_SALT else "to check yourself"
            text = joined(" ", (_published(published), by))
            return Finding("salt", published, measured(f"{percent} %"), kind, text), where
        text = joined(" ", (_published(published), sentence("finding-salt-ask")))
        return Finding("salt", published, None, "not recorded", text), where
    least, most = low.low * 16 / 25 * pounds, high.high / 5 * pounds
    done = sentence("finding-salt-done", n=figure(spoons), n2=figure(pounds))
    texts = [_published(published), _done(done)]
    if spoons < least * (1 - _SLACK):
        kind = "short of it"
        texts.append(sentence("finding-salt-short"))
    else:
        kind = "beyond it" if spoons > most * (1 + _SLACK) else "as published"
    return Finding("salt", published, done, kind, joined(" ", texts)), where


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
        text = sentence("finding-cold-pickle-kept", place=fixed(at[0]))
        found = Finding(
            "storage",
            sentence("finding-refrigerator"),
            fixed(at[0]),
            "no published process",
            text,
        )
        return [(found, cite(strength.source))]
    published = sentence("finding-vinegar-of", n=figure(strength.low))
    if weak := vinegar_findings(vinegars):
        return [(one, cite(strength.source)) for one in weak]
    if not vinegars:
        question = sentence("finding-vinegar-ask")
        return [_asked("acid", published, question, strength, askable=True)]
    return [(_brine(parts, vinegars, published), cite(source("UMN_DILLY")))]


def _brine(parts: list[Part], vinegars: list[Part], published: str) -> Finding:
    """As much vinegar as water, at least: no other ratio is printed for pickles kept cold."""
    cups = [how_much(part, "cup") for part in vinegars]
    water = [how_much(part, "cup") for part in parts if part.role == "water"]
    named = vinegars[0].text
    brine = sentence("finding-as-much-as-water", printed=published)
    if any(one is None for one in (*cups, *water)):
        text = joined(" ", (brine, sentence("finding-cups-of-each-ask")))
        return Finding("acid", published, named, "not recorded", text)
    acid, thin = (sum((one for one in x if one is not None), Fraction(0)) for x in (cups, water))
    shown = sentence("finding-acid-to-water", n=figure(acid), item=named, n2=figure(thin))
    done = _done(shown)
    if acid < thin:
        text = joined(" ", (brine, done, sentence("finding-thins-acid")))
        return Finding("acid", published, shown, "short of it", text)
    text = joined(" ", (brine, done, sentence("finding-cold-pickle-compare")))
    return Finding("acid", published, shown, "to check yourself", text)


def _jam(batch: BatchDone) -> list[tuple[Finding, str]]:
    cold = figures("shelf_life", "jam_uncooked_freezer")[0]
    published = sentence("finding-jam-weeks", n=figure(cold.high))
    if at := [place for place in batch.kept if place in _WARM]:
        kept = sentence("finding-jam-kept", place=fixed(at[0]))
        text = joined(" ", (_published(published), kept))
        return [
            (Finding("storage", published, fixed(at[0]), "short of it", text), cite(cold.source))
        ]
    text = joined(" ", (_published(published), sentence("finding-jam-not-shelf")))
    return [(Finding("storage", published, None, "as published", text), cite(cold.source))]
