"""Fitting what is wanted into the beds: HiGHS finds how much of each crop, then beds are kept simple."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from ledger.methods.beds import Aim, Bed, Crop, fit_beds

__all__ = ["Fitted", "fit"]

_HAIR = 1e-6


@dataclass
class Fitted:
    """Units of each crop in each bed, ground left, and beds that the rotation closed.

    Attributes
    ----------
    units : dict of (str, str) to float
        By crop and bed.
    free_m2 : dict of str to float
    kept_out : dict of str to list of str
        Beds by crop.
    proven : bool
        Whether no better plan exists.
    """

    units: dict[tuple[str, str], float] = field(default_factory=dict)
    free_m2: dict[str, float] = field(default_factory=dict)
    kept_out: dict[str, list[str]] = field(default_factory=dict)
    proven: bool = True

    def of(self, crop: str) -> dict[str, float]:
        """Return the units of a crop by bed, the most first."""
        found = {bed: n for (name, bed), n in self.units.items() if name == crop and n > _HAIR}
        return dict(sorted(found.items(), key=lambda pair: -pair[1]))


def fit(
    crops: Sequence[Crop],
    beds: Sequence[Bed],
    most: Mapping[str, float],
    *,
    aim: Aim,
    rotation: bool,
) -> Fitted:
    """Return how many units of each crop go where.

    Parameters
    ----------
    crops, beds, aim, rotation
        As for `fit_beds`.
    most : mapping of str to float
        How many units of each crop are wanted at most.
    """
    plan = fit_beds(crops, beds, aim=aim, rotation=rotation, seconds=2.0)
    out = Fitted(
        {(p.crop, p.bed): p.units for p in plan.plantings},
        dict(plan.free_m2),
        plan.kept_out,
        plan.proven,
    )
    _fill(out, crops, beds, most)
    return _simpler(out, crops, beds)


def _fill(
    out: Fitted, crops: Sequence[Crop], beds: Sequence[Bed], most: Mapping[str, float]
) -> None:
    """Plant the last few that a plan proven to one part in a thousand may leave out."""
    for crop in crops:
        if crop.per_unit * max(crop.value, crop.energy, crop.wanted or 0) <= 0:
            continue
        lacking = most[crop.name] - sum(out.of(crop.name).values())
        shut = out.kept_out.get(crop.name, [])
        for bed in sorted(beds, key=lambda b: -out.units.get((crop.name, b.name), 0.0)):
            if lacking <= _HAIR or bed.name in shut:
                continue
            room = out.free_m2[bed.name] / crop.space_m2
            more = min(lacking, float(int(room + 1e-9)) if crop.whole else room)
            if more > _HAIR:
                key = crop.name, bed.name
                out.units[key] = out.units.get(key, 0.0) + more
                out.free_m2[bed.name] = max(0.0, out.free_m2[bed.name] - more * crop.space_m2)
                lacking -= more


def _simpler(out: Fitted, crops: Sequence[Crop], beds: Sequence[Bed]) -> Fitted:
    """Return a plan of the same amounts with each crop in as few beds as will do, if one is found.

    The programme does not mind in which bed a plant stands; whoever waters them does. Largest
    crop first, into the bed that it fills best, else on from the roomiest one.
    """
    wanted = {crop.name: sum(out.of(crop.name).values()) for crop in crops}
    free = {bed.name: bed.area_m2 for bed in beds}
    units: dict[tuple[str, str], float] = {}
    for crop in sorted(crops, key=lambda c: -wanted[c.name] * c.space_m2):
        lacking = wanted[crop.name]
        shut = out.kept_out.get(crop.name, [])
        while lacking > _HAIR:
            rooms = {
                bed: float(int(area / crop.space_m2 + 1e-9)) if crop.whole else area / crop.space_m2
                for bed, area in free.items()
                if bed not in shut and (crop.name, bed) not in units
            }
            rooms = {bed: room for bed, room in rooms.items() if room > _HAIR}
            if not rooms:
                return out
            holding = {bed: room for bed, room in rooms.items() if room >= lacking - 1e-9}
            bed = min(holding, key=lambda b: holding[b]) if holding else max(rooms, key=lambda b: rooms[b])  # fmt: skip
            units[crop.name, bed] = min(lacking, rooms[bed])
            lacking -= units[crop.name, bed]
            free[bed] = max(0.0, free[bed] - units[crop.name, bed] * crop.space_m2)
    return Fitted(units, free, out.kept_out, out.proven)
