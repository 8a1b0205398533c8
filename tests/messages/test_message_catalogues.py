"""Messages: what the sources say is there, whole and alike in every language, and nothing else is."""

from __future__ import annotations

import re
import subprocess
import sys
import tomllib

import msgspec
import pytest
from message_tools import ROOT, english, literals, read_english, said, taken

from ledger.cli._root import OTHERS, root
from ledger.kinds import KINDS
from ledger.messages import (
    LANGUAGES,
    Amount,
    Choice,
    Code,
    Day,
    Link,
    Message,
    Money,
    Names,
    Part,
    Typed,
    known_language,
    speaker,
    worded,
)
from ledger.messages.__main__ import main
from ledger.messages.catalogue import HERE, Catalogue, Speaker
from ledger.messages.checking import check_folder
from ledger.messages.language import language
from ledger.messages.units import unit
from ledger.messages.words import column, column_ids, word
from ledger.projections import PROJECTIONS
from ledger.published.forms import form_word
from ledger.published.freezer import freezer_off
from ledger.questions.compared.compare import COLUMNS as COMPARED
from ledger.reference import servings
from ledger.reference.kinds import forms
from ledger.reference.storage import power_cut
from ledger.vocabulary import VOCABULARY

FAMILIES = ("command", "metavar", "word", "sense", "column", "form", "chart", "unit", "help", "kind", "example")  # fmt: skip
"""Areas whose ids are composed, each held complete below by what it names."""


# -- the sources and the catalogues ------------------------------------------------------


def test_what_is_said_is_there_with_exactly_its_parameters():
    missing = [one for one in said() if one.id not in english()]
    assert missing == []
    wrong = [
        (one.where, one.id, sorted(one.given), sorted(taken(one.id)))
        for one in said()
        if one.given is not None and one.given != taken(one.id)
    ]
    assert wrong == []
    assert len(said()) > 100


def test_no_message_is_left_unsaid():
    unsaid = [
        id_ for id_ in english() if id_.partition("-")[0] not in FAMILIES and id_ not in literals()
    ]
    assert unsaid == []


@pytest.mark.parametrize("code", LANGUAGES)
def test_every_language_is_whole_and_without_fault(code):
    assert read_english()[1] == []
    assert [str(one) for one in check_folder(HERE / code, HERE / "en")] == []


def test_every_folder_is_a_language_and_goes_along():
    assert {one.name for one in HERE.iterdir() if (one / "cli.ftl").is_file()} == set(LANGUAGES)
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
    assert "*.ftl" in project["tool"]["setuptools"]["package-data"]["*"]


def test_every_command_says_what_it_does():
    circle = {f"circle-{name}" for name in root.get_command(None, "circle").list_commands(None)}
    ids = {id_.removeprefix("command-") for id_ in english() if id_.startswith("command-")}
    assert ids == {*VOCABULARY, *OTHERS, *circle}
    assert {name: speaker("en").text(f"command-{name}") for name in VOCABULARY} == {
        kind.command: kind.summary for kind in KINDS.values()
    }


def test_every_kind_says_what_was_done():
    texts = {id_: speaker("en").text(id_) for id_ in english() if id_.startswith("kind-")}
    titles = {f"kind-{name.replace('_', '-')}": kind.title.lower() for name, kind in KINDS.items()}
    assert texts == titles


def test_every_column_has_a_heading():
    asked = {
        (name, one.name)
        for name, projection in PROJECTIONS.items()
        for columns in (projection.columns, *projection.variants.values(), COMPARED)
        for one in columns
    }
    assert {one for one in asked if column("de", *one) is None} == set()
    taken = {next(id_ for id_ in column_ids(*one) if id_ in english()) for one in asked}
    assert {id_ for id_ in english() if id_.startswith("column-")} - taken == set()


def test_what_a_column_is_has_one_heading():
    """A heading of its own differs from the one that the column would have without it, in some language."""
    asked = {
        (name, one.name)
        for name, projection in PROJECTIONS.items()
        for columns in (projection.columns, *projection.variants.values(), COMPARED)
        for one in columns
    }
    for one in asked:
        own, *others = [id_ for id_ in column_ids(*one) if id_ in english()]
        for other in others[:1]:
            assert [speaker(code).text(own) for code in LANGUAGES] != [
                speaker(code).text(other) for code in LANGUAGES
            ], (own, other)


