"""Docs made from the code: schemas, docs/formats.md, docs/answers.md and the figures of docs/circle.md.

python -m ledger.docs docs
"""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

import msgspec

from ledger.docs_stored import stored_section
from ledger.kinds import KINDS, Kind
from ledger.projections import PROJECTIONS, Column
from ledger.questions.compared import compare

__all__ = ["answers_page", "circle_page", "formats_page", "schema_of", "write"]

_INTRO = """# Formats

One event a line, UTF-8, JSON Lines: `{"kind": "harvested", "on": "2026-09-02", "body": {...}}`; besides, as wanted: `id` (UUID; the same
event arriving again changes nothing), `by`, `at` (HH:MM), `replaces` (an id), `typed_at`, `v`. An export adds `seq`, `hash` and `recorded_at`; imported into an empty
book it exports to the same bytes. CSV has a header row of `on,kind` and the fields of a body, one line an event; foreign headings are mapped once in a TOML file
with `[columns]` (heading = field) and `[constants]`. An export has its head beside it (`FILE.head`): an import reads it and says by line what was cut off,
left out or changed by hand. In CSV a text that begins with one of `= + - @`, a tab or a line's end has an apostrophe before it, which keeps a spreadsheet from
running it; import takes it away again.
`by` is who wrote an event down; the `by` inside a target's body is the day by which it is wanted, so on the command line and in a sheet's columns the writer
of a target is `person`.

Amounts: `12 lb 6 oz`, `1 1/2 cups`, `½ lb`, `2 dozen`, `7 quart jars`. Mass mg g kg oz lb stone cwt ton t; volume ml cl l tsp tbsp cup pt qt gal fl oz peck bushel;
energy kWh MJ BTU therm. `uk qt`, `metric cup` name another system than the setting `measures`. `oz` is always mass. Money is text or a number in the
book's currency. An amount in jars is a count and a volume at once: what was counted, bought or given as `12 quart jars` stands on the shelf as twelve of them. Below 1 g, 1 ml or 0.01 piece a rest is reckoned, but neither listed nor asked about. Fields marked * are needed; where a body has `lines`, one line's fields may stand directly in it.

The JSON Schema of each kind is in `schema/`. This page is made by `python -m ledger.docs docs`.
"""


_AGAINST = """The same question at two dates, one record a thing. A day asks the question as of that day (`our-table` with `--from`: for as long a period that
ends on it); the year of a season asks for that season, while the one now runs to the same day of it. The causes add up to the difference exactly.
What a record of the other day rests on opens as of that day: `croftbook why on:2025-10-31/season/2025/tomato`."""


def schema_of(kind: Kind) -> dict[str, Any]:
    """Return the JSON Schema of a kind's body as typed."""
    schema = msgspec.json.schema(
        kind.body, schema_hook=lambda _type: {"type": ["string", "number"]}
    )
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", "title": kind.name, **schema}


def formats_page() -> str:
    """Return docs/formats.md."""
    out = [_INTRO, stored_section()]
    for kind in KINDS.values():
        out.append(
            f"\n## `{kind.name}`\n\n{kind.title}: {kind.summary}. Command: `croftbook {kind.command}`.\n"
        )
        out.append(_table(kind.body))
        if kind.line is not None:
            out.append("\nA line:\n")
            out.append(_table(kind.line))
        example = json.dumps(
            {"kind": kind.name, "on": "2026-09-02", "body": kind.example}, ensure_ascii=False
        )
        out.append(f"\n    {example}\n")
    return "\n".join(out)


def _table(struct: type) -> str:
    from ledger.kinds.describing import describe

    rows = ["| field | what it is | may be |", "|---|---|---|"]
    for field, needed in describe(struct):
        star = "*" if needed else ""
        rows.append(f"| `{field.name}`{star} | {field.help} | {', '.join(field.choices)} |")
    return "\n".join(rows)


def answers_page() -> str:
    """Return docs/answers.md: every question, its columns and units."""
    out = [
        "# Answers\n",
        "`croftbook show NAME` prints a table; `--json` and `--csv` give every column, unrounded. A thing not known is null. `Book.show(NAME).frame` is the same",
        "as a pandas DataFrame. Made by `python -m ledger.docs docs`.",
    ]
    for name in PROJECTIONS:
        projection = PROJECTIONS[name]
        out.append(f"\n## {name}\n\n{projection.question}\n")
        for option in projection.options:
            out.append(
                f"- `--{option.name.replace('_', '-')}`: {option.help} (e.g. {option.example})"
            )
        if projection.compared is not None:
            out.append(
                "- `--against`: what changed since that day (or season), split into price, amount and mix (below)"
            )
        out.append(_columns(projection.columns))
        for flag, columns in projection.variants.items():
            out.append(f"\nWith `--{flag.replace('_', '-')}`:\n" + _columns(columns))
    out.append(f"\n## With --against\n\n{_AGAINST}\n{_columns(compare.COLUMNS)}")
    return "\n".join(out) + "\n"


def _columns(columns: tuple[Column, ...]) -> str:
    rows = [f"| `{c.name}` | {c.unit} | {c.meaning} |" for c in columns]
    return "\n".join(["\n| column | unit | meaning |\n|---|---|---|", *rows])


def circle_page(page: str) -> str:
    """Return docs/circle.md with its table of figures made anew."""
    from ledger.circle.figures import CHANGES, CROP, HOUSEHOLD, PRODUCT

    rows = ["| figure | what it is | unit | limits |", "|---|---|---|---|"]
    for before, several in (("", HOUSEHOLD), ("", CHANGES), ("p1_", PRODUCT), ("c1_", CROP)):
        rows += [
            f"| `{before}{f.name}` | {f.meaning} | {f.unit} | {f.low:,} to {f.high:,} |"
            for f in several
        ]
    head, begin, rest = page.partition("<!-- figures -->\n")
    return head + begin + "\n".join(rows) + "\n" + rest[rest.index("<!-- end -->") :]


def write(folder: Path) -> list[Path]:
    """Write every page made from the code; return what was written."""
    schemas = folder / "schema"
    schemas.mkdir(parents=True, exist_ok=True)
    pages = {folder / "formats.md": formats_page(), folder / "answers.md": answers_page()}
    for kind in KINDS.values():
        text = json.dumps(schema_of(kind), indent=1, ensure_ascii=False, sort_keys=True)
        pages[schemas / f"{kind.name}.json"] = text + "\n"
    from ledger.circle.sheet import sheet_schema

    text = json.dumps(sheet_schema(), indent=1, ensure_ascii=False, sort_keys=True)
    pages[schemas / "season_sheet.json"] = text + "\n"
    circle = folder / "circle.md"
    if circle.exists():
        pages[circle] = circle_page(circle.read_text("utf-8"))
    for path, text in pages.items():
        path.write_text(text, "utf-8")
    return list(pages)


if __name__ == "__main__":
    write(Path(sys.argv[1]))
