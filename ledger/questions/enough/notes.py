"""What enough rests on, in words, and what it says before anything else."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.answers import Assumption
from ledger.messages import Choice, Names, sentence
from ledger.questions.enough.asked import LEAST_KNOWN, Asked
from ledger.questions.shared.larder import larder_of

if TYPE_CHECKING:
    from ledger.questions.enough.supply import Supply
    from ledger.questions.who_eats.eaters import Eaters
    from ledger.replay import State

__all__ = ["cautions", "notes"]


def cautions(asked: Asked, supply: Supply) -> list[Assumption]:
    """Return what stands first: that too little is known for a headline."""
    if not supply.food.items.size or supply.share_known >= LEAST_KNOWN:
        return []
    text = sentence("enough-half-unknown", n=round((1 - supply.share_known) * 100))
    return [Assumption("half-unknown", text, stands_first=True)]


def notes(state: State, asked: Asked, eaters: Eaters, supply: Supply) -> list[Assumption]:
    """Return what the figures rest on."""
    out = eaters.assumptions()
    out.append(
        Assumption(
            "needs",
            sentence("enough-needs-recommended-allowances-else-adequate"),
        )
    )
    out.append(
        Assumption(
            "level",
            sentence("enough-sodium-set-against-level-above"),
        )
    )
    out += _of_flour(state, supply)
    if asked.of == "pantry":
        out += _of_pantry(state)
    if asked.of != "next season":
        out.append(
            Assumption(
                "as-kept",
                sentence("enough-food-counts-kept-cooking-takes"),
            )
        )
    if asked.of == "next season":
        text = sentence("enough-what-next-season-plan-would")
        out.append(Assumption("plan", text))
    if (supply.food.known < 1).any():
        text = sentence("enough-where-food-figure-not-known")
        out.append(Assumption("at-least", text))
    return out


def _of_flour(state: State, supply: Supply) -> list[Assumption]:
    larder, out = larder_of(state), []
    items = set(supply.food.items.tolist())
    grains = sorted(state.facts.names[item] for item in items & larder.unenriched)
    said = state.settings.newest("flour_enriched")
    if grains and said is None:
        text = sentence("enough-enriched-count-not-enriched-counts", names=Names(tuple(grains)))
        out.append(Assumption("flour", text))
    if larder.is_salt.any() and state.settings.newest("salt_iodised") is None:
        text = sentence("enough-salt-iodised-iodine-not-reckoned")
        out.append(Assumption("salt", text))
    return out


def _of_pantry(state: State) -> list[Assumption]:
    larder, out = larder_of(state), []
    for reason, lots in larder.not_counted.items():
        names = sorted({state.facts.names[int(state.lots["item"][lot])] for lot in lots})
        why = Choice("marked" if reason == "marked" else "past-its-date")
        text = sentence("enough-not-counted", why=why, names=Names(tuple(names)))
        out.append(Assumption(f"not-counted-{reason.replace(' ', '-')}", text))
    return out
