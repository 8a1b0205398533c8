"""Books made smaller: what is left when events or lines are taken out, and still hangs together."""

from __future__ import annotations

import copy

from strategies.catalog import ITEMS

LISTS = ("lines", "used", "made", "fuel", "ate", "left", "equipment", "work")
NEEDED = ("lines", "used", "made", "ate")
OPTIONAL = ("fuel", "left", "equipment", "work", "loads", "guests", "people", "when", "missing")


def named_items(body):
    """Yield every item that a body names."""
    for key in ("item", "crop", "makes", "lids", "jar", "for_crop", "shop_equivalent", "feeds"):
        if isinstance(body.get(key), str):
            yield body[key]
    yield from body.get("equipment", ())
    yield from body.get("also", ())
    for key in ("lines", "used", "fuel", "made", "ate", "left", "uses"):
        for line in body[key] if isinstance(body.get(key), list) else ():
            yield from named_items(line)
    if isinstance(body.get("seed"), dict):
        yield from named_items(body["seed"])


def first_words(events):
    """Return the ids of the first description of each item."""
    firsts = {}
    for event in events:
        if event["kind"] == "item_described":
            firsts.setdefault(event["body"]["item"], event["id"])
    return set(firsts.values())


def without(events, ids):
    """Return a book without some events, and what replaces, strikes or checks them; seq gapless again.

    First descriptions of items stay as long as anything names the item.
    """
    gone, kept = set(ids), []
    roots, struck = {}, set()
    firsts = first_words(events)
    for event in events:
        first = event["id"] in firsts
        before = event["body"]["id"] if event["kind"] == "struck" else event["replaces"]
        # a batch that is left out, or taken back as something later is, cannot be checked
        batch = event["body"].get("batch") if event["kind"] == "checked" else None
        unchecked = batch is not None and (batch not in roots or roots[batch] in struck)
        if (event["id"] in gone and not (first and not before)) or before in gone or unchecked:
            gone.add(event["id"])
        else:
            gone.discard(event["id"])
            kept.append(event)
            root = roots[event["id"]] = roots.get(before, event["id"])
            (struck.add if event["kind"] == "struck" else struck.discard)(root)
    named = _closed({e["body"]["item"] for e in kept if e["id"] not in ids and _is_more(e)}, kept)
    kept = [e for e in kept if e["kind"] != "item_described" or e["body"]["item"] in named]
    return [{**event, "seq": seq} for seq, event in enumerate(kept, 1)]


def _is_more(event):
    """Tell whether an event says more of an item than its first description does."""
    body = event["body"]
    return event["kind"] == "item_described" and body != {**body, **ITEMS[body["item"]]}


def _closed(named, events):
    """Return the items that events name, and those that descriptions of these name."""
    named = set(named)
    for event in events:
        if event["kind"] != "item_described":
            named.update(named_items(event["body"]))
    while True:
        more = {
            item
            for event in events
            if event["kind"] == "item_described" and event["body"]["item"] in named
            for item in named_items(event["body"])
        }
        if more <= named:
            return named
        named |= more


def smallest(events, fails):
    """Return a book as small as can be for which `fails(events)` is still true.

    Parameters
    ----------
    events : list of dict
        A book that fails.
    fails : callable
        True for a book that shows the failure; an exception counts as true, too.
    """

    def still(book):
        try:
            return bool(book) and bool(fails(book))
        except Exception:
            return True

    step = len(events)
    while step:
        done = False
        for at in range(len(events) - 1, -1, -step):
            ids = {event["id"] for event in events[max(at - step + 1, 0) : at + 1]}
            fewer = without(events, ids)
            if len(fewer) < len(events) and still(fewer):
                events, done = fewer, True
        if not (done and step == 1):
            step //= 2
    return _plainer(events, still)


def _plainer(events, still):
    """Take out lines and optional fields one by one."""
    for place, event in enumerate(events):
        for cut in _cuts(event["body"]):
            body = copy.deepcopy(events[place]["body"])
            if not cut(body):
                continue
            plainer = [*events[:place], {**events[place], "body": body}, *events[place + 1 :]]
            if still(plainer):
                events = plainer
    return events


def _cuts(body):
    """Yield functions that take one thing out of a body, and tell whether it was there."""

    def line(key, at):
        def cut(copied):
            there = at < len(copied.get(key, ())) > (key in NEEDED)
            if there:
                del copied[key][at]
            return there

        return cut

    def field(key):
        return lambda copied: copied.pop(key, None) is not None

    for key in LISTS:
        for at in range(len(body.get(key, ())) - 1, -1, -1):
            yield line(key, at)
    for key in OPTIONAL:
        yield field(key)
