"""The few statements that the log runs, compiled once for its database. None changes a row."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import msgspec
from sqlalchemy import (
    BindParameter,
    ColumnElement,
    bindparam,
    column,
    func,
    insert,
    null,
    select,
    true,
)
from sqlalchemy.engine import Engine
from sqlalchemy.sql.expression import Executable
from sqlalchemy.types import Text

from ledger.log._chain import COLUMNS
from ledger.log._schema import events

__all__ = ["Statement", "Statements"]

_e = events.c
_read_columns = [_e[name] for name in COLUMNS]


class Statement:
    """One compiled statement with positional parameters."""

    def __init__(self, statement: Executable, engine: Engine) -> None:
        compiled = statement.compile(dialect=engine.dialect)  # type: ignore[attr-defined]
        self.text: str = compiled.string
        # Names and, for what SQLAlchemy adds of its own accord (an OFFSET of 0), fixed values.
        self._parts = [(name, compiled.params[name]) for name in compiled.positiontup or ()]

    def run(self, raw: Any, **values: Any) -> Any:
        """Run it on a driver's connection, parameters by name; return the driver's cursor.

        SQLAlchemy's own results cost more than the small queries of one entry themselves.
        """
        return raw.execute(self.text, [values.get(name, fixed) for name, fixed in self._parts])

    def run_many(self, raw: Any, rows: Sequence[tuple[Any, ...]]) -> None:
        """Run it for rows in the order of its parameters."""
        raw.cursor().executemany(self.text, rows)


class Statements:
    """Every statement of the log, for one engine."""

    def __init__(self, engine: Engine) -> None:
        household = _e.household == bindparam("household", type_=Text())
        span = (
            household
            & (_e.seq > bindparam("after", type_=_e.seq.type))
            & (_e.seq <= bindparam("upto", type_=_e.seq.type))
        )
        page = select(*_read_columns).where(span).order_by(_e.seq)
        rows = bindparam("rows", type_=_e.seq.type)
        self.sqlite = engine.dialect.name == "sqlite"
        self.insert = Statement(insert(events), engine)
        self.head = Statement(
            select(_e.seq, _e.hash, _e.recorded_at)
            .where(household)
            .order_by(_e.seq.desc())
            .limit(1),
            engine,
        )
        self.hash_at = Statement(
            select(_e.hash).where(household, _e.seq == bindparam("seq", type_=_e.seq.type)), engine
        )
        self.kinds = Statement(
            select(_e.kind, _e.v, func.min(_e.seq))
            .where(household, _e.seq > bindparam("after", type_=_e.seq.type))
            .group_by(_e.kind, _e.v)
            .order_by(func.min(_e.seq)),
            engine,
        )
        self.last = Statement(select(func.max(_e.seq)).where(household), engine)
        self.page = Statement(page.limit(rows), engine)
        unread = ("typed_at", "hash")
        bare = [null().label(name) if name in unread else _e[name] for name in COLUMNS]
        self.page_bare = Statement(select(*bare).where(span).order_by(_e.seq).limit(rows), engine)
        self.page_of = Statement(page.where(self._among(_e.kind, "kinds")).limit(rows), engine)
        later = _e.replaces.is_not(None) | (_e.kind == "struck")
        self.page_later = Statement(page.where(later).limit(rows), engine)
        told = _e.body.contains(bindparam("text", type_=Text()))
        self.mentioning = Statement(
            select(*_read_columns)
            .where(household, _e.kind == bindparam("kind", type_=Text()))
            .where((_e.on == bindparam("on", type_=Text())) | told)
            .order_by(_e.seq),
            engine,
        )
        one = select(*_read_columns).where(household)
        self.one = Statement(one.where(_e.id == bindparam("id", type_=Text())), engine)
        span_of_ids = (_e.id >= bindparam("low", type_=Text())) & (
            _e.id < bindparam("high", type_=Text())
        )
        self.ids = Statement(select(_e.id).where(household, span_of_ids).order_by(_e.id), engine)
        self.known = Statement(self._known(), engine)
        self.households = Statement(
            select(func.min(_e.household)).where(
                _e.household > bindparam("household", type_=Text())
            ),
            engine,
        )
        names = ", ".join(f'"{c.name}"' for c in events.columns)
        self.copy = f"COPY events ({names}) FROM STDIN"
        # One statement for many rows where COPY is not allowed: its triggers run once.
        arrays = ", ".join(f"%s::{c.type.compile(engine.dialect)}[]" for c in events.columns)
        self.insert_all = f"INSERT INTO events ({names}) SELECT * FROM unnest({arrays})"

    def _known(self) -> Executable:
        """Select the events with any of many ids, one look into the unique key for each."""
        household = _e.household == bindparam("household", type_=Text())
        # Left to themselves the planners may read the whole household for each list of ids. One
        # cannot but look up a number that it needs for each row, the other not see through OFFSET.
        if self.sqlite:
            each_id = func.json_each(bindparam("ids", type_=Text())).table_valued(column("value"))
            other = events.alias()
            number = select(other.c.seq).where(
                other.c.household == bindparam("household", type_=Text()),
                other.c.id == each_id.c.value,
            )
            numbers = select(number.scalar_subquery()).select_from(each_id)
            return select(*_read_columns).where(household, _e.seq.in_(numbers))
        ids = func.unnest(_array("ids"))
        wanted = ids.table_valued("id", name="wanted").render_derived()
        each = select(*_read_columns).where(household, _e.id == wanted.c.id).offset(0).lateral()
        return select(each).select_from(wanted.join(each, true()))

    def _among(self, of: ColumnElement[Any], name: str) -> ColumnElement[bool]:
        """Say that a column is in a list passed as one parameter, see :meth:`listed`."""
        if self.sqlite:
            each = func.json_each(bindparam(name, type_=Text())).table_valued(column("value"))
            return of.in_(select(each.c.value))
        return of == func.any(_array(name))

    def listed(self, values: Sequence[str]) -> Any:
        """Return a list as the parameter that :meth:`_among` reads."""
        if not self.sqlite:
            return list(values)
        return msgspec.json.encode(list(values)).decode()


def _array(name: str) -> BindParameter[Any]:
    """Return a list of texts as one parameter of PostgreSQL, whose dialect is slow to load."""
    from sqlalchemy.dialects.postgresql import ARRAY

    return bindparam(name, type_=ARRAY(Text()))