def test_fixed_words_are_words_of_the_ledger():
    foods = [one.food for one in servings.plans()]
    planned = [one.food for one in servings.plans() if one.kind == "servings_plan"]
    assert [one for one in planned if word("de", one, "food") == one] == []
    texts = " ".join([*literals(), *foods]).replace("_", " ")
    for id_ in english():
        area, _, key = id_.partition("-")
        if area in ("word", "sense") and id_ not in literals():
            last = key.replace("-", " ").removesuffix("s")
            assert any(
                last.endswith(one) and one in texts for one in (last, *last.split(" ")) if one
            ), id_


def test_every_form_and_kind_of_the_tables_is_said():
    """Forms of food, and the kinds and remarks of the chart of a stopped freezer."""
    said_ = [form_word(one) for one in (*forms(), "butter")]
    assert [str(one) for one in said_] == [*forms(), "butter"]
    assert {one.says.id for one in said_} == {id_ for id_ in english() if id_.startswith("form-")}
    for hours in (30.0, 60.0):
        charted = freezer_off(hours)
        assert [str(one.kind) for one in charted] == [one.kind for one in power_cut()]
        assert all(worded(one.text, "de") != one.text for one in charted)
    slugs = {re.sub("[^a-z]+", "-", text) for one in power_cut() for text in (one.kind, one.remark)}
    assert {f"chart-{one}" for one in slugs if one} <= set(english())


def test_units_of_columns_are_said_whole():
    """What is no unit of its own here is written alike in every language."""
    alike = {
        "g",
        "kg",
        "mg",
        "lb",
        "kcal",
        "kJ",
        "J",
        "L",
        "ml",
        "m",
        "ft",
        "in",
        "psi",
        "kWh",
        "money",
    }
    units = {
        one.unit
        for projection in PROJECTIONS.values()
        for columns in (projection.columns, *projection.variants.values())
        for one in columns
        if not re.search(r",| or |its unit|^0 to 1|yes or no|^$", one.unit)
    }
    assert {one: str(unit(one)) for one in units} == {one: one for one in units}
    english = {one for one in units - alike if worded(unit(one), "de") == one}
    assert english == set()


def test_unit_names_are_units_of_the_ledger():
    spoken = tomllib.loads((ROOT / "ledger/saying/words/en.toml").read_text("utf-8"))
    counted = {*spoken["units"], *spoken["counted"], *spoken["unknown"]}
    texts = {re.sub(r"[^a-z0-9]+", "-", one.lower()).strip("-") for one in (*literals(), *counted)}
    for id_ in english():
        if id_.startswith("unit-name-"):
            key = id_.removeprefix("unit-name-")
            assert any(key.removesuffix("s") in one for one in texts), id_


