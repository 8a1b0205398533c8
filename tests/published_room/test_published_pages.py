"""The pages in docs/ are those that the tables make."""

from __future__ import annotations

from pathlib import Path

import pytest

from ledger.published import CAUTIONS
from ledger.published.docs import cautions_text, schedules_text, write_docs

DOCS = Path(__file__).parents[2] / "docs"


@pytest.mark.parametrize(
    ("name", "text"), [("schedules.md", schedules_text()), ("cautions.md", cautions_text())]
)
def test_page_is_up_to_date(name, text):
    assert (DOCS / name).read_text("utf-8") == text


def test_pages_are_written(tmp_path):
    write_docs(tmp_path)
    assert (tmp_path / "cautions.md").read_text("utf-8").startswith("# Cautions")
    assert "not recommended" in (tmp_path / "schedules.md").read_text("utf-8")


@pytest.mark.parametrize(
    "word", ["Botulism", "taste", "gauge", "burns", "Glass", "manual", "local codes", "extension"]
)
def test_cautions_cover_the_usual(word):
    assert any(word.lower() in f"{heading} {text}".lower() for heading, text in CAUTIONS)
