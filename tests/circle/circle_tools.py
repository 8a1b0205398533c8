"""Groups and books that several tests of circles share."""

from __future__ import annotations

import random

import pytest

from ledger import Book
from ledger.circle import Call, Circle, Sheet
from ledger.circle.figures import Figure

DAYS = ("2026-01-01", "2026-10-31")
BEFORE = ("2025-01-01", "2025-10-31")


def call_of(**more):
    """Return a call with one product and one crop, but for what is said otherwise."""
    told = {
        "products": ["plum butter/boiling water"],
        "crops": ["tomato"],
        "zones": ["4", "5", "6"],
        **more,
    }
    return Call.make("Hill class", 2026, DAYS, **told)


def drawn(figure: Figure, rng: random.Random) -> int:
    """Return some value within a figure's limits."""
    return rng.randint(figure.low, figure.high)


def figures_drawn(call: Call, rng: random.Random) -> dict[str, int | None]:
    """Return figures that could be a household's: parts within wholes, some not known."""
    out: dict[str, int | None] = {name: drawn(one, rng) for name, one in call.figures.items()}
    for part, whole in (("judged", "batches"), ("short", "judged"), ("no_process", "judged"), ("not_recorded", "judged"), ("unsealed", "canned"), ("kept_over_year", "kept")):  # fmt: skip
        out[part] = rng.randint(0, min(out[whole], call.figures[part].high))
    for name in ("own_energy", "waste", *(n for n in out if n.startswith("c1") or "cost" in n)):
        if rng.random() < 0.1:
            out[name] = None
    return out


@pytest.fixture
def rng():
    return random.Random(19)


@pytest.fixture
def circle(tmp_path):
    """A group with thirty cards; `circle.drawn` has them."""
    made = Circle.begin(tmp_path / "group", call_of())
    made.drawn = made.cards(30)
    return made


@pytest.fixture
def hand_in(tmp_path, rng):
    """Return a function that writes sheets of cards and gathers them."""

    def go(circle, cards, figures=None, zone=None, made_on="2026-11-01"):
        path = tmp_path / f"sheets-{rng.random()}.json"
        with path.open("wb") as out:
            for at, card in enumerate(cards):
                said = figures(at) if figures else figures_drawn(circle.call, rng)
                where = zone(at) if zone else rng.choice(circle.call.zones)
                sheet = Sheet.make(circle.call, card, where, said, made_on)
                out.write(sheet.to_bytes() + b"\n")
        return circle.gather([path])

    return go


@pytest.fixture
def season(tmp_path, fixed_day):
    """A book of two seasons, small enough to reckon by hand."""
    with Book.open(tmp_path / "season.sqlite") as book:
        write_season(book)
        yield book


def write_season(book: Book) -> None:
    """Write two batches of plum butter of each year, a tomato bed, meals and a loss."""
    book.write("setting_changed", name="people", value="4", on="2024-01-01")
    book.write("item_described", item="pint jar", sort="jar", measure="count", holds="1 pt", uses="10", on="2024-01-01")  # fmt: skip
    lines = [{"item": "pint jar", "amount": "80", "paid": "64"}, {"item": "lid", "amount": "80", "paid": "16"}]  # fmt: skip
    book.write("bought", lines=lines, on="2024-01-02")
    for year, sugar, minutes, unsealed in (("2025", "8", "80", 2), ("2026", "12", "60", 1)):
        book.write("bought", lines=[{"item": "sugar", "amount": "24 lb", "paid": "24"}], on=f"{year}-02-01")  # fmt: skip
        book.write("harvested", item="plum", amount="40 lb", on=f"{year}-08-01")
        book.write("planted", crop="tomato", plants=4, area="2 m2", how="set out", on=f"{year}-05-01")  # fmt: skip
        book.write("harvested", item="tomato", amount="5 kg", on=f"{year}-08-02")
        for day in ("03", "04"):
            used = [{"item": "plum", "amount": "16 lb"}, {"item": "sugar", "amount": f"{sugar} lb"}]
            book.write(
                "put_up", makes="plum butter", method="boiling water", used=used, minutes="10",
                made=[{"jars": 8, "jar": "pint jar", "unsealed": unsealed if day == "03" else 0}],
                work=[{"person": "Ada", "minutes": minutes}], on=f"{year}-08-{day}",
            )  # fmt: skip
        book.write("eaten", ate=[{"item": "tomato", "amount": "3 kg"}], people=4, on=f"{year}-08-05")  # fmt: skip
        book.write("discarded", item="tomato", amount="1 kg", why="spoiled", on=f"{year}-08-06")
