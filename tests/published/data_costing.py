"""Figures of published costing examples, to be held to the ledger itself.

Money is in the source's own dollars. `exact` stands where the source rounds on the way.

Sources
-------
OPENSTAX1 : OpenStax, Principles of Accounting vol. 1: Financial Accounting (2019), chapters 10, 11.
OPENSTAX2 : OpenStax, Principles of Accounting vol. 2: Managerial Accounting (2019).
WALTHER : L. M. Walther, Principles of Accounting, inventory costing (bookboon; excerpt read).
EBRARY : the same author, first-in, first-out calculations (ebrary).
JOINT : Joint Cost Allocation, course notes (scribd 54185716).
SLIDES : Cost allocation: joint products and by-products, slides (scribd 389133615).
"""

from __future__ import annotations

from dataclasses import dataclass, field

OPENSTAX1 = "OpenStax, Principles of Accounting vol. 1 (2019)"
OPENSTAX2 = "OpenStax, Principles of Accounting vol. 2 (2019)"
WALTHER = "L. M. Walther, Principles of Accounting (bookboon, excerpt)"
EBRARY = "L. M. Walther, first-in, first-out calculations (ebrary)"
JOINT = "Joint Cost Allocation, course notes (scribd 54185716)"
SLIDES = "Joint products and by-products, slides (scribd 389133615)"


@dataclass(frozen=True)
class Stock:
    """One product: what came in and went out, and what the costs must be."""

    name: str
    source: str
    opening: tuple[int, str]  # units, dollars each
    #: (month-day, "in" or "out", units, dollars each; of a sale its price or "")
    moves: tuple[tuple[str, str, int, str], ...]
    closing_units: int
    fifo_sold: str
    fifo_closing: str
    #: layers left first in, first out: (units, dollars each)
    fifo_layers: tuple[tuple[int, str], ...]
    available: str
    revenue: str
    gross: str


@dataclass(frozen=True)
class OtherFlow:
    """Another way of matching on the July example: what it must come to."""

    method: str
    timing: str
    sold: str
    closing: str
    gross: str
    exact_sold: str | None = None
    exact_closing: str | None = None


# 1. One product in July (OpenStax vol. 1, 10.1 to 10.3)
JULY = Stock(
    name="july",
    source=f"{OPENSTAX1}, 10.1-10.3",
    opening=(150, "21"),
    moves=(
        ("07-05", "out", 120, "36"),
        ("07-10", "in", 225, "27"),
        ("07-15", "out", 180, "39"),
        ("07-25", "in", 210, "33"),
    ),
    closing_units=285,
    fifo_sold="7200",
    fifo_closing="8955",
    fifo_layers=((75, "27"), (210, "33")),
    available="16155",
    revenue="11340",
    gross="4140",
)
JULY_PURCHASES = "13005"
#: cost of each sale first in, first out: (from which layer: units, dollars each)
JULY_FIFO_SALES = (((120, "21"),), ((30, "21"), (150, "27")))
JULY_FIFO_SALE_COSTS = ("2520", "4680")
#: specific identification: the lots each sale was taken from by name
JULY_NAMED = (((120, "21"),), ((20, "21"), (160, "27")))
JULY_NAMED_SALE_COSTS = ("2520", "4740")
JULY_NAMED_LAYERS = ((10, "21"), (65, "27"), (210, "33"))
JULY_FLOWS = (
    OtherFlow("named lots", "periodic", "7260", "8895", "4080"),
    OtherFlow("fifo", "periodic", "7200", "8955", "4140"),
    OtherFlow("lifo", "periodic", "9360", "6795", "1980"),
    OtherFlow("average", "periodic", "8283", "7872", "3057", "8284.62", "7870.38"),
    OtherFlow("named lots", "perpetual", "7260", "8895", "4080"),
    OtherFlow("fifo", "perpetual", "7200", "8955", "4140"),
    OtherFlow("lifo", "perpetual", "7380", "8775", "3960"),
    OtherFlow("average", "perpetual", "7253", "8902", "4087", "7252.94", "8902.06"),
)
#: an end count 1,500 dollars too low: cost of what went, and net income after 3,000 of expenses
JULY_COUNT_ERROR = {"short": "1500", "sold": "8700", "income_right": "1140", "income_wrong": "-360"}

# 2. One price (OpenStax vol. 1, 10.1): what is gone follows from the count
SINGLE_PRICE = Stock(
    name="single price",
    source=f"{OPENSTAX1}, 10.1",
    opening=(50, "7"),
    moves=(("07-10", "in", 20, "7"), ("07-31", "count", 18, "")),
    closing_units=18,
    fifo_sold="364",
    fifo_closing="126",
    fifo_layers=((18, "7"),),
    available="490",
    revenue="",
    gross="",
)

# 3. A chemical (Walther) and nails (ebrary)
CHEMICAL = Stock(
    name="chemical",
    source=WALTHER,
    opening=(4000, "12"),
    moves=(
        ("03-01", "in", 6000, "16"),
        ("05-01", "out", 7000, "22"),
        ("09-01", "in", 8000, "17"),
        ("11-01", "out", 6000, "25"),
    ),
    closing_units=5000,
    fifo_sold="195000",
    fifo_closing="85000",
    fifo_layers=((5000, "17"),),
    available="280000",
    revenue="304000",
    gross="109000",
)
#: 300 lb of nails for 330 dollars; 140 lb left
NAILS = Stock(
    name="nails",
    source=EBRARY,
    opening=(300, "1.10"),
    moves=(("06-30", "count", 140, ""),),
    closing_units=140,
    fifo_sold="176",
    fifo_closing="154",
    fifo_layers=((140, "1.10"),),
    available="330",
    revenue="",
    gross="",
)
STOCKS = (JULY, SINGLE_PRICE, CHEMICAL, NAILS)


