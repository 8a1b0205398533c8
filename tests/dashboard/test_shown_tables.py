"""A table in CSV as the page shows it: the same headings, the same rows, all of them; and it runs nowhere."""

from __future__ import annotations

import csv
import io
import re
from urllib.parse import parse_qs, urlsplit

import pytest
from page_tools import draw

from dashboard.app import make_app


def links(drawn):
    return [
        one.href
        for one in drawn.all("A")
        if str(getattr(one, "href", "")).startswith("/files/page.csv")
    ]


@pytest.mark.parametrize(
    ("path", "query"),
    [("/jar-cost", {}), ("/history", {}), ("/look-closer", {}), ("/shelf", {"item": "milk"})],
)
def test_it_holds_what_the_page_shows(demo, fixed_day, path, query):
    client = make_app(demo.book).server.test_client()
    for link in links(draw(demo.book, path, query)):
        answer = client.get(link, base_url="http://127.0.0.1")
        assert answer.status_code == 200, link
        rows = list(csv.reader(io.StringIO(answer.text.removeprefix("\ufeff"))))
        name = parse_qs(urlsplit(link).query)["table"][0]
        page = draw(demo.book, path, {**query, "rows": "all"})
        (table,) = [one for one in page.all("Div") if getattr(one, "data-table", None) == name][:1]
        shown = table.children[0]
        heads = [
            re.sub(r"\s+", " ", str(one.children)) for one in shown.children[1].children.children
        ]
        assert rows[0] == heads
        assert len(rows) - 1 == len(shown.children[2].children)


def test_no_such_table_is_said(demo, fixed_day):
    client = make_app(demo.book).server.test_client()
    answer = client.get("/files/page.csv?path=/shelf&table=moon", base_url="http://127.0.0.1")
    assert (answer.status_code, answer.mimetype) == (404, "text/plain")
