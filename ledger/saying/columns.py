"""What the columns of a sheet are: by their headings, and by what stands below them."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from ledger.saying.known import Known
from ledger.saying.language import CODES, Language, language
from ledger.saying.names import Names, is_plain
from ledger.saying.tokens import tokens_of
from ledger.saying.units import unit_at

__all__ = ["MEANINGS", "Layout", "layout_of", "title_of"]

Row = list[str]
_DAY = (
    r"\d{4}-\d\d-\d\d.*|\d{1,2}[./]\d{1,2}[./]?(\d{2,4})?"
    r"|\d{1,2}\.? ?[A-Za-zä]{3,9}\.?( \d{4})?|[A-Za-zä]{3,9}\.? \d{1,2}(, ?\d{4})?"
)
_ROLES = (
    "day", "each", "paid", "amount", "unit", "kind", "note", "shop", "bed", "person", "kept", "variety", "item",
)  # fmt: skip
MEANINGS = {
    "purchases": "bought", "harvests": "harvested", "pantry": "counted", "meals": "eaten",
    "batches": "put_up", "sowing": "planted",
}  # fmt: skip


@dataclass(slots=True)
class Layout:
    """How a sheet is laid out.

    Attributes
    ----------
    columns : dict of int to str
        The role of each column; empty: every row is a sentence.
    titles : set of int
        Rows (by number) that are titles or headings.
    crops : dict of int to str
        Columns that are one item each, below a heading that names it.
    unit : str
        The unit that a heading or a title gives to bare numbers.
    units : dict of int to str
        The same by column, of crops.
    kind : str or None
        What all rows are, where the title or the headings say it.
    """

    columns: dict[int, str] = field(default_factory=dict)
    titles: set[int] = field(default_factory=set)
    crops: dict[int, str] = field(default_factory=dict)
    units: dict[int, str] = field(default_factory=dict)
    unit: str = ""
    kind: str | None = None
    year: int | None = None
    month_first: bool = True
    day_column: int | None = None
    is_jars: bool = False
    repeats_items: bool = False


def layout_of(rows: list[tuple[int, Row]], words: Language, known: Known, title: str) -> Layout:
    """Return how a sheet is laid out; the heading is the first row with two words for columns."""
    out = Layout(month_first=known.measures == "us" and not words.day_first)
    _take_title(out, title, words)
    for place, (number, cells) in enumerate(rows[:15]):
        crops = _crops(cells, words, known)
        roles = _roles(cells, words)
        if len(crops) >= 2 and len(crops) >= len(roles) - 1:
            out.crops, out.units = crops, {k: _unit_in(cells[k], words) or out.unit for k in crops}
            out.day_column = next((k for k, role in roles.items() if role == "day"), 0)
        elif len(roles) >= 2:
            out.columns = roles
            _read_heading(out, cells, words)
        else:
            text = " ".join(cell for cell in cells if cell)
            plain = re.sub(r"(?<!\d)(?:19|20)\d\d(?!\d)", "", text)
            if text and not re.search(r"\d", plain) and _is_title(cells):
                _take_title(out, text, words)
                out.titles.add(number)
            continue
        out.titles.add(number)
        _read_below(out, rows[place + 1 :])
        break
    else:
        if not _by_content(out, rows, words):
            out.titles = {n for n in out.titles if n <= 2}
    _settle_kind(out)
    out.month_first = _order(rows, default=out.month_first)
    return out


def _is_title(cells: Row) -> bool:
    return sum(bool(cell.strip()) for cell in cells) == 1


def title_of(text: str, words: Language) -> tuple[str | None, int | None]:
    """Return the kind and the year that a title says: ``Garden harvest 2024``."""
    year = re.search(r"(?<!\d)((?:19|20)\d\d)(?!\d)", text)
    tokens = tokens_of(text.replace("_", " ").replace(".", " "))
    kind = None
    for lexicon in (words, *(language(code) for code in CODES)):
        for k in range(len(tokens)):
            found = lexicon.find("meaning", tokens, k)
            if found is not None:
                kind = kind or MEANINGS[str(found[0])]
    return kind, int(year[1]) if year else None


def _take_title(out: Layout, text: str, words: Language) -> None:
    kind, year = title_of(text, words)
    out.kind, out.year = out.kind or kind, out.year or year
    out.unit = out.unit or _unit_in(text, words)


def _unit_in(text: str, words: Language) -> str:
    """Return the unit in a heading's brackets or behind its comma: ``Weight (lb)``, ``Menge kg``."""
    for part in re.findall(r"[(\[]([^)\]]+)[)\]]", text) + re.split(r"[,/ ]", text)[1:]:
        for lexicon in (words, *(language(code) for code in CODES)):
            tokens = tokens_of(part.strip())
            found = unit_at(lexicon, tokens, 0) if tokens else None
            if found is not None and found[2] == len(tokens) and found[1] in ("measure", "jar"):
                return str(part.strip())
    return ""


def _roles(cells: Row, words: Language) -> dict[int, str]:
    """Return the columns that a row names, by their place."""
    out: dict[int, str] = {}
    for place, cell in enumerate(cells):
        said = re.sub(r"[(\[].*?[)\]]", "", cell).strip(" .:#?").lower()
        role = _role(said, words)
        if role is not None and not (role != "note" and role in out.values()):
            out[place] = role
        elif role is not None:
            out[place] = "note"
    for place, role in out.items():  # "Picked" stands above what was picked, or how much
        if role == "verb":
            out[place] = (
                "amount" if "item" in out.values() and "amount" not in out.values() else "item"
            )
    return out


