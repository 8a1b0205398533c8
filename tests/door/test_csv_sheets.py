"""Sheets: delimiters, encodings, dates, foreign headings, lists in a cell, broken rows."""

from __future__ import annotations

import pytest

from ledger import InputError

HEAD = "on,kind,item,amount,paid\n"
ROW = "2026-09-02,bought,sugar,10 lb,7.90\n"


@pytest.fixture
def take(book, fixed_day, tmp_path):
    """Import a sheet given as text or bytes; return what was done and the bodies written."""

    def run(content, **more):
        path = tmp_path / "sheet.csv"
        path.write_bytes(content if isinstance(content, bytes) else content.encode())
        done = book.import_file(path, **more)
        rows = book.history(newest_first=False)
        return done, [row.line for row in rows if row.kind != "item_described"]

    return run


@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
def test_delimiter_and_mark_are_recognised(take, delimiter, mark):
    done, lines = take(mark + (HEAD + ROW).replace(",", delimiter).encode())
    assert (done.written, done.bad_count) == (1, 0)
    assert lines == ["bought 10 lb sugar for 7.90"]


@pytest.mark.parametrize(
    ("dates", "text"),
    [("dmy", "2.9.2026"), ("dmy", "02/09/26"), ("mdy", "9/2/2026"), (None, "2026-09-02")],
)
def test_days_are_read_as_said(take, book, dates, text):
    done, _ = take(HEAD + ROW.replace("2026-09-02", text), dates=dates)
    assert done.bad == []
    assert {row.on for row in book.history()} == {"2026-09-02"}


def test_day_of_another_order_is_refused(take):
    assert "--dates" in take(HEAD + ROW.replace("2026-09-02", "2.9.2026"))[0].bad[0].problem
    done, _ = take(HEAD + ROW.replace("2026-09-02", "2/13/2026"), dates="dmy")
    assert "order of day and month" in done.bad[0].problem


def test_other_encoding_is_named(take):
    row = ROW.replace("sugar", "crème").encode("latin-1")
    done, _ = take(HEAD.encode() + row)
    assert done.bad[0].number == 2
    assert "item: holds a byte" in done.bad[0].problem
    assert take(HEAD.encode() + row, encoding="latin-1")[1] == ["bought 10 lb crème for 7.90"]


def test_foreign_headings_are_mapped_once(take, tmp_path):
    mapping = tmp_path / "map.toml"
    mapping.write_text(
        '[columns]\n"Date" = "on"\n"What" = "item"\n"Qty" = "amount"\n"Cost" = "paid"\n'
        '[constants]\nkind = "bought"\nshop = "corner shop"\n'
    )
    sheet = "Date,What,Colour,Qty,Cost\n2026-09-02,sugar,white,10 lb,7.90\n"
    assert take(sheet, mapping=mapping)[1] == ["bought 10 lb sugar at corner shop for 7.90"]
    with pytest.raises(InputError, match="no column 'Qty'"):
        take(sheet.replace("Qty", "Quantity"), mapping=mapping)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("[columns", "not TOML"),
        ("[rows]\na = 1", "not a part"),
        ("[columns]\na = 1", "plain texts"),
    ],
)
def test_mapping_that_is_none_is_refused(take, tmp_path, text, says):
    mapping = tmp_path / "map.toml"
    mapping.write_text(text)
    with pytest.raises(InputError, match=says):
        take(HEAD + ROW, mapping=mapping)


def test_cells_hold_lists_as_on_the_command_line(take):
    sheet = (
        "on,kind,makes,method,used,made,ate,people,work\n"
        "2026-09-02,putup,plum butter,boiling water,16 lb plum; 3 lb sugar,"
        "11 half-pint jars; 1 cup fridge,,,Ada 90\n"
        "2026-09-03,meal,,,,,1 half-pint jar plum butter | 2 lb bread,6,\n"
    )
    done, lines = take(sheet)
    assert done.bad == []
    assert lines == [
        "put up 11 half-pint jars, 1 cup (fridge) of plum butter (boiling water) "
        "from 16 lb plum, 3 lb sugar",
        "ate 1 half-pint jar plum butter, 2 lb bread for 6",
    ]


def test_one_line_stands_in_its_own_columns_for_every_kind(take):
    sheet = (
        "on,kind,item,amount,makes,method,jars,jar,crop\n"
        "2026-09-02,eaten,bread,2 lb,,,,,\n"
        "2026-09-02,put_up,plum,16 lb,jam,boiling water,5,pint jar,\n"
        "2026-05-02,planted,bean seed,20,,,,,bean\n"
    )
    done, lines = take(sheet)
    assert done.bad == []
    assert lines[1] == "put up 5 pint jars of jam (boiling water) from 16 lb plum"


def test_decimal_commas_of_the_language_are_read(take, book):
    book.write("setting_changed", {"name": "language", "value": "de"}, on="2026-01-01")
    done, lines = take("on;kind;item;amount;paid\n2026-09-02;bought;sugar;1,5 kg;7,90\n")
    assert done.bad == []
    assert lines[-1] == "bought 1,5 kg sugar for 7.90"


@pytest.mark.parametrize(
    ("row", "says"),
    [
        ("2026-09-02,bought,sugar,10 lb,7,90\n", "row: has 6 cells under 5 headings"),
        ("2026-09-02,bought,sugar,10 lb,\n", "paid"),
        ("2026-09-02,reaped,sugar,10 lb,1\n", "reaped"),
        (",bought,sugar,10 lb,1\n", "on: is empty"),
        ("2026-09-02,eaten,sugar,10 lb,1\n", "paid: is not a field"),
        ("2026-09-02,bought,su\x00gar,10 lb,1\n", "NUL"),
    ],
)
def test_broken_row_is_reported_and_nothing_written(take, book, row, says):
    done, _ = take(HEAD + ROW + row)
    assert done.bad[0].number == 3
    assert says in done.bad[0].problem
    assert book.log.position() == 0


@pytest.mark.parametrize("content", ["", "\n", "item,amount\n1,2\n", "on,kind,item,item\n"])
def test_sheet_without_a_header_of_use_is_refused(take, content):
    with pytest.raises(InputError) as refused:
        take(content)
    assert refused.value.field == "header"


@pytest.mark.parametrize("encoding", ["utf-16", "nonsense"])
def test_wrong_encoding_is_one_message(take, encoding):
    with pytest.raises(InputError, match="encoding"):
        take(HEAD + ROW, encoding=encoding)


def test_quote_that_never_closes_is_one_message(take, book):
    with pytest.raises(InputError, match="row"):
        take(HEAD + '2026-09-02,bought,"sugar,10 lb,1\n' + ROW * 4000)
    assert book.log.position() == 0
