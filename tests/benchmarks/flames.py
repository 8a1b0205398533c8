"""Flame graphs of what is left, drawn by ourselves from samples of the processor's time.

    .venv/bin/python tests/benchmarks/flames.py

writes docs/pictures/show-shelf.svg (``croftbook show shelf`` on a book of forty years, its journal
kept) and docs/pictures/one-more-event.svg (a book of 20,000 events that takes one more in, again and
again), and prints the processor's time of each. A timer of that time interrupts the program; where it
stands is counted, from the first function in to the last. A box is as wide as its share of all
samples, stands on the one that called it, and names that share, of the milliseconds beside the title.
"""

from __future__ import annotations

import json
import os
import signal
import statistics
import subprocess
import sys
import sysconfig
import tempfile
import time
from collections import Counter
from dataclasses import dataclass, field
from functools import cache
from html import escape
from pathlib import Path

TOP = Path(__file__).parents[2]
sys.path[:0] = [str(TOP), str(TOP / "tests"), str(TOP / "tests" / "benchmarks")]

PICTURES = TOP / "docs" / "pictures"
ROUNDS = 5
EVERY = 0.001
"""Seconds of the processor from one sample to the next; the system may take longer."""
LEAST = 0.006
"""The share of all samples from which a box is drawn."""
WIDTH, ROW, LETTER = 1200, 18, 6.3

OWN = sysconfig.get_path("stdlib") + "/"
"""Where Python's own modules are."""

Stack = tuple[str, ...]

# -- sampling ---------------------------------------------------------------------------


def sampled(work, counts: Counter[Stack]) -> float:
    """Do some work and count where it stands; return the processor's seconds that it took."""

    found: Counter[tuple] = Counter()

    def seen(_, frame):  # names wait, so that the samples take little of what they measure
        stack = []
        while frame is not None:
            stack.append(frame.f_code)
            frame = frame.f_back
        found[tuple(stack)] += 1

    signal.signal(signal.SIGPROF, seen)
    began = time.process_time()
    signal.setitimer(signal.ITIMER_PROF, EVERY, EVERY)
    try:
        work()
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
    took = time.process_time() - began
    for stack, several in found.items():
        counts[tidy([named(code) for code in reversed(stack)])] += several
    return took


@cache
def named(code) -> str:
    """Return a function by its file and name; what belongs to no file of ours, by its package."""
    path = code.co_filename
    if "importlib" in path:
        return "import"
    for mark in ("site-packages/", OWN):
        if mark in path:
            return path.rpartition(mark)[2].partition("/")[0].removesuffix(".py")
    if path.startswith(str(TOP)):
        path = str(Path(path).relative_to(TOP)).removesuffix(".py")
    if code.co_name == "<module>":
        return f"{path} (read)"
    return f"{path}: {code.co_qualname.replace('.<locals>', '')}"


def tidy(stack: list[str]) -> Stack:
    """Leave out what called the program, and join calls within a package, or of the importing."""
    ours = [at for at, name in enumerate(stack) if name.startswith("ledger/")]
    out: list[str] = []
    for name in stack[ours[0] if ours else 0 :]:
        if not out or out[-1] != name:
            out.append(name)
    return tuple(out)


# -- drawing ----------------------------------------------------------------------------


@dataclass
class Box:
    """A function where it was called from, how often it was seen, and what it called."""

    name: str
    seen: int = 0
    calls: dict[str, Box] = field(default_factory=dict)

    def add(self, stack: Stack, seen: int) -> None:
        self.seen += seen
        box = self
        for name in stack:
            box = box.calls.setdefault(name, Box(name))
            box.seen += seen

    def depth(self, least: float) -> int:
        deeper = (one.depth(least) for one in self.calls.values() if one.seen >= least)
        return 1 + max(deeper, default=0)


COLOURS = (("ledger/replay", "#8fb8a0"), ("ledger/", "#d9c27e"), ("import", "#b9b4c7"))
OTHER = "#d8a48f"
LEGEND = (
    ("#8fb8a0", "replay"),
    ("#d9c27e", "the rest of the ledger"),
    ("#b9b4c7", "modules being read"),
    (OTHER, "packages"),
)


def drawn(counts: Counter[Stack], title: str, milliseconds: float) -> str:
    """Return the picture as SVG: the first function below, what it called above it."""
    root = Box(title)
    for stack, seen in counts.items():
        root.add(stack, seen)
    least = LEAST * root.seen
    height = (root.depth(least) + 1) * ROW + 8
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {height}" '
        f'font-family="monospace" font-size="10.5">',
        f"<title>{escape(title)}, {milliseconds:.0f} ms of processor</title>",
        f'<rect width="{WIDTH}" height="{height}" fill="#fbf8f1"/>',
    ]
    placed(root, 0.0, height - ROW - 4, (WIDTH / root.seen, least, root.seen), parts)
    text = f"{title}: {milliseconds:.0f} ms of processor, {root.seen} samples"
    parts.append(f'<text x="6" y="14" font-size="12">{escape(text)}</text>')
    for n, (colour, what) in enumerate(LEGEND):
        x = WIDTH - 640 + 160 * n
        parts.append(
            f'<rect x="{x}" y="5" width="10" height="10" fill="{colour}"/>'
            f'<text x="{x + 14}" y="14">{what}</text>'
        )
    parts.append("</svg>\n")
    return "\n".join(parts)


