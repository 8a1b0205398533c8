"""A batch at the command line: from a recipe, scaled; and the cost per jar it just made."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import TYPE_CHECKING, Any

import click

from ledger.cli import _common
from ledger.cli._speech import confirm, echo, say, told
from ledger.cli._values import amount, jars, number, word
from ledger.door.recipes import from_recipe, recipe_of, times_of
from ledger.errors import InputError
from ledger.kinds.telling import jar_word
from ledger.messages import Choice, Message, Names, Typed

if TYPE_CHECKING:
    from ledger.book import Book
    from ledger.door import Written
    from ledger.door.texts import Texts
    from ledger.projections import Answer
    from ledger.published import Before

__all__ = [
    "batch_from_recipe",
    "caution_of",
    "cost_of",
    "mark_strained",
    "print_cost",
    "print_verdicts",
    "show_before",
    "verdicts",
    "warn_low_acid",
]


_STEP = re.compile(r"(\d+\. |- |\[\d+\] )?(.*?)((?: \[\d+\])*)", re.DOTALL)
"""A line of a published process: its number, what is said, its sources."""


def batch_from_recipe(
    book: Book, body: dict[str, Any], given: dict[str, Any], *, warned: bool
) -> dict[str, Any]:
    """Return a batch's body, filled in from the recipe it names; what it takes is shown first."""
    out = from_recipe(book.catalogue(), body)
    if not warned:
        warn_low_acid(out, given)
    if out is body:
        return body
    _show_plan(book, out, times_of(body.get("times")), quiet=given["as_json"])
    if (
        _common.at_terminal()
        and not given["yes"]
        and not confirm(say("cli-putup-ask"), default=True)
    ):
        raise click.Abort
    return out


def warn_low_acid(body: dict[str, Any], given: dict[str, Any]) -> bool:
    """Say first, before any question, that food of little acid needs a published pressure process.

    Parameters
    ----------
    body : dict
        ``makes``, ``method``, ``schedule``, ``acid``, ``note``, ``equipment``, and ``used`` and
        ``made``: lines of a body, or texts as typed.
    given : dict
        The command's options.

    Returns
    -------
    bool
        Whether it was said; at a terminal the user then chose to go on.
    """
    from ledger.published import batch_as_typed, caution_before

    text = caution_before(batch_as_typed(body))
    if text is None:
        return False
    click.secho(f"{told(text)}\n", fg="red", bold=True, err=True)
    if (
        _common.at_terminal()
        and not (given["yes"] or given.get("before"))
        and not confirm(say("cli-putup-ask-danger"), default=False)
    ):
        raise click.Abort
    return True


def mark_strained(body: dict[str, Any], names: tuple[str, ...], texts: Texts) -> None:
    """Mark what was taken out again before the jar was closed.

    Raises
    ------
    InputError
        Naming ``strained``, when no line of what was used is that item.
    """
    lines = body.get("used") or []
    for name in names:
        key = texts.catalogue.key(name)
        found = [line for line in lines if texts.catalogue.key(line["item"]) == key]
        if not found:
            known = Names(tuple(line["item"] for line in lines)) if lines else None
            raise InputError(
                "strained",
                Message.of("refusal-not-used", name=Typed(name), known=known),
            )
        for line in found:
            line["strained"] = True


def caution_of(book: Book, body: dict[str, Any]) -> str | None:
    """Return the cautions that go with the first canning batch."""
    from ledger.kinds import CANNING
    from ledger.questions.as_published.records import first_caution

    return first_caution(book.state()) if body["method"] in CANNING else None


def verdicts(book: Book, written: Written) -> list[dict[str, Any]]:
    """Return what the published schedules say of a batch just written."""
    from ledger.projections import PROJECTIONS

    day = max(written.event.on, book.today().isoformat())
    state = book.state(as_of=day)
    answer = PROJECTIONS["as-published"].build(state, batch=state.entry_id(written.event.seq - 1))
    return answer.records()


def print_danger(book: Book, written: Written) -> None:
    """Say at once what stands on the jars of a batch that bears a mark, and what that asks for."""
    from ledger.opened import mark_said

    day = max(written.event.on, book.today().isoformat())
    said = mark_said(book.state(as_of=day), written.event.seq - 1)
    if said is not None:
        marked = say("cli-putup-marked", mark=told(said))
        click.secho(f"  {marked}", fg="red", bold=True, err=True)


def print_verdicts(records: list[dict[str, Any]], caution: str | None = None) -> None:
    """Say how a batch stands to what is published, the gravest first, in a few lines.

    Parameters
    ----------
    caution : str, optional
        Shown instead of the short one.
    """
    from ledger.published import SHORT
    from ledger.questions.as_published.words import verdict_lines

    for record in records:
        grave = record["standing"] == "against every published process"
        standing = say("cli-putup-schedule", standing=word(record["standing"]))
        click.secho(f"  {standing}", fg="red" if grave else None)
        for line in verdict_lines(record):
            click.echo(f"    {told(line)}")
    if records or caution:
        click.echo(f"  {told(caution or SHORT)}", err=True)


