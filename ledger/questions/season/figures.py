"""The formulas of a season: each gives the column for every plot, and the tree for one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.figures import Figure, at_least_none, choose, known_where, nothing, total
from ledger.questions.costs.sources import unit_factor
from ledger.questions.garden.grown import Grown, beds_grown, crops_grown
from ledger.questions.season.earlier import Before
from ledger.questions.season.went import FATES, Went
from ledger.questions.season.wishes import Wishes

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Season", "bed_figures", "crop_figures", "weights"]

_SIZES = {"per_plant_g": "plants", "per_m2_g": "area_m2", "per_row_m_g": "row_m"}
_RANGE = {"low": "lowest", "likely": "middle", "high": "highest"}


class Season:
    """Every figure of plots, a row a plot of any season.

    Attributes
    ----------
    of : dict of str to Figure
        By the name of the column.
    """

    def __init__(self, grown: Grown) -> None:
        self.grown, self.before = grown, Before(grown)
        self.went, self.wishes = Went(grown), Wishes(grown)
        self.kept = kept(grown)
        sizes = self.sizes = grown.sizes
        weight = {
            f"{name}_g": grown.weight(amount).called(name, crop=grown.name)
            for name, amount in (("trimmed", grown.said("trimmed")), ("kept", self.kept))
        }
        yields = {name: grown.per(size).called(name) for name, size in _SIZES.items()}
        self.of: dict[str, Figure] = {
            **sizes, "picked_g": grown.picked_g, **weight, **yields, **self._money(), **self._fates(),
            **self._past(sizes), **self._published(sizes), **self._targets(),
        }  # fmt: skip

    # -- money and work -----------------------------------------------------------------

    def _money(self) -> dict[str, Figure]:
        grown, went = self.grown, self.went
        worth = (self.kept * grown.shop).called("a-picking")
        value = known_where(
            grown.has_price, grown.among(grown.priced).sum(worth, "money"), "no-shop-price", "money"
        ).called("shop_value", crop=grown.name)
        uneaten = went.of_lot(went.sources.left / went.whole).called("never-eaten")
        late = went.late.sum((worth * uneaten).called("a-picking"), "money")
        fed = went.surplus_taken.sum(went.sources.taken).called("fed-or-composted") / went.whole
        given_up = (worth * went.of_lot(fed).called("part-of-picking")).called("glut-worth")
        spared = went.of_lot(went.spared).called("feed-spared")
        glut = at_least_none((given_up - spared).called("a-glut"), "nothing")
        strands, share, taken = went.strands
        out = {
            "inputs": strands.sum((share * taken).called("inputs"), "money").called("inputs"),
            "shop_value": value,
            "kept_too_long": self._where_priced(late, "kept_too_long"),
            "glut": self._where_priced(
                went.surplus.sum(glut.called("a-glut"), "money"), "glut"
            ),
        }  # fmt: skip
        off = total(out["inputs"], out["kept_too_long"], out["glut"]).called("off-value")
        hours = self._hours()
        net = (value - off).called("net")
        return {
            **out,
            "net": net,
            "hours": hours,
            "net_per_hour": (net / hours).called("net_per_hour"),
        }

    def _where_priced(self, figure: Figure, label: str) -> Figure:
        known = known_where(self.grown.has_price, figure, "no-shop-price", "money")
        return known.called(label, crop=self.grown.name)

    def _hours(self) -> Figure:
        grown = self.grown
        minutes = grown.minutes(grown.picked["ev"])
        part = choose(grown.alone, minutes, minutes.called("minutes") * grown.work_part)
        worked = grown.worked.sum(part.called("work-on-it"), "minutes")
        planted = grown.planting_work.sum(grown.minutes(grown.planting_ev), "minutes")
        whole = total(worked, planted).called("minutes") / unit_factor(
            60.0, "minutes per hour", "per-hour"
        )
        return known_where(grown.has_work, whole.called("hours"), "no-work", "hours").called(
            "hours"
        )

    # -- where it went ------------------------------------------------------------------

    def _fates(self) -> dict[str, Figure]:
        went = self.went
        taken = (went.sources.taken * went.of_allocation(went.lot_grams)).called("taken-weight")
        grams = {fate: went.went(fate).sum(taken, "g") for fate in FATES}
        grams["on hand"] = went.here.sum(
            (went.sources.left * went.lot_grams).called("left-weight"), "g"
        )
        return {
            f"where_it_went.{fate}": known_where(
                went.fates_known, one.called(fate), "no-weight-of", "g"
            ).called(fate, crop=self.grown.name)
            for fate, one in grams.items()
        }

    # -- other seasons ------------------------------------------------------------------

    def _past(self, sizes: dict[str, Figure]) -> dict[str, Figure]:
        before, each = self.before, weights(self.grown)
        last = before.all.sum(each, "g").called("last_season_g")
        to_date = before.by_now.sum(each, "g").called("last_season_to_date_g")
        out = {
            "last_season_g": known_where(before.has, last, "nothing-last-season"),
            "last_season_to_date_g": known_where(before.has, to_date, "nothing-last-season"),
        }
        rests = before.rests
        came = rests.pickings.sum(each.at(rests.pick), "g").called("rest-of-season")
        rest = (rests.scale(sizes) * came).called("season", season=rests.year, unit="g")
        over = nothing("g").called("season-over")
        for name, how in _RANGE.items():
            found = known_where(rests.has, rests.plots.among(how, rest, "g"), "no-earlier", "g")
            out[f"still_to_come_g.{name}"] = choose(before.is_over, over, found).called("to-come")
        return out

    # -- tables and wishes --------------------------------------------------------------

    def _published(self, sizes: dict[str, Figure]) -> dict[str, Figure]:
        wishes = self.wishes
        size = choose(wishes.by_row, sizes["row_m"], sizes["area_m2"])
        return {
            f"published_{end}_g": known_where(
                wishes.has_published, size * wishes.published(end, size), "no-published", "g"
            ).called(f"published_{end}_g")
            for end in ("low", "high")
        }

    def _targets(self) -> dict[str, Figure]:
        grown, wishes = self.grown, self.wishes
        wanted = wishes.wanted
        whole = (wanted.amount * wanted.grams).called("an-amount") * wanted.times.called("times")
        whole = whole.called("wanted-of-crop", crop=grown.name, unit="g")
        weight = (self.kept * grown.grams).called("this-picking")
        all_kept = grown.of_crop(grown.weighed).sum(weight, "g").at(grown.same)
        short = whole - all_kept.called("kept-of-crop", crop=grown.name)
        missing = at_least_none(short.called("missing"), "nothing")
        return {
            name: known_where(
                wanted.known, (figure * self._part()).called(name), "no-target", "g"
            ).called(name)
            for name, figure in (
                ("target_g", whole),
                ("short_of_target_g", missing.called("missing")),
            )
        }

    def _part(self) -> Figure:
        """Return the plot's part of its crop's season: by amount kept, before any evenly."""
        grown, wishes = self.grown, self.wishes
        parts = []
        for amount, unit in ((self.kept * grown.grams, "g"), (self.kept, None)):
            which = (grown.weighed,) if unit else ()
            here = grown.among(*which).sum(amount, unit).called("kept-here")
            every = grown.of_crop(*which).sum(amount, unit).at(grown.same)
            parts.append((here / every.called("all-kept")).called("part-of-crop"))
        kept = choose(wishes.by_weight, *parts)
        return choose(wishes.kept_any, kept, wishes.evenly)


def kept(grown: Grown) -> Figure:
    """Return what is left of each picking after trimming, in whole units."""
    whole, trimmed = grown.said("whole"), grown.said("trimmed")
    return choose(grown.was_trimmed, (whole - trimmed).called("kept"), whole)


def weights(grown: Grown) -> Figure:
    """Return the weight of each picking as picked; NaN where none is known."""
    return (grown.said("whole") * grown.grams).called("this-picking")


def bed_figures(state: State) -> Season:
    """Return the figures of every crop, variety and bed."""
    return Season(state.once(beds_grown))


def crop_figures(state: State) -> Season:
    """Return the figures of every crop, varieties and beds together."""
    return Season(state.once(crops_grown))
