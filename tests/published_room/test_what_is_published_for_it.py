"""What stands first against food of little acid says truly what the tables print for that food."""

from __future__ import annotations

import pytest
from verdict_table import cases

from ledger.published import batch_of, verdict_of
from ledger.published.danger import AGAINST
from ledger.published.words import says

PRESSURE, ACID, OIL, NONE = (
    "finding-pressure-only",
    "finding-acid-in-each",
    "finding-oil-warm",
    "finding-none-so",
)


def first(name):
    """Return the finding that stands first against a batch of the verdict table."""
    found = verdict_of(batch_of(cases()[name].body, altitude="500 ft")).findings[0]
    assert found.kind == AGAINST
    return found


# AIB 539, guides 3 to 5: beans and carrots by pressure alone; tomatoes and figs with acid in each jar by either
# method; garlic, zucchini and cabbage have no process of their own; nothing is printed under oil (OKSTATE_OIL).
@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("bw-green-beans", PRESSURE),
        ("cellar-carrots-jars", PRESSURE),
        ("open-kettle-beans", PRESSURE),
        ("bw-zucchini", NONE),
        ("bw-onoin", NONE),
        ("kraut-raw-cabbage", NONE),
        ("ferment-garlic-shelf", NONE),
        ("cook-tomato-shelf", NONE),
        ("garlic-oil-shelf", OIL),
        ("dry-tomatoes-in-oil", OIL),
        ("oil-garlic-loose-shelf", OIL),
        ("mushrooms-in-oil", OIL),
        ("tomatoes-no-acid", ACID),
        ("tomatoes-lemons", ACID),
        ("figs-no-acid", ACID),
        ("tomatoes-water-no-acid", ACID),
    ],
)
def test_what_is_said_to_be_published_is(name, said):
    found = first(name)
    assert [one for one in (PRESSURE, ACID, OIL, NONE) if says(found.text, one)] == [said]
    assert found.published == ("pressure" if said == PRESSURE else None)


def test_pressure_alone_is_never_said_beside_boiling_water():
    """No batch reads both "every process is for a pressure canner" and "published for boiling water"."""
    read = 0
    for case in cases().values():
        if "against" not in case.allowed:
            continue
        findings = verdict_of(batch_of(case.body, altitude="500 ft")).findings
        if any(says(one.text, PRESSURE) for one in findings):
            read += 1
            by = [str(one.published) for one in findings if one.field == "method"]
            assert not any("boiling water" in text for text in by), case.id
    assert read > 50
