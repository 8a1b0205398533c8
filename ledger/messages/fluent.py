"""One file of messages, read with Fluent's own parser into what the speaker walks.

Of Project Fluent 1.0 these files use messages, attributes, variables, selectors and the functions of
`FUNCTIONS`; terms and references are not needed, as a message is given to another as a parameter.
In literal text ``**bold**`` and backticks are marks; a line break within a paragraph is a space.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from pathlib import Path

from fluent.syntax import FluentParser, ast

__all__ = ["FUNCTIONS", "Call", "Entry", "Fault", "Pattern", "Select", "Text", "Variable", "read"]

FUNCTIONS = {
    "LIST": frozenset({"type", "case", "most"}),
    "DAY": frozenset({"style"}),
    "AMOUNT": frozenset({"case"}),
    "SAY": frozenset({"case", "style"}),
    "LINK": frozenset({"text"}),
}
"""What may be called on a parameter, with the names of its options."""

_WRITE = (
    "Write it as: id = text, with { $name } for a parameter, further lines indented, "
    "and * before the last variant"
)
_MARK = re.compile(r"(\*\*|`)")
_STYLES = {"**": "strong", "`": "code"}


@dataclass(frozen=True)
class Text:
    """Literal text; `style` is ``strong``, ``code`` or nothing."""

    text: str
    style: str = ""


@dataclass(frozen=True)
class Variable:
    """A parameter as it stands."""

    name: str
    style: str = ""


@dataclass(frozen=True)
class Call:
    """A function on a parameter."""

    function: str
    name: str
    options: dict[str, str]
    style: str = ""


@dataclass(frozen=True)
class Select:
    """Variants of which a parameter chooses one; numbers as keys are whole numbers."""

    name: str
    variants: tuple[tuple[str, Pattern], ...]
    default: int
    style: str = ""


Pattern = tuple[Text | Variable | Call | Select, ...]


@dataclass(frozen=True)
class Entry:
    """A message of a file: its text, its attributes, and the line where it begins."""

    id: str
    line: int
    value: Pattern | None
    attributes: dict[str, Pattern] = field(default_factory=dict)

    def patterns(self) -> list[tuple[str, Pattern]]:
        """Return the text and each attribute by its name; the text's is empty."""
        own = [("", self.value)] if self.value is not None else []
        return [*own, *self.attributes.items()]


@dataclass(frozen=True)
class Fault:
    """What is wrong in a file: where, what, and what would be right."""

    file: str
    line: int
    id: str
    problem: str
    wanted: str

    def __str__(self) -> str:
        where = f"{self.file}:{self.line}: " + (f"{self.id}: " if self.id else "")
        return f"{where}{self.problem}. {self.wanted}"


def read(text: str, file: str) -> tuple[list[Entry], list[Fault]]:
    """Return the messages of a file's text, and what of it could not be read.

    Parameters
    ----------
    file : str
        Its name, for the faults.
    """
    entries, faults = [], []
    lines = _Lines(text)
    for node in FluentParser(with_spans=True).parse(text).body:
        line = lines.of(node)
        if isinstance(node, ast.Junk):
            notes = node.annotations or [ast.Annotation("", [], "cannot be read")]
            faults.append(
                Fault(file, lines.of(notes[0], line), _named(node), str(notes[0].message), _WRITE)
            )
        elif isinstance(node, ast.Message):
            try:
                entries.append(_entry(node, line))
            except _Unknown as error:
                faults.append(Fault(file, line, node.id.name, error.problem, error.wanted))
        elif isinstance(node, ast.Term):
            faults.append(Fault(file, line, f"-{node.id.name}", "is a term",
                                "Write a message, and give it to others as a parameter"))  # fmt: skip
    return entries, faults


def read_file(path: Path) -> tuple[list[Entry], list[Fault]]:
    """Return the messages of a file, and what of it could not be read."""
    return read(path.read_text("utf-8"), path.name)


class _Lines:
    """Line numbers of places in a text."""

    def __init__(self, text: str) -> None:
        self._starts = [0, *(match.end() for match in re.finditer("\n", text))]

    def of(self, node: ast.BaseNode, otherwise: int = 1) -> int:
        from bisect import bisect_right

        span = getattr(node, "span", None)
        return otherwise if span is None else bisect_right(self._starts, span.start)


class _Unknown(Exception):
    def __init__(self, problem: str, wanted: str) -> None:
        super().__init__(problem)
        self.problem, self.wanted = problem, wanted


def _named(node: ast.Junk) -> str:
    found = re.match(r"[a-z][a-z0-9-]*", node.content or "")
    return found[0] if found else ""


def _entry(node: ast.Message, line: int) -> Entry:
    value = None if node.value is None else _pattern(node.value)
    return Entry(node.id.name, line, value, {a.id.name: _pattern(a.value) for a in node.attributes})


def _pattern(pattern: ast.Pattern) -> Pattern:
    """Return a text's pieces; a mark that begins in one ends in another."""
    out: list[Text | Variable | Call | Select] = []
    style = ""
    for element in pattern.elements:
        if isinstance(element, ast.Placeable):
            out.append(_placed(element, style))
            continue
        for piece in _MARK.split(_flowing(element.value)):
            if piece in _STYLES and style in ("", _STYLES[piece]):
                style = "" if style else _STYLES[piece]
            elif piece:
                out.append(Text(piece, style))
    if style:
        raise _Unknown(f"a mark of {style} text does not end", "Close it, or leave it out")
    return tuple(out)


def _flowing(text: str) -> str:
    """Return text whose single line breaks are spaces."""
    return re.sub(r"(?<!\n)\n(?!\n)", " ", text)


def _placed(placeable: ast.Placeable, style: str) -> Text | Variable | Call | Select:
    inner = placeable.expression
    if isinstance(inner, ast.StringLiteral):
        return Text(str(inner.parse()["value"]), style)
    if isinstance(inner, ast.VariableReference):
        return Variable(inner.id.name, style)
    if isinstance(inner, ast.FunctionReference):
        return _call(inner, style)
    if isinstance(inner, ast.SelectExpression):
        return _select(inner, style)
    raise _Unknown(
        "holds something else than a parameter", "Write { $name } or one of its functions"
    )


def _call(node: ast.FunctionReference, style: str) -> Call:
    name, arguments = node.id.name, node.arguments
    if name not in FUNCTIONS:
        raise _Unknown(f"{name} is no function here", f"Use one of {', '.join(FUNCTIONS)}")
    if len(arguments.positional) != 1 or not isinstance(
        arguments.positional[0], ast.VariableReference
    ):
        raise _Unknown(f"{name} takes one parameter", f"Write {{ {name}($name) }}")
    options = {one.name.name: str(one.value.parse()["value"]) for one in arguments.named}
    unknown = sorted(set(options) - FUNCTIONS[name])
    if unknown:
        raise _Unknown(
            f"{name} has no option {unknown[0]}", f"It takes {', '.join(sorted(FUNCTIONS[name]))}"
        )
    return Call(name, arguments.positional[0].id.name, options, style)


def _select(node: ast.SelectExpression, style: str) -> Select:
    if not isinstance(node.selector, ast.VariableReference):
        raise _Unknown("chooses by something else than a parameter", "Write { $name -> … }")
    variants, default = [], 0
    for n, one in enumerate(node.variants):
        key = one.key.name if isinstance(one.key, ast.Identifier) else one.key.value
        variants.append((key, _pattern(one.value)))
        default = n if one.default else default
    return Select(node.selector.id.name, tuple(variants), default, style)
