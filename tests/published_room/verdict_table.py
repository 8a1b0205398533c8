"""The table of verdicts: how a case is written, and the road it takes through a book.

A case is one line of a file in ``verdicts/``, eight columns between bars::

    id | makes | used | made | how | verdict | red | why

- ``used``: lines between semicolons, as typed to ``--used``; `(strained)` behind a line sets that field.
- ``made``: as typed to ``--made``; kept on the shelf where nothing is said; `(2 unsealed)` behind it.
- ``how``: between commas: the method, ``25 min``, ``hot``, ``dial``, ``11 psi`` or ``76 kPa`` (``bare 75``: the
  number alone), ``1 in``, ``2600 ft``, ``2 loads``, ``acid 1 tbsp lemon juice a jar``, ``with steam canner``,
  ``schedule ...``, ``note ...``. ``altitude unknown``, ``home ...`` and ``gauge home ...`` are the book's settings;
  without one the kitchen stands at 500 ft. ``after ID`` writes that case's batch first, in the same book.
- ``verdict``: the standings that the rule book allows, by the words in `STANDINGS`. More than one only where
  it leaves more than one open.
- ``red``: the foods that the red caution must name, as typed; ``no``: it must not stand; ``-``: left open.
- ``why``: the rule by its number, and the figure or document. The rules: 1 nothing unread passes, 2 the standings,
  3 product, kind and form (3.4 what may not go in, 3.6 parts above their bound), 4 acid, dilution, salt, sugar,
  5 method and equipment, 6 jars, 7 gauge, altitude, headspace, 8 the caution, 9 oil and honey, 10 closed jars by
  no canning method, 11 unsealed jars, 12 parts made at home or taken out, 13 and 14 what stays with a jar, a gauge.
"""

from __future__ import annotations

import contextlib
import itertools
import re
import shutil
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from ledger import Answers, Book
from ledger.errors import InputError, LedgerError, NeedsAnswer

__all__ = ["STANDINGS", "Case", "Got", "Miss", "cases", "compare", "run"]

FOLDER = Path(__file__).parent / "verdicts"
_NUMBERS = itertools.count(1)
#: the words of the table, gravest first; refused: exit 2 with a message that names the field
STANDINGS = {
    "against": "against every published process",
    "none": "no published process",
    "short": "short of it",
    "ask": "not recorded",
    "check": "to check yourself",
    "beyond": "beyond it",
    "ok": "as published",
}
ORDER = list(STANDINGS)
_WORD = {text: word for word, text in STANDINGS.items()}
#: the parts of ``how``, each by the name of the field that it fills
_HOW = re.compile(
    r"(?P<method>boiling water|pressure|freeze|dry|ferment|pickle cold|jam uncooked|cellar|cook)"
    r"|(?P<pack>hot|raw)|(?P<gauge>dial|weighted)|(?P<minutes>[\d.]+) min|(?P<loads>\d+) loads"
    r"|(?P<psi>[\d.]+) psi|bare (?P<bare>.+)|(?P<pressure>.+ (?:kPa|bar))"
    r"|(?P<headspace>[\d./ ½¼¾]+ (?:in|cm|mm))|(?P<altitude>[\d.]+ (?:ft|m))"
    r"|acid (?P<acid>.+ a (?:jar|batch))|with (?P<equipment>.+)|schedule (?P<schedule>.+)"
    r"|after (?P<after>.+)|altitude (?P<unknown>unknown)|home (?P<home>.+)|gauge home (?P<ours>.+)"
)
_ACID = re.compile(r"(.+?) (lemon juice|citric acid|vinegar 5%) a (jar|batch)")
_NUMBER = r"(?:\d+(?:[.,]\d+)?(?:\s+\d+/\d+|/\d+)?|[½¼¾])"
_UNITS = (
    "half-pint jar|pint jar|quart jar|fl oz|tbsp|tsp|cup|cups|lb|oz|kg|g|mg|l|ml|qt|pt|gal|quart|pint|"
    "clove|cloves|head|heads|bunch|piece|pieces|can|bulb|packet|package|dozen"
)
_LINE = re.compile(rf"((?:{_NUMBER})(?:\s+(?:{_UNITS}))?(?=\s))\s+(.+)")
_MADE = re.compile(r"(\d+)\s+(.*\bjar)s?(?:\s+(shelf|fridge|freezer|cellar))?$")
_SIZE = re.compile(r"([\d.]+) (fl oz|oz|ml|l) jar")


