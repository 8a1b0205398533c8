"""The hosted way: sheets of members whose books an organisation keeps, of those that moved, by several workers.

Only this file imports Dask, and only where there are workers. What goes to a worker is a book's place and
household; cards, keys and passwords stay here, and what comes back are figures.
"""

from __future__ import annotations

import contextlib
import os
import time
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any
from urllib.parse import urlsplit

from ledger import clock
from ledger.circle.making import Made, make_all, program
from ledger.circle.members import Chosen, Job, choose
from ledger.circle.sheet import Sheet
from ledger.circle.sheets import put_sheet
from ledger.errors import InputError

if TYPE_CHECKING:
    from ledger.circle.keep import Circle

__all__ = ["TASK", "Worked", "work"]

TASK = 10
"""Books of one task at most: what is lost with a worker, and the distance of two collections of garbage."""
_DEATHS = 2
"""Workers that a book alone may end in a hearing: one may have been ended by hand."""
_HEARINGS = 2
_AHEAD = 3
"""Tasks a worker that are handed out: few are lost with it, and none waits for another."""
_PATIENCE = 0.5
"""Seconds without a result after which the scheduler is asked what became of tasks."""
_Task = tuple[int, str, str]
_HERE = ("127.0.0.1", "localhost", "::1")


@dataclass
class Worked:
    """What was done.

    Attributes
    ----------
    made, unchanged : int
    left_out, failed : list of str
        By line and household, with the reason.
    """

    made: int = 0
    unchanged: int = 0
    left_out: list[str] = field(default_factory=list)
    failed: list[str] = field(default_factory=list)


def work(
    circle: Circle,
    members: str | Path,
    *,
    workers: int = 2,
    scheduler: str | None = None,
    tls: tuple[str, str, str] | None = None,
    pids: Path | None = None,
    progress: Callable[[int, int], None] | None = None,
) -> Worked:
    """Make the sheets of consenting members whose book, call or program changed since the last time.

    May be run again after anything: what is done stays, and what is left is taken up.

    Parameters
    ----------
    members : path
        CSV of ``book,household,card,zone,consent``.
    workers : int
        Processes on this machine; 0: none, a plain loop.
    scheduler : str, optional
        A running scheduler's address instead, like ``tls://HOST:8786``.
    tls : (str, str, str), optional
        Files of the authority's certificate, the own certificate and its key.
    pids : path, optional
        Where to write the workers' process numbers, one a line.
    progress : callable, optional
        Called with how many are done, and of how many.

    Raises
    ------
    InputError
        The list cannot be read, Dask is not installed, or a scheduler is not to be trusted.
    """
    if scheduler or workers:
        _check_scheduler(scheduler, tls)
        _dask()
    chosen = choose(circle, Path(members))
    done = Worked(left_out=chosen.left_out, failed=chosen.failed)
    jobs = _moved(circle, chosen, done)
    by_line = {job.line: job for job in jobs}
    count = 0
    for several in _results(circle, jobs, workers, scheduler, tls, pids) if jobs else ():
        _keep(circle, by_line, several, done)
        count += len(several)
        if progress is not None:
            progress(count, len(jobs))
    return done


def _stamp(seq: int, digest: str) -> str:
    return f"{seq}:{digest}:{program()}"


def _moved(circle: Circle, chosen: Chosen, done: Worked) -> list[Job]:
    """Return the jobs whose sheet is not of their book's head; the call cannot have changed."""
    with circle.writing() as raw:
        there = dict(raw.execute("SELECT member, head FROM sheets").fetchall())
    moved = [job for job in chosen.jobs if there.get(job.member) != _stamp(job.head.seq, job.head.hash)]  # fmt: skip
    done.unchanged = len(chosen.jobs) - len(moved)
    return moved