def _role(said: str, words: Language) -> str | None:
    if not said or len(said) > 40:
        return None
    for lexicon in (words, *(language(code) for code in CODES)):
        for role in _ROLES:
            if lexicon.is_(f"sheet.{role}", said):
                return role
    for lexicon in (words, *(language(code) for code in CODES)):
        for role in _ROLES:
            if lexicon.find(f"sheet.{role}", tokens_of(said), 0) is not None:
                return role
        if lexicon.is_("verb", said) or lexicon.is_("meaning", said):
            return "verb"
    return None


def _read_heading(out: Layout, cells: Row, words: Language) -> None:
    for place, role in out.columns.items():
        said = cells[place].strip().lower()
        if role == "amount":
            out.unit = (
                _unit_in(cells[place], words)
                or (said if unit_at(words, tokens_of(said), 0) else "")
                or out.unit
            )
            if "jar" in said or "gläser" in said:
                out.is_jars, out.unit = True, ""
        if role in ("amount", "day", "item") and out.kind is None:
            verb = words.find("verb", tokens_of(said), 0)
            out.kind = str(verb[0].kind) if verb else title_of(said, words)[0]
        if role == "kind" and out.kind is not None:
            continue


def _read_below(out: Layout, rows: list[tuple[int, Row]]) -> None:
    """See whether the item column leaves out what repeats."""
    place = next((k for k, role in out.columns.items() if role == "item"), None)
    amount = next((k for k, role in out.columns.items() if role == "amount"), None)
    if place is None or amount is None:
        return
    gaps = sum(
        1
        for _, cells in rows
        if len(cells) > max(place, amount) and not cells[place].strip() and cells[amount].strip()
    )
    out.repeats_items = gaps > 0


def _settle_kind(out: Layout) -> None:
    """Take what the columns are only there for: a price is of a purchase, a bed of a harvest."""
    roles = set(out.columns.values())
    if out.kind == "counted" and roles & {"paid", "each"}:
        out.kind = None
    if out.kind is None and "kind" not in roles:
        if roles & {"paid", "each"} and "bed" not in roles:
            out.kind = "bought"
        elif roles & {"bed", "variety"}:
            out.kind = "harvested"
        elif "day" not in roles and (out.is_jars or "unit" in roles) and out.columns:
            out.kind = "counted"
        elif out.crops:
            out.kind = "harvested"
    if out.kind == "counted" and "unit" in roles and "day" not in roles:
        out.is_jars = out.is_jars or False


def _crops(cells: Row, words: Language, known: Known) -> dict[int, str]:
    """Return the columns whose heading is an item."""
    names = Names(known, words)
    out: dict[int, str] = {}
    for place, cell in enumerate(cells):
        said = re.sub(r"[(\[].*?[)\]]", "", cell).strip(" .:")
        if not said or _role(said.lower(), words) is not None or re.search(r"\d", said):
            continue
        if known.item(said) or is_plain(said) or names.find(said).state in ("book", "table"):
            out[place] = said
    return out


def _by_content(out: Layout, rows: list[tuple[int, Row]], words: Language) -> bool:
    """Find the day and the rest by what stands in the columns, where no row is a heading."""
    wide = [
        cells
        for n, cells in rows
        if n not in out.titles and sum(bool(c.strip()) for c in cells) >= 2
    ]
    if not wide:
        return False
    columns: dict[int, str] = {}
    for place in range(max(len(cells) for cells in wide)):
        cells = [row[place].strip() for row in wide if place < len(row) and row[place].strip()]
        if not cells:
            continue
        role = _content(cells, words)
        if role and role not in columns.values():
            columns[place] = role
        elif "item" in columns.values():
            columns[place] = "note"
    if "item" not in columns.values():
        return False
    out.columns = columns
    return True


def _content(cells: list[str], words: Language) -> str | None:
    def share(pattern: str) -> float:
        return sum(bool(re.fullmatch(pattern, cell, re.IGNORECASE)) for cell in cells) / len(cells)

    if share(_DAY) > 0.6:
        return "day"
    if share(r"[$€£]\s?\d+([.,]\d+)?|\d+[.,]\d\d\s?[$€£]?") > 0.6:
        return "paid"
    verbs = sum(words.is_("verb", cell) for cell in cells) / len(cells)
    if verbs > 0.6:
        return "kind"
    if share(r"[\d.,/½¼¾ ]+\s*[a-zäöü.]*") > 0.6:
        return "amount"
    return "item" if share(r".*[A-Za-zÄÖÜäöü]{3}.*") > 0.6 else None


def _order(rows: list[tuple[int, Row]], *, default: bool) -> bool:
    """Return whether the month comes first: as in the days of the sheet that tell."""
    month = day = 0
    for _, cells in rows:
        for cell in cells[:4]:
            match = re.match(r"\s*(\d{1,2})[./-](\d{1,2})(?:[./-]\d{2,4})?\s*$", cell)
            if match:
                day += int(match[1]) > 12
                month += int(match[2]) > 12
    return month > day if month or day else default
