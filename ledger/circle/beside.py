"""A household beside its group: on its own machine, from its own book, and nowhere else."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.circle.page import subject_of
from ledger.circle.told import told_of
from ledger.errors import InputError
from ledger.messages import Message

if TYPE_CHECKING:
    from collections.abc import Mapping

    from ledger.circle.call import Call
    from ledger.circle.release import Release

__all__ = ["own_figures"]


def own_figures(
    release: Release, call: Call, figures: Mapping[str, int | None], zone: str
) -> dict[tuple[str, str], int | None]:
    """Return a household's own figures by figure and subject, as a release has its cells.

    Raises
    ------
    InputError
        The release is one of another call.
    """
    if release.head["call"] != call.digest:
        raise InputError(
            "release", Message.of("refusal-other-call"), Message.of("refusal-name-the-call")
        )
    out: dict[tuple[str, str], int | None] = {}
    for asked in told_of(call):
        for cell in release.cells:
            group = cell["group"]
            rest = {name: value for name, value in group.items() if name != "zone"}
            if cell["figure"] != asked.told.name or rest != dict(asked.group):
                continue
            if "zone" not in group or zone in group["zone"].split("+"):
                out[asked.told.name, subject_of(group)] = asked.value(figures)
    return out