def _keep(circle: Circle, by_line: dict[int, Job], several: Sequence[Made], done: Worked) -> None:
    """Seal what came back and keep it, one transaction a task."""
    made_on = clock.today().isoformat()
    with circle.writing() as raw:
        for one in several:
            job = by_line[one.line]
            if one.figures is None:
                (done.left_out if one.blank else done.failed).append(f"{job.name}: {one.problem}")
                continue
            gone, held = raw.execute(
                "SELECT withdrawn, sheet FROM members LEFT JOIN sheets USING (member) WHERE member = ?",
                [job.member],
            ).fetchone()
            if gone:  # meanwhile
                done.left_out.append(f"{job.name}: withdrew")
                continue
            sheet = Sheet.make(circle.call, job.card, job.zone, one.figures, made_on)
            head = _stamp(*one.head)
            if held and _says_the_same(held, sheet):
                raw.execute("UPDATE sheets SET head = ? WHERE member = ?", [head, job.member])
            else:
                put_sheet(raw, job.member, sheet.to_bytes().decode(), head)
            done.made += 1


def _says_the_same(held: str, sheet: Sheet) -> bool:
    import msgspec

    there = msgspec.json.decode(held, type=Sheet)
    return (there.figures, there.zone) == (sheet.figures, sheet.zone)


def _results(
    circle: Circle,
    jobs: list[Job],
    workers: int,
    scheduler: str | None,
    tls: tuple[str, str, str] | None,
    pids: Path | None,
) -> Iterator[list[Made]]:
    """Yield results as they come; a book that was held up or out of reach is tried again at the end."""
    tasks = [(job.line, job.book, job.household) for job in jobs]
    call = circle.call.to_dict()
    again: list[_Task] = []
    if not (scheduler or workers):
        results: Iterator[list[Made]] = (make_all([task], call) for task in tasks)
    else:
        results = _by_workers(tasks, call, workers, scheduler, tls, pids)
    for several in results:
        held_up = {one.line for one in several if one.again}
        again += [task for task in tasks if task[0] in held_up]
        yield [one for one in several if one.line not in held_up]
    for task in again:
        time.sleep(0.5)
        yield make_all([task], call)


# Dask


def _dask() -> Any:
    try:
        import distributed
    except ImportError:
        problem = "several workers need Dask, which is not installed"
        wanted = (
            "Install it in the folder of the program: pip install '.[many]'; or use --workers 0"
        )
        raise InputError("workers", problem, wanted) from None
    return distributed


def _check_scheduler(address: str | None, tls: tuple[str, str, str] | None) -> None:
    """Refuse an address beyond this machine without TLS: who reaches it runs code as its user.

    Raises
    ------
    InputError
    """
    if address is None:
        return
    try:
        parts = urlsplit(address)
        host = parts.hostname
    except ValueError:
        parts, host = urlsplit(""), None
    if parts.scheme not in ("tls", "tcp") or not host:
        raise InputError("scheduler", f"{address!r} is no address", "Write it like tls://HOST:8786")
    if parts.scheme == "tcp" and host not in _HERE:
        raise InputError("scheduler", f"{address} is not encrypted", "Beyond this machine use tls://")  # fmt: skip
    if parts.scheme == "tls" and tls is None:
        wanted = "Name --tls-ca, --tls-cert and --tls-key"
        raise InputError("scheduler", "TLS needs certificates", wanted)
    for name in tls or ():
        if not Path(name).is_file():
            raise InputError("tls", f"there is no file {name}", "Check the name")


@contextlib.contextmanager
def _client(workers: int, scheduler: str | None, tls: tuple[str, str, str] | None) -> Iterator[Any]:
    """Give a client of a cluster on this machine, or of a scheduler that runs."""
    import logging

    import dask

    distributed = _dask()
    if scheduler:
        security = tls and distributed.Security(
            tls_ca_file=tls[0], tls_client_cert=tls[1], tls_client_key=tls[2],
            require_encryption=True,
        )  # fmt: skip
        try:
            client = distributed.Client(scheduler, security=security, timeout=20)
            client.wait_for_workers(1, timeout=60)
        except (OSError, TimeoutError) as error:
            problem = f"{scheduler} does not answer, or has no worker"
            raise InputError(
                "scheduler", problem, "Start both, and look at the certificates"
            ) from error
        with client:
            yield client
        return
    # How often a task may end its worker is decided here, not by the scheduler.
    settings = {"distributed.scheduler.allowed-failures": 1000}
    with (
        dask.config.set(settings),
        distributed.LocalCluster(
            n_workers=workers, threads_per_worker=1, host="127.0.0.1", dashboard_address="127.0.0.1:0",
            memory_limit="1GiB", silence_logs=logging.CRITICAL,
        ) as cluster,
        distributed.Client(cluster) as client,
    ):  # fmt: skip
        yield client
        with contextlib.suppress(TimeoutError):  # one that is just being started holds up the end
            client.wait_for_workers(workers, timeout=10)


