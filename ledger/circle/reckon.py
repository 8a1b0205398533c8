"""A household's season sheet, from the answers of its own book."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any

from ledger import clock
from ledger.circle.call import Call, Product, Season
from ledger.circle.figures import CHANGES, CROP, HOUSEHOLD, PRODUCT, Figure, clamped
from ledger.circle.sheet import Sheet, check_zone
from ledger.errors import InputError
from ledger.kinds import CANNING
from ledger.messages import Day, Message, Names, sentence

if TYPE_CHECKING:
    from ledger.book import Book
    from ledger.replay import State

__all__ = ["figures_of", "hints_of", "sheet_of"]

_QUART_ML = 946.352946
_SHORT = ("short of it", "against every published process")


def sheet_of(book: Book, call: Call, card: str, zone: str) -> Sheet:
    """Return a household's sealed sheet of a call's season.

    Parameters
    ----------
    card : str
        The card that the household drew; it is not on the sheet.
    zone : str
        One of the call's.

    Raises
    ------
    InputError
        Card or zone are none.
    """
    check_zone(call, zone)
    made_on = clock.today().isoformat()
    return Sheet.make(call, card, zone, figures_of(book, call), made_on)


def figures_of(book: Book, call: Call) -> dict[str, int | None]:
    """Return the figures of a book for a call: whole numbers within the format's limits, by name.

    Raises
    ------
    InputError
        Nothing of the season is written down: noughts of an empty book would say what is not so.
    """
    now = _Season(book, call, Season(call.from_, call.to))
    if now.is_blank:
        raise InputError(
            "book",
            Message.of("refusal-season-blank", first=Day(call.from_), last=Day(call.to)),
        )
    out: dict[str, int | None] = _put(HOUSEHOLD, now.household())
    if call.before is not None:
        earlier = _Season(book, call, call.before)
        out |= _put(CHANGES, _changes(now, earlier))
    for number, product in enumerate(call.products, 1):
        out |= _put(PRODUCT, now.product(product), f"p{number}_")
    for number, crop in enumerate(call.crops, 1):
        out |= _put(CROP, now.crop(crop), f"c{number}_")
    return out


def hints_of(book: Book, call: Call) -> dict[str, str]:
    """Return, for figures of products that are not known for want of a price, what has none."""
    season = _Season(book, call, Season(call.from_, call.to))
    out: dict[str, str] = {}
    for number, product in enumerate(call.products, 1):
        named = sorted({name for r in season.made_of(product) for name in r["unpriced"] or ()})
        if named:
            out[f"p{number}_cost"] = sentence("circle-unpriced", names=Names(tuple(named[:3])))
    return out


def _put(
    several: Iterable[Figure], values: dict[str, float | None], before: str = ""
) -> dict[str, int | None]:
    return {before + one.name: clamped(one, values[one.name]) for one in several}


def _per_mille(part: float, whole: float) -> float | None:
    return 1000 * part / whole if whole else None


def _sum(records: list[dict[str, Any]], name: str) -> float:
    return float(sum(r[name] for r in records if r[name] is not None))


@dataclass
class _Season:
    """The answers of one season of a book, as of its last day."""

    book: Book
    call: Call
    days: Season

    @cached_property
    def state(self) -> State:
        return self.book.state(as_of=self.days.to)

    def _asked(self, name: str, **options: Any) -> Any:
        from ledger.projections import PROJECTIONS

        return PROJECTIONS[name].build(self.state, **options)

    @cached_property
    def made(self) -> list[dict[str, Any]]:
        """The made entries of the season, each with the method of its batch."""
        methods = {
            self.state.entry_id(int(ev)): (self.state.body(int(ev)))
            for ev in self.state.events("put_up")
        }
        out = []
        for record in self._asked("jar-cost").rows():
            if self.days.from_ <= record["on"] <= self.days.to:
                body = methods.get(record["batch"], {})
                out.append({**record, "method": body.get("method"), "makes": body.get("makes")})
        self._bodies = {record["batch"]: methods.get(record["batch"], {}) for record in out}
        return out

    @cached_property
    def canned(self) -> tuple[int, int]:
        """Jars of boiling water and pressure, and those of them that did not seal."""
        jars = sum(r["jars"] or 0 for r in self.made if r["method"] in CANNING)
        unsealed = sum(
            line.get("unsealed") or 0
            for body in self._bodies.values()
            if body.get("method") in CANNING
            for line in body.get("made", ())
        )
        return jars, min(unsealed, jars)

    @cached_property
    def standings(self) -> list[str]:
        """How the season's batches stand beside published processes."""
        return [
            r["standing"]
            for r in self._asked("as-published").rows()
            if r["standing"] and self.days.from_ <= r["on"] <= self.days.to
        ]

    @cached_property
    def short(self) -> int:
        return sum(one in _SHORT for one in self.standings)

    @cached_property
    def own(self) -> dict[str, float | None]:
        totals = self._asked("our-table", from_=self.days.from_, to=self.days.to).totals
        found = totals.get("eaten_based", {})
        return {
            name: None if found.get(name) is None else 1000 * found[name]
            for name in ("energy", "weight", "value")
        }

    @cached_property
    def waste(self) -> float | None:
        answer = self._asked("our-table", from_=self.days.from_, to=self.days.to, paths=True)
        rows = [r for r in answer.rows() if r["grams"]]
        lost = [r for r in rows if r["to"] == "lost"]
        return _per_mille(_sum(lost, "grams"), _sum(rows, "grams"))

    @property
    def is_blank(self) -> bool:
        """Whether nothing was put up, eaten or handled in the season."""
        return not self.made and self.waste is None and self.own["energy"] is None

    @property
    def has_currency(self) -> bool:
        currency: str = self._asked("jar-cost", item="").currency
        return currency == self.call.currency

    def household(self) -> dict[str, float | None]:
        """Return the figures of the household, unrounded."""
        jars, unsealed = self.canned
        kept, old = self._kept()
        stands = self.standings
        money = self.has_currency
        season = self._asked("season", season=self.call.season)
        people = self.book.setting("people")
        return {
            "people": float(people) if people else None,
            "batches": len({r["batch"] for r in self.made}),
            "skills": self._asked("know-how").totals.get("in_hand"),
            "judged": len(stands),
            "short": self.short,
            "no_process": stands.count("no published process"),
            "not_recorded": stands.count("not recorded"),
            "canned": jars,
            "unsealed": unsealed,
            "kept": kept,
            "kept_over_year": old,
            "own_energy": self.own["energy"],
            "own_weight": self.own["weight"],
            "own_value": self.own["value"],
            "waste": self.waste,
            "hours": _sum(self.made, "labour_hours") + (season.totals.get("hours") or 0),
            "spent": 100 * _sum(self.made, "cost.out_of_pocket") if money else None,
            "saved": 100 * _sum(self.made, "saved") if money and _any(self.made, "saved") else None,
        }

    def _kept(self) -> tuple[float, float]:
        last = dt.date.fromisoformat(self.days.to)
        try:
            year_ago = last.replace(year=last.year - 1).isoformat()
        except ValueError:  # 29 February
            year_ago = last.replace(year=last.year - 1, day=28).isoformat()
        rows = [r for r in self._asked("shelf").rows() if r["jars_left"]]
        old = [r for r in rows if r["on"] < year_ago]
        kept = round(_sum(rows, "jars_left"))
        return kept, min(round(_sum(old, "jars_left")), kept)

    def made_of(self, product: Product) -> list[dict[str, Any]]:
        """Return the made entries of a product by its method; an item by any of the book's names."""
        item = self.state.facts.find(product.item)
        if item is None:
            return []
        return [
            r
            for r in self.made
            if r["method"] == product.method and self.state.facts.find(r["item"]) == item
        ]

    def product(self, product: Product) -> dict[str, float | None]:
        """Return the figures of a product, unrounded."""
        made = self.made_of(product)
        quarts = _sum(made, "volume_ml") / _QUART_ML
        is_known = made and quarts and self.has_currency and not any(r["at_least"] for r in made)
        return {
            "jars": _sum(made, "jars"),
            "cost": 100 * _sum(made, "cost.all_in") / quarts if is_known else None,
            "minutes": _minutes(made),
            "learning": self._learning(product) if made else None,
        }

    def _learning(self, product: Product) -> float | None:
        item = self.state.facts.find(product.item)
        for record in self._asked("know-how").rows():
            is_ours = record["sort"] == "making" and record["person"] is None
            if is_ours and self.state.facts.find(record["skill"]) == item:
                rate = record["learning_rate"]
                return None if rate is None else 1000 * rate
        return None

    def all_minutes(self) -> float | None:
        """Return the minutes a quart of all products of the call together."""
        return _minutes([r for one in self.call.products for r in self.made_of(one)])

    def crop(self, crop: str) -> dict[str, float | None]:
        """Return ground and yield of a crop, varieties and beds together."""
        item = self.state.facts.find(crop)
        for record in self._asked("season", season=self.call.season, by="crop").rows():
            area = record["area_m2"]
            if item is not None and self.state.facts.find(record["crop"]) == item:
                both = area and record["picked_g"] is not None
                return {
                    "area": 100 * area if both else None,
                    "yield": record["picked_g"] / area if both else None,
                }
        return {"area": None, "yield": None}


def _any(records: list[dict[str, Any]], name: str) -> bool:
    return any(r[name] is not None for r in records)


def _minutes(made: list[dict[str, Any]]) -> float | None:
    """Return minutes of work a quart, of the entries that say both."""
    known = [r for r in made if r["labour_hours"] and r["volume_ml"]]
    quarts = _sum(known, "volume_ml") / _QUART_ML
    return 60 * _sum(known, "labour_hours") / quarts if quarts else None


def _changes(now: _Season, then: _Season) -> dict[str, float | None]:
    def less(a: float | None, b: float | None) -> float | None:
        return None if a is None or b is None else a - b

    return {
        "change_short": less(
            _per_mille(now.short, len(now.standings)), _per_mille(then.short, len(then.standings))
        ),
        "change_unsealed": less(_per_mille(*now.canned[::-1]), _per_mille(*then.canned[::-1])),
        "change_waste": less(now.waste, then.waste),
        "change_own_energy": less(now.own["energy"], then.own["energy"]),
        "change_minutes": less(now.all_minutes(), then.all_minutes()),
    }
