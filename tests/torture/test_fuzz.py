"""Whatever is typed, sent or read: one sentence, the right exit code, nothing half written.

Five roads lead into a book: the command line, JSON Lines, CSV, Python, and the forms' posts. Each gets
a share of the inputs, made from what people and machines get wrong.
"""

from __future__ import annotations

import contextlib
import io
import json
import os
import resource
import warnings

import pytest
from fuzz_tools import Fuzz
from torture_tools import count, keep

from ledger import Answers, Book
from ledger.cli import main
from ledger.errors import LedgerError
from ledger.kinds import KINDS

pytestmark = [pytest.mark.torture, pytest.mark.timeout(0)]


def grown():
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024


@pytest.fixture
def kitchen(tmp_path, monkeypatch):
    """A book with a few entries, in a folder that is the present one."""
    monkeypatch.chdir(tmp_path)
    path = tmp_path / "book.sqlite"
    with Book.open(path) as book:
        book.write("harvested", item="plum", amount="40 lb", on="2026-08-01")
        book.write("bought", item="sugar", amount="10 lb", paid="8", on="2026-08-01")
    return path


def whole(path):
    with Book.open(path, create=False) as book:
        found = book.check()
    assert found.reasons == []
    return found.chain.events


WRITES = {kind.command: kind for kind in KINDS.values()}
COMMANDS = [*WRITES, "show", "why", "history", "import", "export", "check", "backup", "restore"]


def words_of(fuzz, command, path):
    from ledger.cli._root import root

    found = root.get_command(None, command)
    words = [command]
    if command == "show":
        question = fuzz.random.choice([*found.list_commands(None), fuzz.text()])
        words.append(question)
        found = found.get_command(None, question) or found
    options = [o for o in found.params if o.param_type_name == "option"]
    for _ in range(fuzz.random.randint(0, 2)):
        words.append(fuzz.text())
    for _ in range(fuzz.random.randint(0, 3) if options else 0):
        option = fuzz.random.choice(options)
        if option.name in ("book", "as_json"):
            continue
        words.append(option.opts[-1])
        if not option.is_flag:
            words.append(fuzz.text())
    if fuzz.random.random() < 0.04:
        path = fuzz.text()
    return [
        *words,
        "--book",
        str(path),
        *(["--yes"] if "--yes" in [x for o in options for x in o.opts] else []),
    ]


def is_left_out(words):
    """A command that would write beside the tests' folder, or read from a device without an end."""
    return any(
        word.startswith(("/", "..", "~", "$")) for word in words[1:] if word not in ("--book",)
    ) and words[0] in ("export", "backup", "restore")


def test_command_line(kitchen):
    fuzz, many = Fuzz(1), count(20_000)
    bad, codes, began = [], {}, grown()
    for n in range(many):
        words = words_of(fuzz, fuzz.random.choice(COMMANDS), kitchen)
        if is_left_out(words) or any("\x00" in word for word in words):
            continue  # the system hands no NUL to a program
        out = io.TextIOWrapper(io.BytesIO(), "utf-8", "surrogateescape")
        err = io.TextIOWrapper(io.BytesIO(), "utf-8", "backslashreplace")
        with (
            contextlib.redirect_stdout(out),
            contextlib.redirect_stderr(err),
            warnings.catch_warnings(),
        ):
            warnings.simplefilter("error")
            status = main(words)
        err.seek(0)
        said = err.read()
        codes[status] = codes.get(status, 0) + 1
        is_fault = "should not" in said or "Traceback" in said or status not in (0, 1, 2)
        if is_fault or (status == 1 and words[0] in WRITES and not said.strip()):
            bad.append((words, status, said[-300:]))
        if n % 2_000 == 0:
            whole(kitchen)
    keep("fuzz: command line", many, faults=len(bad), codes=codes, memory_grown_mb=grown() - began)
    assert not bad, kinds_of(bad)
    whole(kitchen)


