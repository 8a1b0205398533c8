"""What each form shows first, and what waits behind `more`; fields come from the kinds themselves."""

from __future__ import annotations

from dataclasses import dataclass, field

from ledger.kinds import KINDS
from ledger.kinds.describing import OF_JARS, Field, fields_of

__all__ = ["COMMON", "FORMS", "Form"]

COMMON = ("harvested", "bought", "put_up", "eaten", "practised", "counted")
"""The six that are written most, in the order of their buttons."""

_PARTS = ("lines", "ate", "used", "made", "uses", "left", "work", "acid", "fuel", "other")
_ROWS = {"ate": 10, "used": 12, "uses": 12, "made": 5}
_FEW = 4


@dataclass(frozen=True)
class Form:
    """One kind's form.

    Parameters
    ----------
    kind : str
    first : tuple of str
        Fields that are always in sight, in their order; lists of lines among them.
    in_row : tuple of str
        Fields of one line that stand beside it.
    as_line : str or None
        A pair of ``item`` and ``amount`` of the body that is typed as one line under this name.
    steps : tuple of (name, fields)
        Steps that the fields in sight are parted into, each folded when it is filled already.
    most : int
        Lines at most; a shopping trip has more of them than a picking.
    """

    kind: str
    first: tuple[str, ...]
    in_row: tuple[str, ...] = ()
    as_line: str | None = None
    most: int = 12
    steps: tuple[tuple[str, tuple[str, ...]], ...] = ()
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
        return name in _PARTS and self.named(name).is_list

    def rows(self, name: str) -> int:
        """Return how many boxes a field has at most; all but the first wait until asked for."""
        if not self.named(name).is_list:
            return 1
        return self.most if name == "lines" else _ROWS.get(name, _FEW)


FORMS: dict[str, Form] = {
    one.kind: one
    for one in (
        Form("harvested", ("lines", "work"), ("bed",)),
        Form("bought", ("lines", "shop"), ("paid",), most=24),
        Form("put_up", (
            "recipe", "times", "makes", "method", "used", "made", "minutes", "gauge", "psi",
            "headspace", "pack", "acid", "work",
        ), steps=(
            ("what", ("recipe", "times", "makes", "used")), ("out", ("made",)),
            ("done", ("method", "minutes", "gauge", "psi", "headspace", "pack", "acid")),
            ("who", ("work",)),
        )),
        Form("eaten", ("ate", "people", "guests")),
        Form("practised", ("skill", "people", "minutes", "went")),
        Form("counted", ("lines", "when", "missing")),
        Form("planted", ("crop", "variety", "bed", "plants", "area", "how")),
        Form("received", ("lines", "how", "from"), ("value",)),
        Form("given_away", ("lines", "how", "to", "got")),
        Form("discarded", ("lines", "why", "note")),
        Form("gauge_tested", ("gauge", "reads", "by")),
        Form("checked", ("batch", "publication", "says")),
        Form("price_seen", ("line", "price", "shop"), as_line="line"),
        Form("recipe_written", ("recipe", "makes", "uses", "yields", "method", "schedule")),
        Form("target_set", ("line", "per", "skill", "times", "by"), as_line="line"),
        Form("item_described", ("item", "sort", "shop_equivalent", "keeps", "g_per")),
        Form("person_described", ("person", "sex", "age", "activity", "state")),
        Form("seed_checked", ("crop", "variety", "year", "seeds", "sown", "sprouted")),
        Form("frost_seen", ("frost", "seen")),
        Form("flock_counted", ("hens", "flock", "hatched")),
        Form("meter_read", ("meter", "reads")),
        Form("setting_changed", ("name", "value")),
    )
}  # fmt: skip
"""Every form by kind; what is taken back is struck in the history."""
