"""What is said below a season's table: sums, where it went, what is wanted and what is missing."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.messages import Day, Names, Sentence, fixed, joined, measured, sentence
from ledger.reference.everyday import spoken
from ledger.reference.planting import published_yields
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.questions.season.records import Recorder

__all__ = ["in_words", "missing"]


_OFF = {"kept_too_long": "season-kept-too-long", "glut": "season-glut"}


def in_words(
    recorder: Recorder, totals: dict[str, Any], records: list[dict[str, Any]]
) -> list[str]:
    """Return the sentences below the table."""
    days = {"day": Day(totals["from"]), "day2": Day(totals["to"])}
    if not records:
        return [sentence("season-nothing", n=recorder.season, **days)]
    short = [_short(recorder, r) for r in records if (r["short_of_target_g"] or 0.0) >= 0.5]
    fates = [
        joined(" ", [measured(f"{recorder.say(g)}"), fixed(fate, "name")])
        for fate, g in totals["where_it_went"].items()
        if g >= 0.5
    ]
    priced = any(r["shop_value"] is not None for r in records)
    hours, picked = round(totals["hours"]), Names(tuple(_picked(recorder, totals, records)))
    out: list[str] = [
        sentence("season-picked", n=recorder.season, list=picked, **days),
        sentence("season-worth", worth=_money(totals["shop_value"]), hours=hours)
        if priced
        else sentence("season-worth-unknown", hours=hours),
    ]
    for name, id_ in _OFF.items():
        if totals[name] >= 0.005:
            out.append(sentence(id_, n=_money(totals[name])))
    out.append(_inputs(totals, records, priced=priced))
    if not recorder.past.is_over and recorder.past.day >= 0:
        then = recorder.field.calendar.first_day(recorder.season - 1) + recorder.past.day
        out.append(sentence("season-last-so-far", day=Day(day_text(then))))
    if fates:
        out.append(sentence("season-where-it-went", list=Names(tuple(fates))))
    waiting = [
        sentence("season-money-for", n=_money(m), crop=c)
        for c, m in totals["carried_forward"].items()
        if m >= 0.005
    ]
    if short:
        out.append(sentence("season-short", list=Names(tuple(short))))
    if waiting:
        out.append(sentence("season-waiting", list=Names(tuple(waiting))))
    return out


def _inputs(totals: dict[str, Any], records: list[dict[str, Any]], *, priced: bool) -> Sentence:
    """Return the inputs and what is left; whose worth is not known, its inputs are not in that."""
    inputs, net = _money(totals["inputs"]), _money(totals["net"])
    if not priced:
        return sentence("season-inputs", n=inputs)
    apart = sum(r["inputs"] or 0.0 for r in records if r["shop_value"] is None)
    if apart >= 0.005:
        return sentence("season-inputs-and-net-some", n=inputs, n2=net, n3=_money(apart))
    return sentence("season-inputs-and-net", n=inputs, n2=net)


def _money(value: float) -> Sentence:
    return measured(f"{value:,.2f}")


def _short(recorder: Recorder, record: dict[str, Any]) -> str:
    amount = measured(f"{recorder.say(record['short_of_target_g'])}")
    what = joined(" ", [amount, record["crop"]])
    return sentence("season-in-bed", what=what, bed=record["bed"]) if record["bed"] else what


def _picked(recorder: Recorder, totals: dict[str, Any], records: list[dict[str, Any]]) -> list[str]:
    """Return what was picked: by weight, and what is kept by the piece, as eggs are, by the piece."""
    grams = totals["picked_g"]
    pieces: list[str] = []
    for row, r in zip(recorder.rows, records, strict=True):
        crop = recorder.plot(row).crop
        if recorder.state.facts.measure[crop] == "count" and r["picked_g"]:
            pieces.append(_counted(r["in_words.picked"], r["crop"]))
            grams -= r["picked_g"]
    weight = [measured(recorder.say(grams) or "")] if grams >= 0.5 or not pieces else []
    return [*weight, *pieces]


def _counted(many: str, crop: str) -> str:
    """Return a count with what is counted: ``3,922 eggs``; only in English is it known how it is bent."""
    count = measured(f"{int(many):,}" if many.isdecimal() else many)
    one = joined(" ", [count, crop])
    return Sentence(f"{count} {spoken(crop)}", one.says) if isinstance(one, Sentence) else one


def missing(recorder: Recorder, records: list[dict[str, Any]]) -> list[str]:
    """Return, in sentences, what the book would have to say for the figures that are null."""
    out: dict[str, None] = {}
    loose = {r["crop"] for r in records if r["bed"] is None and r["picked_g"]}
    for row, r in zip(recorder.rows, records, strict=True):
        plot, name = recorder.plot(row), r["crop"]
        if r["picked_g"] is None:
            out[sentence("season-no-weight", name=name)] = None
        if r["shop_value"] is None and plot.rows.size:
            out[sentence("season-no-price", name=name)] = None
        if plot.plantings and (
            plot.plants is None or (plot.row_m is None and plot.area_m2 is None)
        ):
            out[sentence("season-planting-vague", name=name)] = None
        elif not plot.plantings and published_yields(name):
            out[sentence("season-no-planting", name=name)] = None
        if name in loose and r["bed"] is not None and not plot.rows.size and plot.plantings:
            out[sentence("season-without-bed", name=name)] = None
        target = recorder.known.wishes.targets.of(plot.crop, recorder.season)
        if target is not None and target.times is None:
            out[sentence("season-target-per-person", name=name)] = None
    return list(out)  # fmt: skip
