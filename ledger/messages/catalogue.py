"""Says messages in a language, as parts with a style each, so that a page and a terminal show them."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from ledger.messages import LANGUAGES
from ledger.messages.language import Language, language

if TYPE_CHECKING:
    import logging

    from ledger.messages.fluent import Call, Entry, Pattern, Select
    from ledger.messages.message import Message

__all__ = ["HERE", "Catalogue", "Part", "Speaker", "speaker"]

HERE = Path(__file__).parent
"""The folder that holds a folder for each language."""
_ENTRY = re.compile(r"^(?P<id>[A-Za-z][\w-]*) *=", re.MULTILINE)
"""Where a message begins: its id at the left edge, as the grammar of Fluent has it."""
_MORE = "word-and-more"
_TYPED = "word-typed"


@dataclass(frozen=True)
class Part:
    """A piece of what is said.

    Parameters
    ----------
    text : str
    style : str
        ``strong``, ``code``, ``link`` or nothing.
    address : str
        Of a link: the figure's address.
    """

    text: str
    style: str = ""
    address: str = ""


_METRIC = re.compile(r"\d+(?:\.\d+)? m?l")
"""What a metric jar holds, as its name says it."""


class Catalogue:
    """The messages of one folder; a file is opened when an id of its area is first asked for.

    A text is parsed when it is said: of a file of hundreds a command says a few, and Fluent's parser is
    thorough rather than quick.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._areas: dict[str, dict[str, str]] = {}
        self._entries: dict[str, Entry | None] = {}

    def find(self, id_: str) -> Entry | None:
        """Return a message by its id; None where the language has none."""
        if id_ not in self._entries:
            self._entries[id_] = self._parsed(id_)
        return self._entries[id_]

    def _parsed(self, id_: str) -> Entry | None:
        area = id_.partition("-")[0]
        if area not in self._areas:
            self._areas[area] = self._texts(area)
        text = self._areas[area].get(id_)
        if text is None:
            return None
        from ledger.messages.fluent import read

        entries, faults = read(text, f"{area}.ftl")
        for fault in faults:  # said in English instead; the tests keep this from happening
            _log().warning("%s/%s.ftl: %s: %s", self.folder.name, area, id_, fault.problem)
        return entries[0] if entries else None

    def _texts(self, area: str) -> dict[str, str]:
        """Return the entries of a file by their ids, each as it is written."""
        path = self.folder / f"{area}.ftl"
        if not path.is_file():
            return {}
        text = path.read_text("utf-8")
        begins = [*_ENTRY.finditer(text)]
        ends = [*(one.start() for one in begins[1:]), len(text)]
        return {one["id"]: text[one.start() : end] for one, end in zip(begins, ends, strict=True)}