def test_json_lines(kitchen, tmp_path):
    fuzz, many = Fuzz(2), count(30_000)
    bad, began = [], grown()
    file = tmp_path / "in.jsonl"
    for start in range(0, many, 100):
        lines = []
        for _ in range(100):
            try:
                line = json.dumps(fuzz.event(), ensure_ascii=fuzz.random.random() < 0.5)
            except ValueError:  # a number too long even to be written
                line = (
                    '{"kind": "harvested", "on": "2026-09-02", "body": {"item": '
                    + "9" * 5_000
                    + "}}"
                )
            raw = line.encode("utf-8", "surrogatepass")
            if fuzz.random.random() < 0.1:
                at = fuzz.random.randrange(len(raw))
                raw = (
                    raw[:at]
                    + bytes([fuzz.random.randrange(256)])
                    + raw[at + fuzz.random.randrange(3) :]
                )
            lines.append(raw.replace(b"\n", b" "))
        file.write_bytes(b"\n".join(lines))
        try:
            with Book.open(kitchen) as book:
                keeps = fuzz.random.random() < 0.5
                book.import_file(file, answers=Answers(yes=True), keep_good=keeps)
        except LedgerError:
            pass
        except Exception as error:
            bad.append((start, repr(error)[:300]))
        if start % 5_000 == 0:
            whole(kitchen)
    keep("fuzz: JSON Lines", many, faults=len(bad), memory_grown_mb=grown() - began)
    assert not bad, kinds_of(bad)
    whole(kitchen)


def test_csv(kitchen, tmp_path):
    fuzz, many = Fuzz(3), count(20_000)
    bad, began = [], grown()
    file = tmp_path / "in.csv"
    fields = [
        "kind",
        "on",
        "item",
        "amount",
        "paid",
        "by",
        "at",
        "id",
        "used",
        "made",
        "ate",
        "people",
        "method",
    ]
    fields += [
        "makes",
        "labels",
        "g_per",
        "keeps",
        "left",
        "work",
        "lids",
        "jars",
        "jar",
        "what",
        "name",
        "value",
    ]
    for start in range(0, many, 20):
        header = fuzz.random.sample(fields, fuzz.random.randint(2, 8))
        header = ["kind", "on", *header] if fuzz.random.random() < 0.9 else header
        rows = [",".join(header)]
        for _ in range(20):
            cells = [fuzz.random.choice([*KINDS, "harvest"]), "2026-09-02"] + [
                fuzz.text() for _ in header[2:]
            ]
            quoted = [
                '"' + c.replace('"', '""') + '"' if fuzz.random.random() < 0.7 else c for c in cells
            ]
            rows.append(",".join(quoted))
        raw = "\n".join(rows).encode("utf-8", "surrogatepass")
        file.write_bytes(
            raw if fuzz.random.random() < 0.9 else raw[: fuzz.random.randrange(len(raw))]
        )
        try:
            with Book.open(kitchen) as book:
                book.import_file(
                    file,
                    answers=Answers(yes=True),
                    keep_good=True,
                    dates=fuzz.random.choice([None, "dmy"]),
                )
        except LedgerError:
            pass
        except Exception as error:
            bad.append((start, repr(error)[:300]))
    keep("fuzz: CSV", many, faults=len(bad), memory_grown_mb=grown() - began)
    assert not bad, kinds_of(bad)
    whole(kitchen)


def test_python(kitchen):
    fuzz, many = Fuzz(4), count(15_000)
    bad, began = [], grown()
    with Book.open(kitchen) as book:
        for n in range(many):
            event = fuzz.event()
            body = event.pop("body", None)
            kind = event.pop("kind", "harvested")
            fields = {
                k: v
                for k, v in event.items()
                if k in ("on", "at", "by", "id", "replaces", "typed_at")
            }
            before = book.log.position()
            try:
                book.write(kind, body, answers=Answers(yes=True), **fields)
            except LedgerError:
                if book.log.position() != before:
                    bad.append((n, "half written"))
            except Exception as error:
                bad.append((n, kind, body, fields, repr(error)[:300]))
    keep("fuzz: Python", many, faults=len(bad), memory_grown_mb=grown() - began)
    assert not bad, kinds_of(bad)
    whole(kitchen)