@dataclass(frozen=True)
class Case:
    """One batch of the table, and what the rule book says of it."""

    id: str
    body: dict[str, Any]
    settings: tuple[tuple[str, str], ...]
    after: str | None
    allowed: tuple[str, ...]
    red: str
    why: str
    where: str

    @property
    def right(self) -> bool:
        """Whether it is one of the correct batches."""
        return bool({"ok", "beyond"} & set(self.allowed)) and not {
            "against",
            "none",
            "short",
            "ask",
        } & set(self.allowed)


@dataclass
class Got:
    """What the book said: a word of `STANDINGS` or ``refused``, the text, and the red caution."""

    verdict: str
    text: str
    caution: str
    asked: list[str] = field(default_factory=list)


@dataclass(frozen=True)
class Miss:
    """A case that came out otherwise than the rule book says."""

    case: Case
    kind: str
    got: Got


def cases(folder: Path = FOLDER) -> dict[str, Case]:
    """Return every case by its id, in the order of the files."""
    out: dict[str, Case] = {}
    for path in sorted(folder.glob("*.txt")):
        for number, line in enumerate(path.read_text("utf-8").splitlines(), 1):
            if line.strip() and not line.startswith("#"):
                case = _case(line, f"{path.name}:{number}")
                if case.id in out:
                    raise ValueError(f"{case.where}: {case.id} stands twice")
                out[case.id] = case
    return out


def _case(line: str, where: str) -> Case:
    columns = [part.strip() for part in line.split("|")]
    if len(columns) != 8:
        raise ValueError(f"{where}: {len(columns)} columns, not 8")
    name, makes, used, made, how, verdict, red, why = columns
    allowed = tuple(verdict.split())
    if unknown := set(allowed) - {*ORDER, "refused", "silent"}:
        raise ValueError(f"{where}: {unknown} is no verdict")
    body, settings, after = _how(how, where)
    body["makes"] = makes
    body["used"] = [_used(part.strip(), where) for part in used.split(";")]
    body["made"] = [_made(part.strip()) for part in made.split(";")]
    return Case(name, body, tuple(settings.items()), after, allowed, red, why, where)


def _used(text: str, where: str) -> dict[str, Any]:
    bare, strained = re.subn(r"\s*\(strained\)$", "", text)
    found = _LINE.match(bare)
    if found is None:
        raise ValueError(f"{where}: {text!r} is not an amount and an item")
    line: dict[str, Any] = {"item": found[2], "amount": found[1]}
    return {**line, "strained": True} if strained else line


def _made(text: str) -> dict[str, Any]:
    unsealed = re.search(r"\s*\((\d+) unsealed\)$", text)
    text = text[: unsealed.start()] if unsealed else text
    if found := _MADE.match(text):
        made = {"jars": int(found[1]), "jar": found[2], "kept": found[3] or "shelf"}
        return {**made, "unsealed": int(unsealed[1])} if unsealed else made
    amount, kept = text.rsplit(" ", 1)
    return {"amount": amount, "kept": kept}


def _how(text: str, where: str) -> tuple[dict[str, Any], dict[str, str], str | None]:
    text, _, note = text.partition("note ")
    body: dict[str, Any] = {"note": note.strip()} if note else {}
    settings, after = {"altitude": "500 ft"}, None
    for part in filter(None, (one.strip() for one in text.rstrip(", ").split(", "))):
        found = _HOW.fullmatch(part)
        if found is None or found.lastgroup is None:
            raise ValueError(f"{where}: {part!r} is not understood")
        name, value = found.lastgroup, found[found.lastgroup]
        match name:
            case "after":
                after = value
            case "unknown":
                del settings["altitude"]
            case "home" | "ours":
                settings[{"home": "altitude", "ours": "gauge"}[name]] = value
            case "acid":
                body.setdefault("acid", []).append(_acid(value, where))
            case "equipment":
                body.setdefault("equipment", []).append(value)
            case _:
                name = {"bare": "psi", "pressure": "psi"}.get(name, name)
                body[name] = int(value) if name == "loads" else value
    return body, settings, after


def _acid(text: str, where: str) -> dict[str, str]:
    found = _ACID.fullmatch(text)
    if found is None:
        raise ValueError(f"{where}: {text!r} is no acid")
    return {"amount": found[1], "acid": found[2], "per": found[3]}


