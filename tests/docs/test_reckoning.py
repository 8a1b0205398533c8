"""The batch worked by hand in docs/reckoning.md, written down and compared; docs made from code are fresh."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from ledger import docs
from ledger.kinds import KINDS

DOCS = Path(__file__).parents[2] / "docs"


@pytest.fixture
def worked(book, fixed_day):
    book.write("setting_changed", name="labour_rate", value="12", on="2026-01-01")
    book.write(
        "bought", item="tomato food", amount="5 lb", paid="8.00", for_crop="tomato", on="2026-05-01"
    )
    lines = [
        {"item": "quart jar", "amount": "12", "paid": "14.40", "years": "10"},
        {"item": "lid", "amount": "24", "paid": "6.00"},
    ]
    book.write("bought", lines=lines, on="2026-07-01")
    book.write("harvested", item="tomato", amount="20 lb", on="2026-09-01")
    book.write(
        "put_up",
        makes="tomato sauce",
        method="pressure",
        used=[{"item": "tomato", "amount": "20 lb"}],
        made=[{"jars": 7, "jar": "quart jar"}, {"amount": "1 qt", "kept": "fridge"}],
        work=[{"person": "Ada", "minutes": 120}],
        on="2026-09-02",
    )
    return book.show("jar-cost").records()


def test_the_batch_worked_by_hand_is_what_the_book_says(worked):
    jars, fridge = worked
    assert jars["cost"]["garden"] == pytest.approx(7.00)
    assert jars["cost"]["labour"] == pytest.approx(21.00)
    assert jars["cost"]["lids"] == pytest.approx(1.75)
    assert jars["cost"]["jar_wear"] == pytest.approx(0.84)
    assert jars["cost"]["all_in"] == pytest.approx(30.59)
    assert jars["cost_per_jar"] == pytest.approx(4.37)
    assert jars["cost"]["out_of_pocket"] == pytest.approx(8.75)
    assert fridge["cost"]["all_in"] == pytest.approx(4.00)
    assert jars["provisional"] is True


@pytest.mark.parametrize(
    "figure", ["32.00", "28.00", "1.75", "0.84", "30.59", "4.37 a jar", "8.75", "7,570,824"]
)
def test_the_page_prints_these_figures(figure):
    assert figure in (DOCS / "reckoning.md").read_text("utf-8")


def test_pages_made_from_code_are_fresh():
    assert (DOCS / "formats.md").read_text("utf-8") == docs.formats_page()
    assert (DOCS / "answers.md").read_text("utf-8") == docs.answers_page()


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_has_its_schema_and_its_place(kind):
    import json

    assert json.loads((DOCS / "schema" / f"{kind}.json").read_text("utf-8")) == docs.schema_of(
        KINDS[kind]
    )
    assert f"`{kind}`" in (DOCS / "formats.md").read_text("utf-8")


def test_links_between_pages_lead_somewhere():
    for page in [*DOCS.glob("*.md"), DOCS.parent / "README.md", DOCS.parent / "DEVELOPERS.md"]:
        for target in re.findall(r"\]\(([^)#]+)\)", page.read_text("utf-8")):
            assert target.startswith("http") or (page.parent / target).exists(), (page.name, target)
