"""Old notebooks and sheets, invented, of the messy kind: no map is given."""

from __future__ import annotations

import csv
import io
import json
import zipfile

import pytest
from click.testing import CliRunner
from saying.kitchen_said import filled, short

from ledger import Book
from ledger.cli._root import root
from ledger.errors import InputError
from ledger.saying.cells import read_cells, read_tables
from ledger.saying.settled import Settled
from ledger.saying.sheet import read_sheet
from ledger.saying.workbook import read_workbook

HARVEST = """Garden harvest 2025,,,,
,,,,
Date,What,Weight (lb),Bed,Notes
7/3,tomatoes,3,south bed,first ones
,beans,2.5,bed 3,
7/14,tomatoes,12,south bed,
7/20,cucumbers,"4 1/2",,a bit bitter
,,,,
8/1,plums,31,orchard,with Ann
8/3,-,,,
8/5,apples,2 buckets,orchard,
Total,,60,,
"""
GERMAN = """Einkäufe 2025;;;;
Datum;Artikel;Menge;Preis;Laden
3.1.;Zucker;5 kg;6,00;Mühle
;Reis;10 kg;18,90;"
14.2.;Eier;10;2,90;Markt
Summe;;;27,80;
"""
PANTRY = "item,jars,size\ngreen beans,14,pint\ntomato sauce,7,quart\nstrawberry jam,9,half pint\n"
CROPS = "Date,Tomatoes (lb),Beans (lb),Eggs\n2025-07-01,3,2,11\n2025-07-02,,1.5,9\n"
EVENTS = """Date;Event;Item;Qty;Unit;Price;Comment
15/01/2025;Bought;sugar;10;lb;7,90;at the mill
16/01/2025;Ate;tomato sauce;1;jar;;4 people
17/01/2025;Gave;eggs;12;;;to Ann
18/01/2025;Threw out;lettuce;2;heads;;slimy
"""
LINES = "picked 3 lb plums yesterday\nbought 10 lb sugar 7.90 at the mill\nlovely weather\n"


def rows_of(text, tmp_path, name="sheet.csv"):
    path = tmp_path / name
    path.write_text(text, "utf-8")
    return read_cells(path)


def said(text, known, tmp_path, name="sheet.csv", settled=None):
    return read_sheet(rows_of(text, tmp_path, name), known, settled, name)


def told(reading):
    """Each row as the tables write it."""
    out = {}
    for entry in reading.entries:
        one = type(reading)(entries=[entry])
        out.setdefault(entry.row, []).append(short(one))
    return out


def test_a_harvest_book(known, tmp_path):
    reading = said(HARVEST, known, tmp_path)
    assert told(reading) == {
        4: ["harvested@2025-07-03 3 lb tomato bed=south bed; note=first ones"],
        5: ["harvested@2025-07-03 2.5 lb bean bed=bed 3"],
        6: ["harvested@2025-07-14 12 lb tomato bed=south bed"],
        7: ["harvested@2025-07-20 4.5 lb cucumber; note=a bit bitter"],
        9: ["harvested@2025-08-01 31 lb plum bed=orchard; note=with Ann"],
        11: ["harvested@2025-08-05 2 bucket apple bed=orchard"],
    }
    assert [n for n, _ in reading.not_taken] == [10]
    assert [n for n, _ in reading.skipped] == [1, 3, 12]
    assert {one.row for one in reading.questions} == {11}


def test_a_german_shopping_book_with_a_ditto(known, tmp_path):
    assert told(said(GERMAN, known, tmp_path)) == {
        3: ["bought@2025-01-03 5 kg sugar paid=6; shop=Mühle"],
        4: ["bought@2025-01-03 10 kg rice paid=18.90; shop=Mühle"],
        5: ["bought@2025-02-14 10 egg paid=2.90; shop=Markt"],
    }


def test_a_pantry_list_is_a_count(known, tmp_path):
    assert told(said(PANTRY, known, tmp_path)) == {
        2: ["counted 14 pint jars green bean"],
        3: ["counted 7 quart jars tomato sauce"],
        4: ["counted 9 half-pint jars strawberry jam"],
    }


OWN_VERBS = """date,what,amount,unit,price,notes
2026-07-01,Picked tomatoes,12,lb,,
2026-07-02,,10,lb,,gave to neighbour
2026-07-03,apples,10,lb,,gave to neighbour
2026-07-04,sugar,10,lb,7.90,corner shop
"""


def test_a_verb_in_the_cell_of_the_thing_or_of_a_note_is_the_verb(known, tmp_path):
    (tmp_path / "things.csv").write_text(OWN_VERBS, "utf-8")
    asked = read_sheet(read_cells(tmp_path / "things.csv"), known, title="things")
    assert short(asked) == (
        "harvested@2026-07-01 12 lb tomato + given_away@2026-07-02 10 lb tomato; how=gift; to=neighbour + "
        "given_away@2026-07-03 10 lb apple; how=gift; to=neighbour + "
        "bought@2026-07-04 10 lb sugar paid=7.90; shop=corner shop"
    )


