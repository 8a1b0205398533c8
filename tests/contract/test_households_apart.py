"""Several households in one PostgreSQL, set up by the SQL of docs/sharing.md: each tries to reach the other's book."""

from __future__ import annotations

import os
import re
import uuid
from pathlib import Path

import pytest

from ledger import Book
from ledger.cli import main
from ledger.errors import BookError, BookReadOnly, InputError
from ledger.log import NewEvent, backup, open_log, verify

pytestmark = pytest.mark.postgres
DOCS = Path(__file__).parents[2] / "docs" / "sharing.md"
ROLES = ("book_7f3a", "book_c41d", "book_9e02")


def said_in_docs():
    """Return the SQL of the page: what is done once, for the database, for a household."""
    return re.findall(r"```sql\n(.*?)```", DOCS.read_text("utf-8"), re.DOTALL)


@pytest.fixture(scope="module")
def server():
    url = os.environ.get("CROFTBOOK_TEST_POSTGRES")
    if not url:
        pytest.skip("CROFTBOOK_TEST_POSTGRES names no server (tests/run.sh starts one)")
    import psycopg

    name = f"croft_{uuid.uuid4().hex[:12]}"
    plain = url.replace("+psycopg", "")
    with psycopg.connect(plain, autocommit=True) as admin:
        admin.execute(f"CREATE DATABASE {name}")
        at = plain.rpartition("/")[0] + f"/{name}"
        for household in ("anna", "bruno", "home"):
            with Book.open(at, household) as book:
                book.write("harvested", item="plum", amount="1 lb", on="2026-08-01", by=household)
                book.write("harvested", item="pear", amount="2 lb", on="2026-08-02", by=household)
        once, database, one_more = said_in_docs()
        with psycopg.connect(at, autocommit=True) as owner:
            owner.execute(once)
            owner.execute(database.replace("croft ", f"{name} "))
            owner.execute(one_more)
            owner.execute(one_more.replace("7f3a", "c41d").replace("anna", "bruno"))
            owner.execute(
                f"CREATE ROLE {ROLES[2]} LOGIN IN ROLE book_households"
            )  # in nobody's line
        yield at
        admin.execute(f"DROP DATABASE {name} WITH (FORCE)")
        for role in (*ROLES, "book_households"):
            admin.execute(f"DROP ROLE {role}")


def as_user(server, role):
    return re.sub(r"//[^@/]*@", f"//{role}@", server)


@pytest.fixture
def anna(server):
    """Return a function that runs a statement as Anna's user and gives its rows."""
    import psycopg

    with psycopg.connect(as_user(server, ROLES[0]), autocommit=True) as raw:

        def run(statement):
            cursor = raw.execute(statement)
            return cursor.fetchall() if cursor.description else []

        yield run


def rows_of(server, household):
    import psycopg

    with psycopg.connect(server) as owner:
        asked = "SELECT seq, id, kind, body, hash FROM events WHERE household = %s ORDER BY seq"
        return owner.execute(asked, [household]).fetchall()


def event():
    return NewEvent(id=str(uuid.uuid4()), kind="harvested", v=1, on="2026-09-02", body="{}")


# Each keeps its own book as ever


def test_own_book_is_written_asked_checked_and_corrected(server):
    with Book.open(as_user(server, ROLES[0]), "anna") as book:
        before = book.log.count()
        written = book.write("harvested", item="quince", amount="5 lb", on="2026-09-01")
        book.strike(written.event.id, "typed twice")
        assert book.log.count() == before + 3  # the item, what was picked, the strike
        assert book.check().is_whole
        assert "shelf" in book.show("shelf").name
        assert {row.by for row in book.history()} <= {"anna", None}


