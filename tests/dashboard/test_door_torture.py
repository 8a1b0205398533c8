"""The door on purpose unkindly treated: nothing opens, and the family is served meanwhile.

python -m pytest -m torture -s tests/dashboard/test_door_torture.py prints the figures of docs/reliability.md.
"""

from __future__ import annotations

import json
import os
import random
import shutil
import statistics
import string
import subprocess
import sys
from pathlib import Path
from typing import NamedTuple

import pytest
from door_tools import WORDS, Browser, times

from dashboard.app import make_app
from dashboard.away.open import OPEN as AWAY_OPEN
from dashboard.gate import Devices, Gate, Keeper
from dashboard.gate.waits import Waits
from dashboard.look import FONT, SHEET
from ledger import Book

pytestmark = [pytest.mark.torture, pytest.mark.timeout(900)]
HERE = Path(__file__).parent
ROUNDS = int(os.environ.get("CROFTBOOK_TORTURE_ROUNDS", "10"))
SERVER = """
import sys, time
from pathlib import Path
from door_tools import served
from ledger import Book
server = served(Book.open(sys.argv[1]), Path(sys.argv[2]))
print(server.port, flush=True)
sys.stdin.read()
server.close()
"""


class Running(NamedTuple):
    """Where a server listens, and its process."""

    port: int
    pid: int


@pytest.fixture
def server(demo_file, tmp_path):
    """Return a server in a process of its own, on the sample household behind a passphrase."""
    shutil.copy(demo_file, tmp_path / "book.sqlite")
    paths = {**os.environ, "PYTHONPATH": os.pathsep.join([str(HERE), *sys.path])}
    process = subprocess.Popen(
        [sys.executable, "-c", SERVER, str(tmp_path / "book.sqlite"), str(tmp_path)],
        stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, env=paths,
    )  # fmt: skip
    yield Running(int(process.stdout.readline()), process.pid)
    process.stdin.close()
    process.wait(30)
    process.stdout.close()


def drawing(browser, path):
    """Return the request by which a page is drawn."""
    wires = json.loads(browser.ask("GET", "/_dash-dependencies")[1])
    wire = next(one for one in wires if "page.children" in one["output"])
    values = {"url.pathname": path, "url.search": "", "seen.data": 1, "moment.data": None, "scheme.data": "light", "main.data-address": None}  # fmt: skip
    inputs, state = (
        [{**one, "value": values[f"{one['id']}.{one['property']}"]} for one in wire[part]]
        for part in ("inputs", "state")
    )
    outputs = [
        dict(zip(("id", "property"), one.rsplit(".", 1), strict=True))
        for one in wire["output"].strip(".").split("...")
    ]
    return json.dumps({"output": wire["output"], "outputs": outputs, "inputs": inputs, "changedPropIds": ["url.pathname"], "state": state})  # fmt: skip


@pytest.mark.parametrize(
    "family", ["127.0.0.7", "127.0.0.66"], ids=["other-address", "same-address"]
)
@pytest.mark.parametrize("attack", [("hammer", "hold"), ("hammer", "hold", "flood")])
def test_family_is_served_meanwhile(server, family, attack):
    """Every request of the family's succeeds; how long it took against before is printed."""
    browser = Browser(server.port, family)
    assert browser.sign_in() == 303
    post = {"Content-Type": "application/json"}

    class Phone(Browser):
        def ask(self, method, path, body=None, **headers):
            return super().ask(method, path, body, **(post if body else headers))

    phone = Phone(server.port, family)
    phone.cookies = browser.cookies
    asked = [
        ("GET", "/position"), ("GET", "/devices"), ("GET", "/files/shelf.csv"),
        ("POST", "/_dash-update-component", drawing(browser, "/shelf")),
    ]  # fmt: skip
    times(phone, asked, 3)
    before = times(phone, asked, ROUNDS)
    seconds = 4 + 3 * ROUNDS * sum(before.values())
    running = [
        subprocess.Popen(
            [sys.executable, str(HERE / "door_attack.py"), str(server.port), str(seconds), how, "127.0.0.66"],
            stdout=subprocess.PIPE, text=True,
        )
        for how in attack
    ]  # fmt: skip
    try:
        times(phone, asked, 2)
        during = times(phone, asked, ROUNDS)
        new = Browser(server.port, "127.0.0.8")  # a phone that never was here signs in
        assert new.sign_in() == 303
    finally:
        said = [one.communicate(timeout=120)[0].strip() for one in running]
    after = times(phone, asked, ROUNDS)
    ratios = {path: during[path] / statistics.mean([before[path], after[path]]) for path in before}
    print(f"\n{'+'.join(attack)}, family at {family}: " + ", ".join(
        f"{path} {1000 * before[path]:.0f} ms, during x {ratio:.2f}" for path, ratio in ratios.items()
    ), said)  # fmt: skip
    assert all(int(one.split()[1]) > 0 for one in said)
    browser.close()
    phone.close()
    new.close()


