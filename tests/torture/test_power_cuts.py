"""Power cut at 500 places of a program's writes to the disk: every state opens, acknowledged entries whole.

strace notes what a program writes, in order. A cut is a prefix of that, with the last write torn; and
of what was written to a file since it was last synced, the disk may have kept any part.
"""

from __future__ import annotations

import os
import random
import re
import shutil
import subprocess
import sys

import pytest
from torture_tools import count, keep

from ledger.log import open_log, verify

pytestmark = [
    pytest.mark.torture,
    pytest.mark.timeout(0),
    pytest.mark.skipif(shutil.which("strace") is None, reason="strace is not installed"),
]
ENTRIES = 40
PROGRAM = """
import os, sys, uuid
from pathlib import Path
from ledger.log import NewEvent, open_log, backup, restore
path, folder = sys.argv[1], Path(sys.argv[1]).parent
def write(log, many):
    ids = [str(uuid.uuid4()) for _ in range(many)]
    with log.writing() as tx:
        tx.append_many(NewEvent(id, "harvested", 1, "2026-09-02", '{"note":"%s"}' % ("x" * 300)) for id in ids)
    os.write(1, ("acknowledged " + " ".join(ids) + "\\n").encode())
for part in range(2):  # opened, closed, opened again
    with open_log(path) as log:
        for n in range(int(sys.argv[2])):
            write(log, 1 + n % 3)
with open_log(path) as log:
    backup(log, folder / "copy.db")
    restore(path, folder / "copy.db")
    os.write(1, b"restored\\n")
    write(log, 5)
"""
_CALL = re.compile(
    r"^\d+\s+(?P<name>\w+)\((?P<rest>.*)\)\s+= (?P<result>-?\d+)(?:<(?P<made>[^>]*)>)?.*$"
)
_HELD = re.compile(r"^\d+<(?P<path>[^>]*)>")
_QUOTED = re.compile(r'"((?:\\x[0-9a-f]{2})*)"')


def unhex(text):
    return bytes.fromhex(text.replace("\\x", ""))


def noted(trace, base):  # noqa: PLR0912 - one branch a call
    """Yield (operation, path, data, offset) of all that happened to files of a folder, and what was said."""
    position = {}
    for line in joined(trace):
        match = _CALL.match(line)
        if not match or int(match["result"]) < 0:
            continue
        name, rest = match["name"], match["rest"]
        quoted = [unhex(one) for one in _QUOTED.findall(rest)]
        held = _HELD.match(rest)
        path = path_of(held["path"]) if held else ""
        if name == "write" and rest.startswith("1<"):
            yield "said", "", quoted[0], 0
        elif name == "openat" and match["made"]:
            made = path_of(match["made"])
            if made.startswith(base) and "O_CREAT" in rest:
                position[made] = 0
                yield "made", made, b"", 0
            if made.startswith(base) and "O_TRUNC" in rest:
                yield "cut", made, b"", 0
        elif name in ("unlink", "unlinkat") and quoted:
            yield "gone", quoted[-1].decode(), b"", 0
        elif name in ("rename", "renameat", "renameat2", "link", "linkat") and len(quoted) == 2:
            yield name[:4], quoted[0].decode(), quoted[1], 0
        elif not path.startswith(base):
            continue
        elif name == "pwrite64":
            yield "write", path, quoted[0], int(rest.rsplit(", ", 1)[1])
        elif name == "write":
            yield "write", path, quoted[0], position.get(path, 0)
            position[path] = position.get(path, 0) + len(quoted[0])
        elif name == "ftruncate":
            yield "cut", path, b"", int(rest.rsplit(", ", 1)[1])
        elif name in ("fsync", "fdatasync"):
            yield "sync", path, b"", 0


def path_of(text):
    """strace names a path in hexadecimal where it writes all texts so."""
    text = text.removesuffix("(deleted)")
    return unhex(text).decode() if text.startswith("\\x") else text


def joined(trace):
    """Yield whole calls: one that another thread interrupts is told in two lines."""
    open_calls = {}
    for line in trace.read_text("ascii", "replace").splitlines():
        pid = line.split(" ", 1)[0]
        if line.rstrip().endswith("<unfinished ...>"):
            open_calls[pid] = line.rstrip().removesuffix("<unfinished ...>")
        elif " resumed>" in line:
            yield open_calls.pop(pid, "") + line.split(" resumed>", 1)[1].rstrip()
        else:
            yield line.rstrip()


