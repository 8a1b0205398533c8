"""What is said below a season's table: sums, where it went, what is wanted and what is missing."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.reference.planting import published_yields
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.questions.season.records import Recorder

__all__ = ["in_words", "missing"]


_OFF = {
    "kept_too_long": "of what was picked and never eaten until its keeping was over",
    "glut": "of what was fed to animals or composted, beyond the feed that it spared",
}


def in_words(
    recorder: Recorder, totals: dict[str, Any], records: list[dict[str, Any]]
) -> list[str]:
    """Return the sentences below the table."""
    begins, ends = totals["from"], totals["to"]
    if not records:
        return [f"Nothing was planted or picked in season {recorder.season} ({begins} to {ends})."]
    short = [
        f"{recorder.say(r['short_of_target_g'])} {r['crop']}"
        + (f" ({r['bed']})" if r["bed"] else "")
        for r in records
        if (r["short_of_target_g"] or 0.0) >= 0.5
    ]
    fates = ", ".join(
        f"{recorder.say(g)} {fate}" for fate, g in totals["where_it_went"].items() if g >= 0.5
    )
    priced = any(r["shop_value"] is not None for r in records)
    hours = f"{totals['hours']:,.0f} hours written down."
    out = [
        f"Season {recorder.season}, {begins} to {ends}: {_picked(recorder, totals, records)} picked.",
        f"Worth {totals['shop_value']:,.2f} in the shop; {hours}"
        if priced
        else f"No shop price is known of what was picked; {hours}",
    ]
    for name, words in _OFF.items():
        if totals[name] >= 0.005:
            out.append(f"Off that: {totals[name]:,.2f} {words}.")
    inputs = f"Inputs {totals['inputs']:,.2f}"
    out.append(
        f"{inputs}: what was picked leaves {totals['net']:,.2f}." if priced else f"{inputs}."
    )
    if not recorder.past.is_over and recorder.past.day >= 0:
        then = recorder.field.calendar.first_day(recorder.season - 1) + recorder.past.day
        out.append(f"Last season: what had been picked by {day_text(then)}.")
    if fates:
        out.append(f"Where it went, by weight: {fates}.")
    waiting = [f"{m:,.2f} for {c}" for c, m in totals["carried_forward"].items() if m >= 0.005]
    if short:
        out.append(f"Short of what is wanted: {', '.join(short)}.")
    if waiting:
        out.append(f"Spent, and waiting for the next harvest: {', '.join(waiting)}.")
    return out


def _picked(recorder: Recorder, totals: dict[str, Any], records: list[dict[str, Any]]) -> str:
    """Return what was picked: by weight, and what is kept by the piece, as eggs are, by the piece."""
    grams, pieces = totals["picked_g"], []
    for row, r in zip(recorder.rows, records, strict=True):
        crop = recorder.plot(row).crop
        if recorder.state.facts.measure[crop] == "count" and r["picked_g"]:
            pieces.append(f"{r['in_words.picked']} {r['crop']}")
            grams -= r["picked_g"]
    weight = [recorder.say(grams) or ""] if grams >= 0.5 or not pieces else []
    return ", ".join([*weight, *pieces])


def missing(recorder: Recorder, records: list[dict[str, Any]]) -> list[str]:
    """Return, in sentences, what the book would have to say for the figures that are null."""
    out: dict[str, None] = {}
    loose = {r["crop"] for r in records if r["bed"] is None and r["picked_g"]}
    for row, r in zip(recorder.rows, records, strict=True):
        plot, name = recorder.plot(row), r["crop"]
        if r["picked_g"] is None:
            out[
                f'No weight of {name} is known: `croftbook item "{name}" --g-per "piece 120"`, with its own figure, gives one.'
            ] = None
        if r["shop_value"] is None and plot.rows.size:
            out[f"No shop price of {name} is known: `croftbook price` or a purchase gives one."] = (
                None
            )
        if plot.plantings and (
            plot.plants is None or (plot.row_m is None and plot.area_m2 is None)
        ):
            out[
                f"A planting of {name} says neither all plants nor all row or ground: yields and the published range need them."
            ] = None
        elif not plot.plantings and published_yields(name):
            out[
                f"No planting of {name} was written down: `croftbook plant` with plants, row or area gives its yield."
            ] = None
        if name in loose and r["bed"] is not None and not plot.rows.size and plot.plantings:
            out[f"Some {name} was picked without its bed: `--by crop` puts the beds together."] = (
                None
            )
        target = recorder.known.wishes.targets.of(plot.crop, recorder.season)
        if target is not None and target.times is None:
            out[
                f"The target for {name} is per person: `croftbook setting people` says how many."
            ] = None
    return list(out)  # fmt: skip
