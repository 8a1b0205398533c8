"""The only place where JSON becomes a body and a body becomes JSON."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import cache, partial
from typing import Annotated, Any, get_args, get_origin

import msgspec

from ledger.amounts import Said
from ledger.errors import InputError, NewerEvent, UnknownKind
from ledger.kinds.explaining import explain
from ledger.kinds.fields import DayText, DecText, PressText, ValueText, read_typed
from ledger.kinds.kind import Kind
from ledger.kinds.registry import KINDS
from ledger.messages import Code, Message, SaidLater, Sentence

__all__ = [
    "check_typed",
    "decode_stored",
    "kind_of",
    "lean_body",
    "newer_than_this",
    "read_stored",
    "tell",
    "to_stored",
    "upcast",
]


def kind_of(name: str, *, seq: int | None = None) -> Kind:
    """Return the kind called `name`.

    Raises
    ------
    UnknownKind
        When this program has no such kind; a near miss is offered.
    """
    try:
        return KINDS[name]
    except KeyError:
        raise UnknownKind(name, seq, tuple(KINDS)) from None


def newer_than_this(found: Iterable[tuple[str, int, int]]) -> list[str]:
    """Return what of (kind, version, first event) this program cannot read, in words."""
    newer = []
    for name, v, seq in found:
        if name not in KINDS:
            newer.append(f"event {seq} is of the kind {name!r}")
        elif not 1 <= v <= KINDS[name].v:
            newer.append(f"event {seq}, {name}, has body version {v}")
    return newer


def check_typed(kind: Kind, body: dict[str, Any]) -> dict[str, Any]:
    """Check a typed body and return it as plain values with every field in its stored form.

    An amount that was read already keeps what it was read as (`ledger.amounts.Said`).

    One line's fields standing directly in a body that has `lines` are moved into a list.

    Raises
    ------
    InputError
        Naming the field, what was wrong and what would be right.
    """
    if not isinstance(body, dict):
        raise InputError("body", Message.of("refusal-no-fields"))
    _refuse_broken(body)
    body = _gather(kind, body)
    try:
        struct = msgspec.convert(body, kind.body, dec_hook=_hook, strict=True)
    except msgspec.ValidationError as error:
        raise explain(error, kind, alone=_is_alone(body)) from None
    return msgspec.to_builtins(struct, builtin_types=(Said,), enc_hook=str)  # type: ignore[no-any-return]


_DEEPEST = 20
_MOST_WHOLE = 1 << 63


def _refuse_broken(value: Any, field: str = "", deep: int = 0) -> None:
    """Refuse what no text or number of a body can be, before anybody tries to read it.

    Raises
    ------
    InputError
    """
    at = field or "body"
    if isinstance(value, str):
        try:
            value.encode()
        except UnicodeEncodeError:
            raise InputError(at, Message.of("refusal-broken-character")) from None
    elif isinstance(value, int) and not -_MOST_WHOLE < value < _MOST_WHOLE:
        raise InputError(at, Message.of("refusal-number-beyond"))
    elif isinstance(value, dict):
        if deep > _DEEPEST:
            raise InputError(at, Message.of("refusal-nested"))
        for name, part in value.items():
            if not isinstance(name, str):
                raise InputError(at, Message.of("refusal-no-field-name", text=Code(repr(name))))
            _refuse_broken(name, at, deep + 1)
            _refuse_broken(part, f"{field}.{name}" if field else name, deep + 1)
    elif isinstance(value, (list, tuple)):
        if deep > _DEEPEST:
            raise InputError(at, Message.of("refusal-nested"))
        for i, part in enumerate(value):
            _refuse_broken(part, f"{field}[{i}]", deep + 1)


def _is_alone(body: dict[str, Any]) -> bool:
    return isinstance(body.get("lines"), list) and len(body["lines"]) == 1


def _hook(kind: type, value: Any) -> Any:
    if kind in (DecText, DayText, PressText, ValueText):
        return read_typed(kind, value)
    raise NotImplementedError(kind)


def _gather(kind: Kind, body: dict[str, Any]) -> dict[str, Any]:
    """Move one line's fields into `lines`; make lists of single things that lists hold."""
    line = kind.line
    if line is not None:
        names = kind.line_names
        direct = {key: value for key, value in body.items() if key in names}
        if direct and "lines" in body:
            raise InputError(next(iter(direct)), Message.of("refusal-beside-lines"))
        if direct:
            body = {key: value for key, value in body.items() if key not in names} | {
                "lines": [direct]
            }
    for name in ("fuel", "acid", "left", "work"):
        if isinstance(body.get(name), dict):
            body = {**body, name: [body[name]]}
    return body


