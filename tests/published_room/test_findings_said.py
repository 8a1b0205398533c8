"""What is found of a batch is said in every language by its message: figure for figure, document for document."""

from __future__ import annotations

import re

import pytest
from verdict_table import cases

from ledger.errors import InputError
from ledger.messages import Names, Sentence, joined, sentence, worded
from ledger.published import (
    BatchDone,
    JarsDone,
    Used,
    after_batch,
    batch_of,
    before_batch,
    caution_before,
    doubts_of,
    unsealed_jars,
    verdict_of,
)
from ledger.published.words import cited, says, without
from ledger.questions.as_published.question import finding
from ledger.questions.as_published.words import field_word, finding_line, verdict_lines
from ledger.reference.schedules import products

SOURCES = ("source", "source2", "published-source")


def numbers(text):
    """Return the figures of a text, without the signs between their digits."""
    return sorted(re.findall(r"\d+", re.sub(r"(?<=\d)[.,](?=\d)", "", text)))


@pytest.fixture(scope="module")
def judged():
    """Return the table's batches with their verdicts, at 500 ft and where no altitude is known."""
    out = []
    for n, case in enumerate(cases().values()):
        settings = {**({"altitude": "500 ft"} if n % 4 else {}), **dict(case.settings)}
        try:
            batch = batch_of(
                case.body, altitude=settings.get("altitude"), gauge=settings.get("gauge")
            )
        except InputError:
            continue
        out.append((batch, verdict_of(batch)))
    return out


def test_no_figure_of_a_finding_is_lost_or_changed(judged):
    texts = {one.text for _, found in judged for one in found.findings}
    texts |= {found.summary for _, found in judged}
    texts |= {
        a.text for _, found in judged for hours in (None, 1.0) for a in after_batch(found, hours)
    }
    texts |= {one.question for batch, _ in judged for one in doubts_of(batch)}
    texts |= {said for batch, _ in judged if (said := caution_before(batch))}
    assert len(texts) > 800
    assert [text for text in texts if not isinstance(text, Sentence)] == []
    assert [text for text in texts if worded(text, "de") == text] == []
    assert [text for text in texts if numbers(text) != numbers(worded(text, "de"))] == []


def test_what_is_printed_is_said_with_all_its_figures():
    texts = {one.text for one in unsealed_jars()}
    for key in products():
        for jar in ("pint jar", "quart jar"):
            found = before_batch(products()[key].label, jar=jar, altitude_ft=2600)
            texts |= {one.text for one in (*found.processes, *found.steps)}
            texts |= {*found.questions, *found.notes[:1], *(one.amount for one in found.needs)}
    said = {text: worded(text, "de") for text in texts if isinstance(text, Sentence)}
    assert len(said) > 200
    assert [text for text in said if numbers(text) != numbers(said[text])] == []


def test_a_danger_is_named_in_both_languages(judged):
    """The caution and its foods, and that the jar is not tasted, whatever the language."""
    told = [(found.danger, caution_before(batch)) for batch, found in judged if found.danger]
    assert len(told) > 100
    for danger, caution in told:
        german = worded(caution, "de")
        heads = ("CAUTION: ", "VORSICHT: ")
        if danger.pressure:  # no caution of boiling water there (rule 8.3)
            heads = ("NO PUBLISHED PROCESS: ", "KEINE VERÖFFENTLICHTE VORSCHRIFT: ")
        assert (caution.startswith(heads[0]), german.startswith(heads[1])) == (True, True)
        assert all(name in caution and name in german for name in danger.names)
        assert "do not taste" in caution
        assert "nicht kosten" in german


def test_documents_are_left_out_by_their_place_and_not_by_their_look(judged):
    for _, found in judged:
        for one in found.findings:
            bare = without(one.text, *SOURCES)
            assert len(bare) <= len(one.text)
            assert not re.search(r"\([^()]*; [^()]*\d{4}\)", bare), bare
            assert bare == without(bare, *SOURCES)


def test_without_takes_parts_and_whole_sentences():
    done = sentence("finding-done", done=5)
    text = joined(
        " ", (sentence("finding-steam-acid-only", source=cited("Bulletin; Press, 1994")), done)
    )
    assert text.startswith(
        "A steam canner is published for acid food only (Bulletin; Press, 1994)."
    )
    assert without(text, "source") == "A steam canner is published for acid food only. Done: 5."
    assert worded(without(text, "source"), "de").endswith(
        "nur für saure Lebensmittel veröffentlicht. Gemacht: 5."
    )
    assert (
        without(text, "finding-done", "source") == "A steam canner is published for acid food only."
    )
    assert (
        without("as typed (Bulletin; Press, 1994)", "source") == "as typed (Bulletin; Press, 1994)"
    )
    assert without(text, "nothing") is text


def test_says_looks_within():
    inner = sentence("finding-done", done=sentence("finding-bottled"))
    row = joined(" ", ("x", sentence("finding-how-much-ask", names=Names(("salt",))), inner))
    assert says(row, "finding-bottled")
    assert says(row, "finding-how-much-ask")
    assert not says(row, "finding-more-than-tested")
    assert not says("Done: bottled.", "finding-done")


def test_lines_name_the_field_in_the_language(judged):
    assert field_word("psi") == "pressure"
    assert worded(field_word("acid"), "de") == "Säure"
    fields = {one.field for _, found in judged for one in found.findings}
    assert [one for one in fields if not isinstance(field_word(one), Sentence)] == []
    for _, found in judged[:60]:
        record = {
            "findings": [finding(one) for one in found.findings],
            "batch": "0123456789",
            "advice": ["x"],
        }
        for line in verdict_lines(record):
            assert worded(line, "de") != line
        for one in record["findings"]:
            assert finding_line(one, whole=True).endswith(one["text"])


def test_words_that_no_table_knows_are_shown_as_they_were_typed():
    used = (Used("Zucchini", "3 kg"), Used("Essig 5%", "1 l"))
    jars = (JarsDone("pint jar", 6),)
    found = verdict_of(BatchDone("Zucchini süßsauer", "boiling water", jars, used))
    said = " ".join(one.text for one in found.findings)
    assert "süßsauer" in said
    assert "suesssauer" not in said
    soup = (Used("Rindfleisch", "2 kg"), Used("Nudeln", "1 kg"))
    found = verdict_of(BatchDone("Rindsuppe mit Nudeln", "pressure", jars, soup))
    said = " ".join(one.text for one in found.findings if one.field == "product")
    assert "Rindsuppe mit Nudeln says Nudeln" in said
