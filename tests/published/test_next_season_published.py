"""Next season beside published figures: canner loads and bushels, rows, nine years in ten, beds."""

from __future__ import annotations

import math

import pytest
from test_planting import KENTUCKY

from ledger.methods.beds import Bed, Crop
from ledger.questions.planning.beds import fit

LB, FT = 453.59237, 0.3048
"""The international avoirdupois pound and foot, exact (NIST Handbook 44, appendix C)."""

# USDA Complete Guide to Home Canning, guides 2 to 4 (some read in its copy at Preserving Food Safely; white
# potato of the 1994 edition), as printed: pounds for a canner load of 7 quarts, pounds in the bushel (lug,
# crate, bag), quarts from it (low, high), pounds for one quart on average
LOADS = [
    ("crushed tomato", 22, 53, (17, 20), 2.75),
    ("whole tomato", 21, 53, (15, 21), 3),
    ("tomato juice", 23, 53, (15, 18), 3.25),
    ("thin tomato sauce", 35, 53, (10, 12), 5),
    ("thick tomato sauce", 46, 53, (7, 9), 6.5),
    ("snap bean", 14, 30, (12, 20), 2),
    ("carrot", 17.5, 50, (17, 25), 2.5),
    ("beet", 21, 52, (15, 20), 3),
    ("whole kernel corn", 31.5, 35, (6, 11), 4.5),
    ("green pea", 31.5, 30, (5, 10), 4.5),
    ("white potato", 35, 50, (8, 12), 5),
    ("asparagus", 24.5, 31, (7, 12), 3.5),
    ("spinach", 28, 18, (3, 9), 4),
    ("sliced apple", 19, 48, (16, 19), 2.75),
    ("applesauce", 21, 48, (14, 19), 3),
    ("peach", 17.5, 48, (16, 24), 2.5),
    ("pear", 17.5, 50, (16, 25), 2.5),
    ("whole berry", 12, 36, (18, 24), 1.75),
    ("cherry", 17.5, 25, (8, 12), 2.5),
    ("plum", 14, 56, (22, 36), 2),
    ("grape juice", 24.5, 26, (7, 9), 3.5),
    ("whole grape", 14, 26, (12, 14), 2),
]


def needed(book, yes, pounds, *quarts):
    """Return the pounds needed for so many quarts, by one canner load put up."""
    book.write("harvested", item="crop", amount=f"{pounds} lb", on="2026-08-01", answers=yes)
    book.write(
        "put_up", makes="jarful", method="pressure", used=[{"item": "crop", "amount": f"{pounds} lb"}],
        made=[{"jars": 7, "jar": "quart jar"}], on="2026-08-02", answers=yes,
    )  # fmt: skip
    found = []
    for many in quarts:
        answer = book.show("next-season", want=f"jarful={many} quart jars", as_of="2026-12-01")
        (record,) = answer.records()
        assert record["jars_wanted"] == pytest.approx(many, rel=1e-6)
        found.append(record["needed_g"]["likely"] / LB)
    return found


@pytest.mark.parametrize(("name", "pounds", "container", "quarts", "average"), LOADS)
def test_container_gives_the_quarts_printed(book, yes, name, pounds, container, quarts, average):
    low, high = needed(book, yes, pounds, *quarts)
    # 17 quarts of crushed tomatoes at 22 lb for 7 take 53.4 of the 53 lb printed: hence the hundredth
    assert low <= container * 1.01
    assert high >= container * 0.99


@pytest.mark.parametrize(("name", "pounds", "container", "quarts", "average"), LOADS)
def test_a_quart_takes_the_average_printed(book, yes, name, pounds, container, quarts, average):
    (one,) = needed(book, yes, pounds, 1)
    # printed to a quarter of a pound; crushed tomatoes' 22 lb for 7 are 3.14, printed as 2 3/4
    assert abs(one - average) <= (0.4 if name == "crushed tomato" else 0.125)


# Only crops of which one yield by row is packaged, so that its figure alone must come out
ROWS = ["broccoli", "brussels sprouts", "cabbage", "celeriac", "kale", "kohlrabi", "okra",
        "parsnips", "peas", "snow peas", "southern peas", "salsify", "garlic", "eggplants"]  # fmt: skip


