"""Packages that only some households need: asked for by name, with how to install them."""

from __future__ import annotations

import contextlib
from collections.abc import Iterator

from ledger.errors import InputError
from ledger.messages import Code, sentence

__all__ = ["extra_needed"]


@contextlib.contextmanager
def extra_needed(extra: str, field: str, what: str) -> Iterator[None]:
    """Refuse what the body cannot import, and say what to install.

    Parameters
    ----------
    extra : str
        The name in ``pip install '.[extra]'``.
    field : str
        What asked for it, as a refusal names it.
    what : str
        What cannot be done without: "the dashboard".

    Raises
    ------
    InputError
        A package is not installed; one of Croftbook's own that is missing is raised as it is.
    """
    try:
        yield
    except ModuleNotFoundError as error:
        package = (error.name or "").partition(".")[0]
        if package in ("ledger", "dashboard", "seed_demo"):
            raise
        raise InputError(
            field,
            sentence("refusal-needs-package", what=what, package=Code(package), extra=Code(extra)),
        ) from None
