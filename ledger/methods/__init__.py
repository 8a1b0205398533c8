"""Pure numeric methods behind the questions; each formula with its source.

Nothing here knows of events, lots or items: plain numbers and numpy arrays go in and come out,
so that every method can be held to published figures (tests/published). The projections call
the modules by name.
"""
