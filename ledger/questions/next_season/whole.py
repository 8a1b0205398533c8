"""The whole plan in words: its totals, what is missing, and what it rests on."""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property
from typing import Any

from ledger.answers import Assumption
from ledger.messages import Choice, Code, Names, sentence
from ledger.questions.next_season.levers import levers
from ledger.questions.next_season.says import failing, leave_out
from ledger.questions.next_season.words import UNITS, Words
from ledger.questions.planning.asked import AIMS
from ledger.questions.planning.plan import CropPlan, Plan
from ledger.questions.targets import YEAR_DAYS
from ledger.reference.planting import published_yields

__all__ = ["Whole"]


class Whole:
    """Says all of a plan in the household's measures."""

    def __init__(self, plan: Plan, words: Words) -> None:
        self.plan, self.words, self.state = plan, words, plan.state

    # -- all of it -----------------------------------------------------------------------

    def totals(self) -> dict[str, Any]:
        """Return the totals of the answer."""
        plan = self.plan
        wanted = [area for crop in plan.crops if (area := crop.value("area_m2")) is not None]
        beds = {
            bed: {
                "area_m2": ground,
                "free_m2": plan.fitted.free_m2[bed] if plan.fitted else ground,
                "crops": {c.name: c.fitted[bed] for c in plan.crops if c.fitted and bed in c.fitted},
                "crops_m2": {
                    c.name: c.fitted[bed] * (c.growth.space_m2 or 0.0)
                    for c in plan.crops if c.fitted and bed in c.fitted
                },
            }
            for bed, ground in plan.beds.items()
        }  # fmt: skip
        return {
            "season": plan.garden.next,
            "for": plan.asked.aim,
            "wanted": levers(plan),
            "beds": beds,
            "ground_wanted_m2": sum(wanted) if wanted else None,
            "ground_m2": sum(plan.beds.values()) if plan.beds else None,
            "is_best_proven": plan.fitted.proven if plan.fitted else None,
            "in_words": self._in_words(sum(wanted) if wanted else None),
            "missing": self.missing(),
        }

    def _in_words(self, wanted: float | None) -> list[str]:
        plan = self.plan
        if not plan.crops:
            return []
        out: list[str] = [sentence("plan-season", n=plan.garden.next)]
        if wanted is not None and plan.beds:
            ground = {
                "wanted": self.words.ground(wanted),
                "there": self.words.ground(sum(plan.beds.values())),
            }
            out = [sentence("plan-ground", n=plan.garden.next, beds=len(plan.beds), **ground)]
        out += leave_out(self.words)
        if any(crop.fitted is not None for crop in plan.crops):
            out.append(sentence("plan-even-chance"))
        for crop in plan.crops:
            if crop.fitted is not None and (len(crop.fitted) != 1 or crop.short):
                where = Names(tuple(self.words.in_beds(crop) or [sentence("plan-no-room")]))
                out.append(
                    sentence(
                        "plan-where-short",
                        crop=crop.name,
                        where=where,
                        amount=self.words.weight(crop.short),
                    )
                    if crop.short
                    else sentence("plan-where", crop=crop.name, where=where)
                )
        if any(c.short for c in plan.crops if c.fitted is not None):
            others = Names(tuple(Code(one) for one in AIMS if one != plan.asked.aim))
            aim = Choice(plan.asked.aim)
            out.append(sentence("plan-not-sufficient", aim=aim, others=others))
        out += [*failing(self.words), *self._kept_out()]
        for crop in plan.crops:
            if crop.fitted is None and crop.short:
                brings = {
                    "amount": self.words.weight(crop.brings),
                    "amount2": self.words.weight(crop.short),
                }
                out.append(
                    sentence("plan-stands-short", crop=crop.name, **brings)
                    if crop.growth.standing
                    else sentence("plan-season-short", crop=crop.name, **brings)
                )
        return out

    def _kept_out(self) -> list[str]:
        """Return which crops the rotation keeps out of which beds, those of one lot together."""
        lots: dict[tuple[str, ...], list[str]] = {}
        for name, beds in (self.plan.fitted.kept_out if self.plan.fitted else {}).items():
            lots.setdefault(tuple(sorted(beds)), []).append(name)
        return [
            sentence("plan-kept-out", names=Names(beds), names2=Names(tuple(names)))
            for beds, names in sorted(lots.items())
        ]

    def missing(self) -> list[str]:
        """Return what is not known, and what would supply it."""
        plan, out = self.plan, self.missing_of_use()
        if not plan.crops:
            out.append(sentence("plan-nothing-grows"))
            return out
        out += self._never_made()
        for crop in plan.crops:
            out += self._missing_of(crop)
        if not plan.beds:
            out.append(sentence("plan-no-beds"))
        elif unknown := [b for b in plan.garden.beds[2] if b not in plan.beds]:
            out.append(sentence("plan-ground-unknown", names=Names(tuple(unknown))))
        if plan.fitted is not None and not plan.fitted.proven:
            out.append(sentence("plan-not-proven"))
        return out

    def missing_of_use(self) -> list[str]:
        """Return what is not known of a year's wants."""
        wants = self.plan.wants
        out = list(wants.missing)
        if 0 < wants.days < YEAR_DAYS:
            out.append(sentence("plan-few-days", n=wants.days))
        return out

    def _never_made(self) -> list[str]:
        plan = self.plan
        came = set(self.state.lots["item"].tolist())
        grown = {crop.item for crop in plan.crops}
        return [
            sentence("plan-never-made", item=self.state.facts.names[item])
            for item, want in plan.wants.of.items()
            if want.source != "use" and item not in plan.recipes.made
            and item not in came and item not in grown
        ]  # fmt: skip

    def _missing_of(self, crop: CropPlan) -> list[str]:
        name, growth = crop.name, crop.growth
        if crop.wanted is None:
            return [sentence("season-no-weight", name=name)]
        if not crop.wanted:
            measures = Choice(self.state.settings.newest("measures", "us") or "us")
            return [sentence("plan-nobody-ate-it", name=name, measures=measures)]
        if growth.ahead is None:
            known = any(one.low_g is not None for one in published_yields(name))
            one = sentence("plan-one", unit=UNITS[growth.size])
            return [
                sentence("plan-brings-unknown-but-published", unit=one, name=name)
                if known
                else sentence("plan-brings-unknown", unit=one, name=name)
            ]
        out: list[str] = []
        if growth.unplanted:
            out.append(sentence("plan-length-of-row", name=name))
        elif growth.size is not None and growth.space_m2 is None:
            out.append(sentence("plan-not-fitted", name=name))
        if self.plan.asked.aim == "value" and crop.value("value") is None:
            out.append(sentence("plan-no-price", name=name))
        if self.plan.asked.aim == "energy" and not self.state.facts.kcal_per_gram(crop.item):
            out.append(sentence("plan-no-energy", name=name))
        return out

    # -- what it rests on ----------------------------------------------------------------

    def assumptions(self) -> list[Assumption]:
        """Return what the rows rest on, in words."""
        used = {one for crop in self.plan.crops for one in self.words.rests_on(crop)}
        return [
            Assumption(name, says(), self._events(name))
            for name, says in self._texts.items()
            if name in used
        ]

    @cached_property
    def _texts(self) -> dict[str, Callable[[], str]]:
        return {
            "use-as-last-year": lambda: sentence("plan-use-as-last-year", n=YEAR_DAYS),
            "shelf-eaten-up": lambda: sentence("plan-shelf-eaten-up"),
            "by-recipe": lambda: sentence("plan-by-recipe", names=self._by_recipe()),
            "liked-counts": lambda: sentence("plan-liked-counts"),
            "published-yield": lambda: sentence("plan-published-yield", list=self._notes()),
            "seasons-weighed": lambda: sentence("plan-seasons-weighed"),
            "whole-season": lambda: sentence("plan-whole-season"),
            "bed-as-planted": lambda: sentence("plan-bed-as-planted"),
        }

    def _by_recipe(self) -> Names:
        made, names = self.plan.recipes.made, self.state.facts.names
        wants = (w for c in self.plan.crops for w, _ in c.products)
        return Names(
            tuple(sorted({names[w.item] for w in wants if made[w.item].recipe is not None}))
        )

    def _notes(self) -> Names:
        """Return what the published yields of the crops rest on, crop by crop."""
        said = {
            sentence("plan-crop-by", crop=c.name, note=c.growth.published.note)
            for c in self.plan.crops
            if c.growth.published
        }
        return Names(tuple(sorted(said)))

    def _events(self, name: str) -> tuple[str, ...]:
        if name != "bed-as-planted":
            return ()
        shown = self.plan.garden.beds[1]
        return tuple(self.state.event_id(p.ev) for several in shown.values() for p in several)
