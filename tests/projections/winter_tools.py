"""Books for the winter's questions, written by the door, and a check of every tree."""

from __future__ import annotations

import math

from questions.proving import leaves, names_its_source
from questions.recomputed import recompute

FAMILY = [
    ("Finn", "male", 42),
    ("Mara", "female", 39),
    ("Lisbet", "female", 11),
    ("Jost", "male", 7),
]


def people(book, family=FAMILY, on="2026-10-01"):
    """Write down who eats."""
    for name, sex, age in family:
        book.write("person_described", {"person": name, "sex": sex, "age": age}, on=on)


def stock(book, item, food, grams, on="2026-10-01", paid="1.00", measure="mass", **more):
    """Buy so many edible grams of a food of the table: its refuse comes on top."""
    from ledger.reference import foods

    refuse = float(foods.refuse_pct(food) or 0) / 100
    book.write(
        "item_described",
        {"item": item, "sort": "food", "measure": measure, "food": food, **more},
        on=on,
    )
    bought = round(grams / (1 - refuse) * 1000)
    line = {"item": item, "amount": f"{bought} mg", "paid": paid}
    book.write("bought", {"lines": [line]}, on=on)


def check_tree(node, depth=0):
    """Recompute a node and all below it."""
    assert depth < 60
    value = recompute(node)
    if value is not None:
        assert math.isclose(value, node.value, rel_tol=1e-9, abs_tol=1e-9), node.label
    for part in node.parts:
        check_tree(part, depth + 1)


def check_figures(book, answer, figures, **more):
    """Open every figure of an answer; each is what its tree gives. Return how many were opened."""
    opened = 0
    for row in answer.rows():
        for figure in figures:
            if row[figure] is None:
                continue
            node = book.why(row["why"], figure, **more)
            assert math.isclose(node.value or 0.0, row[figure], rel_tol=1e-9, abs_tol=1e-9), (
                row["why"],
                figure,
            )
            check_tree(node)
            opened += 1
    return opened


def check_sources(book, answer, figures, **more):
    """Open every figure of an answer; each leaf says where it comes from. Return how many leaves there were."""
    found = [
        (row["why"], figure, leaf)
        for row in answer.rows()
        for figure in figures
        if row[figure] is not None
        for leaf in leaves(book.why(row["why"], figure, **more))
    ]
    assert [one for one in found if not names_its_source(one[2])] == []
    return len(found)
