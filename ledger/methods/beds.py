"""Fitting next season's crops into the beds there are, as a mixed-integer linear programme.

For crop c in bed b let n[c, b] be the units planted (whole plants, or metres of row) and u[c]
what of the harvest is wanted, counted in units that bring it:

    maximise    sum of weight[c] u[c]
    subject to  sum over c of space[c] n[c, b]  <=  area[b]       every bed
                u[c]  <=  sum over b of n[c, b]                   no more than is grown
                u[c]  <=  wanted[c] / yield[c]                    no more than is wanted
                n[c, b] = 0 where the rotation forbids it

solved with HiGHS (Huangfu and Hall, Mathematical Programming Computation 10, 2018) through
scipy.optimize.milp. One crop takes its ground for the season: crops that follow one another in
the same ground are not reckoned with.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

from ledger.errors import InputError
from ledger.messages import Message, Typed

__all__ = ["Aim", "Bed", "BedPlan", "Crop", "Planting", "fit_beds"]

Aim = Literal["targets", "shop value", "energy"]


@dataclass(frozen=True)
class Crop:
    """A crop that is wanted.

    Attributes
    ----------
    name : str
        Its name; one entry a crop.
    wanted : float or None
        How much of the harvest is of use, in the unit of `per_unit`; None: all of it.
    per_unit : float
        Likely harvest from one unit of planting (a plant, a metre of row), above 0.
    space_m2 : float
        Ground that one unit takes, above 0.
    whole : bool
        Whether only whole units can be planted (plants), or any part (metres of row).
    value : float
        Shop value of one of the harvest's unit; money.
    energy : float
        kcal of one of the harvest's unit.
    family : str
        Plant family, for the rotation; empty when not known.
    """

    name: str
    wanted: float | None
    per_unit: float
    space_m2: float
    whole: bool = True
    value: float = 0.0
    energy: float = 0.0
    family: str = ""


@dataclass(frozen=True)
class Bed:
    """A bed: its area in square metres, and the plant families that grew in it last season."""

    name: str
    area_m2: float
    grew: frozenset[str] = frozenset()


@dataclass(frozen=True)
class Planting:
    """So many units of a crop in a bed: the ground they take and what they likely bring."""

    crop: str
    bed: str
    units: float
    area_m2: float
    brings: float


@dataclass(frozen=True)
class BedPlan:
    """What to plant where.

    Attributes
    ----------
    plantings : list of Planting
        In the order of the crops, then of the beds.
    brings, shortfalls : dict of str to float
        Likely harvest of each crop, and what it lacks of the wanted (0 where nothing).
    free_m2 : dict of str to float
        Ground left over in each bed.
    reached : float
        The sum that was maximised: money, kcal, or targets met (each counts up to 1).
    proven : bool
        Whether no better plan exists (to one part in a thousand); else time ran out and this
        is the best one found.
    kept_out : dict of str to list of str
        Beds that the rotation closed to a crop.
    family_unknown : list of str
        Crops that the rotation could not judge.
    """

    plantings: list[Planting]
    brings: dict[str, float]
    shortfalls: dict[str, float]
    free_m2: dict[str, float]
    reached: float
    proven: bool
    kept_out: dict[str, list[str]]
    family_unknown: list[str]


def fit_beds(
    crops: Sequence[Crop],
    beds: Sequence[Bed],
    *,
    aim: Aim = "targets",
    rotation: bool = False,
    seconds: float = 10.0,
) -> BedPlan:
    """Return the planting that brings most of what the household says it wants.

    Parameters
    ----------
    crops : sequence of Crop
        What is wanted.
    beds : sequence of Bed
        The ground there is.
    aim : {'targets', 'shop value', 'energy'}
        What to make as large as possible: the shares of the targets met, added up; the shop
        value; the energy. Beyond what is wanted, a harvest counts for nothing.
    rotation : bool
        Keep a crop out of a bed in which its family grew last season.
    seconds : float
        Stop looking for a better plan after this time.

    Returns
    -------
    BedPlan

    Raises
    ------
    InputError
        When a name comes twice, a figure is not above zero, the aim is none of the three, or
        (aim 'targets') a crop has no target.

    References
    ----------
    scipy.optimize.milp (HiGHS). The rotation rule (not the same plant family in one bed two
    years running) is common practice, no source.
    """
    crops, beds = tuple(crops), tuple(beds)
    weights = _weights(crops, aim)
    _check(crops, beds)
    shut = {
        (c, b)
        for c, crop in enumerate(crops)
        for b, bed in enumerate(beds)
        if rotation and crop.family and crop.family in bed.grew
    }
    pairs = tuple((c, b) for c in range(len(crops)) for b in range(len(beds)) if (c, b) not in shut)
    units, proven = _solve(crops, beds, weights, pairs, seconds)
    plantings = [
        Planting(crops[c].name, beds[b].name, n, n * crops[c].space_m2, n * crops[c].per_unit)
        for (c, b), n in zip(pairs, units, strict=True)
        if n > 1e-6
    ]
    brings = {crop.name: 0.0 for crop in crops}
    free = {bed.name: bed.area_m2 for bed in beds}
    for planting in plantings:
        brings[planting.crop] += planting.brings
        free[planting.bed] = max(0.0, free[planting.bed] - planting.area_m2)
    used = [_useful(crop, brings[crop.name]) for crop in crops]
    return BedPlan(
        plantings=plantings,
        brings=brings,
        shortfalls={c.name: _short(c, brings[c.name]) for c in crops},
        free_m2=free,
        reached=math.fsum(w * u for w, u in zip(weights, used, strict=True)),
        proven=proven,
        kept_out={
            crop.name: [beds[b].name for b in range(len(beds)) if (c, b) in shut]
            for c, crop in enumerate(crops)
            if any((c, b) in shut for b in range(len(beds)))
        },
        family_unknown=[c.name for c in crops if rotation and not c.family],
    )


def _weights(crops: Sequence[Crop], aim: str) -> tuple[float, ...]:
    """Return what one of each harvest's unit counts for."""
    if aim == "shop value":
        return tuple(crop.value for crop in crops)
    if aim == "energy":
        return tuple(crop.energy for crop in crops)
    if aim != "targets":
        raise InputError(
            "aim", Message.of("refusal-aim", text=Typed(aim)), Message.of("refusal-aims")
        )
    without = [crop.name for crop in crops if crop.wanted is None]
    if without:
        raise InputError("wanted", Message.of("refusal-no-target-for", name=without[0]))
    return tuple(1 / crop.wanted if crop.wanted else 0.0 for crop in crops)


