"""What is wrong with the folder of a language: beside English, and by the language's own rules."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from ledger.messages.fluent import Call, Entry, Fault, Pattern, Select, Text, Variable, read_file
from ledger.messages.language import Language

__all__ = ["check_folder", "literals", "parameters", "read_folder", "variants"]

_ID = re.compile(r"[a-z][a-z0-9]*(-[a-z0-9]+)*")
_CLDR = frozenset({"zero", "one", "two", "few", "many", "other"})
_OWN = frozenset({"case"})
"""Parameters that are the catalogue's own affair: a language without cases has none."""
_SAME_WORDS = 3
"""Texts of fewer words may well be alike in two languages."""

Read = dict[str, tuple[str, Entry]]
"""Messages by id, each with the name of its file."""


def read_folder(folder: Path) -> tuple[Read, list[Fault]]:
    """Return every message of a folder, and what could not be read or stands twice.

    Raises
    ------
    NotADirectoryError
        When there is no such folder.
    """
    if not folder.is_dir():
        raise NotADirectoryError(folder)
    found: Read = {}
    faults: list[Fault] = []
    for path in sorted(folder.glob("*.ftl")):
        entries, more = read_file(path)
        faults += more
        for entry in entries:
            if entry.id in found:
                faults.append(_fault(path.name, entry, "stands twice", "Keep one of the two"))
            if not _ID.fullmatch(entry.id):
                wanted = "Write small letters and hyphens"
                faults.append(_fault(path.name, entry, "is no id", wanted))
            if entry.id.partition("-")[0] != path.stem:
                wanted = f"Move it into {entry.id.partition('-')[0]}.ftl, or name it {path.stem}-…"
                faults.append(_fault(path.name, entry, "stands in another area's file", wanted))
            found[entry.id] = (path.name, entry)
    return found, faults


def check_folder(folder: Path, beside: Path, code: str | None = None) -> list[Fault]:
    """Return every fault of a language's folder.

    Parameters
    ----------
    folder : Path
    beside : Path
        The folder of English, whose ids, parameters and variants every language has.
    code : str, optional
        The language; default: the folder's name.
    """
    own, faults = read_folder(folder)
    english, _ = read_folder(beside)
    spoken = Language(code or folder.name)
    for id_, (file, entry) in own.items():
        faults += _plural_faults(file, entry, spoken)
        if id_ not in english:
            faults.append(
                _fault(file, entry, "is not in English", "Take it out, or name it as there")
            )
        elif folder != beside:
            faults += _beside(file, entry, english[id_][1])
    for id_ in english.keys() - own.keys():
        file, entry = english[id_]
        faults.append(Fault(file, 0, id_, "is missing", f"Say: {_shown(entry)}"))
    return sorted(faults, key=lambda one: (one.file, one.line, one.id))


def _beside(file: str, entry: Entry, english: Entry) -> Iterator[Fault]:
    """Compare a message with the English one: attributes, parameters, variants, and that it is said."""
    own, other = dict(entry.patterns()), dict(english.patterns())
    for name in other.keys() - own.keys():
        what = f"has no .{name}" if name else "has no text"
        yield _fault(file, entry, what, f"Say: {_text(other[name])}")
    for name in own.keys() - other.keys():
        yield _fault(file, entry, f"has a .{name} that English has not", "Take it out")
    for name in own.keys() & other.keys():
        yield from _pattern_faults(file, entry, own[name], other[name])


def _pattern_faults(file: str, entry: Entry, own: Pattern, other: Pattern) -> Iterator[Fault]:
    mine, theirs = parameters(own) - _OWN, parameters(other) - _OWN
    for name in sorted(theirs - mine):
        yield _fault(file, entry, f"leaves out ${name}", f"English says: {_text(other)}")
    for name in sorted(mine - theirs):
        given = ", ".join(sorted(theirs)) or "nothing"
        yield _fault(file, entry, f"says ${name}, which it is not given", f"It is given {given}")
    words, wanted = variants(own), variants(other)
    for name in sorted(wanted.keys() & words.keys()):
        for word in sorted(words[name] ^ wanted[name]):
            has = "lacks" if word in wanted[name] else "has"
            known = f"English has {', '.join(sorted(wanted[name]))}"
            yield _fault(file, entry, f"{has} the variant [{word}] of ${name}", known)
    text = _text(own)
    if text == _text(other) and len(re.findall(r"[^\W\d_]{2,}", text)) >= _SAME_WORDS:
        yield _fault(file, entry, "is still English", "Say it in the language")


def _plural_faults(file: str, entry: Entry, spoken: Language) -> Iterator[Fault]:
    """Hold each choice by a number to the forms of the language."""
    for _, pattern in entry.patterns():
        for select in _selects(pattern):
            keys = {key for key, _ in select.variants}
            forms = {key for key in keys if key in _CLDR}
            if forms <= {"other"}:
                continue
            for form in sorted(spoken.plurals() - forms):
                problem = f"has no plural form [{form}] of ${select.name}"
                yield _fault(file, entry, problem, "Write it, or only *[other]")
            for form in sorted(forms - spoken.plurals()):
                problem = f"has a plural form [{form}] of ${select.name} that the language has not"
                yield _fault(file, entry, problem, "Take it out")


def parameters(pattern: Pattern) -> set[str]:
    """Return the names of the parameters that a text uses."""
    found: set[str] = set()
    for piece in pattern:
        if isinstance(piece, (Variable, Call)):
            found.add(piece.name)
        elif isinstance(piece, Select):
            found.add(piece.name)
            for _, inner in piece.variants:
                found |= parameters(inner)
    return found


def variants(pattern: Pattern) -> dict[str, set[str]]:
    """Return the words that choose a variant, by parameter; plural forms and numbers are no words."""
    found: dict[str, set[str]] = {}
    for select in _selects(pattern):
        words = {key for key, _ in select.variants if key not in _CLDR and not key[:1].isdigit()}
        if words and select.name not in _OWN:
            found.setdefault(select.name, set()).update(words)
    return found


def literals(pattern: Pattern) -> list[str]:
    """Return the literal texts of a pattern and of its variants, but for code."""
    found = []
    for piece in pattern:
        if isinstance(piece, Text) and piece.style != "code":
            found.append(piece.text)
        elif isinstance(piece, Select):
            for _, inner in piece.variants:
                found += literals(inner)
    return found


def _selects(pattern: Pattern) -> Iterator[Select]:
    for piece in pattern:
        if isinstance(piece, Select):
            yield piece
            for _, inner in piece.variants:
                yield from _selects(inner)


def _text(pattern: Pattern) -> str:
    """Return a text as it stands in the file, near enough to be told."""
    out = []
    for piece in pattern:
        if isinstance(piece, Text):
            out.append(f"`{piece.text}`" if piece.style == "code" else piece.text)
        elif isinstance(piece, Select):
            out.append(_text(piece.variants[piece.default][1]))
        else:
            out.append(f"{{ ${piece.name} }}")
    return " ".join("".join(out).split())


def _shown(entry: Entry) -> str:
    return "; ".join(f".{name} = {_text(p)}" if name else _text(p) for name, p in entry.patterns())


def _fault(file: str, entry: Entry, problem: str, wanted: str) -> Fault:
    return Fault(file, entry.line, entry.id, problem, wanted)
