"""A circle's worker on one PostgreSQL, set up by the SQL of docs/circle.md: it sees those who agreed, and writes nothing."""

from __future__ import annotations

import os
import re
import uuid
from pathlib import Path

import pytest

from ledger import Book
from ledger.circle import Circle
from ledger.circle.reckon import figures_of
from ledger.errors import BookReadOnly, InputError
from ledger.log import NewEvent, heads_of, open_log
from seed_demo import circle as sample

pytestmark = pytest.mark.postgres
DOCS = Path(__file__).parents[2] / "docs"
HOUSEHOLDS = {"anna": "book_51aa", "bruno": "book_62bb", "carla": "book_73cc"}
WORKER, OTHER = "circle_4d1e", "circle_9f00"


def sql_of(page):
    """Return the SQL of a page, block by block."""
    text = (DOCS / page).read_text("utf-8")
    # Roles are the server's: another module makes those of the page's own names at the same time.
    text = text.replace("book_households", "book_households_too")
    return re.findall(r"```sql\n(.*?)```", text, re.DOTALL)


@pytest.fixture(scope="module")
def server():
    """A database of three households; Anna and Bruno agree to the worker, Anna to another one as well."""
    url = os.environ.get("CROFTBOOK_TEST_POSTGRES")
    if not url:
        pytest.skip("CROFTBOOK_TEST_POSTGRES names no server (tests/run.sh starts one)")
    import psycopg

    name = f"croft_{uuid.uuid4().hex[:12]}"
    plain = url.replace("+psycopg", "")
    at = plain.rpartition("/")[0] + f"/{name}"
    with psycopg.connect(plain, autocommit=True) as admin:
        admin.execute(f"CREATE DATABASE {name}")
        for number, household in enumerate(HOUSEHOLDS):
            with Book.open(at, household) as book:
                sample.build(book, number, 2026)
        once, database, one_more = sql_of("sharing.md")
        workers, worker, agree, _ = sql_of("circle.md")
        with psycopg.connect(at, autocommit=True) as owner:
            owner.execute(once)
            owner.execute(database.replace("croft ", f"{name} "))
            for household, role in HOUSEHOLDS.items():
                owner.execute(one_more.replace("book_7f3a", role).replace("anna", household))
            owner.execute(workers.replace("croft ", f"{name} "))
            owner.execute(worker)
            owner.execute(worker.replace(WORKER, OTHER))
        for household, wanted in (("anna", WORKER), ("anna", OTHER), ("bruno", WORKER)):
            with psycopg.connect(as_user(at, HOUSEHOLDS[household]), autocommit=True) as raw:
                raw.execute(agree.replace(WORKER, wanted))
        yield at
        admin.execute(f"DROP DATABASE {name} WITH (FORCE)")
        for role in (*HOUSEHOLDS.values(), WORKER, OTHER, "circle_workers", "book_households_too"):
            admin.execute(f"DROP ROLE {role}")


def as_user(server, role):
    return re.sub(r"//[^@/]*@", f"//{role}@", server)


@pytest.fixture
def worker(server):
    import psycopg

    with psycopg.connect(as_user(server, WORKER), autocommit=True) as raw:

        def run(statement):
            cursor = raw.execute(statement)
            return cursor.fetchall() if cursor.description else []

        yield run


def test_worker_sees_only_who_agreed(server, worker):
    assert set(worker("SELECT DISTINCT household FROM events")) == {("anna",), ("bruno",)}
    assert set(worker("SELECT household, worker FROM circle_consents")) == {("anna", WORKER), ("bruno", WORKER)}  # fmt: skip
    assert heads_of(as_user(server, OTHER), list(HOUSEHOLDS)).keys() == {"anna"}