@lru_cache(256)
def _solve(
    crops: tuple[Crop, ...],
    beds: tuple[Bed, ...],
    weights: tuple[float, ...],
    pairs: tuple[tuple[int, int], ...],
    seconds: float,
) -> tuple[tuple[float, ...], bool]:
    """Return the units of each pair of crop and bed, and whether no plan is better.

    A programme is solved once: most entries change neither crops nor beds.
    """
    from scipy.optimize import Bounds, LinearConstraint, milp
    from scipy.sparse import csr_array

    gain = np.array([w * crop.per_unit for w, crop in zip(weights, crops, strict=True)])
    if not pairs or not (gain > 0).any():
        return (0.0,) * len(pairs), True
    crop_of, bed_of = (np.array(side, dtype=np.int64) for side in zip(*pairs, strict=True))
    space = np.array([crop.space_m2 for crop in crops])
    area = np.array([bed.area_m2 for bed in beds])
    n, k = len(pairs), len(crops)
    at = np.arange(n)
    rows = np.concatenate([bed_of, len(beds) + crop_of, len(beds) + np.arange(k)])
    columns = np.concatenate([at, at, n + np.arange(k)])
    values = np.concatenate([space[crop_of], -np.ones(n), np.ones(k)])
    matrix = csr_array((values, (rows, columns)), shape=(len(beds) + k, n + k))
    gain = gain / gain.max()
    # ground that brings nothing wanted is better left free: it costs a trifle
    trifle = 1e-6 * (gain / space).max()
    cost = np.concatenate([trifle * space[crop_of], -gain])
    whole = np.array([crops[c].whole for c in crop_of], dtype=np.bool_)
    # a whole number's bound must be whole, and presolve stays off: with either left as it was,
    # HiGHS was seen to end at nothing, and to write on standard output
    room = area[bed_of] / space[crop_of]
    room = np.where(whole, np.floor(room + 1e-9), room)
    result: Any = milp(
        cost,
        constraints=LinearConstraint(matrix, ub=np.concatenate([area, np.zeros(k)])),
        bounds=Bounds(0, np.concatenate([room, _most(crops, area)])),
        integrality=np.concatenate([whole, np.zeros(k, np.bool_)]).astype(np.int64),
        options={"mip_rel_gap": 1e-3, "time_limit": seconds, "presolve": False},
    )
    if result.x is None:
        return (0.0,) * n, False
    units = tuple(
        float(round(x)) if crops[c].whole else float(max(0.0, x))
        for c, x in zip(crop_of, result.x[:n], strict=True)
    )
    return units, bool(result.status == 0)


def _most(crops: Sequence[Crop], area: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return how many units of each crop can be of use: what is wanted, or all the ground."""
    return np.array(
        [
            area.sum() / crop.space_m2 if crop.wanted is None else crop.wanted / crop.per_unit
            for crop in crops
        ]
    )


def _useful(crop: Crop, brings: float) -> float:
    return brings if crop.wanted is None else min(crop.wanted, brings)


def _short(crop: Crop, brings: float) -> float:
    short = 0.0 if crop.wanted is None else crop.wanted - brings
    return short if short > 1e-9 * (crop.wanted or 1.0) else 0.0


def _check(crops: Sequence[Crop], beds: Sequence[Bed]) -> None:
    for sort, names in (("crop", [c.name for c in crops]), ("bed", [b.name for b in beds])):
        twice = [name for name in names if names.count(name) > 1]
        if twice:
            raise InputError(sort, Message.of("refusal-comes-twice", name=twice[0]))
    for crop in crops:
        if not (crop.per_unit > 0 and crop.space_m2 > 0) or (crop.wanted or 0) < 0:
            raise InputError(crop.name, Message.of("refusal-yield-not-above"))
    for bed in beds:
        if not bed.area_m2 >= 0:
            raise InputError(bed.name, Message.of("refusal-bed-area", n=bed.area_m2))