@dataclass(frozen=True)
class Stage:
    """A stage of a process: costs, units, and what each unit and each part must come to."""

    name: str
    source: str
    materials: str
    conversion: str
    units: int
    finished: int
    unfinished: int
    converted: str  # share of the conversion that the unfinished units have had
    equivalent_conversion: int
    each_materials: str
    each_conversion: str
    out: str
    left: str
    #: parts of the conversion, or of what came from the stage before
    parts: dict[str, str] = field(default_factory=dict)


# 5. Batches and stages (OpenStax vol. 2, 5.3 and 5.4)
STAGES = (
    Stage(
        "first stage",
        f"{OPENSTAX2}, 5.3",
        materials="10179",
        conversion="22176",
        units=8700,
        finished=7500,
        unfinished=1200,
        converted="0.35",
        equivalent_conversion=7920,
        each_materials="1.17",
        each_conversion="2.80",
        out="29775",
        left="2580",
        parts={"labour": "15176", "overhead": "7000"},
    ),
    Stage(
        "second stage",
        f"{OPENSTAX2}, 5.4",
        materials="12375",
        conversion="49680",
        units=8250,
        finished=6500,
        unfinished=1750,
        converted="0.40",
        equivalent_conversion=7200,
        each_materials="1.50",
        each_conversion="6.90",
        out="54600",
        left="7455",
        parts={"opening": "8180", "from first stage": "29775", "added": "24100"},
    ),
)
#: paint: equivalent units 8,700 and 7,860; printed unit costs are rounded to the cent
PAINT = {
    "source": OPENSTAX2,
    "materials": "10353",
    "labour": "17970",
    "overhead": "9000",
    "units": 8700,
    "finished": 7500,
    "converted": "0.30",
    "each_materials": "1.19",
    "each_conversion": "3.43",
    "each": "4.62",
}
#: 2.50 of overhead for each dollar of labour; one job (OpenStax vol. 2, 4.4)
OVERHEAD_JOB = {"materials": "700", "labour": "66", "overhead": "165", "job": "931", "rate": "2.50"}
#: the same rent over more units (OpenStax vol. 2): dollars a month, units, dollars each
RENT_SPREAD = (("1000", 500, "2.00"), ("1000", 2000, "0.50"))


@dataclass(frozen=True)
class Shared:
    """One cost shared among what a batch made."""

    name: str
    source: str
    basis: str  # "weight" (by amount) or "value" (by what each is worth)
    cost: str
    keys: tuple[str, ...]
    shares: tuple[str, ...]


# 6. What a batch cost, shared by amount or by value
JOINT_COSTS = (
    Shared("A and B", JOINT, "weight", "2400", ("700", "300"), ("1680", "720")),
    Shared("A and B by value", JOINT, "value", "2400", ("1800", "1200"), ("1440", "960")),
    Shared(
        "five products",
        SLIDES,
        "weight",
        "100000",
        ("300", "300", "200", "100", "100"),
        ("30000", "30000", "20000", "10000", "10000"),
    ),
    Shared("Y and Z", f"{OPENSTAX2}, 10.5", "weight", "36000", ("25", "75"), ("9000", "27000")),
    Shared("H and C", f"{OPENSTAX2}, 10.5", "weight", "66000", ("44", "66"), ("26400", "39600")),
    Shared(
        "strawberry mash",
        f"{OPENSTAX2}, 10.5",
        "weight",
        "40000",
        ("42000", "4000"),
        ("36521.74", "3478.26"),
    ),
    Shared(
        "strawberry mash by value",
        f"{OPENSTAX2}, 10.5",
        "value",
        "40000",
        ("104500", "50500"),
        ("26967.74", "13032.26"),
    ),
)
#: gross margin of A and B by weight: sales, margin, per cent (JOINT)
JOINT_MARGINS = (("1800", "120", 7), ("1200", "480", 40), ("3000", "600", 20))

# 8. Wear of durables (OpenStax vol. 1, 11.3)
PRESS = {
    "source": f"{OPENSTAX1}, 11.3",
    "price": 54_000,
    "shipping": 1_500,
    "setting_up": 2_500,
    "cost": 58_000,
    "salvage": 10_000,
    "years": 5,
    "pages": 960_000,
    "each_page": 0.05,
    "pages_by_year": (180_000, 200_000, 210_000, 190_000, 180_000),
    "straight_line": (9_600, 9_600, 9_600, 9_600, 9_600),
    "by_use": (9_000, 10_000, 10_500, 9_500, 9_000),
    "declining": (23_200, 13_920, 8_352, 2_528, 0),
    "nine_months": (7_200, 9_600, 9_600, 9_600, 9_600, 2_400),
}
SECOND_MACHINE = {
    "source": f"{OPENSTAX1}, 11.3",
    "cost": 10_000,
    "salvage": 1_000,
    "years": 5,
    "presses": 100_000,
    "each_press": 0.09,
    "presses_by_year": (20_000, 30_000),
    "straight_line": 1_800,
    "by_use": (1_800, 2_700),
    "declining": (4_000, 2_400),
}
#: after 48,000 was taken: two more years, nothing left at the end
LIFE_EXTENDED = {"left": 10_000, "years": 2, "a_year": 5_000}
#: price, tax and delivery make the cost
ALL_IN_COST = (22_000, 2_500, 800, 25_300)
