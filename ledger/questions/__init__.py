"""Questions: a package each, with the same few files, and what several of them share below.

`question.py` describes it (columns, options, words), `gather.py` takes from the state what it is about,
`figures.py` has the formulas. Shared: `costs` (what lots cost), `telling` (events and amounts in words).
"""

__all__ = ["ADDRESSED"]

ADDRESSED = {
    **dict.fromkeys(("lot", "garden", "durable"), "ledger.questions.costs.addresses"),
    **dict.fromkeys(("food", "feed"), "ledger.questions.food.addresses"),
}
"""Which module opens an address that no question begins, by its first word."""