class Disk:
    """Files as the disk has them: what was synced, and what was written since."""

    def __init__(self):
        self.synced, self.since = {}, {}

    def apply(self, op, path, data, offset):
        if op == "made":
            self.synced.setdefault(path, b"")
            self.since.setdefault(path, [])
        elif op in ("write", "cut"):
            self.synced.setdefault(path, b"")
            self.since.setdefault(path, []).append((op, data, offset))
        elif op == "sync" and path in self.synced:  # and not a folder
            self.synced[path] = self.content(path, lambda _: True)
            self.since[path] = []
        elif op == "gone":
            self.synced.pop(path, None)
            self.since.pop(path, None)
        elif op in ("rena", "link") and path in self.synced:
            self.synced[data.decode()] = self.synced[path]
            self.since[data.decode()] = list(self.since.get(path, []))
            if op == "rena":
                del self.synced[path]
                self.since.pop(path, None)

    def content(self, path, keeps):
        raw = bytearray(self.synced.get(path, b""))
        for op, data, offset in self.since.get(path, []):
            if not keeps(op):
                continue
            if op == "cut":
                raw = raw[:offset] + bytes(max(0, offset - len(raw)))
            else:
                raw += bytes(max(0, offset + len(data) - len(raw)))
                raw[offset : offset + len(data)] = data
        return bytes(raw)


def test_every_cut_opens_with_what_was_acknowledged(tmp_path, monkeypatch):
    base = tmp_path / "base"
    (base / "data").mkdir(parents=True)
    path, trace = base / "book.db", tmp_path / "trace"
    monkeypatch.setenv("XDG_DATA_HOME", str(base / "data"))
    environ = {
        **os.environ,
        "PYTHONPATH": os.pathsep.join(sys.path),
        "PYTHONDONTWRITEBYTECODE": "1",
    }
    calls = "openat,pwrite64,write,ftruncate,unlink,unlinkat,rename,renameat,renameat2,link,linkat,fsync,fdatasync"
    subprocess.run(
        ["strace", "-f", "-y", "-xx", "-s", "9999999", "-e", f"trace={calls}", "-o", trace, sys.executable, "-c",
         PROGRAM, path, str(ENTRIES // 2)],
        check=True, env=environ, stdout=subprocess.DEVNULL,
    )  # fmt: skip
    steps = list(noted(trace, str(base)))
    luck, many = random.Random(1), count(500)
    cuts = sorted(luck.sample(range(1, len(steps)), min(many, len(steps) - 1)))
    disk, at, acknowledged, is_restored, lost = Disk(), 0, set(), False, 0
    for cut in cuts:
        while at < cut:
            op, where, data, offset = steps[at]
            if op == "said":
                words = data.decode().split()
                acknowledged |= set(words[1:])
                is_restored = is_restored or words[0] == "restored"
            else:
                disk.apply(op, where, data, offset)
            at += 1
        mode = luck.choice(["all", "none", "some"])
        put_down(disk, base, luck, mode, steps[at] if at < len(steps) else None)
        if not acknowledged and not path.exists():
            continue
        with open_log(path) as log:
            report = verify(log)
            ids = {row[1] for chunk in log.read() for row in chunk}
            assert report.reasons == [], (cut, mode, report.reasons)
            lost += len(acknowledged - ids)
    keep("power cut: prefixes of the writes", len(cuts), writes=len(steps), lost=lost, not_opened=0)
    assert lost == 0
    assert is_restored or many < 200


def put_down(disk, base, luck, mode, torn):
    for one in [*base.glob("*"), *(base / "data").rglob("*")]:
        if one.is_file():
            one.unlink()
    if torn is not None and torn[0] == "write" and mode == "all":
        kept = torn[2][: luck.randrange(len(torn[2]) + 1)]
        disk.since.setdefault(torn[1], []).append(("write", kept, torn[3]))
    for path in list(disk.synced):
        keeps = {
            "all": lambda _: True,
            "none": lambda _: False,
            "some": lambda _: luck.random() < 0.5,
        }[mode]
        # A head that the disk lost is one that is not known: a name comes with its content or not at all.
        is_head = "/heads/" in path
        content = disk.content(path, (lambda _: True) if is_head else keeps)
        os.makedirs(os.path.dirname(path), exist_ok=True)
        with open(path, "wb") as file:
            file.write(content)
    if torn is not None and torn[0] == "write" and mode == "all":
        disk.since[torn[1]].pop()
    for one in base.glob("*-shm"):
        one.unlink()