def _show_plan(book: Book, body: dict[str, Any], times: Fraction, *, quiet: bool) -> None:
    """Show what the batch takes against what is there, jars, lids and canner loads."""
    if quiet:
        return
    from ledger.questions.shared.plan import plan_of

    plan = plan_of(book.state(), book.catalogue(), body)
    echo("cli-plan-takes", err=True, item=body["makes"], times=number(f"{float(times):g}"))
    for need in plan.needs:
        there = None if need.there is None else amount(need.there)
        said = say("cli-plan-there", there=there)
        click.echo(f"  {amount(need.wanted)} {need.item}  ({said})", err=True)
    for jar in plan.jars:
        said = say("cli-plan-jars", jars=jars(jar.jars, jar.jar, several=True), empty=jar.empty,
                   n=jar.jars, lid=jar.lid, lids=jar.lids)  # fmt: skip
        click.echo(f"  {said}", err=True)
        if jar.loads:
            said = say("cli-plan-loads", n=jar.loads, each=jar.per_load)
            click.echo(f"  {said}", err=True)


def cost_of(book: Book, written: Written) -> Answer:
    """Return the jar-cost answer of a batch just written."""
    entry = book.state(as_of=max(written.event.on, book.today().isoformat()))
    batch = entry.entry_id(written.event.seq - 1)
    return book.show("jar-cost", as_of=max(written.event.on, book.today().isoformat()), batch=batch)


def print_cost(cost: Answer, measures: str) -> None:
    """Say in a line or two what each jar cost, against the shop, per quart or litre."""
    unit, id_ = ("quart", "cli-cost-quart") if measures == "us" else ("liter", "cli-cost-litre")
    for record in cost.records():
        many = record["jars"]
        own, shop = record[f"cost_per_{unit}"], record[f"shop_price_per_{unit}"]
        whole, pocket = (record["cost"][name] for name in ("all_in", "out_of_pocket"))
        told_cost = say(
            "cli-cost",
            what=jars(many, record["jar"]) if many else say("cli-cost-no-jars"),
            each=_coins(record["cost_per_jar"]) if many else None,
            whole=_coins(whole),
            pocket=_coins(pocket),
            currency=cost.currency,
            bound=Choice("least" if record["at_least"] else "exact"),
        )
        if shop is not None and own is not None:
            told_cost += say(id_, own=_coins(own), shop=_coins(shop))
        click.echo(f"  {told_cost}")
        if record["unpriced"]:
            named = [jar_word(one) if one.endswith(" jar") else one for one in record["unpriced"]]
            click.echo(f"  {say('cli-cost-unpriced', items=Names(tuple(named)))}", err=True)


def _coins(value: float) -> str:
    return number(f"{value:.2f}")


def show_before(book: Book, body: dict[str, Any], on: str | None, *, as_json: bool) -> None:
    """Print how a batch is published, for its jars and pack and the kitchen's altitude and gauge.

    Raises
    ------
    InputError
        When no product is named, or the altitude cannot be read.
    """
    body = from_recipe(book.catalogue(), body)
    if not body.get("makes"):
        raise InputError("makes", Message.of("refusal-makes-missing"))
    recipe = recipe_of(book.catalogue(), body.get("recipe") or body["makes"]) or {}
    jars = [made for made in body.get("made", ()) if made.get("jars")] or [{}]
    catalogue = book.catalogue()
    from ledger.published import altitude_ft, before_batch

    method = body.get("method")
    height = body.get("altitude") or catalogue.setting("altitude", on)
    gauge = body.get("gauge") or catalogue.setting("gauge", on)
    found = [
        before_batch(
            body["makes"],
            jar=made.get("jar"),
            pack=body.get("pack"),
            method=method,
            gauge=gauge,
            altitude_ft=altitude_ft(height),
            jars=int(made["jars"]) if made else None,
            schedule=body.get("schedule") or recipe.get("schedule"),
            done_with=" ; ".join((*(body.get("equipment") or ()), body.get("note") or "")),
        )
        for made in jars
    ]
    if as_json:
        _common.print_json([_before_json(one) for one in found])
        return
    echo(
        "cli-before-head",
        item=body["makes"],
        altitude=amount(height) if height else None,
        gauge=Choice(gauge) if gauge else None,
    )
    for one in found:
        _print_before(one)
    click.echo(told(found[0].caution))
    echo("cli-before-nothing", err=True)


def _before_json(found: Before) -> dict[str, Any]:
    return {
        "found": found.match.text,
        "only_as": found.only_as,
        "processes": [
            {
                "schedule": one.schedule.id,
                "minutes": one.minutes,
                "psi": one.psi,
                "headspace_in": float(one.headspace_in),
                "acid": one.acid,
                "confirmed": one.confirmed,
                "text": one.text,
            }
            for one in found.processes
        ],
        "questions": list(found.questions),
        "needs": [{"what": n.what, "amount": n.amount, "source": n.source} for n in found.needs],
        "steps": [{"text": s.text, "source": s.source} for s in found.steps],
        "notes": list(found.notes),
        "caution": found.caution,
    }


def _print_before(found: Before) -> None:
    from ledger.questions.as_published.words import process_words

    for text in (*process_words(found, whole=True), *found.notes):
        click.echo(told(text))
