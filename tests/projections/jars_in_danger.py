"""Batches that stand each as it is called, for what is tested of jars in danger."""

from __future__ import annotations

from ledger import Answers

YES = Answers(yes=True)
BEANS = {"item": "green bean", "amount": "14 lb"}
QUARTS = {"jars": 7, "jar": "quart jar", "kept": "shelf"}

# Snap beans, raw pack, quarts: 25 minutes at 11 psi on a dial from 0 to 2,000 ft (USDA Complete Guide
# to Home Canning, AIB 539, guide 4, snap and Italian beans; MSU Preserving Food Safely 01600883).
PUBLISHED = {
    "makes": "canned green beans", "method": "pressure", "minutes": "25", "psi": "11", "gauge": "dial", "pack": "raw",
    "headspace": "1 in", "altitude": "800 ft", "loads": 1, "used": [BEANS], "made": [QUARTS],
}  # fmt: skip
SHORT = {**PUBLISHED, "minutes": "20"}
OPEN = {name: said for name, said in PUBLISHED.items() if name != "headspace"}
AGAINST = {
    "makes": "canned green beans", "method": "boiling water", "minutes": "180", "altitude": "800 ft",
    "used": [BEANS], "made": [QUARTS],
}  # fmt: skip


def put_up(book, body=PUBLISHED, on="2026-09-12", but=None, **more):
    """Write a batch down, changed where `but` says so; return the id of its entry."""
    whole = {**body, **(but or {})}
    return book.write("put_up", whole, on=on, answers=YES, **more).event.id


def shelf(book, **asked):
    """Return the shelf's records by lot."""
    return {row["lot"]: row for row in book.show("shelf", **asked).records()}


def stands(book, batch, n="1", **asked):
    """Return how a batch's lot stands, and what is said of it."""
    row = shelf(book, **asked)[f"{batch}:{n}"]
    return row["standing"], row["standing_text"]
