"""A group's call: which season, products, crops and zones it asks about."""

from __future__ import annotations

import datetime as dt
import re
import secrets
from collections.abc import Sequence
from functools import cached_property
from pathlib import Path
from typing import Any

import msgspec

from ledger.circle.figures import Figure, names_of
from ledger.circle.seal import digest_of
from ledger.errors import InputError
from ledger.kinds import METHODS
from ledger.messages import Code, Day, Message, Names, Typed

__all__ = ["FORMAT", "MOST", "Call", "Product", "Season", "product_of"]

FORMAT = "croftbook call 1"
MOST = 6
"""Most products, and most crops, of a call."""
_ZONES = 20
_LONGEST = 400
_CURRENCY = re.compile(r"[A-Z]{3}")
_LABEL = re.compile(r"[^\x00-\x1f\x7f<>&]{1,60}")


class Product(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """Something put up, by one method."""

    item: str
    method: str


class Season(msgspec.Struct, frozen=True, forbid_unknown_fields=True, rename={"from_": "from"}):
    """Days from and to, both included, ISO 8601."""

    from_: str
    to: str


class Call(msgspec.Struct, frozen=True, forbid_unknown_fields=True, dict=True, rename={"from_": "from"}):  # fmt: skip
    """A call; its digest is what sheets are bound to, so no word of it can change afterwards.

    Attributes
    ----------
    name : str
        The group.
    season : int
        The year that the season is called by.
    from_, to : str
        Its first and last day.
    currency : str
    products : list of Product
    crops, zones : list of str
    ask : list of str
        Figures told, the most wanted first; empty: all.
    before : Season or None
        The season before a course, for the figures of change.
    serial : str
        Random: two calls of the same words are two calls.
    """

    format: str
    name: str
    season: int
    from_: str
    to: str
    currency: str
    products: list[Product]
    crops: list[str]
    zones: list[str]
    ask: list[str]
    serial: str
    before: Season | None = None

    @classmethod
    def make(  # noqa: PLR0913 - what a group asks
        cls,
        name: str,
        season: int,
        days: tuple[str, str],
        *,
        products: Sequence[str] = (),
        crops: Sequence[str] = (),
        zones: Sequence[str] = (),
        ask: Sequence[str] = (),
        currency: str = "USD",
        before: tuple[str, str] | None = None,
    ) -> Call:
        """Return a new call.

        Parameters
        ----------
        days, before : pair of str
            First and last day.
        products : sequence of str
            ``plum butter/boiling water``.

        Raises
        ------
        InputError
            With the option that is wrong.
        """
        call = cls(
            FORMAT, name.strip(), season, *days, currency, [product_of(one) for one in products],
            [one.strip() for one in crops], [one.strip() for one in zones], list(ask),
            secrets.token_hex(8), Season(*before) if before else None,
        )  # fmt: skip
        call.check()
        return call

    @classmethod
    def read(cls, path: str | Path) -> Call:
        """Return the call of a file.

        Raises
        ------
        InputError
            It is no call, or one of a later version.
        """
        where = Path(path)
        try:
            raw = msgspec.json.decode(where.read_bytes())
        except (FileNotFoundError, IsADirectoryError):
            raise InputError(
                "call",
                Message.of("refusal-no-file", path=Code(str(where))),
                Message.of("refusal-ask-for-call"),
            ) from None
        except (msgspec.DecodeError, UnicodeDecodeError):
            raise InputError(
                "call", Message.of("refusal-file-no-json", name=Code(where.name))
            ) from None
        said = raw.get("format") if isinstance(raw, dict) else None
        if said != FORMAT:
            later = isinstance(said, str) and said.startswith("croftbook call ")
            problem = (
                Message.of("refusal-call-later", name=Code(where.name), format=Typed(str(said)))
                if later
                else Message.of("refusal-no-call", name=Code(where.name))
            )
            raise InputError(
                "call",
                problem,
                Message.of("refusal-update-to-read" if later else "refusal-ask-for-call"),
            )
        try:
            call = msgspec.convert(raw, cls)
        except msgspec.ValidationError as error:
            raise InputError(
                "call",
                Message.of("refusal-file-fault", path=where.name, strerror=Code(str(error))),
                Message.of("refusal-ask-for-call"),
            ) from None
        call.check()
        return call

    def check(self) -> None:
        """Refuse what no group can ask.

        Raises
        ------
        InputError
        """
        from ledger.circle.told import told_of

        self._check_lists()
        if not _CURRENCY.fullmatch(self.currency):
            problem = Message.of("refusal-no-currency", text=Typed(self.currency))
            raise InputError("currency", problem, Message.of("refusal-three-capitals"))
        first, last = _days(self.from_, self.to, "from", "to")
        if not first.year <= self.season <= last.year:
            problem = Message.of(
                "refusal-no-year-of", year=self.season, first=Day(self.from_), last=Day(self.to)
            )
            raise InputError("season", problem, Message.of("refusal-season-year"))
        if self.before is not None:
            _, end = _days(self.before.from_, self.before.to, "before-from", "before-to")
            if end >= first:
                problem = Message.of(
                    "refusal-not-before", last=Day(self.before.to), first=Day(self.from_)
                )
                raise InputError("before-to", problem, Message.of("refusal-season-before-ends"))
        told_of(self)  # refuses a figure that cannot be told

    def _check_lists(self) -> None:
        products = [f"{one.item}/{one.method}" for one in self.products]
        for field, texts, most in (
            ("name", [self.name], 1),
            ("product", products, MOST),
            ("crop", self.crops, MOST),
            ("zone", self.zones, _ZONES),
            ("ask", self.ask, _LONGEST),
        ):
            for text in texts:
                if not _LABEL.fullmatch(text):
                    problem = Message.of("refusal-cannot-be-shown", text=Typed(text[:60]))
                    raise InputError(field, problem, Message.of("refusal-short-text-marks"))
            if len(texts) > most:
                raise InputError(
                    field, Message.of("refusal-too-many-named", n=len(texts), most=most)
                )
            if len({text.casefold() for text in texts}) < len(texts):
                raise InputError(field, Message.of("refusal-named-twice"))
        if not self.zones:
            raise InputError(
                "zone", Message.of("refusal-none-named"), Message.of("refusal-one-zone-at-least")
            )
        for one in self.products:
            if one.method not in METHODS:
                wanted = Message.of("refusal-one-of", known=Names(tuple(map(Code, METHODS))))
                raise InputError(
                    "product", Message.of("refusal-no-method", text=Typed(one.method)), wanted
                )

    @cached_property
    def digest(self) -> str:
        """SHA-256 of the canonical call, hex: what sheets name."""
        return digest_of(self.to_dict())

    def to_dict(self) -> dict[str, Any]:
        """Return the call as it stands in its file."""
        plain: dict[str, Any] = msgspec.to_builtins(self)
        return plain

    @cached_property
    def figures(self) -> dict[str, Figure]:
        """The figures of a sheet of this call by name, in order."""
        return names_of(len(self.products), len(self.crops), with_before=self.before is not None)

    def subject(self, name: str) -> str:
        """Return what a figure of a sheet is about, ``plum butter (boiling water)``; '' for the household's."""
        head, _, rest = name.partition("_")
        if not rest or head[0] not in "pc" or not head[1:].isdigit():
            return ""
        at = int(head[1:]) - 1
        if head[0] == "c":
            return self.crops[at]
        return f"{self.products[at].item} ({self.products[at].method})"


_ASK_AGAIN = "Ask whoever gathers the sheets for the file call.json"


def product_of(text: str) -> Product:
    """Return a product from ``plum butter/boiling water``.

    Raises
    ------
    InputError
    """
    item, slash, method = text.rpartition("/")
    if not slash or not item.strip():
        raise InputError(
            "product",
            Message.of("refusal-no-way-said", text=Typed(text)),
        )
    return Product(item.strip(), method.strip())


def _days(first: str, last: str, field: str, field_2: str) -> tuple[dt.date, dt.date]:
    days = []
    for name, text in ((field, first), (field_2, last)):
        try:
            days.append(dt.date.fromisoformat(text))
        except ValueError:
            raise InputError(
                name,
                Message.of("refusal-not-a-day", text=Typed(text)),
                Message.of("refusal-like-march"),
            ) from None
        if text != days[-1].isoformat():
            raise InputError(
                name,
                Message.of("refusal-not-a-day", text=Typed(text)),
                Message.of("refusal-like-march"),
            )
    if days[1] < days[0] or (days[1] - days[0]).days >= _LONGEST:
        raise InputError(
            field_2,
            Message.of("refusal-season-too-long", last=Day(last), first=Day(first), days=_LONGEST),
        )
    return days[0], days[1]