def _by_workers(
    tasks: list[_Task],
    call: dict[str, Any],
    workers: int,
    scheduler: str | None,
    tls: tuple[str, str, str] | None,
    pids: Path | None,
) -> Iterator[list[Made]]:
    with _client(workers, scheduler, tls) as client:
        _check_programs(client)
        if pids is not None:
            _write_pids(client, pids)
        many = len(client.scheduler_info(n_workers=-1)["workers"]) or 1
        size = min(TASK, -(-len(tasks) // (4 * many)))
        parts = deque(tasks[at : at + size] for at in range(0, len(tasks), size))
        pending: dict[Any, list[_Task]] = {}
        suspects: list[_Task] = []
        while parts or pending:
            while parts and len(pending) < _AHEAD * many:
                part = parts.popleft()
                pending[client.submit(make_all, part, call, pure=False)] = part
            for future in _ended(client, pending, deaths=1):
                part = pending.pop(future)
                several = _result(future)
                if several is None:
                    suspects += part
                else:
                    yield several
        for task in suspects:  # now that nothing else runs
            yield [_alone(client, task, call)]


def _ended(client: Any, pending: dict[Any, Any], *, deaths: int) -> list[Any]:
    """Return the tasks that ended, and those with which so many workers died, called off.

    The scheduler would try a task that ends its workers again and again; how often is decided here, and
    so it is asked.
    """
    ended: set[Any] = set()
    with contextlib.suppress(TimeoutError):
        ended = _dask().wait(list(pending), timeout=_PATIENCE, return_when="FIRST_COMPLETED").done
    others = [future for future in pending if future not in ended]
    died = client.run_on_scheduler(_deaths, [future.key for future in others]) if others else {}
    bad = [future for future in others if died[future.key] >= deaths]
    if bad:
        client.cancel(bad, force=True)
    return [*ended, *bad]


def _deaths(keys: list[str], dask_scheduler: Any = None) -> dict[str, int]:
    """Return how many workers died with each task; one that failed or is gone counts as many. It runs there."""
    out = {}
    for key in keys:
        task = dask_scheduler.tasks.get(key)
        lost = task is None or task.state in ("erred", "forgotten")
        out[key] = 1000 if lost else task.suspicious
    return out


def _result(future: Any) -> list[Made] | None:
    """Return what a task gave; None where it failed, or was lost with its worker."""
    if future.status != "finished":
        return None
    try:
        found: list[Made] = future.result(timeout=60)
    except Exception:  # its worker died just now
        return None
    return found


def _alone(client: Any, task: _Task, call: dict[str, Any]) -> Made:
    """Return the figures of a book that was on a worker that died, with nothing else running.

    Whoever is with a poisoned book when it kills the worker looks guilty as well, and a task called off
    may end one more: so each book gets a second hearing.
    """
    for _ in range(_HEARINGS):
        future = client.submit(make_all, [task], call, pure=False)
        while not (ended := _ended(client, {future: None}, deaths=_DEATHS)):
            pass
        several = _result(ended[0])
        if several is not None:
            return several[0]
    return Made(task[0], None, problem="ended every worker that read it")


def _check_programs(client: Any) -> None:
    """Refuse workers of another version: their figures could mean something else.

    Raises
    ------
    InputError
    """
    others = {found for found in client.run(program).values() if found != program()}
    if others:
        problem = f"a worker runs Croftbook {', '.join(sorted(others))}, and this is {program()}"
        raise InputError("scheduler", problem, "Update the workers")


def _write_pids(client: Any, path: Path) -> None:
    found = client.run(os.getpid)
    path.write_text("".join(f"{pid}\n" for pid in found.values()), "utf-8")