def to_stored(body: dict[str, Any]) -> str:
    """Return the canonical JSON text of a body: sorted keys, compact, no floats, no NUL.

    Raises
    ------
    InputError
        When a text holds a NUL or half a surrogate pair.
    """
    try:
        text = msgspec.json.encode(body, order="sorted", enc_hook=_plain).decode()
    except UnicodeEncodeError:
        raise InputError("body", Message.of("refusal-broken-character")) from None
    if "\\u0000" in text:
        raise InputError(
            "body", Message.of("refusal-nul-character"), Message.of("refusal-type-again")
        )
    return text


def _plain(value: Any) -> str:
    if isinstance(value, Said):
        return str(value)
    if isinstance(value, Sentence):  # an answer that was taken is a text of ours
        return value[:]
    raise NotImplementedError(type(value))


def upcast(kind: Kind, v: int, body: dict[str, Any], *, seq: int | None = None) -> dict[str, Any]:
    """Return a stored body raised to the newest version, step by step.

    Raises
    ------
    NewerEvent
        When `v` is newer than this program knows.
    """
    if v > kind.v or v < 1:
        raise NewerEvent(kind.name, v, kind.v, seq)
    while v < kind.v:
        body = kind.upcasters[v](body)
        v += 1
    return body


def decode_stored(kind_name: str, v: int, text: str, *, seq: int | None = None) -> dict[str, Any]:
    """Return the body of a stored event as a plain dict of the newest version.

    Raises
    ------
    UnknownKind, NewerEvent
    """
    return upcast(kind_of(kind_name, seq=seq), v, msgspec.json.decode(text), seq=seq)


def read_stored(kind_name: str, v: int, text: str, *, seq: int | None = None) -> dict[str, Any]:
    """Return the body of a stored event as `decode_stored` does, if it is one that replay can read.

    Raises
    ------
    UnknownKind, NewerEvent
    msgspec.DecodeError
        It is no body of its kind: it never came through the door.
    """
    body = decode_stored(kind_name, v, text, seq=seq)
    kind = kind_of(kind_name, seq=seq)
    msgspec.convert(body, lean_body(kind))
    return body


def tell(kind_name: str, body: dict[str, Any]) -> str:
    """Return an event as one readable line, which any language can say where its kind gives the message."""
    kind = kind_of(kind_name)
    line = kind.tell(body)
    return line if kind.says is None else SaidLater(line, partial(kind.says, body))


def tell_stored(kind_name: str, v: int, text: str, body: dict[str, Any], *, seq: int) -> str:
    """Return an event as one readable line that keeps its stored text and not its body.

    Of a book's many lines few are said in another language: those read their event anew.
    """
    kind = kind_of(kind_name)
    line = kind.tell(body)
    if kind.says is None:
        return line
    return SaidLater(line, partial(_stored_says, kind.says, kind_name, v, text, seq))


def _stored_says(
    says: Callable[[dict[str, Any]], Message], kind_name: str, v: int, text: str, seq: int
) -> Message:
    return says(decode_stored(kind_name, v, text, seq=seq))


def lean_body(kind: Kind, unread: frozenset[str] = frozenset()) -> type:
    """Return a struct that decodes stored bodies of a kind; one that lacks what all have is refused.

    Fields named in `unread`, of the body or of its lines, are passed over.
    """
    needed = frozenset(field.name for field in kind.fields if field.required)
    return lean(kind.body, needed, unread)


@cache
def lean(
    struct: type, needed: frozenset[str] = frozenset(), unread: frozenset[str] = frozenset()
) -> type:
    """Return a struct that decodes the stored form of `struct` as fast as possible.

    Constraints are left out and decimals stay text: what is stored was checked when it came in.
    """
    fields: list[Any] = []
    renames = {}
    for one in msgspec.structs.fields(struct):
        if one.name in unread:
            continue
        if one.encode_name != one.name:
            renames[one.name] = one.encode_name
        hint = _lean_type(one.type, unread)
        fields.append((one.name, hint) if one.name in needed else (one.name, hint | None, None))
    return msgspec.defstruct(
        "Lean" + struct.__name__, fields, rename=renames or None, kw_only=True, gc=False
    )


def _lean_type(hint: Any, unread: frozenset[str]) -> Any:
    if get_origin(hint) is Annotated:
        return _lean_type(get_args(hint)[0], unread)
    if hint in (DecText, DayText, PressText, ValueText):
        return str
    if isinstance(hint, type) and issubclass(hint, msgspec.Struct):
        return lean(hint, unread=unread)
    origin, args = get_origin(hint), get_args(hint)
    if origin is list:
        return list[_lean_type(args[0], unread)]  # type: ignore[misc]
    if origin is dict:
        return dict[str, _lean_type(args[1], unread)]  # type: ignore[misc]
    if str(origin) == "typing.Literal":
        return str
    if args:  # a union
        out: Any = None
        for arg in args:
            hint = _lean_type(arg, unread)
            out = hint if out is None else out | hint
        return out
    return hint