def test_form_posts(kitchen):
    from dashboard.app import make_app

    fuzz, many = Fuzz(5), count(15_000)
    bad, began = [], grown()
    with Book.open(kitchen) as book:
        client = make_app(book).server.test_client()
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            listed = client.get("/_dash-dependencies").get_json()
        writing = next(
            one
            for one in listed
            if "form-said.children" in one["output"] and "form-accepted" in one["output"]
        )
        for n in range(many):
            raw = posted(fuzz, writing)
            answer = client.post(
                "/_dash-update-component", data=raw, content_type="application/json"
            )
            # What no page could send may be refused as a bad request, never met with a traceback.
            if answer.status_code not in (200, 204, 400) and is_of_a_page(raw):
                bad.append((n, answer.status_code, raw[:400], answer.get_data(as_text=True)[-300:]))
    keep("fuzz: form posts", many, faults=len(bad), memory_grown_mb=grown() - began)
    assert not bad, kinds_of(bad)
    whole(kitchen)


def kinds_of(bad):
    """One of each sort of fault, for a message that can be read."""
    return list({str(one[-1])[:60]: one for one in bad}.values())[:12]


def is_of_a_page(raw):
    with contextlib.suppress(ValueError):
        return isinstance(json.loads(raw), dict)
    return False


def posted(fuzz, writing):
    """A post of the form, as a browser sends it, with anything in its boxes."""
    from dashboard.forms.specs import FORMS

    kind = fuzz.random.choice(list(FORMS))
    names = [("day", 0), *((field.name, 0) for field in FORMS[kind].fields)]
    ids = [{"field": name, "part": "box", "row": row} for name, row in names]
    values = [fuzz.random.choice([None, fuzz.text(), fuzz.text()]) for _ in ids]

    def plain(id, prop, value):
        return {"id": id, "property": prop, "value": value}

    state = [
        [plain(one, "id", one) for one in ids],
        [plain(one, "value", value) for one, value in zip(ids, values, strict=True)],
        plain("form-kind", "data", kind),
        plain(
            "form-id",
            "data",
            fuzz.random.choice(
                [f"5f0c0a0e-7f7e-4c57-9d3b-{fuzz.random.randrange(10**9):012}", fuzz.text()]
            ),
        ),
        plain("form-replaces", "data", fuzz.random.choice([None, None, fuzz.text()])),
        plain("form-accepted", "data", []),
        plain("form-when", "value", fuzz.random.choice(["2026-09-02", "other", fuzz.text()])),
        plain("form-by", "value", fuzz.random.choice([None, "Ada", fuzz.text()])),
    ]
    body = {
        "output": writing["output"],
        "outputs": outputs_of(ids),
        "inputs": [plain("form-write", "n_clicks", 1), []],
        "changedPropIds": ["form-write.n_clicks"],
        "parsedChangedPropsIds": ["form-write.n_clicks"],
        "state": state,
    }
    return json.dumps(body)


def outputs_of(ids):
    def one(id, prop):
        return {"id": id, "property": prop}

    return [
        one("form-said", "children"),
        [one(id, "error") for id in ids],
        [one(id, "value") for id in ids],
        one("form-id", "data"),
        one("form-accepted", "data"),
        one("form-replaces", "data"),
    ]


def test_names_of_files(kitchen, tmp_path):
    """Paths that are no UTF-8, pipes, folders, devices: one sentence and exit status 2."""
    os.mkfifo(tmp_path / "pipe")
    names = [b"\xff\xfe.sqlite", b"pipe", b".", b"/dev/null/x", b"x" * 300, b"~nobody-here/b"]
    for name in names:
        text = os.fsdecode(name)
        for words in (["show", "shelf", "--book", text], ["import", text, "--book", str(kitchen)],
                      ["restore", text, "--book", str(kitchen)], ["harvest", "1 lb plum", "--book", text]):  # fmt: skip
            err = io.StringIO()
            with contextlib.redirect_stderr(err), contextlib.redirect_stdout(io.StringIO()):
                status = main(words)
            assert status in (1, 2), (words, err.getvalue())
            assert "should not" not in err.getvalue(), words
            assert len(err.getvalue().strip().splitlines()) == 1, words
