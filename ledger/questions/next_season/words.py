"""The plan of a season in words: rows, totals, what it rests on and what is missing."""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property
from typing import Any

from ledger.amounts import format_whole
from ledger.answers import Assumption
from ledger.messages import Choice, Code, Day, Names, Sentence, joined, measured, opening, sentence
from ledger.messages.units import amount
from ledger.questions.next_season.levers import levers
from ledger.questions.next_season.says import failing, leave_out
from ledger.questions.planning.asked import AIMS
from ledger.questions.planning.plan import CropPlan, Plan
from ledger.questions.planning.wants import Liked, Want
from ledger.questions.targets import YEAR_DAYS
from ledger.reference.planting import M2_PER_FOOT2, METRES_PER_FOOT, published_yields
from ledger.replay.state import day_text

__all__ = ["Words"]

_UNITS = {
    "plants": Choice("plant"),
    "row_m": Choice("row"),
    "area_m2": Choice("area"),
    None: Choice("season"),
}
"""What a yield is of, by the size that plantings were given in."""


class Words:
    """Says a plan in the household's measures."""

    def __init__(self, plan: Plan) -> None:
        self.plan, self.state = plan, plan.state
        self.measures = plan.state.settings.newest("measures", "us") or "us"
        self.is_metric = self.measures == "metric"

    # -- figures -------------------------------------------------------------------------

    def weight(self, grams: float | None) -> str | None:
        """Return a weight as people say it."""
        if grams is None:
            return None
        return measured(format_whole(round(grams * 1000), "mass", measures=self.measures))

    def ground(self, area: float | None) -> str | None:
        """Return ground in square feet, or square metres where the household measures so."""
        if area is None:
            return None
        metric = self.is_metric
        return amount(f"{_number(area)} m2" if metric else f"{_number(area / M2_PER_FOOT2)} sq ft")

    def units(self, crop: CropPlan, many: float) -> str:
        """Return so many plants, or so much row or ground, in words."""
        size = crop.growth.size
        if size == "area_m2":
            return self.ground(many) or ""
        if size == "row_m":
            metric = self.is_metric
            row = f"{_number(many)} m" if metric else f"{_number(many / METRES_PER_FOOT)} ft"
            return amount(f"{row} of row")
        return amount(f"{many:.0f} plant" + ("" if round(many) == 1 else "s"))

    def beds(self, crop: CropPlan) -> list[str]:
        """Return the beds that a crop goes to, or stands in."""
        if crop.growth.standing is not None:
            plantings = crop.growth.standing.plantings
            names = [self.plan.bed_name(p.pair[1]) for p in plantings]
            return list(dict.fromkeys(name for name in names if name is not None))
        return list(crop.fitted or ())

    def in_beds(self, crop: CropPlan) -> list[str]:
        """Return how much goes to each bed, in words."""
        fitted = (crop.fitted or {}).items()
        return [
            sentence("plan-in-bed", many=self.units(crop, many), bed=bed) for bed, many in fitted
        ]

    def published(self, crop: CropPlan) -> str | None:
        """Return where a published yield was read."""
        found = crop.growth.published
        return None if found is None else "; ".join(str(one) for one in found.sources)

    # -- one crop ------------------------------------------------------------------------

    def because(self, crop: CropPlan) -> str:
        """Return what a row rests on."""
        says = [self._wanted(crop), self._yields(crop)]
        if crop.growth.standing is not None:
            day = Day(min(day_text(p.day) for p in crop.growth.standing.plantings))
            says.append(sentence("plan-standing-since", day=day))
        elif crop.short and crop.fitted is not None:
            many, of = (self.units(crop, one or 0) for one in (crop.planned, crop.likely))
            short = self.weight(crop.short)
            says.append(sentence("plan-beds-take", many=many, many2=of, amount=short))
        elif crop.short:
            says.append(sentence("plan-short", amount=self.weight(crop.short)))
        return opening(joined("; ", [one for one in says if one]))

    def _wanted(self, crop: CropPlan) -> str:
        says = [self.want(want) for want, _ in crop.products[:3]]
        if len(crop.products) > 3:
            says.append(sentence("plan-more", n=len(crop.products) - 3))
        if crop.target is not None:
            says.append(sentence("plan-of-it-in-all", amount=crop.target.said))
        elif fresh := crop.value("fresh_wanted_g"):
            own = self.plan.wants.of.get(crop.item)
            says.append(self._fresh(fresh, None if own is None else own.liked))
        return (
            sentence("plan-for", list=joined(", ", says)) if says else sentence("plan-nobody-ate")
        )

    def _fresh(self, grams: float, liked: Liked | None) -> str:
        amount_, more = self.weight(grams), _more(liked)
        if liked is None or not more:
            return sentence("plan-fresh", amount=amount_)
        of = measured(f"{liked.mean:.1f}")
        if more > 0:
            return sentence("plan-fresh-more", amount=amount_, n=more, n2=of)
        return sentence("plan-fresh-less", amount=amount_, n=-more, n2=of)

    def want(self, want: Want) -> str:
        """Return a want in words: ``45 quart jars of tomato sauce (target)``."""
        name = self.state.facts.names[want.item]
        if want.source == "use":
            made = self.plan.recipes.made.get(want.item)
            jar = None if made is None or made.jar is None else self.state.facts.names[made.jar]
            much = format_whole(
                round(want.whole[1]), self.state.facts.measure[want.item],
                measures=self.measures, jar=jar,
            )  # fmt: skip
            how = self._as_last_year(want.liked)
            return sentence("plan-of-item", amount=amount(much), item=name, how=how)
        how = sentence("plan-asked" if want.source == "asked" else "plan-target")
        return sentence("plan-of-item", amount=want.amount, item=name, how=how)

    @staticmethod
    def _as_last_year(liked: Liked | None) -> Sentence:
        more = _more(liked)
        if liked is None or not more:
            return sentence("plan-last-year")
        of = measured(f"{liked.mean:.1f}")
        if more > 0:
            return sentence("plan-last-year-more", n=more, n2=of)
        return sentence("plan-last-year-less", n=-more, n2=of)

    def _yields(self, crop: CropPlan) -> str:
        growth = crop.growth
        if growth.ahead is None:
            return sentence("plan-yield-unknown")
        unit = sentence("plan-unit", unit=_UNITS[growth.size])
        says: list[str] = []
        if growth.published is not None:
            span = self._span(growth.published.low_g, growth.published.high_g)
            note = growth.published.note
            says.append(sentence("plan-published", span=span, unit=unit, note=note))
        if growth.seasons:
            each = sorted(one.each for one in growth.seasons)
            span = self._span(each[0], each[-1])
            says.append(sentence("plan-own-seasons", n=len(each), span=span, unit=unit))
        return joined("; ", says)

    def _span(self, low: float, high: float) -> str:
        ends = self.weight(low), self.weight(high)
        if ends[0] == ends[1]:
            return ends[0] or ""
        return sentence("plan-span", low=ends[0], high=ends[1])

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
            ground = {"wanted": self.ground(wanted), "there": self.ground(sum(plan.beds.values()))}
            out = [sentence("plan-ground", n=plan.garden.next, beds=len(plan.beds), **ground)]
        out += leave_out(self)
        if any(crop.fitted is not None for crop in plan.crops):
            out.append(sentence("plan-even-chance"))
        for crop in plan.crops:
            if crop.fitted is not None and (len(crop.fitted) != 1 or crop.short):
                where = Names(tuple(self.in_beds(crop) or [sentence("plan-no-room")]))
                out.append(
                    sentence(
                        "plan-where-short",
                        crop=crop.name,
                        where=where,
                        amount=self.weight(crop.short),
                    )
                    if crop.short
                    else sentence("plan-where", crop=crop.name, where=where)
                )
        if any(c.short for c in plan.crops if c.fitted is not None):
            others = Names(tuple(Code(one) for one in AIMS if one != plan.asked.aim))
            aim = Choice(plan.asked.aim)
            out.append(sentence("plan-not-sufficient", aim=aim, others=others))
        out += [*failing(self), *self._kept_out()]
        for crop in plan.crops:
            if crop.fitted is None and crop.short:
                brings = {"amount": self.weight(crop.brings), "amount2": self.weight(crop.short)}
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
            return [sentence("plan-nobody-ate-it", name=name)]
        if growth.ahead is None:
            known = any(one.low_g is not None for one in published_yields(name))
            one = sentence("plan-one", unit=_UNITS[growth.size])
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

    def rests_on(self, crop: CropPlan) -> list[str]:
        """Return the ids of what a row rests on."""
        out = ["shelf-eaten-up"]
        if (crop.value("fresh_wanted_g") and crop.target is None) or any(
            want.source == "use" for want, _ in crop.products
        ):
            out.append("use-as-last-year")
            if any(w.liked for w in self._wants_of(crop)):
                out.append("liked-counts")
        if any(self.plan.recipes.made[want.item].recipe is not None for want, _ in crop.products):
            out.append("by-recipe")
        if crop.growth.published is not None:
            out.append("published-yield")
        if crop.growth.ahead is not None:
            out.append("seasons-weighed")
        if crop.fitted is not None:
            out += ["whole-season", "bed-as-planted"]
        return out

    def _wants_of(self, crop: CropPlan) -> list[Want]:
        own = self.plan.wants.of.get(crop.item)
        return [want for want, _ in crop.products] + ([] if own is None else [own])

    def assumptions(self) -> list[Assumption]:
        """Return what the rows rest on, in words."""
        used = {one for crop in self.plan.crops for one in self.rests_on(crop)}
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


def _more(liked: Liked | None) -> int:
    """Return how many per cent more a liked thing counts; 0 where that is next to nothing."""
    if liked is None or round(liked.factor, 2) == 1:
        return 0
    return round(100 * (liked.factor - 1))


def _number(value: float) -> str:
    return f"{value:,.0f}" if value >= 9.95 else f"{value:.2g}"