@pytest.mark.parametrize("many", [1, 19, 20, 700])
def test_many_events_are_written_at_once(server, many):
    """Row-level security refuses COPY; a user that it holds writes rows."""
    with open_log(as_user(server, ROLES[0]), "anna") as log:
        before = log.count()
        some = [event() for _ in range(many)]
        with log.writing("import") as tx:
            assert tx.append_many(some) == many
        with log.writing("import") as tx:
            assert tx.append_many(some[:5]) == 0  # said again, written once
        assert log.count() == before + many
        assert verify(log).whole


def test_households_listed_are_the_own_one(server):
    with open_log(as_user(server, ROLES[0]), "anna") as log:
        assert log.households() == ["anna"]
    with open_log(server, "anna") as log:
        assert log.households() == ["anna", "bruno", "home"]


# And nobody else's


@pytest.mark.parametrize("other", ["bruno", "home", "nobody", "Anna"])
def test_another_households_name_is_refused_with_the_own_one(server, other):
    with pytest.raises(InputError, match=r"keeps the book of 'anna'.*--household anna"):
        open_log(as_user(server, ROLES[0]), other)


def test_user_of_nobodys_book_is_told(server):
    with pytest.raises(BookError, match="keeps nobody's book"):
        open_log(as_user(server, ROLES[2]), "anna")


def test_command_says_whose_book_it_is(server, capsys):
    status = main(["show", "shelf", "--book", as_user(server, ROLES[0])])
    assert (status, capsys.readouterr().err.strip()) == (
        2,
        "croftbook: household: the database user book_7f3a keeps the book of 'anna', not of 'home'. Add --household anna",
    )


@pytest.mark.parametrize(
    "statement",
    [
        "SELECT * FROM events WHERE household <> 'anna'",
        "SELECT * FROM events WHERE household = 'bruno' OR true AND household = 'bruno'",
        "SELECT b.* FROM events a JOIN events b ON b.household <> a.household",
        "SELECT * FROM book_members WHERE household <> 'anna'",
        "WITH others AS MATERIALIZED (SELECT * FROM events) SELECT * FROM others WHERE household <> 'anna'",
        "TABLE events EXCEPT SELECT * FROM events WHERE household = 'anna'",
        "SELECT * FROM query_to_xml('SELECT * FROM events WHERE household <> ''anna''', true, true, '') AS x WHERE x::text LIKE '%bruno%'",
        "SELECT most_common_vals FROM pg_stats WHERE tablename = 'events'",
    ],
)  # fmt: skip
def test_nothing_of_another_is_read(anna, statement):
    assert anna(statement) == []


def test_error_messages_tell_nothing_of_another(anna):
    """A condition that fails on each row it sees is not run on rows of others."""
    asked = "SELECT 1 FROM events WHERE 1 / (CASE WHEN household = 'anna' THEN 1 ELSE 0 END) = 1"
    assert set(anna(asked)) == {(1,)}


@pytest.mark.parametrize(
    "statement",
    [
        "INSERT INTO events SELECT 'bruno', 3, gen_random_uuid()::text, kind, v, \"on\", at, recorded_at, typed_at, by, replaces, body, hash FROM events LIMIT 1",
        "INSERT INTO events SELECT 'new', 1, id, kind, v, \"on\", at, recorded_at, typed_at, by, replaces, body, hash FROM events LIMIT 1",
        "UPDATE events SET household = 'anna'", "UPDATE events SET body = '{}'", "DELETE FROM events", "TRUNCATE events",
        "SELECT * FROM events FOR UPDATE", "DROP TABLE events", "ALTER TABLE events DISABLE ROW LEVEL SECURITY",
        "ALTER TABLE events DISABLE TRIGGER ALL", "DROP POLICY own_events ON events",
        "CREATE POLICY all_events ON events USING (true)",
        "SET ROLE book_c41d", "SET ROLE croft", "SET SESSION AUTHORIZATION book_c41d", "GRANT book_c41d TO book_7f3a",
        "INSERT INTO book_members VALUES ('book_9e02', 'bruno')", "UPDATE book_members SET household = 'bruno'",
        "DELETE FROM book_members", "ALTER ROLE book_7f3a BYPASSRLS", "CREATE ROLE mine",
        "CREATE TABLE mine (x int)", "CREATE TEMPORARY TABLE events (x int)", "CREATE SCHEMA mine",
        "CREATE FUNCTION f() RETURNS int LANGUAGE sql AS 'SELECT 1'", "CREATE VIEW v AS SELECT * FROM events",
        "COPY (SELECT 1) TO PROGRAM 'true'", "COPY events FROM STDIN", "SELECT pg_read_file('/etc/passwd')",
        "SET session_replication_role = replica", "SELECT lo_import('/etc/passwd')",
        "SET row_security = off; SELECT * FROM events",
    ],
)  # fmt: skip
def test_what_would_reach_another_is_refused(server, anna, statement):
    import psycopg

    before = rows_of(server, "bruno"), rows_of(server, "home")
    with pytest.raises(psycopg.Error):
        anna(statement)
    assert (rows_of(server, "bruno"), rows_of(server, "home")) == before