@pytest.fixture
def guarded(tmp_path):
    keeper, devices = Keeper(tmp_path / "gate.json"), Devices(tmp_path / "devices.sqlite")
    keeper.set(WORDS)
    with Book.open(tmp_path / "book.sqlite") as book:
        book.write("harvested", item="quince", amount="12 lb", on="2026-09-02")
        yield make_app(book, gate=Gate(keeper, devices, ["kitchen.local"])), devices
    devices.close()


def test_no_route_opens_to_any_host_origin_or_forged_cookie(guarded):
    app, _devices = guarded
    mine = app.server.test_client()
    mine.post("/enter", data={"passphrase": WORDS})
    real = [mine.get_cookie(name).value for name in ("croftbook", "croftbook-device")]
    ended = app.server.test_client()
    ended.post("/enter", data={"passphrase": WORDS})
    old = ended.get_cookie("croftbook").value
    ended.post("/leave")
    rng = random.Random(12)
    letters = string.ascii_letters + string.digits + "-_"
    tried = opened = 0
    open_to_all = {
        "/enter",
        "/health",
        "/trust",
        "/trust/croftbook.crt",
        "/leave",
        "/assets/croft.css",
        SHEET,
        FONT,
        *AWAY_OPEN,
    }
    paths = set()
    for rule in app.server.url_map.iter_rules():
        path = str(rule).replace("<name>", "shelf")
        for name in (
            "<string:package_name>",
            "<package_name>",
            "<path:fingerprinted_path>",
            "<path:path>",
            "<path:filename>",
        ):
            path = path.replace(name, "croft.js")
        paths |= {(method, path) for method in rule.methods - {"OPTIONS"}}
    spellings = ["{}", "{}/", "/{}", "{}?x=/enter", "{}%00", "{};/enter", "/enter/..{}", "/./{}"]
    hosts = [
        "localhost",
        "kitchen.local",
        "127.0.0.1:8050",
        "evil.example",
        "localhost.evil.example",
    ]
    for method, path in sorted(paths):
        for spelling in spellings:
            for host in hosts:
                for _ in range(4):
                    cookie = rng.choice([
                        "", old, real[1], real[0][:-1], real[0].swapcase(), real[0] + "=", "".join(rng.choices(letters, k=43)),
                        "eyJpbiI6dHJ1ZX0.aMzq3g.AAAA", "1", "in=True",
                    ])  # fmt: skip
                    headers = {
                        "Host": host,
                        "Origin": rng.choice(["http://" + host, "null", "http://evil.example"]),
                    }
                    headers["Cookie"] = (
                        f"croftbook={cookie}; session={cookie}; croftbook-session={cookie}"
                    )
                    client = app.server.test_client(use_cookies=False)
                    answer = client.open(
                        spelling.format(path), method=method, headers=headers, buffered=True
                    )
                    tried += 1
                    is_open = answer.status_code < 300 and path not in open_to_all
                    opened += is_open or b"quince" in answer.data
    print(f"\nroutes x hosts x origins x cookies: {tried} requests, {opened} open")
    assert opened == 0
    assert tried > 5_000
    assert mine.get("/position").status_code == 200


def test_brute_force_of_a_day():
    """What one address can try in a day, by the clock of the waits: against the words of a short list."""
    now = [0.0]
    waits, looked_at = Waits(lambda: now[0]), 0
    while now[0] < 86_400:
        wait = waits.begin("address")
        if wait:
            now[0] += wait
        else:
            looked_at += 1
    print(
        f"\nguesses of one address in a day: {looked_at}; of 7,776 words, four at random: {7776**4:.1e}"
    )
    assert looked_at < 1_500


def test_cores_that_an_attack_costs_the_server(server):
    """CPU of the server while nobody else asks: what carries over from one machine to another (Linux)."""
    stat = Path(f"/proc/{server.pid}/stat")
    if not stat.exists():
        pytest.skip("this system does not tell a process's CPU")

    def cpu_s():
        user, system = stat.read_text().rpartition(")")[2].split()[11:13]
        return (int(user) + int(system)) / os.sysconf("SC_CLK_TCK")

    for how in ("hammer", "hold", "flood"):
        began = cpu_s()
        line = [
            sys.executable,
            str(HERE / "door_attack.py"),
            str(server.port),
            "8",
            how,
            "127.0.0.66",
        ]
        said = subprocess.run(line, capture_output=True, text=True, check=True).stdout.strip()
        print(f"\n{said} in 8 s: {(cpu_s() - began) / 8:.2f} of a core")
        assert int(said.split()[1]) > 0