def test_crops_as_columns(known, tmp_path):
    assert told(said(CROPS, known, tmp_path)) == {
        2: [
            "harvested@2025-07-01 3 lb tomato",
            "harvested@2025-07-01 2 lb bean",
            "harvested@2025-07-01 11 egg",
        ],
        3: ["harvested@2025-07-02 1.5 lb bean", "harvested@2025-07-02 9 egg"],
    }


def test_a_column_of_verbs_and_words_that_have_a_field(known, tmp_path):
    assert told(said(EVENTS, known, tmp_path)) == {
        2: ["bought@2025-01-15 10 lb sugar paid=7.90; shop=the mill"],
        3: ["eaten@2025-01-16 1 quart jar tomato sauce; people=4"],
        4: ["given_away@2025-01-17 12 egg; how=gift; to=Ann"],
        5: ["discarded@2025-01-18 2 head lettuce; note=slimy; why=spoiled"],
    }


def test_days_in_two_orders_follow_those_that_tell(known, tmp_path):
    text = "Date,Picked,Amount\n5/6/2025,plums,3 lb\n25/6/2025,plums,4 lb\n"
    assert [one.on for one in said(text, known, tmp_path).entries] == ["2025-06-05", "2025-06-25"]
    text = "Date,Picked,Amount\n5/6/2025,plums,3 lb\n6/25/2025,plums,4 lb\n"
    assert [one.on for one in said(text, known, tmp_path).entries] == ["2025-05-06", "2025-06-25"]


def test_a_sheet_of_sentences(known, tmp_path):
    reading = said(LINES, known, tmp_path)
    assert [one.kind for one in reading.entries] == ["harvested", "bought"]
    assert reading.not_taken == [(3, "lovely weather")]


def test_a_sheet_that_says_no_kind_is_asked_once(known, tmp_path):
    text = "Date,Item,Amount\n2025-07-01,plums,3 lb\n2025-07-02,beans,2 lb\n"
    reading = said(text, known, tmp_path)
    assert [one.code for one in reading.questions] == ["kind"]
    settled = Settled({("sheet-kind", "kind", 0): "eaten"})
    assert [one.kind for one in said(text, known, tmp_path, settled=settled).entries] == [
        "eaten",
        "eaten",
    ]


def test_every_row_finds_a_place(known, tmp_path):
    for text in (HARVEST, GERMAN, PANTRY, CROPS, EVENTS, LINES):
        reading = said(text, known, tmp_path)
        rows = {n for n, cells in rows_of(text, tmp_path) if any(cell.strip() for cell in cells)}
        placed = {one.row for one in reading.entries} | {
            n for n, _ in reading.not_taken + reading.skipped
        }
        assert placed == rows


def _xlsx(path, rows):
    """Write the least workbook that is one (ECMA-376): texts in the cells themselves."""
    cell = '<c t="inlineStr"><is><t>{}</t></is></c>'.format
    cells = "".join(f"<row>{''.join(map(cell, row))}</row>" for row in rows)
    parts = {
        "[Content_Types].xml": '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/></Types>',
        "_rels/.rels": '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="r1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="xl/workbook.xml"/></Relationships>',
        "xl/workbook.xml": '<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets><sheet name="Book" sheetId="1" r:id="r1"/></sheets></workbook>',
        "xl/_rels/workbook.xml.rels": '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="r1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/></Relationships>',
        "xl/worksheets/sheet1.xml": f'<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>{cells}</sheetData></worksheet>',
    }
    with zipfile.ZipFile(path, "w") as file:
        for name, text in parts.items():
            file.writestr(name, text)


def test_a_workbook_is_read_like_csv(known, tmp_path):
    rows = [["Date", "What", "Amount"], ["2025-07-03", "plums", "3 lb"]]
    _xlsx(tmp_path / "book.xlsx", rows)
    reading = read_sheet(read_cells(tmp_path / "book.xlsx"), known, title="harvest")
    assert told(reading) == {2: ["harvested@2025-07-03 3 lb plum"]}


