"""A figure's arithmetic as a tree that a person likes to read."""

from __future__ import annotations

import re
import shlex
from typing import TYPE_CHECKING

from ledger.cli._console import ID, console_of, short
from ledger.cli._speech import say, told
from ledger.cli._values import amount, day, fixed, number, unit
from ledger.messages import Code

if TYPE_CHECKING:
    from rich.tree import Tree

    from ledger.projections import Node

__all__ = ["print_tree"]

_DAY = re.compile(r"\d{4}-\d\d-\d\d")
_FINER = {"g": ("mg", 1000), "ml": ("ul", 1000)}
"""Units of weight and volume, and the whole units that are said in the household's measures."""

_PARTS = 40
"""Parts of one figure that the terminal shows; ``--json`` has all."""

_HOW = {
    "sum": "table-how-sum",
    "product": "table-how-product",
    "quotient": "table-how-quotient",
    "difference": "table-how-difference",
    "power": "table-how-power",
    "lowest": "table-how-lowest",
    "middle": "table-how-middle",
    "highest": "table-how-highest",
    "mean": "table-how-mean",
    "rounded down": "table-how-rounded-down",
    "rounded up": "table-how-rounded-up",
    "method": "table-how-method",
}


def print_tree(node: Node, currency: str, measures: str) -> None:
    """Print a figure's arithmetic as a tree, amounts in the household's measures."""
    from rich.tree import Tree

    seen: set[str] = set()

    def line(one: Node) -> str:
        return _node(one, currency, measures, seen)

    def grow(tree: Tree, one: Node) -> None:
        for part in one.parts[:_PARTS]:
            grow(tree.add(line(part)), part)
        if len(one.parts) > _PARTS:
            tree.add(say("table-more-parts", n=len(one.parts) - _PARTS))

    root = Tree(line(node))
    grow(root, node)
    console_of().print(root)


def _node(node: Node, currency: str, measures: str, seen: set[str]) -> str:
    from rich.markup import escape

    from ledger.amounts import format_figure
    from ledger.figures.units import one_of

    said = None
    if isinstance(node.value, (int, float)):
        finer, each = _FINER.get(node.unit, (node.unit, 1))
        said = format_figure(node.value * each, finer, measures=measures)
    if isinstance(node.value, float) and node.unit == "day since 1970":
        from ledger.days import day_text

        return escape(f"{told(node.label)}: {day(day_text(int(node.value)))}{_source(node, seen)}")
    if said is not None:
        value = f"{currency} {amount(said)}" if node.unit.startswith("money") else amount(said)
    elif node.value is None:
        value = say("table-not-known")
    elif isinstance(node.value, str):
        value = day(node.value) if _DAY.fullmatch(node.value) else fixed(node.value)
    else:
        value = (
            f"{node.value:,.4f}".rstrip("0").rstrip(".")
            if abs(node.value) < 1e6
            else f"{node.value:,.0f}"
        )
        if node.value and abs(node.value) < 0.001:
            value = f"{node.value:.3g}"
        value = number(value)
    named = (
        ""
        if said is not None or node.value is None
        else node.unit.replace("money", currency).replace("0 to 1", "")
    )
    if isinstance(node.value, str) and named and node.value.endswith(f" {named}"):
        named = ""  # an altitude as it was typed, 2600 ft, has its unit already
    if named:
        named = unit(one_of(named) if value == "1" else named)
    how = f"  = {say(_HOW[node.how])}" if node.how in _HOW and node.parts else ""
    label = told(node.label).removesuffix(".")
    said = f"{label}: {node.mark}{' ' if node.mark else ''}{value} {named}".rstrip()
    return escape(said + how + _source(node, seen))


def _source(node: Node, seen: set[str]) -> str:
    """Return where a leaf comes from, or how a folded line is opened; an event is told once."""
    if node.event:
        id_, _, line = node.event.partition(" ")
        known = id_ in seen or line == node.label or not line
        seen.add(id_)
        return f"  [{id_[:ID]}{'' if known else f' {_line(node.event)}'}]"
    if node.source:
        return f"  [{say('table-published', source=node.source)}]"
    if node.assumption:
        return f"  [{say('table-assumed', assumption=Code(node.assumption))}]"
    if node.address:
        return f"  -> {shlex.join([short(node.address), node.figure or ''])}"
    return ""


def _line(event: str) -> str:
    """Return an event's line, which stands behind its id, in the language."""
    return told(event).partition(" ")[2]
