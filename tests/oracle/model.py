"""What the oracle's answer is made of: entries, lots, draws, batches, meals and the whole book."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, field
from fractions import Fraction

COMPONENTS = (
    "bought_ingredients",
    "garden",
    "given",
    "lids",
    "jar_wear",
    "fuel",
    "equipment",
    "labour",
)
OUT_OF_POCKET = ("bought_ingredients", "garden", "lids", "fuel")
ORIGINS = ("grown", "foraged", "given", "bought", "found", "unrecorded")


def _zeros(names):
    return dict.fromkeys(names, Fraction(0))


@dataclass
class Figures:
    """Cost by component; grams, kcal and shop value by origin; and what is not known of them."""

    cost: dict[str, Fraction] = field(default_factory=lambda: _zeros(COMPONENTS))
    grams: dict[str, Fraction] = field(default_factory=lambda: _zeros(ORIGINS))
    kcal: dict[str, Fraction] = field(default_factory=lambda: _zeros(ORIGINS))
    value: dict[str, Fraction] = field(default_factory=lambda: _zeros(ORIGINS))
    unpriced: set[str] = field(default_factory=set)  # no cost known: the record is `at_least`
    no_grams: set[str] = field(default_factory=set)  # items without a known weight
    no_kcal: set[str] = field(default_factory=set)  # foods without a figure
    no_value: set[str] = field(default_factory=set)  # used on a day without a shop price
    provisional: bool = False

    @property
    def all_in(self):
        return sum(self.cost.values(), Fraction(0))

    @property
    def out_of_pocket(self):
        return sum((self.cost[name] for name in OUT_OF_POCKET), Fraction(0))

    @property
    def at_least(self):
        return bool(self.unpriced)

    def take(self, other, share):
        """Add `share` of another's figures; a share of nothing brings no flags either."""
        if share == 0:
            return
        for name in COMPONENTS:
            self.cost[name] += other.cost[name] * share
        for mine, theirs in (
            (self.grams, other.grams),
            (self.kcal, other.kcal),
            (self.value, other.value),
        ):
            for origin in ORIGINS:
                mine[origin] += theirs[origin] * share
        self.unpriced |= other.unpriced
        self.no_grams |= other.no_grams
        self.no_kcal |= other.no_kcal
        self.no_value |= other.no_value
        self.provisional = self.provisional or other.provisional

    def money_only(self):
        """Return the same without what is eaten: for fuel and lids."""
        return Figures(
            cost=dict(self.cost), unpriced=set(self.unpriced), provisional=self.provisional
        )


@dataclass
class Entry:
    """An event and all that replaced it, in the place of the first (rule 1)."""

    id: str
    seq: int
    kind: str
    event: str  # the id of the event whose body holds now
    on: dt.date
    at: str
    phase: int
    body: dict


@dataclass
class Lot:
    """Something that came in (rule 3), or was missing (5) or found (6)."""

    id: str
    item: str
    whole: int
    on: dt.date
    kept: str | None
    origin: str  # grown bought given foraged made left unrecorded found
    entry: str
    step: int
    strand: tuple = ()
    jars: int | None = None
    jar: str | None = None
    labels: dict | None = None
    left: int = 0
    figures: Figures = field(default_factory=Figures)

    @property
    def is_raw(self):
        return self.origin not in ("made", "left")


@dataclass
class Allocation:
    """How much of one lot a draw took."""

    lot: str
    amount: int
    named: bool


@dataclass
class Draw:
    """Something that went out (rule 4), or was found missing by a count (rule 6)."""

    entry: str
    n: int
    item: str
    whole: int
    cause: str  # seed used fuel lids eaten given discarded missing
    on: dt.date
    step: int
    strand: tuple = ()
    lot: str | None = None  # the lot that the line names
    why: str | None = None  # of what is discarded
    made: int | None = None  # the made entry that these lids close
    as_eaten: bool = False  # a missing amount that counts as eaten
    allocations: list[Allocation] = field(default_factory=list)
    figures: Figures = field(default_factory=Figures)

    @property
    def id(self):
        return f"{self.entry}:{self.n}"


@dataclass
class Count:
    """A line of a count."""

    entry: str
    n: int
    item: str
    whole: int
    on: dt.date
    step: int
    as_eaten: bool
    strand: tuple = ()
    contradicted: bool = False


@dataclass
class Made:
    """One made entry of a batch (rule 9)."""

    entry: str
    n: int
    item: str
    on: dt.date
    whole: int
    strand: tuple
    lots: list[str]
    kept: str | None
    jars: int | None = None
    jar: str | None = None
    good_jars: int | None = None
    hours: Fraction = Fraction(0)
    figures: Figures = field(default_factory=Figures)


@dataclass
class Meal:
    """What a meal, or a count that says `eaten`, took, and which part the household ate."""

    entry: str
    on: dt.date
    draws: list[Draw]
    household: Fraction  # (people - guests) / people
    left: Fraction  # the sum of the shares that were kept
    figures: Figures  # of everything drawn, leftovers and guests included

    @property
    def eaten_by_household(self):
        return self.household * (1 - self.left)


@dataclass
class Input:
    """A garden input, or one year's part of it (rule 8)."""

    entry: str
    n: int
    on: dt.date
    crop: str | None
    amount: Fraction
    unpriced: set[str]
    season: dt.date | None = None  # first day of the season it belongs to; None: carried forward


@dataclass
class Jars:
    """Jars of one item (rule 7)."""

    jar: str
    got: int
    filled: int
    back: int
    gone: int

    @property
    def out(self):
        return self.filled - self.back - self.gone

    @property
    def empty(self):
        return self.got - self.filled + self.back


@dataclass
class Book:
    """The whole answer for one `as_of` and `known_at`."""

    as_of: dt.date
    entries: list[Entry]
    items: object
    prices: object
    lots: dict[str, Lot]
    draws: list[Draw]
    counts: list[Count]
    made: list[Made]
    meals: list[Meal]
    inputs: list[Input]
    jars: dict[str, Jars]
    jar_cost: list[dict] = field(default_factory=list)
    shelf: list[dict] = field(default_factory=list)

    @property
    def carried_forward(self):
        return [one for one in self.inputs if one.season is None]

    @property
    def unrecorded(self):
        return [lot for lot in self.lots.values() if lot.origin == "unrecorded"]

    @property
    def found(self):
        return [lot for lot in self.lots.values() if lot.origin == "found"]
