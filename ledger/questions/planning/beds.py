"""Fitting what is wanted into the beds, each crop in as few of them as will do.

Where all that is wanted finds room, it is planted. Where it does not, HiGHS finds how much of each
crop brings most (`ledger.methods.beds`).
"""

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
    shut = {
        crop.name: names
        for crop in crops
        if (names := [bed.name for bed in beds if rotation and crop.family in bed.grew])
    }
    all_in = _pack(most, crops, beds, shut)
    if all_in is not None:  # nothing more is wanted, so no plan is better
        return all_in
    plan = fit_beds(crops, beds, aim=aim, rotation=rotation, seconds=2.0)
    out = Fitted(
        {(p.crop, p.bed): p.units for p in plan.plantings}, dict(plan.free_m2), shut, plan.proven
    )
    _clear(out, crops, most)
    _fill(out, crops, beds, most)
    planted = {crop.name: sum(out.of(crop.name).values()) for crop in crops}
    simpler = _pack(planted, crops, beds, shut)
    if simpler is None:
        return out
    simpler.proven = plan.proven
    return simpler


def _clear(out: Fitted, crops: Sequence[Crop], most: Mapping[str, float]) -> None:
    """Take out what is beyond the wanted, which the programme leaves where nothing else pays."""
    for crop in crops:
        beyond = sum(out.of(crop.name).values()) - most[crop.name]
        for bed, units in reversed(out.of(crop.name).items()):
            fewer = min(units, max(0.0, beyond))
            fewer = float(int(fewer + 1e-9)) if crop.whole else fewer
            out.units[crop.name, bed] = units - fewer
            out.free_m2[bed] += fewer * crop.space_m2
            beyond -= fewer


def _fill(
    out: Fitted, crops: Sequence[Crop], beds: Sequence[Bed], most: Mapping[str, float]
) -> None:
    """Plant what is still wanted in ground left over.

    A plan is proven to one part in a thousand only, and leaves out what has no price or energy.
    """
    for crop in crops:
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


def _pack(
    wanted: Mapping[str, float],
    crops: Sequence[Crop],
    beds: Sequence[Bed],
    shut: dict[str, list[str]],
) -> Fitted | None:
    """Return a plan of just these units with each crop in few beds, or None if none is found.

    The programme does not mind in which bed a plant stands; whoever waters them does. Largest
    crop first, into the bed that it fills best, else on from the roomiest one.
    """
    free = {bed.name: bed.area_m2 for bed in beds}
    units: dict[tuple[str, str], float] = {}
    for crop in sorted(crops, key=lambda c: -wanted[c.name] * c.space_m2):
        lacking = wanted[crop.name]
        while lacking > _HAIR:
            rooms = {
                bed: float(int(area / crop.space_m2 + 1e-9)) if crop.whole else area / crop.space_m2
                for bed, area in free.items()
                if bed not in shut.get(crop.name, ()) and (crop.name, bed) not in units
            }
            rooms = {bed: room for bed, room in rooms.items() if room > _HAIR}
            if not rooms:
                return None
            holding = {bed: room for bed, room in rooms.items() if room >= lacking - 1e-9}
            bed = (
                min(holding, key=lambda b: holding[b])
                if holding
                else max(rooms, key=lambda b: rooms[b])
            )
            units[crop.name, bed] = min(lacking, rooms[bed])
            lacking -= units[crop.name, bed]
            free[bed] = max(0.0, free[bed] - units[crop.name, bed] * crop.space_m2)
    return Fitted(units, free, shut)
