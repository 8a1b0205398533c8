"""The labels of jars: what stands before the number, and the number."""

from __future__ import annotations

__all__ = ["split_label"]


def split_label(label: int | str) -> tuple[str, int | None]:
    """Return the prefix and the number of a jar's label: ``S26-041`` is ``("S26-", 41)``.

    The number is None where there is none, or one of so many digits that it is no label.
    """
    text = str(label).strip()
    head = text.rstrip("0123456789")
    digits = text[len(head) :]
    return head, int(digits) if digits.isdecimal() and len(digits) < 16 else None
