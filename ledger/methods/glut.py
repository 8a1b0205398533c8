"""What a glut should become: a whole-number programme by day of cans, freezing, drying, fermenting, giving.

Fresh food comes in by day and keeps so long. Each day's hours, the stove's hours, jars, lids, freezer
room and what may be frozen in a day are limits; nothing beyond what is still wanted is put up. What is
eaten counts most, then what is put up, then what is given; what is lost counts against the plan. The
weights are our own choice.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from ledger.errors import InputError
from ledger.messages import Message

__all__ = ["Arrival", "Crop", "GlutPlan", "Limits", "Use", "Way", "plan_glut"]

_EATEN, _PUT_UP, _GIVEN, _LOST = 4.0, 3.0, 1.0, -2.0
_HOUR, _DAY, _SESSION = 0.01, 0.001, 0.5
_SECONDS = 10.0


@dataclass(frozen=True)
class Arrival:
    """Kilograms that are there from a day (0 is today) and good up to and with another."""

    day: int
    until: int
    kg: float


@dataclass(frozen=True)
class Crop:
    """A crop: what comes, and how many kilograms a day are eaten fresh."""

    name: str
    arrivals: tuple[Arrival, ...]
    eaten_a_day: float = 0.0


@dataclass(frozen=True)
class Way:
    """One way to put a crop up.

    Attributes
    ----------
    name, crop : str
    unit_kg, unit_hours : float
        Fresh kilograms and hours for one unit: a jar, or a kilogram.
    wanted : float
        Units still wanted.
    per_load : int
        Jars of a canner load; 0 where no canner is needed (units are then no whole numbers).
    stove_hours : float
        Of the canner, a load.
    jar : str
        Which jar; '' for none.
    frozen_lb : float
        Pounds into the freezer, a unit.
    shares : str
        Several ways to one thing that is wanted bear the same word; '' for none (see `Limits.shared`).
    """

    name: str
    crop: str
    unit_kg: float
    unit_hours: float
    wanted: float
    per_load: int = 0
    stove_hours: float = 0.0
    jar: str = ""
    frozen_lb: float = 0.0
    shares: str = ""


@dataclass(frozen=True)
class Limits:
    """What a day and the house have: hours by day, stove hours a day, jars by kind, lids, freezer.

    `shared` holds fresh kilograms that all ways which share a word may take together.
    """

    hours: tuple[float, ...]
    stove_hours: float = 24.0
    jars: Mapping[str, float] = field(default_factory=dict)
    lids: float = math.inf
    freezer_lb: float = 0.0
    freezer_lb_a_day: float = 0.0
    shared: Mapping[str, float] = field(default_factory=dict)

    @property
    def days(self) -> int:
        """How many days are planned."""
        return len(self.hours)


@dataclass(frozen=True)
class Use:
    """One line: on a day, what is done with how many kilograms of a crop.

    `way` is a way's name, ``eat fresh``, ``give away`` or ``lost``; `units` jars or kilograms.
    """

    day: int
    way: str
    crop: str
    kg: float
    units: float
    loads: int
    hours: float


@dataclass(frozen=True)
class GlutPlan:
    """The lines by day, and what is still there and good after the last day, by crop."""

    uses: tuple[Use, ...]
    kept: dict[str, float]
    proven: bool

    def kg(self, way: str) -> float:
        """Return kilograms that go one way."""
        return math.fsum(use.kg for use in self.uses if use.way == way)


def _check(crops: Sequence[Crop], ways: Sequence[Way], limits: Limits) -> None:
    if any(h < 0 for h in limits.hours) or not limits.hours:
        raise InputError("hours", Message.of("refusal-hours-below-zero"))
    names = {crop.name for crop in crops}
    for way in ways:
        if way.crop not in names or not way.unit_kg > 0:
            raise InputError(way.name, Message.of("refusal-takes-no-crop-there"))


class _Programme:
    """Columns of the programme: units and loads by way and day, then eaten, given and lost by crop and day."""

    def __init__(
        self, crops: Sequence[Crop], ways: Sequence[Way], limits: Limits, *, doing: bool
    ) -> None:
        self.crops, self.ways, self.limits = crops, ways, limits
        self.days = limits.days
        n, w, c = self.days, len(ways), len(crops)
        self.size = (2 * w + 3 * c) * n
        self.units = np.arange(w * n).reshape(w, n)
        self.loads = w * n + np.arange(w * n).reshape(w, n)
        self.eat, self.give, self.lost = 2 * w * n + np.arange(3 * c * n).reshape(3, c, n)
        self.rows: list[tuple[dict[int, float], float, float]] = []
        self.high = np.full(self.size, np.inf)
        self.whole = np.zeros(self.size)
        self._bounds(doing)
        self._flow()
        self._house()

    def _bounds(self, doing: bool) -> None:
        for w, way in enumerate(self.ways):
            self.high[self.units[w]] = max(way.wanted, 0.0) if doing else 0.0
            size = way.per_load or max(way.wanted, 1.0)
            most = math.ceil(max(way.wanted, 0.0) / size)
            self.high[self.loads[w]] = most if doing else 0
            self.whole[self.loads[w]] = 1
            if way.per_load:
                self.high[self.units[w]] = np.floor(self.high[self.units[w]])
                self.whole[self.units[w]] = 1
        for c, crop in enumerate(self.crops):
            self.high[self.eat[c]] = crop.eaten_a_day
            if not doing:
                self.high[self.give[c]] = 0.0

    def _flow(self) -> None:
        """Bound what is used by each day: it has come by then, and all that is no longer good is used."""
        for c, crop in enumerate(self.crops):
            for day in range(self.days):
                row: dict[int, float] = {}
                for d in range(day + 1):
                    for col in (self.eat[c, d], self.give[c, d], self.lost[c, d]):
                        row[int(col)] = 1.0
                    for w, way in enumerate(self.ways):
                        if way.crop == crop.name:
                            row[int(self.units[w, d])] = way.unit_kg
                came = math.fsum(a.kg for a in crop.arrivals if a.day <= day)
                over = math.fsum(a.kg for a in crop.arrivals if a.until <= day)
                self.rows.append((row, over, came))

    def _house(self) -> None:
        limits = self.limits
        for day in range(self.days):
            hours, stove, frozen = {}, {}, {}
            for w, way in enumerate(self.ways):
                hours[int(self.units[w, day])] = way.unit_hours
                size = float(way.per_load or max(way.wanted, 1.0))
                full = {int(self.units[w, day]): 1.0, int(self.loads[w, day]): -size}
                self.rows.append((full, -np.inf, 0.0))
                if way.per_load:
                    stove[int(self.loads[w, day])] = way.stove_hours
                if way.frozen_lb:
                    frozen[int(self.units[w, day])] = way.frozen_lb
            self.rows.append((hours, -np.inf, limits.hours[day]))
            self.rows.append((stove, -np.inf, limits.stove_hours))
            self.rows.append((frozen, -np.inf, limits.freezer_lb_a_day))
        for w, way in enumerate(self.ways):
            self.rows.append(
                ({int(col): 1.0 for col in self.units[w]}, -np.inf, max(way.wanted, 0.0))
            )
        jarred = [(w, way) for w, way in enumerate(self.ways) if way.jar]
        for jar in {way.jar for _, way in jarred}:
            row = {int(col): 1.0 for w, way in jarred if way.jar == jar for col in self.units[w]}
            self.rows.append((row, -np.inf, limits.jars.get(jar, 0.0)))
        lids = {int(col): 1.0 for w, way in jarred if way.per_load for col in self.units[w]}
        self.rows.append((lids, -np.inf, limits.lids))
        room = {
            int(col): way.frozen_lb
            for w, way in enumerate(self.ways)
            if way.frozen_lb
            for col in self.units[w]
        }
        self.rows.append((room, -np.inf, limits.freezer_lb))
        for word, kg in limits.shared.items():
            both = {
                int(col): way.unit_kg
                for w, way in enumerate(self.ways)
                if way.shares == word
                for col in self.units[w]
            }
            self.rows.append((both, -np.inf, max(kg, 0.0)))

    def cost(self) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
        """Return what each column costs: worth below 0."""
        cost = np.zeros(self.size)
        for day in range(self.days):
            later = _DAY * day
            for w, way in enumerate(self.ways):
                cost[self.units[w, day]] = -way.unit_kg * (_PUT_UP - later) + _HOUR * way.unit_hours
                cost[self.loads[w, day]] = _SESSION
            cost[self.eat[:, day]] = -_EATEN + later
            cost[self.give[:, day]] = -_GIVEN + later
            cost[self.lost[:, day]] = -_LOST - later
        return cost


def plan_glut(
    crops: Sequence[Crop], ways: Sequence[Way], limits: Limits, *, doing: bool = True
) -> GlutPlan:
    """Return what to do with a glut, day by day.

    Parameters
    ----------
    crops : sequence of Crop
    ways : sequence of Way
        Only those for which a process is published; the programme invents none.
    limits : Limits
    doing : bool
        False: nothing is put up or given, only eaten: what is lost then.

    Returns
    -------
    GlutPlan
        What comes in is what is eaten, put up, given, lost and kept.

    Raises
    ------
    InputError
        When hours are below 0 or a way takes no crop.
    """
    from scipy.optimize import Bounds, LinearConstraint, milp
    from scipy.sparse import csr_array

    _check(crops, ways, limits)
    if not crops:
        return GlutPlan((), {}, True)
    work = _Programme(crops, ways, limits, doing=doing)
    kept = [(row, low, high) for row, low, high in work.rows if row]
    at = [(r, col, value) for r, (row, _, _) in enumerate(kept) for col, value in row.items()]
    r, col, value = (np.array(part) for part in zip(*at, strict=True))
    matrix = csr_array((value, (r, col)), shape=(len(kept), work.size))
    limits_ = LinearConstraint(matrix, [low for _, low, _ in kept], [high for _, _, high in kept])
    found = milp(
        work.cost(), constraints=limits_, bounds=Bounds(0, work.high), integrality=work.whole,
        options={"time_limit": _SECONDS, "presolve": False, "mip_rel_gap": 1e-4},
    )  # fmt: skip
    if found.x is None:
        raise InputError(
            "hours", Message.of("refusal-no-plan-left"), Message.of("refusal-more-hours")
        )
    return _read(work, np.asarray(found.x), proven=found.status == 0)


def _read(
    work: _Programme, x: np.ndarray[tuple[int], np.dtype[np.float64]], *, proven: bool
) -> GlutPlan:
    uses = []
    for day in range(work.days):
        for w, way in enumerate(work.ways):
            units = float(x[work.units[w, day]])
            units = float(round(units)) if way.per_load else units
            if units > 1e-6:
                loads = round(float(x[work.loads[w, day]])) if way.per_load else 0
                uses.append(
                    Use(
                        day,
                        way.name,
                        way.crop,
                        units * way.unit_kg,
                        units,
                        loads,
                        units * way.unit_hours,
                    )
                )
        for c, crop in enumerate(work.crops):
            for name, cols in (
                ("eat fresh", work.eat),
                ("give away", work.give),
                ("lost", work.lost),
            ):
                kg = float(x[cols[c, day]])
                if kg > 1e-6:
                    uses.append(Use(day, name, crop.name, kg, kg, 0, 0.0))
    kept = {}
    for crop in work.crops:
        came = math.fsum(a.kg for a in crop.arrivals if a.day < work.days)
        kept[crop.name] = max(came - math.fsum(u.kg for u in uses if u.crop == crop.name), 0.0)
    return GlutPlan(tuple(uses), kept, proven)