def placed(box: Box, x: float, y: float, scale: tuple[float, float, int], parts: list[str]) -> None:
    """Draw a box and, above it, what it called, the widest first."""
    each, least, whole = scale
    wide = box.seen * each
    share = f"{100 * box.seen / whole:.1f} %"
    colour = next((c for beginning, c in COLOURS if box.name.startswith(beginning)), OTHER)
    parts.append(
        f'<g><title>{escape(box.name)}: {share}</title><rect x="{x:.1f}" y="{y}" width="{wide:.1f}" '
        f'height="{ROW - 1}" rx="2" fill="{colour}" stroke="#fbf8f1"/>'
    )
    room = int((wide - 6) / LETTER)
    if room >= 4:
        text = f"{short(box.name)} {share}"
        text = text if len(text) <= room else f"{short(box.name)[: room - 1]}…"
        parts.append(f'<text x="{x + 3:.1f}" y="{y + 12}">{escape(text)}</text>')
    parts.append("</g>")
    for one in sorted(box.calls.values(), key=lambda one: -one.seen):
        if one.seen >= least:
            placed(one, x, y - ROW, scale, parts)
            x += one.seen * each


def short(name: str) -> str:
    """Return a name without the way to its file; a room's own file goes by the room."""
    return name.replace("/__init__", "").rpartition("/")[2]


# -- what is drawn ----------------------------------------------------------------------


def command(words: list[str]) -> float:
    """Run a command and count into the file named first; for a program of its own."""
    counts: Counter[Stack] = Counter()

    def run():
        from ledger.cli import main

        sys.argv = ["croftbook", *words[1:]]
        try:
            main()
        except SystemExit as done:
            if done.code:
                raise

    took = sampled(run, counts)
    found = [took, [[list(stack), seen] for stack, seen in counts.items()]]
    Path(words[0]).write_text(json.dumps(found))
    return took


def show_shelf(folder: Path) -> tuple[Counter[Stack], list[float]]:
    """Return where ``show shelf`` on forty years spends its time, over some rounds."""
    book, out = forty_years(folder), folder / "counts.json"
    counts: Counter[Stack] = Counter()
    times = []
    for n in range(ROUNDS + 1):
        subprocess.run(
            [sys.executable, __file__, "--command", str(out), "show", "shelf", "--book", str(book)],
            env={**os.environ, "XDG_CACHE_HOME": str(folder / "cache")},
            stdout=subprocess.DEVNULL, check=True,
        )  # fmt: skip
        took, found = json.loads(out.read_text())
        if n:  # the first one keeps the journal
            times.append(took)
            counts.update({tuple(stack): seen for stack, seen in found})
    return counts, times


def forty_years(folder: Path) -> Path:
    """Return a book of forty years: the sample household's three, again and again."""
    from browser.conftest import COPIES, shifted

    import seed_demo
    from ledger import Book
    from ledger.log import open_log

    with Book.open(folder / "sample.sqlite") as sample:
        seed_demo.build(sample)
        rows = [row for chunk in sample.log.read() for row in chunk]
    path = folder / "forty.sqlite"
    with open_log(path) as log, log.writing("import") as tx:
        for copy in range(COPIES):
            tx.append_many(shifted(row, copy) for row in rows)
    return path


def one_more_event(folder: Path) -> tuple[Counter[Stack], list[float]]:
    """Return where a book of 20,000 events spends its time on taking one more in."""
    from ratio_tools import AS_OF, drawn_events, write_book

    from ledger.log import open_log
    from ledger.replay import Replay

    more = 400
    counts: Counter[Stack] = Counter()
    times = []
    with open_log(write_book(folder / "book.sqlite", 20_000)) as log:
        replay = Replay(log)
        replay.refresh()
        replay.state(as_of=AS_OF).costs  # noqa: B018

        def taken_in():
            replay.refresh()
            replay.state(as_of=AS_OF).costs  # noqa: B018

        for event in list(drawn_events(20_000 + more, seed=2))[-more:]:
            with log.writing() as tx:
                tx.append(event)
            times.append(sampled(taken_in, counts))
    return counts, times


def main() -> None:
    if sys.argv[1:2] == ["--command"]:
        command(sys.argv[2:])
        return
    for name, title, work in (
        ("show-shelf", "croftbook show shelf, forty years", show_shelf),
        ("one-more-event", "one more event on 20,000", one_more_event),
    ):
        with tempfile.TemporaryDirectory() as folder:
            counts, times = work(Path(folder))
        least, middle, most = (1000 * f(times) for f in (min, statistics.median, max))
        (PICTURES / f"{name}.svg").write_text(drawn(counts, title, middle), encoding="utf-8")
        print(f"{title}: {middle:.1f} ms ({least:.1f} to {most:.1f} in {len(times)} rounds)")


if __name__ == "__main__":
    main()
