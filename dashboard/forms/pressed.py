"""Which button was pressed: a page that is drawn sets off the same callbacks, with nothing pressed."""

from __future__ import annotations

from typing import Any

from dash import ctx

__all__ = ["pressed"]


def pressed() -> Any:
    """Return the id of the button that set a callback off; None where none was pressed.

    The value that Dash says beside a trigger is looked up by the id as Python writes it, and is None where a
    name in the id has a letter beyond ASCII: a tap on Tomatensoße was as none.
    """
    inputs = [
        one for part in ctx.inputs_list for one in (part if isinstance(part, list) else [part])
    ]
    for id in ctx.triggered_prop_ids.values():
        if any(one["id"] == id and one.get("value") for one in inputs):
            return id
    return None
