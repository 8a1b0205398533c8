"""Refusals and doubts: the sources say each by id, never by an English text of their own."""

from __future__ import annotations

import ast
import typing

import msgspec
import pytest
from message_tools import english, sources

from ledger import errors
from ledger.errors import BookError, InputError, LedgerError, NeedsAnswer, TooLarge, UnknownKind
from ledger.kinds import KINDS
from ledger.kinds.describing import fields_of
from ledger.messages import Message, Typed, joined, sentence, speaker
from ledger.messages.helps import help_of
from ledger.projections import PROJECTIONS

TEXTS = {"InputError": (1, 2), "NotFound": (1, 2), "UnknownUnit": (1, 2), "NeedsAnswer": (2, 3)} | {
    name: (0,)
    for name, error in vars(errors).items()
    if isinstance(error, type) and issubclass(error, BookError)
}
"""Errors, and the places of what they say among their arguments."""
MOST_FEW = 500


def calls():
    """Yield every making of such an error: where, the argument, and what encloses it, innermost first."""
    for path, tree in sources().items():
        if path == "ledger/errors.py":
            continue
        within = {part: node for node in ast.walk(tree) for part in ast.iter_child_nodes(node)}
        for node in ast.walk(tree):
            if not isinstance(node, ast.Call):
                continue
            name = getattr(node.func, "attr", getattr(node.func, "id", ""))
            for at in TEXTS.get(name, ()):
                if at < len(node.args):
                    yield f"{path}:{node.lineno}", node.args[at], scopes(node, within, tree)
            for one in node.keywords:
                if name in TEXTS and one.arg in ("problem", "wanted", "question", "offered"):
                    yield f"{path}:{node.lineno}", one.value, scopes(node, within, tree)


def scopes(node, within, tree):
    found = []
    while node in within:
        node = within[node]
        if isinstance(node, (ast.FunctionDef, ast.AsyncFunctionDef)):
            found.append(node)
    return [*found, tree]


def is_text(node, around):
    """Return whether an argument is, or may become, a text that is written in the sources."""
    if isinstance(node, ast.Constant):
        return isinstance(node.value, str) and node.value != ""
    if isinstance(node, (ast.JoinedStr, ast.BinOp)):
        return True
    if isinstance(node, ast.IfExp):
        return is_text(node.body, around) or is_text(node.orelse, around)
    if isinstance(node, ast.BoolOp):
        return any(is_text(one, around) for one in node.values)
    if isinstance(node, ast.Call) and getattr(node.func, "attr", "") in ("format", "join"):
        return True
    if isinstance(node, ast.Name):
        return any(is_text(one, around) for one in given(node.id, around))
    return False


def given(name, around):
    """Yield what a name is given where it is called: in the function, else in the module."""
    for scope in around:
        for node in ast.walk(scope) if scope is not around[-1] else scope.body:
            named = isinstance(node, ast.Assign) and any(
                isinstance(one, ast.Name) and one.id == name for one in node.targets
            )
            if named and not isinstance(node.value, ast.Name):
                yield node.value


def test_no_refusal_is_said_by_a_text():
    found = list(calls())
    assert len(found) > MOST_FEW
    assert [where for where, node, around in found if is_text(node, around)] == []


@pytest.mark.parametrize(
    ("source", "bad"),
    [
        ('raise InputError("day", "is no day")', True),
        ('raise InputError("day", f"{day!r} is no day", Message.of("a-b"))', True),
        ('raise InputError("day", Message.of("a-b"), "Write" + day)', True),
        ('raise BookDamaged("gone")', True),
        ('problem = "gone" if day else x\n    raise BookError(problem)', True),
        ('raise NeedsAnswer("x", "day", sentence("a-b"), "{}".format(day))', True),
        ('raise InputError("day", Message.of("a-b"), "")', False),
        ('problem = sentence("a-b")\n    raise InputError("day", problem)', False),
    ],
)
def test_a_text_is_found(monkeypatch, source, bad):
    tree = ast.parse(f"def one(day, x):\n    {source}\n")
    monkeypatch.setattr("test_refusals_by_id.sources", lambda: {"ledger/x.py": tree})
    assert any(is_text(node, around) for _, node, around in calls()) is bad


# -- errors keep what they say -----------------------------------------------------------


def test_errors_are_said_in_a_language():
    damaged = BookError(sentence("refusal-book-does-not-hold", found="x"))
    assert str(damaged) == "The book does not hold: x"
    assert speaker("de").value(str(damaged).says) == "Das Buch stimmt nicht: x"
    assert str(LedgerError("plain")) == "plain"
    for error in (TooLarge("plum"), UnknownKind("eatne", 3)):
        assert speaker("de").value(str(error).says) != str(error)


def test_a_sentence_is_a_refusal_with_what_its_message_wants():
    by_text = InputError("age", sentence("refusal-bed-twice", name="south"))
    by_message = InputError("age", Message.of("refusal-bed-twice", name="south"))
    assert str(by_text) == str(by_message) == "age: south is there twice. Name each bed once"
    assert by_text.says("refusal-bed-twice")
    assert by_text.parts("de") == by_message.parts("de")
    assert by_text.right is None
    wanted = InputError("age", by_text.message, Message.of("refusal-check-its-name"))
    assert wanted.right.id == "refusal-check-its-name"


def test_a_row_of_texts_is_no_message_of_its_own():
    row = joined("; ", [sentence("refusal-empty"), sentence("refusal-zero")])
    error = InputError("age", row)
    assert error.message is None
    assert not error.says("refusal-empty")
    assert error.problem == "is empty; is 0"


def test_a_doubt_keeps_its_question():
    doubt = NeedsAnswer("unit", "amount", sentence("doubt-means-one", text=Typed("1"), jars="2"))
    assert speaker("de").value(doubt.question.says) == "heißt „1“ 2?"


# -- what fields and options are for ----------------------------------------------------


def helps():
    """Yield (kind or question, field or option, its help in English)."""
    for kind in KINDS.values():
        for field in fields_of(kind):
            yield kind.name, field.name, field.help.partition(", e.g. ")[0]
        for struct in (kind.body, *([kind.line] if kind.line else [])):
            hints = typing.get_type_hints(struct, include_extras=True)
            for one in msgspec.structs.fields(struct):
                for meta in getattr(hints[one.name], "__metadata__", ()):
                    if isinstance(meta, msgspec.Meta) and meta.description:
                        yield kind.name, one.encode_name, meta.description
    for name, projection in PROJECTIONS.items():
        yield "question", name, projection.question
        for option in projection.options:
            yield name, option.name, option.help


def test_every_field_and_option_has_its_help_by_id():
    said = [(of, name, text, help_of(of, name, text)) for of, name, text in helps() if text]
    assert [(of, name) for of, name, text, one in said if one != text] == []
    assert [(of, name) for of, name, _, one in said if not hasattr(one, "says")] == []
    ids = {id_ for id_ in english() if id_.startswith("help-")}
    assert ids == {one.says.id for _, _, _, one in said}