@pytest.mark.parametrize(
    "statement",
    [
        "INSERT INTO events SELECT * FROM events", "UPDATE events SET body = '{}'", "DELETE FROM events", "TRUNCATE events",
        "INSERT INTO circle_consents VALUES ('carla', 'circle_4d1e')", "DELETE FROM circle_consents", "SELECT * FROM book_members",
        "SET ROLE book_51aa", "SET ROLE croft", "SET row_security = off; SELECT * FROM events", "CREATE TABLE mine (x int)",
        "CREATE POLICY mine ON events USING (true)", "ALTER TABLE events DISABLE ROW LEVEL SECURITY",
        "CREATE TEMPORARY TABLE events (x int)", "CREATE FUNCTION f() RETURNS int LANGUAGE sql AS 'SELECT 1'",
        "COPY events FROM STDIN", "GRANT circle_9f00 TO circle_4d1e",
    ],
)  # fmt: skip
def test_worker_writes_nothing_and_reaches_nobody_else(server, worker, statement):
    import psycopg

    with psycopg.connect(server) as owner:
        counted = "SELECT (SELECT count(*) FROM events), (SELECT count(*) FROM circle_consents)"
        before = owner.execute(counted).fetchone()
        with pytest.raises(psycopg.Error):
            worker(statement)
        assert owner.execute(counted).fetchone() == before


@pytest.mark.parametrize(
    "statement",
    [
        "INSERT INTO circle_consents VALUES ('bruno', 'circle_9f00')",
        "UPDATE circle_consents SET household = 'bruno'",
        "UPDATE circle_consents SET worker = 'circle_9f00'",
    ],
)
def test_household_agrees_for_itself_alone(server, statement):
    import psycopg

    with psycopg.connect(as_user(server, HOUSEHOLDS["carla"]), autocommit=True) as raw:
        assert raw.execute("SELECT * FROM circle_consents").fetchall() == []
        with pytest.raises(psycopg.Error):
            raw.execute(statement)
        assert raw.execute("DELETE FROM circle_consents").rowcount == 0


def test_program_refuses_a_book_that_did_not_agree(server):
    with (
        open_log(as_user(server, WORKER), "anna", create=False) as log,
        open_log(server, "anna") as keeper,
    ):
        assert log.head() == keeper.head()
        with pytest.raises(BookReadOnly), log.writing() as tx:
            tx.append(NewEvent(id=str(uuid.uuid4()), kind="harvested", v=1, on="2026-09-02", body="{}"))  # fmt: skip
    with pytest.raises(InputError, match=r"'carla' did not agree that circle_4d1e reads its book"):
        open_log(as_user(server, WORKER), "carla", create=False)


def test_sheets_of_the_server_are_those_of_the_books(server, tmp_path):
    circle = Circle.begin(tmp_path / "g", sample.call_for(2026))
    cards = circle.cards(3)
    address = as_user(server, WORKER)
    rows = [f"{address},{name},{card},5,yes" for name, card in zip(HOUSEHOLDS, cards, strict=True)]
    (tmp_path / "m.csv").write_text("\n".join(["book,household,card,zone,consent", *rows]) + "\n")
    done = circle.work(tmp_path / "m.csv", workers=0)
    assert (done.made, done.failed) == (2, [])
    assert done.left_out == ["line 4 (carla): has no entries there, or did not agree there"]
    figures = [one.figures for one in circle.held()]
    for name in ("anna", "bruno"):
        with Book.open(server, name) as book:
            assert figures_of(book, circle.call) in figures
    assert circle.work(tmp_path / "m.csv", workers=0).unchanged == 2
    with Book.open(as_user(server, HOUSEHOLDS["bruno"]), "bruno") as book:
        book.write("discarded", item="potato", amount="50 lb", why="spoiled", on="2026-10-02")
    again = circle.work(tmp_path / "m.csv", workers=0)
    assert (again.made, again.unchanged) == (1, 1)


def test_consent_taken_back_ends_it_at_once(server, worker):
    import psycopg

    _, _, agree, back = sql_of("circle.md")
    with psycopg.connect(as_user(server, HOUSEHOLDS["bruno"]), autocommit=True) as raw:
        raw.execute(back)
        assert worker("SELECT DISTINCT household FROM events") == [("anna",)]
        raw.execute(agree)
    assert len(worker("SELECT DISTINCT household FROM events")) == 2