def _ods(path, sheets):
    """Write the least spreadsheet that is one (OpenDocument 1.3): texts, days and numbers in cells."""
    kind = "application/vnd.oasis.opendocument.spreadsheet"
    text = '<table:table-cell office:value-type="string"><text:p>{}</text:p></table:table-cell>'
    day = '<table:table-cell office:value-type="date" office:date-value="{}"/>'
    number = '<table:table-cell office:value-type="float" office:value="{}"/>'

    def cell(one):
        sort = number if isinstance(one, float) else day if one[:2] == "20" else text
        return sort.format(one)

    tables = "".join(
        f'<table:table table:name="{name}">'
        + "".join(f"<table:table-row>{''.join(map(cell, row))}</table:table-row>" for row in rows)
        + "</table:table>"
        for name, rows in sheets.items()
    )
    names = ("office", "table", "text")
    spaces = " ".join(f'xmlns:{one}="urn:oasis:names:tc:opendocument:xmlns:{one}:1.0"' for one in names)  # fmt: skip
    content = f'<office:document-content {spaces} office:version="1.3"><office:body><office:spreadsheet>{tables}</office:spreadsheet></office:body></office:document-content>'
    manifest = f'<manifest:manifest xmlns:manifest="urn:oasis:names:tc:opendocument:xmlns:manifest:1.0" manifest:version="1.3"><manifest:file-entry manifest:full-path="/" manifest:media-type="{kind}"/><manifest:file-entry manifest:full-path="content.xml" manifest:media-type="text/xml"/></manifest:manifest>'
    with zipfile.ZipFile(path, "w") as file:
        file.writestr("mimetype", kind)
        file.writestr("content.xml", content)
        file.writestr("META-INF/manifest.xml", manifest)


SHEETS = {
    "Harvest": [["Date", "What", "Amount"], ["2025-07-03", "plums", "3 lb"], ["soon", "pears", "2 lb"]],
    "Empty": [],
    "Shopping": [["Date", "Item", "Amount", "Price"], ["2025-01-03", "sugar", "10 lb", 7.9]],
    "Pantry": [["item", "jars", "size"], ["green beans", 14.0, "pint"]],
}  # fmt: skip


def test_all_sheets_of_a_workbook_are_read_each_for_itself(known, tmp_path):
    _ods(tmp_path / "house.ods", SHEETS)
    tables = read_tables(tmp_path / "house.ods")
    assert [one.name for one in tables] == ["Harvest", "Shopping", "Pantry"]
    reading = read_workbook(tables, known, title="house")
    assert [(one.sheet, one.row, one.kind, one.on[:7]) for one in reading.entries] == [
        ("Harvest", 2, "harvested", "2025-07"),
        ("Harvest", 3, "harvested", "2025-07"),
        ("Shopping", 2, "bought", "2025-01"),
        ("Pantry", 2, "counted", "2026-09"),
    ]
    (asked,) = reading.questions
    assert (asked.sheet, asked.row, asked.code) == ("Harvest", 3, "day")
    settled = Settled({asked.key: "2025-07-09"})
    assert read_workbook(tables, known, settled, "house").entries[1].on == "2025-07-09"
    assert [one.rows[0][1][0] for one in read_tables(tmp_path / "house.ods", only="pantry")] == [
        "item"
    ]
    with pytest.raises(InputError, match="no sheet"):
        read_tables(tmp_path / "house.ods", only="meals")


def test_what_is_no_workbook_is_refused(tmp_path):
    (tmp_path / "book.xlsx").write_text("plums", "utf-8")
    with pytest.raises(InputError, match="cannot be read"):
        read_cells(tmp_path / "book.xlsx")


@pytest.fixture
def place(tmp_path, fixed_day):
    filled(tmp_path / "book.sqlite").close()
    return tmp_path / "book.sqlite"


def run(place, *words):
    return CliRunner().invoke(root, [*words, "--book", str(place)])


def test_a_sheet_is_imported_and_the_rest_stands_beside_it(place, tmp_path):
    sheet = tmp_path / "garden.csv"
    sheet.write_text(HARVEST, "utf-8")
    dry = run(place, "import", str(sheet), "--dry-run", "--json")
    assert dry.exit_code == 0
    reading = json.loads(dry.stdout)
    assert {one["row"] for one in reading["entries"]} == {4, 5, 6, 7, 9, 11}
    assert reading["not_taken"] == [{"row": 10, "text": "8/3 -"}]
    done = run(place, "import", str(sheet))
    assert done.exit_code == 0, done.output
    with Book.open(place) as book:
        assert len([1 for chunk in book.log.read(kinds=("harvested",)) for _ in chunk]) == 7
    rest = list(csv.reader(io.StringIO((tmp_path / "garden.not-taken.csv").read_text("utf-8"))))
    assert ["8/3", "'-", "", "", ""] in rest or ["8/3", "-", "", "", ""] in rest


def test_the_same_sheet_twice_is_asked(place, tmp_path):
    sheet = tmp_path / "garden.csv"
    sheet.write_text(HARVEST, "utf-8")
    run(place, "import", str(sheet))
    again = run(place, "import", str(sheet))
    assert "already" in str(again.exception)


def test_keep_good_writes_what_was_understood(place, tmp_path):
    sheet = tmp_path / "garden.csv"
    sheet.write_text(HARVEST.replace("31,orchard", "some,orchard"), "utf-8")
    assert run(place, "import", str(sheet)).exit_code != 0
    done = run(place, "import", str(sheet), "--keep-good")
    assert done.exit_code == 0, done.output
    assert "plums" in (tmp_path / "garden.not-taken.csv").read_text("utf-8")
