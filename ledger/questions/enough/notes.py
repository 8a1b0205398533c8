"""What enough rests on, in words, and what it says before anything else."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.answers import Assumption
from ledger.questions.enough.asked import LEAST_KNOWN, Asked
from ledger.questions.shared.larder import larder_of

if TYPE_CHECKING:
    from ledger.questions.enough.supply import Supply
    from ledger.questions.who_eats.eaters import Eaters
    from ledger.replay import State

__all__ = ["cautions", "notes"]


def cautions(asked: Asked, supply: Supply) -> list[Assumption]:
    """Return what stands first: that too little is known for a headline."""
    if not supply.portions or supply.share_known >= LEAST_KNOWN:
        return []
    text = (
        f"Of {1 - supply.share_known:.0%} of this food by weight nothing is known but its energy: there is no headline. "
        "What is not known is named below."
    )
    return [Assumption("half-unknown", text, stands_first=True)]


def notes(state: State, asked: Asked, eaters: Eaters, supply: Supply) -> list[Assumption]:
    """Return what the figures rest on."""
    out = eaters.assumptions()
    out.append(
        Assumption(
            "needs",
            "Needs are the recommended allowances, else adequate intakes (Dietary Reference Intakes); nutrients are those of "
            "USDA SR28. It says what the food holds, never how anybody is.",
        )
    )
    out.append(
        Assumption(
            "level",
            "Sodium is set against the level above which risk rises (2019, from memory); salt in the box is left out.",
        )
    )
    out += _of_flour(state, supply)
    if asked.of == "pantry":
        out += _of_pantry(state)
    if asked.of != "next season":
        out.append(
            Assumption(
                "as-kept",
                "Food counts as it is kept. Cooking takes from it: boiled greens keep 55 to 70 per cent of their vitamin C; what was "
                "put up carries what went in, vegetables less what cooking takes.",
            )
        )
    if asked.of == "next season":
        text = "What next season's plan would likely bring as picked, before it is put up: a middling season, not a promise."
        out.append(Assumption("plan", text))
    if any(p.known.min() < 1 for p in supply.portions):
        text = "Where a food's figure is not known it counts nothing: the supply is at least this much."
        out.append(Assumption("at-least", text))
    return out


def _of_flour(state: State, supply: Supply) -> list[Assumption]:
    larder, out = larder_of(state), []
    grains = sorted(
        {state.facts.names[p.item] for p in supply.portions if p.item in larder.unenriched}
    )
    said = state.settings.newest("flour_enriched")
    if grains and said is None:
        text = f"Is it enriched? {', '.join(grains)} count as not enriched. `croftbook setting flour_enriched yes` counts folate and iron added."
        out.append(Assumption("flour", text))
    if larder.is_salt.any() and state.settings.newest("salt_iodised") is None:
        text = "Is the salt iodised? Iodine is not reckoned here; `croftbook setting salt_iodised yes` keeps the answer."
        out.append(Assumption("salt", text))
    return out


def _of_pantry(state: State) -> list[Assumption]:
    larder, out = larder_of(state), []
    for reason, lots in larder.not_counted.items():
        names = sorted({state.facts.names[int(state.lots["item"][lot])] for lot in lots})
        what = "bears a mark" if reason == "marked" else "is past its date"
        text = f"Not counted, as it {what}: {', '.join(names)}."
        out.append(Assumption(f"not-counted-{reason.replace(' ', '-')}", text))
    return out