def run(case: Case, table: dict[str, Case], folder: Path) -> Got:
    """Write a case, after those it builds upon, into a book of its own; return what the book says.

    `folder` keeps one bare book for each kitchen (its altitude, its gauge), copied for every case.
    """
    # a book put in another's place would be noticed
    path = folder / f"{case.id}-{next(_NUMBERS)}.sqlite"
    shutil.copy(_kitchen(case, folder), path)
    chain = [case]
    while chain[0].after:
        chain.insert(0, table[chain[0].after])
    with Book.open(path) as book:
        for day, earlier in enumerate(chain[:-1], 1):
            try:
                _write(book, earlier.body, f"2026-09-{day:02}", [])
            except InputError as error:
                return Got("refused", f"the batch before: {error}", "")
        return said(book, case.body, f"2026-09-{len(chain):02}")


def _kitchen(case: Case, folder: Path) -> Path:
    path = folder / (re.sub(r"\W+", "-", f"kitchen {case.settings}") + ".sqlite")
    if not path.exists():
        with Book.open(path) as book:
            for name, value in case.settings:
                book.write("setting_changed", name=name, value=value, on="2026-01-01")
            # A dial stands in the book as in any tended kitchen: tested in spring, and right.
            with contextlib.suppress(LedgerError):  # an older book knows of no tests
                book.write("gauge_tested", gauge="dial", reads="0 psi", on="2026-03-01")
    return path


def said(book: Book, body: dict[str, Any], on: str) -> Got:
    """Write a batch down and return what the book says of it, and of the foods in it."""
    asked: list[str] = []
    try:
        entry = _write(book, body, on, asked)
    except InputError as error:
        return Got("refused", str(error), "", asked)
    answer = book.show("as-published", as_of=on, batch=entry)
    records = list(answer.records())
    caution = " ".join(one.text for one in answer.assumptions if one.stands_first)
    if not records:
        return Got("silent", "no record of it", caution, asked)
    record = records[0]
    return Got(
        _WORD.get(record["standing"], str(record["standing"])), record["text"], caution, asked
    )


def _write(book: Book, body: dict[str, Any], on: str, asked: list[str]) -> str:
    """Write a batch; describe the jars and weights that the book asks for, as a household would."""

    def yes(doubt: NeedsAnswer) -> bool:
        asked.append(f"{doubt.code}: {doubt.question}")
        return True

    for made in body["made"]:
        if size := _SIZE.fullmatch(made.get("jar", "")):
            holds = f"{size[1]} {'fl oz' if size[2] == 'oz' else size[2]}"
            _describe(book, item=made["jar"], sort="jar", holds=holds)
    for _ in range(6):
        try:
            return str(book.write("put_up", body, on=on, answers=Answers(ask=yes)).event.id)
        except InputError as error:
            asking = re.search(r"How much does one (.+) of (.+) weigh", str(error))
            if asking is None:
                raise
            _describe(
                book, item=asking[2], sort="food", g_per={asking[1]: _GRAMS.get(asking[1], 100)}
            )
    raise AssertionError(f"the book goes on asking for weights: {body}")


#: Plain weights of a kitchen, where the book asks for one; no case rests on them.
_GRAMS = {
    "clove": 5, "cup": 230, "head": 800, "quart jar": 900, "pint jar": 450, "half-pint jar": 225,
    "tbsp": 14, "tsp": 5, "qt": 920, "gal": 3700, "pt": 460, "l": 1000, "ml": 1,
    "half-gallon jar": 1800, "500 ml jar": 480, "1 l jar": 960,
}  # fmt: skip


def _describe(book: Book, **body: Any) -> None:
    book.write("item_described", body, on="2026-01-01", answers=Answers(yes=True))


def compare(case: Case, got: Got) -> list[Miss]:
    """Return how an outcome misses what is demanded: lenient, graver, no caution, caution."""
    out = []
    if got.verdict not in case.allowed:
        out.append(Miss(case, "lenient" if _lenient(case, got) else "graver", got))
    if case.red == "no":
        if _is_red(got):
            out.append(Miss(case, "caution out of place", got))
    elif case.red != "-":
        missing = [
            food for food in case.red.split(", ") if food.casefold() not in got.caution.casefold()
        ]
        if missing or not _is_red(got):
            out.append(Miss(case, "no caution: " + ", ".join(missing or ["at all"]), got))
    return out


def _is_red(got: Got) -> bool:
    return got.caution.startswith("CAUTION")


def _lenient(case: Case, got: Got) -> bool:
    if got.verdict == "refused":
        return False
    if got.verdict not in ORDER:  # silence is a pass to whoever reads it
        return True
    gravest = [ORDER.index(one) for one in case.allowed if one in ORDER]
    return ORDER.index(got.verdict) > max(gravest, default=-1)
