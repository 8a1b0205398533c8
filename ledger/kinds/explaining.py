"""What the library says of a body that is none, in the user's words."""

from __future__ import annotations

import re
from typing import get_type_hints

import msgspec

from ledger.errors import InputError
from ledger.kinds.kind import Kind
from ledger.messages import Choice, Code, Message, Names, Sentence, Typed, fixed
from ledger.messages.helps import help_of

__all__ = ["explain"]

_AT = re.compile(r"^(?P<what>.*?)(?: - at `(?P<path>.*)`)?$", re.DOTALL)
_EXPECTED = re.compile(r"Expected `(?P<wanted>[^`]*)`(?:, got `(?P<got>[^`]*)`)?(?P<rest>.*)")
_BOUND = re.compile(r"Expected `\w+` (?P<length>of length )?(?P<sign>[<>]=) (?P<many>\d+)")
_PLAIN = {
    "str": "refusal-type-text",
    "int": "refusal-type-whole",
    "array": "refusal-type-list",
    "object": "refusal-type-fields",
    "null": "refusal-type-nothing",
    "bool": "refusal-type-yes-no",
    "float": "refusal-type-number",
}


def explain(error: msgspec.ValidationError, kind: Kind, *, alone: bool = False) -> InputError:
    """Turn the library's message into one in the user's words; a line `alone` goes without a name."""
    match = _AT.match(str(error))
    what, path = (match["what"], match["path"] or "") if match else (str(error), "")
    field = path.removeprefix("$").lstrip(".").removesuffix("[...]")
    if alone:
        field = field.removeprefix("lines[0]").lstrip(".")
    field = field or kind.name
    missing = re.match(r"Object missing required field `(.*)`", what)
    if missing:
        return InputError(
            _join(field, missing[1], kind),
            Message.of("refusal-missing"),
            _one_of(kind, missing[1]) or _example(kind, missing[1]),
        )
    unknown = re.match(r"Object contains unknown field `(.*)`", what)
    if unknown:
        from rapidfuzz import process

        names = [f.encode_name for f in kind.fields]
        if kind.line is not None:
            names += [f.encode_name for f in msgspec.structs.fields(kind.line)]
        near = process.extractOne(unknown[1], names, score_cutoff=70)
        hint = (
            Message.of("refusal-mean-field", name=Code(near[0]))
            if near
            else Message.of(
                "refusal-kind-has", kind=Code(kind.name), names=Names(tuple(map(Code, names)))
            )
        )
        return InputError(_join(field, unknown[1], kind), Message.of("refusal-no-field"), hint)
    expected = _EXPECTED.match(what)
    if expected and expected["got"]:
        wanted = Names(tuple(_type(w.strip()) for w in expected["wanted"].split("|")))
        rest = Code(expected["rest"]) if expected["rest"] else None
        return InputError(
            field,
            Message.of("refusal-is-what", got=_type(expected["got"])),
            Message.of("refusal-should-be", wanted=wanted, rest=rest),
        )
    bound = _BOUND.match(what)
    if bound:
        return InputError(
            field,
            Message.of(_outside(bound)),
            Message.of(
                "refusal-write-bound",
                n=int(bound["many"]),
                bound=Choice("most" if bound["sign"] == "<=" else "least"),
                what=Choice("characters" if bound["length"] else "number"),
            ),
        )
    enum = re.match(r"Invalid enum value (.*)", what)
    if enum:
        leaf = re.sub(r"\[.*?\]", "", field).rsplit(".", 1)[-1]
        return InputError(
            field,
            Message.of("refusal-no-word", text=Typed(enum[1].strip("'\""))),
            _one_of(kind, leaf) or "",
        )
    own = error.__cause__.args[0] if error.__cause__ is not None else None  # of `read_typed`
    return InputError(
        field,
        own
        if isinstance(own, Sentence)
        else Message.of("refusal-as-read", text=Code(what[0].lower() + what[1:])),
        _example(kind, field),
    )


def _outside(bound: re.Match[str]) -> str:
    """Return which message says that a number or a length is beyond a bound."""
    if bound["sign"] == "<=":
        return "refusal-too-long" if bound["length"] else "refusal-too-much"
    return "refusal-too-little" if int(bound["many"]) else "refusal-under-zero"


def _join(field: str, name: str, kind: Kind) -> str:
    return name if field == kind.name else f"{field}.{name}"


def _example(kind: Kind, name: str) -> Message | str:
    leaf = re.sub(r"\[.*?\]", "", name).rsplit(".", 1)[-1]
    for struct in (kind.body, *([kind.line] if kind.line else [])):
        hints = get_type_hints(struct, include_extras=True)
        for one in msgspec.structs.fields(struct):
            if one.encode_name == leaf:
                for meta in getattr(hints[one.name], "__metadata__", ()):
                    if isinstance(meta, msgspec.Meta) and meta.examples:
                        return Message.of(
                            "refusal-for-example",
                            what=_help(kind, leaf, meta.description or ""),
                            example=Code(repr(meta.examples[0])),
                        )
    return ""


def _type(name: str) -> Message | Code:
    """Return a type of JSON in a user's words."""
    return Message.of(_PLAIN[name]) if name in _PLAIN else Code(name)


def _help(kind: Kind, name: str, text: str) -> Message | str:
    """Return what a field is, as a message where it has one."""
    said = help_of(kind.name, name, text)
    return said.says if isinstance(said, Sentence) and isinstance(said.says, Message) else text


def _one_of(kind: Kind, leaf: str) -> Message | None:
    """Return the fixed words that a field takes; None where it takes any.

    No one method is an example of the others: beans are not put up as plums are.
    """
    known = _allowed(kind, leaf)
    if not known:
        return None
    id_ = "refusal-one-of-methods" if leaf == "method" else "refusal-one-of"
    return Message.of(id_, known=Names(tuple(fixed(one, leaf) for one in known)))


def _allowed(kind: Kind, leaf: str) -> tuple[str, ...]:
    schema = msgspec.json.schema(kind.body, schema_hook=lambda _t: {"type": "string"})
    for definition in schema.get("$defs", {}).values():
        spec = definition.get("properties", {}).get(leaf)
        if not spec:
            continue
        for option in (spec, *spec.get("anyOf", ())):
            if "enum" in option:
                return tuple(str(v) for v in option["enum"])
    return ()
