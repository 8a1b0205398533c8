"""Twenty phones that ask and two that write, over a real server: nothing refused, nothing lost."""

from __future__ import annotations

import json
import threading
import urllib.request
import uuid

import pytest

from dashboard.app import make_app
from dashboard.forms.boxes import box_id
from dashboard.listening import Listening
from ledger import Book

PHONES, WRITERS, ENTRIES, ROUNDS = 20, 2, 12, 15
BOXES = [("lines", 0), ("bed", 0)]


@pytest.fixture
def served(tmp_path):
    book = Book.open(tmp_path / "book.sqlite")
    book.write("harvested", {"item": "plum", "amount": "1 lb"}, on="2026-09-01")
    server = Listening(make_app(book).server).start()
    yield book, f"http://127.0.0.1:{server.port}"
    server.close()
    book.close()


def ask(address, body=None):
    """Return what is answered; anything but 200 or 204 is raised."""
    data = None if body is None else json.dumps(body).encode()
    asked = urllib.request.Request(address, data, {"Content-Type": "application/json"})
    with urllib.request.urlopen(asked, timeout=60) as answer:
        said = answer.read()
        return json.loads(said) if said else None


def pressed(wire, pounds):
    """Return what a browser sends when the form for a harvest is written down."""
    typed = {"lines": f"{pounds} lb plum", "bed": ""}
    ids = [json.loads(json.dumps(box_id(name, row))) for name, row in BOXES]
    values = {
        "form-write.n_clicks": 1, "form-kind.data": "harvested", "form-id.data": str(uuid.uuid4()),
        "form-replaces.data": None, "form-accepted.data": [], "form-when.value": "today", "form-by.value": "Ada",
    }  # fmt: skip

    def said(one):
        if '"accept"' in one["id"]:
            return []
        if one["id"].startswith("{"):
            return [
                {"id": i, "property": one["property"], "value": i if one["property"] == "id" else typed[i["field"]]}
                for i in ids
            ]  # fmt: skip
        return {**one, "value": values[f"{one['id']}.{one['property']}"]}

    boxes = [[{"id": i, "property": name} for i in ids] for name in ("error", "value")]
    out = [{"id": "form-said", "property": "children"}, *boxes]
    out += [{"id": f"form-{name}", "property": "data"} for name in ("id", "accepted", "replaces")]
    return {
        "output": wire["output"], "outputs": out, "changedPropIds": ["form-write.n_clicks"],
        "inputs": [said(one) for one in wire["inputs"]], "state": [said(one) for one in wire["state"]],
    }  # fmt: skip


def together(jobs):
    """Run jobs at once; return what went wrong in any."""
    wrong = []

    def kept(job):
        try:
            job()
        except Exception as error:
            wrong.append(repr(error))

    threads = [threading.Thread(target=kept, args=(job,)) for job in jobs]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(120)
    assert not any(thread.is_alive() for thread in threads)
    return wrong


def test_twenty_phones_ask_and_two_write(served):
    book, address = served
    wires = ask(f"{address}/_dash-dependencies")
    write = next(one for one in wires if "form-said.children" in one["output"])
    seen = [[] for _ in range(PHONES)]

    def phone(positions):
        for _ in range(ROUNDS):
            positions.append(ask(f"{address}/position")["position"])

    def writer(first):
        for n in range(ENTRIES):
            ask(f"{address}/_dash-update-component", pressed(write, first + n))

    jobs = [lambda positions=positions: phone(positions) for positions in seen]
    jobs += [lambda first=100 * (n + 1): writer(first) for n in range(WRITERS)]
    assert together(jobs) == []
    assert all(positions == sorted(positions) for positions in seen)
    amounts = {row.line.partition(" lb")[0] for row in book.history() if row.kind == "harvested"}
    wanted = {str(100 * (w + 1) + n) for w in range(WRITERS) for n in range(ENTRIES)}
    assert wanted <= {amount.rpartition(" ")[2] for amount in amounts}
    assert book.check().chain.first_bad is None