def test_help_reads_neither_msgspec_nor_babel():
    code = (
        "import sys; from ledger.cli import main; main(['--help', '--language', 'de']);"
        "sys.exit(any(one in sys.modules for one in ('msgspec', 'babel', 'numpy')))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, check=False)
    assert done.returncode == 0, done.stderr.decode()
    assert "Einträge" in done.stdout.decode()


# -- a message --------------------------------------------------------------------------

EVERY = Message.of(
    "a-b",
    n=1,
    share=0.5,
    name="plum",
    nothing=None,
    amount=Amount(((7, "lb"), (3, "oz"))),
    money=Money(2.14, "USD"),
    day=Day("2026-09-02"),
    code=Code("croftbook undo"),
    link=Link("shelf/x:1"),
    names=Names(("plum", Code("x")), most=1),
    choice=Choice("hot"),
    typed=Typed("3 lbb"),
    inner=Message.of("c-d"),
)


def test_messages_go_to_json_and_come_back():
    assert msgspec.json.decode(msgspec.json.encode(EVERY), type=Message) == EVERY
    assert Day("x") != Code("x")


@pytest.mark.parametrize("wrong", [True, b"x", [1], {"a": 1}, object()])
def test_a_message_takes_nothing_that_no_language_could_say(wrong):
    with pytest.raises(TypeError, match="a-b: x is a"):
        Message.of("a-b", x=wrong)


def spoken(tmp_path, text, code="en"):
    (tmp_path / "a.ftl").write_text(text, "utf-8")
    (tmp_path / "word.ftl").write_text((HERE / code / "word.ftl").read_text("utf-8"), "utf-8")
    return Speaker(language(code), Catalogue(tmp_path))


@pytest.mark.parametrize(
    ("text", "given", "said"),
    [
        ("a-b = { $x }", {"x": "plum"}, "plum"),
        ("a-b = { $x }", {"x": 1234.5}, "1,234.5"),
        ('a-b = { SAY($x, style: "plain") }', {"x": 2026}, "2026"),
        ("a-b = { $x }", {"x": Typed("it's")}, '"it\'s"'),
        ("a-b = { $x }", {"x": Typed("\x1b[1m")}, r"'\x1b[1m'"),
        ("a-b = { $x }", {"x": Day("2026-09-02")}, "2 Sep 2026"),
        ('a-b = { DAY($x, style: "short") }', {"x": Day("2026-09-02")}, "2 Sep"),
        ('a-b = { DAY($x, style: "iso") }', {"x": Day("2026-09-02")}, "2026-09-02"),
        ("a-b = { $x }", {"x": Amount(((7, "lb"), (0.5, "oz")))}, "7 lb 0.5 oz"),
        ("a-b = { $x }", {"x": Names(("a", "b", "c"))}, "a, b and c"),
        ('a-b = { LIST($x, type: "or") }', {"x": Names(("a", "b", "c"))}, "a, b or c"),
        ('a-b = { LIST($x, type: "commas") }', {"x": Names(("a", "b"))}, "a, b"),
        ("a-b = { $x }", {"x": Names(("a", "b", "c", "d"), most=2)}, "a, b and 2 more"),
        ("a-b = one\n    two\n\n    three", {}, "one two\n\nthree"),
        ("a-b = `croftbook { $x }`", {"x": "**"}, "`croftbook **`"),
        ("a-b = { $x ->\n   [none] no\n  *[other] yes\n }", {"x": None}, "no"),
        ("a-b = { $x ->\n   [none] no\n  *[other] yes\n }", {"x": "none"}, "yes"),  # a bed's name
        ("a-b = { $x ->\n   [hot] hot\n  *[raw] raw\n }", {"x": Choice("hot")}, "hot"),
        ("a-b = { $x ->\n   [0] none\n   [one] one\n  *[other] { $x }\n }", {"x": 0}, "none"),
        ("a-b = { $x ->\n   [one] one\n  *[other] { $x } of them\n }", {"x": 1.0}, "one"),
        ("a-b = { $x ->\n   [one] one\n  *[other] { $x } of them\n }", {"x": 1.5}, "1.5 of them"),
        ("a-b = { $x ->\n   [one] one\n  *[other] { $x } of them\n }", {"x": 0.25}, "0.25 of them"),
        ('a-b = { SAY($x, case: "dative") }\na-c = { $case ->\n  [dative] dat\n *[nominative] nom\n }',
         {"x": Message.of("a-c")}, "dat"),
    ],
)  # fmt: skip
def test_messages_are_said(tmp_path, text, given, said):
    assert spoken(tmp_path, text).text("a-b", **given) == said


def test_parts_carry_their_style_and_marks_of_names_are_text(tmp_path):
    say = spoken(tmp_path, 'a-b = **Jam**: { $x } `{ $y }` { LINK($z, text: "Why?") }')
    parts = say.parts("a-b", x="**[bold]x", y=Code("undo"), z=Link("shelf/x:1"))
    assert parts[0] == Part("Jam", "strong")
    assert Part("**[bold]x") in parts
    assert Part("undo", "code") in parts
    assert parts[-1] == Part("Why?", "link", "shelf/x:1")


def test_what_no_language_has_is_its_id_and_never_a_traceback(caplog):
    assert speaker("de").text("nowhere-at-all") == "nowhere-at-all"
    assert "no text for nowhere-at-all" in caplog.text


def test_english_stands_in_for_what_a_language_lacks(tmp_path):
    (tmp_path / "a.ftl").write_text("a-b = here\n", "utf-8")
    say = Speaker(language("de"), Catalogue(tmp_path), Catalogue(HERE / "en"))
    assert say.text("a-b") == "here"
    assert say.text("cli-none-open") == "No question is open."


def test_languages_go_by_their_code():
    assert [known_language(one) for one in ("de", "de-AT", "en_US.UTF-8", "fr", "", None)] == [
        "de", "de", "en", None, None, None
    ]  # fmt: skip
    assert speaker("fr").text("cli-none-open") == "No question is open."


def test_a_word_of_its_own_column_comes_first():
    assert word("de", "given") == "geschenkt"
    assert word("de", "given", "to") == "weggegeben"
    assert word("de", "given", "no_column") == "geschenkt"
    assert word("de", "a name of ours", "to") == "a name of ours"
    assert word("de", "Given") == "Given"  # a name, not the word


# -- what is wrong with a folder ---------------------------------------------------------

GOOD = """\
one-a = { $n ->
        [one] 1 thing
       *[other] { $n } things
    }
one-b = Say { $name } and go on
    .wanted = Write it
one-c = { $x ->
        [hot] hot
       *[raw] raw
    }
"""
FAULTY = {
    "marked as default": (GOOD.replace("       *[other]", "        [other]"), "one-a", "Write it as"),
    "stands twice": (f"{GOOD}one-b = Again { '{ $name }' }\n    .wanted = x\n", "one-b", "Keep one"),
    "is missing": (GOOD.replace("one-b =", "one-bb ="), "one-b", "Say: Say { $name } and go on"),
    "is not in English": (f"{GOOD}one-d = Mehr\n", "one-d", "Take it out"),
    "has no .wanted": (GOOD.replace("    .wanted = Write it\n", ""), "one-b", "Say: Write it"),
    "leaves out $name": (GOOD.replace("{ $name }", "it"), "one-b", "English says"),
    "says $nam,": (GOOD.replace("$name", "$nam"), "one-b", "It is given name"),
    "lacks the variant [hot]": (GOOD.replace("        [hot] hot\n", ""), "one-c", "English has"),
    "has no plural form [one]": (
        GOOD.replace("        [one] 1 thing", "        [few] viele"), "one-a", "only *[other]"),
    "has a plural form [few]": (
        GOOD.replace("[one] 1 thing", "[one] 1 thing\n        [few] x"), "one-a", "Take it out"),
    "is still English": (GOOD, "one-b", "Say it in the language"),
    "BEND is no function": (GOOD.replace("{ $name }", "{ BEND($name) }"), "one-b", "Use one of"),
    "has no option": (GOOD.replace("{ $name }", '{ LIST($name, x: "y") }'), "one-b", "It takes"),
    "does not end": (GOOD.replace("{ $name } and", "`{ $name } and"), "one-b", "Close it"),
    "another area's file": (GOOD.replace("one-b", "two-b"), "two-b", "Move it into two.ftl"),
}  # fmt: skip


@pytest.mark.parametrize("problem", FAULTY)
def test_faults_are_named_with_file_line_and_remedy(tmp_path, problem):
    text, id_, wanted = FAULTY[problem]
    for name, content in (("en", GOOD), ("de", text)):
        (tmp_path / name).mkdir()
        (tmp_path / name / "one.ftl").write_text(content, "utf-8")
    found = [str(one) for one in check_folder(tmp_path / "de", tmp_path / "en")]
    (line,) = [one for one in found if problem in one and f" {id_}:" in one][:1]
    assert line.startswith("one.ftl:")
    assert wanted in line


def test_a_folder_is_checked_from_the_command_line(tmp_path, capsys):
    assert main([str(HERE / "de")]) == 0
    assert "nothing is wrong" in capsys.readouterr().out
    (tmp_path / "pl").mkdir()
    assert main([str(tmp_path / "pl")]) == 1
    assert (
        "cli.ftl:0: cli-none-open: is missing. Say: No question is open." in capsys.readouterr().out
    )
    assert main([str(tmp_path / "nowhere")]) == 2
    assert main([]) == 2
    assert "FOLDER" in capsys.readouterr().err


def test_no_code_asks_the_text_of_a_refusal():
    """It asks `error.says(id)`."""
    paths = [*(ROOT / "ledger").rglob("*.py"), *(ROOT / "dashboard").rglob("*.py")]
    assert [str(p) for p in paths if "error.problem ==" in p.read_text("utf-8")] == []
