"""What each form shows first, and what waits behind `more`; fields come from the kinds themselves."""

from __future__ import annotations

from dataclasses import dataclass, field

from ledger.door.texts import PARTS
from ledger.kinds import KINDS, Phase
from ledger.kinds import Form as Order
from ledger.kinds.describing import OF_JARS, Field, fields_of

__all__ = ["COMMON", "FORMS", "Form"]

_ROWS = {"ate": 10, "used": 12, "uses": 12, "made": 5}
_FEW = 4


@dataclass(frozen=True)
class Form:
    """One kind's form: the order that the kind gives it, and its fields as they are typed."""

    kind: str
    order: Order
    fields: tuple[Field, ...] = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "fields", tuple(fields_of(KINDS[self.kind])))

    def named(self, name: str) -> Field:
        """Return a field's description; what is typed as a line has one of its own."""
        for one in self.fields:
            if one.name == name:
                return one
        return Field(name, "", "line", name in ("lines",), (), of_line=False)

    @property
    def first(self) -> tuple[str, ...]:
        """Fields that are always in sight."""
        return self.order.first

    @property
    def in_row(self) -> tuple[str, ...]:
        """Fields of one line that stand beside it."""
        return self.order.in_row

    @property
    def as_line(self) -> str | None:
        """The name under which an item and its amount are typed as one line, or None."""
        return self.order.as_line

    @property
    def steps(self) -> tuple[tuple[str, tuple[str, ...]], ...]:
        """Steps that the fields in sight are parted into."""
        return self.order.steps

    @property
    def more(self) -> tuple[str, ...]:
        """Fields of the body behind `more`."""
        hidden = {*self.first, *(("item", "amount") if self.as_line else ())}
        return tuple(
            one.name
            for one in self.fields
            if not one.of_line and one.name not in OF_JARS and one.name not in hidden
        )

    @property
    def beside(self) -> tuple[str, ...]:
        """Fields of one line that wait behind `more` of that line."""
        return tuple(
            one.name
            for one in self.fields
            if one.of_line and one.name not in self.in_row and one.name != "lot"
        )

    def is_parts(self, name: str) -> bool:
        """Return whether a field is a list of lines or other parts: a recipe's ``uses``, not a jar's."""
        return name in PARTS and self.named(name).is_list

    def rows(self, name: str) -> int:
        """Return how many boxes a field has at most; all but the first wait until asked for."""
        if not self.named(name).is_list:
            return 1
        return self.order.most if name == "lines" else _ROWS.get(name, _FEW)


def _forms() -> list[Form]:
    """Return every form: what happens first, then what states facts, in the order of the kinds."""
    written = [kind for kind in KINDS.values() if kind.form is not None]
    written.sort(key=lambda kind: kind.phase == Phase.FACTS)
    return [Form(kind.name, kind.form) for kind in written]


FORMS: dict[str, Form] = {one.kind: one for one in _forms()}
"""Every form by kind; what is taken back is struck in the history."""

COMMON = tuple(
    sorted(
        (name for name, form in FORMS.items() if form.order.common is not None),
        key=lambda name: FORMS[name].order.common,
    )
)
"""The few that are written most, in the order of their buttons."""