@pytest.mark.parametrize(("crop", "pounds"), [(k[0], k[1]) for k in KENTUCKY if k[0] in ROWS])
def test_hundred_feet_for_the_pounds_printed(book, yes, crop, pounds):
    """University of Kentucky ID-128, planting table: pounds on 100 feet of row."""
    book.write("planted", crop=crop, row="10 ft", on="2026-05-01", answers=yes)
    book.write("target_set", item=crop, amount=f"{pounds} lb", per="year", on="2026-05-01")
    (record,) = book.show("next-season", as_of="2026-05-02").records()
    assert record["yield_from"] == "published yields"
    assert "University of Kentucky" in record["published_from"]
    assert record["row_m"] == pytest.approx(100 * FT, rel=1e-6)


# Upper critical values of Student's t (NIST/SEMATECH e-Handbook 1.3.6.7.2), one in ten beyond and one
# in twenty, by degrees of freedom; the seasons' pounds a plant are chosen, not observed
T_TENTH = {6: 1.440, 7: 1.415, 8: 1.397, 9: 1.383, 10: 1.372}
T_TWENTIETH = {6: 1.943, 7: 1.895, 8: 1.860, 9: 1.833, 10: 1.812}


@pytest.mark.parametrize("freedom", T_TENTH)
def test_nine_years_in_ten_by_the_printed_t(book, yes, freedom):
    """A crop without a published yield; the tail left to good seasons lies between both columns."""
    pounds = [40, 44, 36, 42, 50, 38][: freedom - 5]
    for number, each in enumerate(pounds):
        year = 2027 - len(pounds) + number
        book.write("planted", crop="oca", plants=10, on=f"{year}-05-01", answers=yes)
        book.write("harvested", item="oca", amount=f"{each} lb", on=f"{year}-08-01")
    book.write("target_set", item="oca", amount="1000 lb", per="year", on="2026-09-01")
    (record,) = book.show("next-season", as_of="2026-12-31").records()
    logs = [math.log(each / 10) for each in pounds]
    n, mean = len(logs), sum(logs) / len(logs)
    squares = sum((x - mean) ** 2 for x in logs)
    within = (6 * 0.35**2 + squares) / (6 + n - 1)  # the household's crops are this one
    spread = math.sqrt((6 * within + squares) / (6 + n - 1) * (1 + 1 / n))
    low, high = (1000 / math.exp(mean - t[freedom] * spread) for t in (T_TENTH, T_TWENTIETH))
    assert low < record["plants"]["nine_in_ten"] < high + 1
    assert record["plants"]["likely"] == math.ceil(1000 / math.exp(mean))


# Rosetta Code, Knapsack problem/Bounded: weight, value and how many of each; at most 400 dag
SACK = {
    "map": (9, 150, 1), "compass": (13, 35, 1), "water": (153, 200, 2), "sandwich": (50, 60, 2),
    "glucose": (15, 60, 2), "tin": (68, 45, 3), "banana": (27, 60, 3), "apple": (39, 40, 3),
    "cheese": (23, 30, 1), "beer": (52, 10, 3), "suntan cream": (11, 70, 1), "camera": (32, 30, 1),
    "T-shirt": (24, 15, 2), "trousers": (48, 10, 2), "umbrella": (73, 40, 1),
    "waterproof trousers": (42, 70, 1), "waterproof overclothes": (43, 75, 1),
    "note-case": (22, 80, 1), "sunglasses": (7, 20, 1), "towel": (18, 12, 2), "socks": (4, 50, 1),
    "book": (30, 10, 2),
}  # fmt: skip


def test_one_bed_holds_the_best_sack():
    """The published best: value 1010 at weight 396. Things take ground as they there weigh."""
    crops = [
        Crop(name, float(n), 1.0, float(w), value=float(v)) for name, (w, v, n) in SACK.items()
    ]
    most = {name: n for name, (_, _, n) in SACK.items()}
    plan = fit(crops, [Bed("sack", 400.0)], most, aim="shop value", rotation=False)
    taken = {name: plan.units[name, "sack"] for name in SACK if (name, "sack") in plan.units}
    assert taken == {
        "map": 1, "compass": 1, "water": 1, "glucose": 2, "banana": 3, "cheese": 1, "suntan cream": 1,
        "waterproof overclothes": 1, "note-case": 1, "sunglasses": 1, "socks": 1,
    }  # fmt: skip
    assert sum(n * SACK[name][1] for name, n in taken.items()) == 1010
    assert plan.free_m2["sack"] == pytest.approx(400 - 396)
