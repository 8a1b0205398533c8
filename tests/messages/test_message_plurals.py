"""Plurals: the forms that CLDR gives a language, chosen by the number that is shown.

Checked against the CLDR plural rules (Unicode CLDR, supplemental data, plurals.xml) through Babel, and
against examples of their charts, typed by hand: Polish has four forms, Arabic six.
"""

from __future__ import annotations

import pytest

from ledger.figures.units import one_of
from ledger.messages.catalogue import Catalogue, Speaker, speaker
from ledger.messages.checking import check_folder
from ledger.messages.language import language

POLISH = """\
jar-count = { $n ->
        [one] { $n } słoik
        [few] { $n } słoiki
        [many] { $n } słoików
       *[other] { $n } słoika
    }
"""
ARABIC = """\
jar-count = { $n ->
        [zero] zero
        [one] one
        [two] two
        [few] few
        [many] many
       *[other] other
    }
jar-of = { $name }
"""


@pytest.fixture
def say(tmp_path):
    def of(code, text):
        (tmp_path / "jar.ftl").write_text(text, "utf-8")
        return Speaker(language(code), Catalogue(tmp_path))

    return of


@pytest.mark.parametrize(
    ("n", "said"),
    [(1, "1 słoik"), (3, "3 słoiki"), (5, "5 słoików"), (22, "22 słoiki"), (112, "112 słoików"), (1.5, "1,5 słoika")],
)  # fmt: skip
def test_polish_has_four_forms(say, n, said):
    assert say("pl", POLISH).text("jar-count", n=n) == said


@pytest.mark.parametrize(
    ("n", "form"),
    [(0, "zero"), (1, "one"), (2, "two"), (3, "few"), (11, "many"), (100, "other"), (0.1, "other")],
)
def test_arabic_has_six_forms(say, n, form):
    assert say("ar", ARABIC).text("jar-count", n=n) == form


def test_names_keep_their_direction_in_arabic(say):
    assert say("ar", ARABIC).text("jar-of", name="plum") == "\u2068plum\u2069"


@pytest.mark.parametrize(
    ("n", "form"), [(1, "one"), (1.0, "one"), (1.0004, "one"), (1.01, "other"), (0, "other")]
)
def test_the_number_that_is_shown_decides(n, form):
    assert language("en").plural(n) == form
    assert language("de").plural(n) == form


def test_a_form_that_is_left_out_is_named(tmp_path):
    for code, text in (("en", POLISH), ("pl", POLISH.replace("        [few] { $n } słoiki\n", ""))):
        (tmp_path / code).mkdir()
        (tmp_path / code / "jar.ftl").write_text(text, "utf-8")
    found = [str(one) for one in check_folder(tmp_path / "pl", tmp_path / "en")]
    assert found == [
        "jar.ftl:1: jar-count: has no plural form [few] of $n. Write it, or only *[other]"
    ]


@pytest.mark.parametrize(
    ("language", "id_", "one", "several"),
    [
        ("en", "echo-people", "1 person", "2 people"),
        ("en", "echo-minutes", "1 minute", "2 minutes"),
        ("en", "told-seeds-left", "1 seed left", "2 seeds left"),
        ("en", "told-beds-put", "put 1 bed where it lies", "put 2 beds where they lie"),
        ("en", "recall-jars", "1 jar", "2 jars"),
        ("en", "hens-feed-lasts-about-days", "The feed lasts about 1 day.", "The feed lasts about 2 days."),
        ("de", "told-years", "1 Jahr", "2 Jahre"),
        ("de", "told-beds-put", "1 Beet dahin gelegt, wo es liegt", "2 Beete dahin gelegt, wo sie liegen"),
        ("de", "reserve-hours", "1 Stunde", "2 Stunden"),
        ("de", "power-days", "in 1 Tag", "in 2 Tagen"),
    ],
)  # fmt: skip
def test_one_of_a_thing_is_no_several(language, id_, one, several):
    spoken = speaker(language)
    assert [spoken.text(id_, n=n) for n in (1, 2)] == [one, several]


@pytest.mark.parametrize(
    ("unit", "one"),
    [("subjects", "subject"), ("batches", "batch"), ("entries", "entry"), ("minutes per jars", "minute per jar")],
)  # fmt: skip
def test_a_unit_of_one_is_named_so(unit, one):
    assert one_of(unit) == one
