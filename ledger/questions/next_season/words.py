"""One crop of the plan in words: amounts, beds, what its row rests on."""

from __future__ import annotations

from ledger.amounts import format_whole
from ledger.messages import Choice, Day, Sentence, joined, measured, opening, sentence
from ledger.messages.units import amount
from ledger.questions.planning.plan import CropPlan, Plan
from ledger.questions.planning.wants import Liked, Want
from ledger.reference.planting import M2_PER_FOOT2, METRES_PER_FOOT
from ledger.replay.state import day_text

__all__ = ["UNITS", "Words"]

UNITS = {
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
        unit = sentence("plan-unit", unit=UNITS[growth.size])
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


def _more(liked: Liked | None) -> int:
    """Return how many per cent more a liked thing counts; 0 where that is next to nothing."""
    if liked is None or round(liked.factor, 2) == 1:
        return 0
    return round(100 * (liked.factor - 1))


def _number(value: float) -> str:
    return f"{value:,.0f}" if value >= 9.95 else f"{value:.2g}"