def test_same_id_in_two_books_tells_nothing(server, anna):
    """The unique key is one household's: whether another has an id cannot be probed."""
    with open_log(as_user(server, ROLES[1]), "bruno") as bruno:
        rows = [row for chunk in bruno.read() for row in chunk]
    with open_log(as_user(server, ROLES[0]), "anna") as log, log.writing() as tx:
        tx.append(NewEvent(id=rows[0][1], kind="harvested", v=1, on="2026-09-02", body="{}"))


def test_program_of_one_user_cannot_write_for_another(server):
    """The log of another household on a connection that is open already, as a mistaken program might."""
    before = rows_of(server, "bruno")
    with open_log(as_user(server, ROLES[0]), "anna") as log:
        other = log.for_household("bruno")
        assert other.count() == 0
        with pytest.raises(BookReadOnly), other.writing() as tx:
            tx.append(event())
    assert rows_of(server, "bruno") == before != []


# Backups


@pytest.mark.parametrize("role", [None, *ROLES[:2]], ids=["keeper", "anna", "bruno"])
def test_backup_of_one_household_holds_one_household(server, tmp_path, role):
    household = "bruno" if role == ROLES[1] else "anna"
    at = as_user(server, role) if role else server
    with open_log(at, household) as log:
        heads = backup(log, tmp_path / "copy.sqlite")
        assert heads == {household: log.head()}
    with open_log(tmp_path / "copy.sqlite", household) as copy:
        assert copy.households() == [household]
        assert copy.count() == len(rows_of(server, household))
    others = {"anna", "bruno", "home"} - {household}
    raw = (tmp_path / "copy.sqlite").read_bytes()
    assert not any(f'"{name}"'.encode() in raw for name in others)


# A user of another kind has room beside them


def test_worker_sees_only_who_agreed_and_writes_nothing(server):
    import psycopg

    with psycopg.connect(server, autocommit=True) as owner:
        owner.execute("CREATE ROLE book_worker LOGIN")
        try:
            owner.execute(
                "GRANT CONNECT ON DATABASE " + server.rpartition("/")[2] + " TO book_worker"
            )
            owner.execute(
                "GRANT USAGE ON SCHEMA public TO book_worker; GRANT SELECT ON events TO book_worker"
            )
            owner.execute(
                "CREATE POLICY agreed ON events FOR SELECT TO book_worker USING (household IN ('bruno'))"
            )
            with psycopg.connect(as_user(server, "book_worker"), autocommit=True) as raw:
                assert raw.execute("SELECT DISTINCT household FROM events").fetchall() == [
                    ("bruno",)
                ]
                with pytest.raises(psycopg.Error, match="permission denied"):
                    raw.execute("INSERT INTO events SELECT * FROM events")
            with psycopg.connect(as_user(server, ROLES[0])) as raw:
                assert raw.execute("SELECT DISTINCT household FROM events").fetchall() == [
                    ("anna",)
                ]
        finally:
            owner.execute("DROP OWNED BY book_worker; DROP ROLE book_worker")
