"""Files beside the pages: every answer as CSV is the answer, and what is not there is said in a sentence."""

from __future__ import annotations

import io
import json

import pandas as pd
import pytest

from dashboard.app import make_app
from dashboard.pages import PAGES
from ledger.projections import PROJECTIONS

NEEDS = {"touched": {"item": "plum"}}
"""What a question has to be given."""
VARIANTS = [
    (name, NEEDS.get(name, {}))
    for name in PROJECTIONS
] + [
    (name, {option.name: True, **NEEDS.get(name, {})})
    for name in PROJECTIONS
    for option in PROJECTIONS[name].options
    if option.kind == "flag"
] + [
    ("season", {"season": "2025"}), ("season", {"season": "2026", "by": "crop"}), ("season", {"crop": "tomato", "weeks": True}),
    ("shelf", {"item": "egg"}), ("our-table", {"by": "month", "basis": "energy"}), ("our-table", {"from": "2026-01-01", "to": "2026-03-31"}),
    ("stocking-up", {"budget": "20", "trips": "2"}), ("worth-it", {"season": "2025"}), ("as-published", {"product": "green beans"}),
    ("next-season", {"for": "energy", "want": "tomato sauce=10 quart jars"}), ("know-how", {"year_sheet": "2026"}),
]  # fmt: skip
MOMENTS = [{}, {"as_of": "2025-09-15"}, {"as_of": "2025-09-15", "known_at": "2025-10-01"}]


@pytest.fixture(scope="module")
def app(demo):
    return make_app(demo.book)


@pytest.fixture
def client(app, fixed_day):
    return app.server.test_client()


def asked(client, name, options=None, **moment):
    said = {f"o.{key}": value for key, value in (options or {}).items()}
    return client.get(f"/files/{name}.csv", query_string={**said, **moment})


@pytest.mark.parametrize("moment", MOMENTS, ids=["now", "as_of", "known_at"])
@pytest.mark.parametrize(("name", "options"), VARIANTS)
def test_csv_is_the_answers_frame(demo, client, name, options, moment):
    answer = asked(client, name, options, **moment)
    assert answer.status_code == 200
    assert answer.mimetype == "text/csv"
    assert answer.headers["Content-Disposition"] == f'attachment; filename="{name}.csv"'
    frame = demo.book.show(name, **moment, **options).frame
    assert answer.text == frame.to_csv(index=False)
    read = pd.read_csv(io.StringIO(answer.text), dtype=str, keep_default_na=False)
    assert list(read.columns) == list(frame.columns)
    assert len(read) == len(frame)


@pytest.mark.parametrize("name", [name for name in PROJECTIONS if name not in NEEDS])
def test_empty_book_gives_headings(book, fixed_day, name):
    answer = asked(make_app(book).server.test_client(), name)
    assert answer.status_code == 200
    assert len(answer.text.splitlines()[0].split(",")) > 3


def test_against_another_season(demo, client):
    answer = asked(client, "season", {"season": "2026", "against": "2025"})
    frame = demo.book.show("season", season="2026", against="2025").frame
    assert answer.text == frame.to_csv(index=False)


@pytest.mark.parametrize("name", ["no-such", "shelf.csv", "%2e%2e", "SHELF", "history"])
def test_unknown_question_is_not_found(client, name):
    answer = asked(client, name)
    assert answer.status_code == 404
    assert answer.mimetype == "text/plain"
    assert "There is no question" in answer.text
    assert "root:" not in client.get("/files/../../etc/passwd.csv").text


@pytest.mark.parametrize(
    ("name", "said", "says"),
    [
        ("season", {"o.season": "x"}, "season"), ("season", {"o.by": "bed"}, "by"), ("our-table", {"o.from": "2026-02-30"}, "from"),
        ("our-table", {"o.from": "2026-12-31", "o.to": "2026-01-01"}, "to"), ("our-table", {"o.basis": "colour"}, "basis"),
        ("stocking-up", {"o.budget": "much"}, "budget"), ("stocking-up", {"o.trips": "-1"}, "trips"),
        ("know-how", {"o.year_sheet": "x"}, "year sheet"),
        ("worth-it", {"o.season": "0000000"}, "season"), ("as-published", {"o.freezer_off": "long"}, "freezer_off"),
        ("shelf", {"as_of": "yesterdayish"}, "as_of"), ("shelf", {"known_at": "2026-02-30"}, "known_at"),
        ("shelf", {"o.colour": "blue"}, "o.colour"), ("shelf", {"season": "2025"}, "season"), ("season", {"o.against": "x"}, "against"),
    ],
)  # fmt: skip
def test_option_that_cannot_be_is_said_in_a_sentence(client, name, said, says):
    answer = client.get(f"/files/{name}.csv", query_string=said)
    assert answer.status_code == 400, answer.text[:300]
    assert answer.mimetype == "text/plain"
    assert says in answer.text
    assert len(answer.text) > 20
    assert "Traceback" not in answer.text


def test_position_follows_the_book_and_health_tells_nothing_of_it(book, fixed_day):
    client = make_app(book).server.test_client()
    assert client.get("/position").json == {"position": 0}
    book.write("practised", {"skill": "grafting", "people": ["Ada"]}, on="2026-09-02")
    assert client.get("/position").json == {"position": 1}
    assert client.get("/health").json == {"status": "alive"}
    assert client.post("/position").status_code == 405


def callbacks(client):
    return client.get("/_dash-dependencies").json


def test_few_wires(client):
    """Hundreds of figures and rows cost no callbacks: under sixty in all."""
    assert 5 < len(callbacks(client)) < 60


@pytest.mark.parametrize("page", PAGES, ids=[page.name for page in PAGES])
def test_page_is_drawn_over_the_wire(client, page):
    """The one callback that draws, asked as the browser asks it."""
    wire = next(one for one in callbacks(client) if "page.children" in one["output"])
    values = {"url.pathname": page.path, "url.search": "", "seen.data": 1, "moment.data": None, "scheme.data": "dark", "main.data-address": None}  # fmt: skip
    inputs, state = (
        [{**one, "value": values[f"{one['id']}.{one['property']}"]} for one in wire[part]]
        for part in ("inputs", "state")
    )
    outputs = [
        dict(zip(("id", "property"), one.rsplit(".", 1), strict=True))
        for one in wire["output"].strip(".").split("...")
    ]
    body = {"output": wire["output"], "outputs": outputs, "inputs": inputs, "changedPropIds": ["url.pathname"], "state": state}  # fmt: skip
    answer = client.post("/_dash-update-component", json=body)
    assert answer.status_code == 200
    assert answer.headers["Cache-Control"] == "no-store"
    drawn = answer.json["response"]["page"]["children"]
    assert drawn[0]["props"]["data-still"].startswith("<h1>")
    assert len(json.dumps(drawn)) > 500


def test_page_around_the_app_says_its_language_and_asks_nothing_outside(client, book, fixed_day):
    text = client.get("/look-closer").text
    assert '<html lang="en">' in text
    assert "http://" not in text.replace("http://localhost", "")
    assert 'rel="preload" as="script"' in text
    assert 'rel="preload" as="script"' not in client.get("/shelf").text
    policy = client.get("/").headers["Content-Security-Policy"]
    assert "default-src 'self'" in policy
    assert "unsafe-inline" not in policy.split("style-src")[0]
    book.write("setting_changed", {"name": "language", "value": "de"}, on="2026-09-02")
    assert '<html lang="de">' in make_app(book).server.test_client().get("/").text
