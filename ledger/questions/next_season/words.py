"""The plan of a season in words: rows, totals, what it rests on and what is missing."""

from __future__ import annotations

from functools import cached_property
from typing import Any
from urllib.parse import quote

from ledger.amounts import format_whole
from ledger.answers import Assumption
from ledger.questions.next_season.levers import levers
from ledger.questions.next_season.says import failing, leave_out
from ledger.questions.planning.asked import AIMS
from ledger.questions.planning.plan import CropPlan, Plan
from ledger.questions.planning.wants import Liked, Want
from ledger.questions.targets import YEAR_DAYS
from ledger.reference.planting import M2_PER_FOOT2, METRES_PER_FOOT, published_yields
from ledger.replay.state import day_text

__all__ = ["Words"]


class Words:
    """Says a plan in the household's measures."""

    def __init__(self, plan: Plan) -> None:
        self.plan, self.state = plan, plan.state
        self.measures = plan.state.settings.newest("measures", "us") or "us"
        self.is_metric = self.measures == "metric"

    # -- figures -------------------------------------------------------------------------

    def address(self, crop: CropPlan) -> str:
        """Return the address of a crop's figures, with what was asked otherwise."""
        asked = self.plan.asked.address
        return f"next-season/{quote(crop.name, safe=' ')}" + (f"/{asked}" if asked else "")

    def weight(self, grams: float | None) -> str | None:
        """Return a weight as people say it."""
        if grams is None:
            return None
        return format_whole(round(grams * 1000), "mass", measures=self.measures)

    def ground(self, area: float | None) -> str | None:
        """Return ground in square feet, or square metres where the household measures so."""
        if area is None:
            return None
        return f"{_number(area)} m2" if self.is_metric else f"{_number(area / M2_PER_FOOT2)} sq ft"

    def units(self, crop: CropPlan, many: float) -> str:
        """Return so many plants, or so much row or ground, in words."""
        size = crop.growth.size
        if size == "area_m2":
            return self.ground(many) or ""
        if size == "row_m":
            return f"{_number(many)} m of row" if self.is_metric else f"{_number(many / METRES_PER_FOOT)} ft of row"  # fmt: skip
        return f"{many:.0f} plant" + ("" if round(many) == 1 else "s")

    def area(self, crop: CropPlan) -> float | None:
        """Return the ground of the likely number, in square metres."""
        if crop.likely is None or crop.growth.space_m2 is None:
            return None
        return crop.likely * crop.growth.space_m2

    def row(self, crop: CropPlan) -> float | None:
        """Return the length of row of the likely number, in metres."""
        if crop.likely is None or crop.growth.size is None:
            return None
        if crop.growth.size == "row_m":
            return crop.likely
        per = self.plan.garden.per(crop.item, crop.growth.size, "row_m")
        return None if per is None else crop.likely * per

    def beds(self, crop: CropPlan) -> list[str]:
        """Return the beds that a crop goes to, or stands in."""
        if crop.growth.standing is not None:
            plantings = crop.growth.standing.plantings
            names = [self.plan.bed_name(p.pair[1]) for p in plantings]
            return list(dict.fromkeys(name for name in names if name is not None))
        return list(crop.fitted or ())

    def in_beds(self, crop: CropPlan) -> list[str]:
        """Return how much goes to each bed, in words."""
        return [f"{self.units(crop, many)} in {bed}" for bed, many in (crop.fitted or {}).items()]

    def published(self, crop: CropPlan) -> str | None:
        """Return where a published yield was read."""
        found = crop.growth.published
        return None if found is None else "; ".join(str(one) for one in found.sources)

    # -- one crop ------------------------------------------------------------------------

    def because(self, crop: CropPlan) -> str:
        """Return what a row rests on."""
        says = [self._wanted(crop), self._yields(crop)]
        if crop.growth.standing is not None:
            says.append(
                f"standing since {min(day_text(p.day) for p in crop.growth.standing.plantings)}, so no new place is looked for"
            )
        elif crop.short and crop.fitted is not None:
            says.append(f"the beds take {self.units(crop, crop.planned or 0)} of {self.units(crop, crop.likely or 0)}, {self.weight(crop.short)} short")  # fmt: skip
        elif crop.short:
            says.append(f"{self.weight(crop.short)} short")
        text = "; ".join(one for one in says if one)
        return text[:1].upper() + text[1:]

    def _wanted(self, crop: CropPlan) -> str:
        says = [self.want(want) for want, _ in crop.products[:3]]
        if len(crop.products) > 3:
            says.append(f"{len(crop.products) - 3} more")
        if crop.target is not None:
            says.append(f"{crop.target.said} of it in all")
        elif crop.fresh[1]:
            own = self.plan.wants.of.get(crop.item)
            liked = None if own is None else own.liked
            more = (
                "" if liked is None or round(liked.factor, 2) == 1 else f" ({self._liking(liked)})"
            )
            says.append(f"{self.weight(crop.fresh[1])} fresh{more}")
        return f"for {', '.join(says)}" if says else "nobody ate any, and there is no target"

    def want(self, want: Want) -> str:
        """Return a want in words: ``45 quart jars of tomato sauce (target)``."""
        name = self.state.facts.names[want.item]
        if want.source == "use":
            made = self.plan.recipes.made.get(want.item)
            jar = None if made is None or made.jar is None else self.state.facts.names[made.jar]
            amount = format_whole(
                round(want.whole[1]), self.state.facts.measure[want.item],
                measures=self.measures, jar=jar,
            )  # fmt: skip
            if want.liked is None or round(want.liked.factor, 2) == 1:
                return f"{amount} of {name} (last year)"
            return f"{amount} of {name} (last year with {self._liking(want.liked)})"
        amount, _, how = want.said.rpartition(" (")
        return f"{amount.removesuffix(' per year')} of {name} ({how}"

    @staticmethod
    def _liking(liked: Liked) -> str:
        more = round(100 * (liked.factor - 1))
        return f"{abs(more)} % {'added' if more > 0 else 'taken off'}: liked {liked.mean:.1f} of 5"

    def _yields(self, crop: CropPlan) -> str:
        growth = crop.growth
        if growth.ahead is None:
            return "yield not known"
        unit, says = crop.unit.removeprefix("whole "), []
        if growth.published is not None:
            span = self._span(growth.published.low_g, growth.published.high_g)
            says.append(f"published: {span} a {unit} ({growth.published.note})")
        if growth.seasons:
            each = sorted(one.each for one in growth.seasons)
            many = f"{len(each)} season" + ("" if len(each) == 1 else "s")
            says.append(f"{many} of your own: {self._span(each[0], each[-1])} a {unit}")
        return "; ".join(says)

    def _span(self, low: float, high: float) -> str:
        ends = self.weight(low), self.weight(high)
        return str(ends[0]) if ends[0] == ends[1] else f"{ends[0]} to {ends[1]}"

    # -- all of it -----------------------------------------------------------------------

    def totals(self) -> dict[str, Any]:
        """Return the totals of the answer."""
        plan = self.plan
        wanted = [area for crop in plan.crops if (area := self.area(crop)) is not None]
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
        out = [f"For the season of {plan.garden.next}."]
        if wanted is not None and plan.beds:
            there = sum(plan.beds.values())
            many = "bed" if len(plan.beds) == 1 else f"{len(plan.beds)} beds"
            out = [f"For the season of {plan.garden.next}: {self.ground(wanted)} wanted, {self.ground(there)} in {many}."]  # fmt: skip
        out += leave_out(self)
        if any(crop.fitted is not None for crop in plan.crops):
            out.append(
                "Plants give an even chance of enough; 9 in 10: enough in nine years of ten."
            )
        for crop in plan.crops:
            if crop.fitted is not None and (len(crop.fitted) != 1 or crop.short):
                where = ", ".join(self.in_beds(crop)) or "no room"
                short = f"; {self.weight(crop.short)} short" if crop.short else ""
                out.append(f"{crop.name}: {where}{short}.")
        if any(c.short for c in plan.crops if c.fitted is not None):
            others = ", ".join(one for one in AIMS if one != plan.asked.aim)
            out.append(f"The beds do not suffice; this brings most by {plan.asked.aim} (--for {others} weighs otherwise).")  # fmt: skip
        out += [*failing(self), *self._kept_out()]
        for crop in plan.crops:
            if crop.fitted is None and crop.short:
                what = "what stands" if crop.growth.standing else "a middling season"
                out.append(f"{crop.name}: {what} brings {self.weight(crop.brings)}, {self.weight(crop.short)} short.")  # fmt: skip
        return out

    def _kept_out(self) -> list[str]:
        """Return which crops the rotation keeps out of which beds, those of one lot together."""
        lots: dict[tuple[str, ...], list[str]] = {}
        for name, beds in (self.plan.fitted.kept_out if self.plan.fitted else {}).items():
            lots.setdefault(tuple(sorted(beds)), []).append(name)
        return [
            f"Kept out of {', '.join(beds)}, where their family stood: {', '.join(names)}."
            for beds, names in sorted(lots.items())
        ]

    def missing(self) -> list[str]:
        """Return what is not known, and what would supply it."""
        plan, out = self.plan, self.missing_of_use()
        if not plan.crops:
            out.append("Nothing that grows here is wanted yet: `croftbook harvest` and `croftbook plant` say what grows, `croftbook meal` and `croftbook target` what is wanted.")  # fmt: skip
            return out
        out += self._never_made()
        for crop in plan.crops:
            out += self._missing_of(crop)
        if not plan.beds:
            out.append("No bed's ground is known: `croftbook plant tomato --bed 'south bed' --area '40 sq ft'` says it, or --beds 'south bed=40 sq ft' here.")  # fmt: skip
        elif unknown := [b for b in plan.garden.beds[2] if b not in plan.beds]:
            out.append(f"The ground of {', '.join(unknown)} is not known, so nothing was put there: give --area when planting.")  # fmt: skip
        if plan.fitted is not None and not plan.fitted.proven:
            out.append("The time ran out before a better plan could be ruled out.")
        return out

    def missing_of_use(self) -> list[str]:
        """Return what is not known of a year's wants."""
        wants = self.plan.wants
        out = list(wants.missing)
        if 0 < wants.days < YEAR_DAYS:
            out.append(f"Only {wants.days} days of use are written down, and stand for the whole year: a target says better.")  # fmt: skip
        return out

    def _never_made(self) -> list[str]:
        plan = self.plan
        came = set(self.state.lots["item"].tolist())
        grown = {crop.item for crop in plan.crops}
        return [
            f"Nobody wrote down how {self.state.facts.names[item]} is made: `croftbook recipe` or a first batch says what it takes."
            for item, want in plan.wants.of.items()
            if want.source != "use" and item not in plan.recipes.made
            and item not in came and item not in grown
        ]  # fmt: skip

    def _missing_of(self, crop: CropPlan) -> list[str]:
        name, growth = crop.name, crop.growth
        if crop.wanted is None:
            return [f"No weight of {name} is known: `croftbook item \"{name}\" --g-per \"piece 120\"`, with its own figure, gives one."]  # fmt: skip
        if not crop.wanted:
            return [f"Nobody ate any {name}, and there is no target: `croftbook target '60 lb {name}' --per year` sets one."]  # fmt: skip
        if growth.ahead is None:
            known = any(one.low_g is not None for one in published_yields(name))
            other = ", or one planting with its --row and --area, for the published yield" if known else ""  # fmt: skip
            return [f"What {self._one(crop)} of {name} brings is not known: one finished season of plantings and pickings tells{other}."]  # fmt: skip
        out = []
        if growth.unplanted:
            out.append(f"{name}: no planting says how much was planted, so the answer is in length of row, by the published yield.")  # fmt: skip
        elif growth.size is not None and growth.space_m2 is None:
            out.append(f"{name}: no planting says both its ground and how much was planted, so it was not fitted into the beds.")  # fmt: skip
        if self.plan.asked.aim == "value" and self.plan.value_of(crop.item) is None:
            out.append(f"No shop price of {name} is known, so it counts for nothing here: `croftbook price`.")  # fmt: skip
        if self.plan.asked.aim == "energy" and not self.state.facts.kcal_per_gram(crop.item):
            out.append(f"No energy of {name} is known, so it counts for nothing here: `croftbook item`.")  # fmt: skip
        return out

    def _one(self, crop: CropPlan) -> str:
        return f"one {crop.unit}" if crop.growth.size else "a planting"

    # -- what it rests on ----------------------------------------------------------------

    def rests_on(self, crop: CropPlan) -> list[str]:
        """Return the ids of what a row rests on."""
        out = ["shelf-eaten-up"]
        if (crop.fresh[1] and crop.target is None) or any(
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
        return [Assumption(name, text, self._events(name)) for name, text in self._texts.items() if name in used]  # fmt: skip

    @cached_property
    def _texts(self) -> dict[str, str]:
        facts, made = self.state.facts, self.plan.recipes.made
        by_recipe = sorted(
            {facts.names[w.item] for c in self.plan.crops for w, _ in c.products if made[w.item].recipe is not None}
        )  # fmt: skip
        notes = sorted({f"{c.name} ({c.growth.published.note.replace(', ', '; ')})" for c in self.plan.crops if c.growth.published})  # fmt: skip
        return {
            "use-as-last-year": "Where no target is set, next year takes what was eaten and given away in the last 365 days.",
            "shelf-eaten-up": "What is on the shelf today is taken as eaten before the next harvest is put up.",
            "by-recipe": f"Never made yet, reckoned by the recipe: {', '.join(by_recipe)}.",
            "liked-counts": "Where no target is set, what was liked counts up to a fifth more and what was not up to a fifth less; what was thrown away does not count.",
            "published-yield": f"By published yields: {', '.join(notes)}.",
            "seasons-weighed": "The household's seasons and the published yield are weighed by how far each can be trusted; with few seasons the book counts more. Nine in ten leaves out the worst tenth, failed seasons included.",
            "whole-season": "A crop takes its ground for the whole season; nothing follows it there.",
            "bed-as-planted": "A bed has as much ground as was most planted in it in one season.",
        }

    def _events(self, name: str) -> tuple[str, ...]:
        if name != "bed-as-planted":
            return ()
        shown = self.plan.garden.beds[1]
        return tuple(self.state.event_id(p.ev) for several in shown.values() for p in several)


def _number(value: float) -> str:
    return f"{value:,.0f}" if value >= 9.95 else f"{value:.2g}"