class Speaker:
    """Says messages in a language; what it lacks is said in the first of `catalogues` that has it.

    Parameters
    ----------
    language : Language
    catalogues : Catalogue
        The language's own, then the one that stands in.
    """

    def __init__(self, language: Language, *catalogues: Catalogue) -> None:
        self.language = language
        self._catalogues = catalogues

    def has(self, id_: str, attribute: str = "") -> bool:
        """Return whether there is a text of that id, in this language or the one that stands in."""
        return self._found(id_, attribute) is not None

    def own(self, id_: str, attribute: str = "") -> bool:
        """Return whether this language itself has a text of that id."""
        entry = self._catalogues[0].find(id_)
        return entry is not None and _pattern_of(entry, attribute) is not None

    def text(self, message: Message | str, attribute: str = "", **parameters: Any) -> str:
        """Return a message as plain text; code stands between backticks."""
        return _flat(self.parts(message, attribute, **parameters))

    def value(self, parameter: Any) -> str:
        """Return what a message may be about, or a message itself, as plain text."""
        return _flat(self._value(parameter, {}))

    def parts(self, message: Message | str, attribute: str = "", **parameters: Any) -> list[Part]:
        """Return a message as parts.

        Parameters
        ----------
        message : Message or str
            An id alone, where the parameters follow by name or there are none.
        attribute : str
            Instead of the text: ``wanted`` of a refusal, ``long`` of a help.
        """
        if isinstance(message, str):
            return self._said(message, attribute, parameters)
        return self._said(message.id, attribute, message.parameters)

    def _found(self, id_: str, attribute: str) -> Pattern | None:
        for catalogue in self._catalogues:
            entry = catalogue.find(id_)
            pattern = None if entry is None else _pattern_of(entry, attribute)
            if pattern is not None:
                return pattern
        return None

    def _said(self, id_: str, attribute: str, scope: Mapping[str, Any]) -> list[Part]:
        pattern = self._found(id_, attribute)
        if pattern is None:
            _missing(id_, attribute)
            return [Part(id_)]
        return self._walk(pattern, scope)

    def _walk(self, pattern: Pattern, scope: Mapping[str, Any]) -> list[Part]:
        from ledger.messages.fluent import Call, Text, Variable

        out: list[Part] = []
        for piece in pattern:
            if isinstance(piece, Text):
                said = [Part(self._literal(piece.text), piece.style)]
            elif isinstance(piece, Variable):
                said = self._value(scope.get(piece.name), {"case": scope.get("case")})
            elif isinstance(piece, Call):
                said = self._called(piece, scope)
            else:
                said = self._walk(self._chosen(piece, scope), scope)
            if piece.style:
                said = [replace(p, style=p.style or piece.style) for p in said]
            out += said
        return out

    def _literal(self, text: str) -> str:
        """Return literal text; a pseudo language changes its letters here."""
        return text

    def _chosen(self, select: Select, scope: Mapping[str, Any]) -> Pattern:
        """Return the variant that a parameter chooses; a text that somebody wrote chooses none."""
        from ledger.messages.message import Choice

        value = scope.get(select.name)
        keys: tuple[str, ...] = ()
        if value is None and select.name in scope and select.name != "case":
            keys = ("none",)
        elif isinstance(value, Choice):
            keys = (value.word,)
        elif isinstance(value, (int, float)):
            keys = (str(self.language.rounded(value)), self.language.plural(value))
        elif select.name == "case":
            keys = (str(value),)
        known = dict(select.variants)
        return next(
            (known[key] for key in keys if key in known), select.variants[select.default][1]
        )

    def _called(self, call: Call, scope: Mapping[str, Any]) -> list[Part]:
        value = scope.get(call.name)
        options = {"case": scope.get("case"), **call.options}
        if call.function == "LINK":
            address = str(getattr(value, "address", ""))
            return [Part(self._literal(call.options.get("text", "")), "link", address)]
        return self._value(value, options)

    def _value(self, value: Any, options: Mapping[str, Any]) -> list[Part]:  # noqa: PLR0911, PLR0912
        """Return a parameter as the language writes it."""
        if value is None:
            return []
        if isinstance(value, str):
            return [Part(self.language.isolated(self.jar(value)))]
        if isinstance(value, (int, float)):
            plain = options.get("style") == "plain"  # a year, a number that is searched for
            return [Part(str(value) if plain else self.language.number(value))]
        from ledger.messages import message as types

        case = options.get("case")
        if isinstance(value, types.Message):  # "refusal-x.wanted" is the .wanted of refusal-x
            id_, _, attribute = value.id.partition(".")
            return self._said(id_, attribute, {**value.parameters, "case": case})
        if isinstance(value, types.Code):
            return [Part(value.text)]
        if isinstance(value, types.Typed):
            return self._typed(value.text)
        if isinstance(value, types.Names):
            return self._names(value, options)
        if isinstance(value, types.Amount):
            return self._amount(value.pairs, case)
        if isinstance(value, (types.Measured, types.Price)):
            return [Part(self.language.digits(value.text))]
        if isinstance(value, types.Row):
            return self._row(value)
        if isinstance(value, types.Day):
            style = options.get("style")
            iso = (
                value.iso
                if style == "iso"
                else self.language.day(value.iso, short=style == "short")
            )
            return [Part(iso)]
        if isinstance(value, types.Money):
            return [Part(self.language.money(value.value, value.currency))]
        if isinstance(value, types.Link):
            return [Part(value.address, "link", value.address)]
        return [Part(value.word)]

    def jar(self, name: str) -> str:
        """Return a jar by its size, ``Glas zu 500 ml``; another name, and any in English, as it is.

        A jar has its name from its size, and from nobody in the house.
        """
        if not name.endswith(" jar") or self.language.code == "en":
            return name
        size = name.removesuffix(" jar")
        if _METRIC.fullmatch(size):
            from ledger.messages.message import Measured

            return _flat(self._said("told-jar-metric", "", {"holds": Measured(size)}))
        id_ = f"word-{name.replace(' ', '-').replace('.', '-')}"
        return _flat(self._said(id_, "", {})) if self.has(id_) else name

    def _typed(self, text: str) -> list[Part]:
        from ledger.messages.message import Choice

        shown = repr(text)
        marks = Choice("double" if shown[0] == '"' else "single")
        return self._said(_TYPED, "", {"text": shown[1:-1], "marks": marks})

    def _row(self, row: Any) -> list[Part]:
        out: list[Part] = []
        for one in row.items:
            out += [Part(row.between)] if out and row.between else []
            out += self._value(one, {})
        if row.opens and out:
            out[0] = replace(out[0], text=out[0].text[:1].upper() + out[0].text[1:])
        return out

    def _amount(self, pairs: tuple[tuple[float, str], ...], case: str | None) -> list[Part]:
        out: list[Part] = []
        for n, unit in pairs:
            out += [Part(" ")] if out else []
            id_ = f"unit-{unit.replace(' ', '-')}"
            if self.has(id_):
                out += self._said(id_, "", {"n": n, "case": case})
            else:
                out.append(Part(f"{self.language.number(n)} {unit}"))
        return out

    def _names(self, names: Any, options: Mapping[str, Any]) -> list[Part]:
        """Return names in a row, set between the language's own commas and its "and"."""
        most = names.most or len(names.items)
        items = [self._value(one, options) for one in names.items[:most]]
        if len(names.items) > most:
            more = {"n": len(names.items) - most, "case": options.get("case")}
            items.append(self._said(_MORE, "", more))
        marks = [f"\ue000{n}\ue001" for n in range(len(items))]
        style = options.get("type") or "standard"
        row = self.language.listed(marks, style)
        if style == "commas" and len(names.items) > most:  # what is counted stands behind "and"
            row = self.language.listed([", ".join(marks[:-1]), marks[-1]])
        out: list[Part] = []
        for piece in row.split("\ue001"):
            between, found, number = piece.partition("\ue000")
            out += [Part(between)] if between else []
            out += items[int(number)] if found else []
        return out


def _flat(parts: Iterable[Part]) -> str:
    """Return parts as plain text; code stands between backticks."""
    out, code = [], False
    for part in parts:
        if (part.style == "code") != code:
            out.append("`")
            code = not code
        out.append(part.text)
    return "".join([*out, "`" if code else ""])


def _pattern_of(entry: Entry, attribute: str) -> Pattern | None:
    return entry.attributes.get(attribute) if attribute else entry.value


def _log() -> logging.Logger:
    import logging

    return logging.getLogger(__name__)


@cache
def _missing(id_: str, attribute: str) -> None:
    """Say once in the log that no language has a text: a kitchen sees no traceback for it."""
    _log().error("no text for %s%s", id_, f".{attribute}" if attribute else "")


@cache
def catalogue(code: str) -> Catalogue:
    """Return the catalogue of a language that has a folder here."""
    return Catalogue(HERE / code)


@cache
def speaker(code: str) -> Speaker:
    """Return what says messages in a language; English stands in for what it lacks."""
    first = LANGUAGES[0]
    several = [catalogue(code)] if code in LANGUAGES else []
    several += [] if code == first else [catalogue(first)]
    return Speaker(language(code if code in LANGUAGES else first), *several)
