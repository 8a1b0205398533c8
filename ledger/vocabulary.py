"""The vocabulary: every kind there is, a line each, by the command that writes it.

It stands apart from `ledger.kinds`, so that a list of commands reads no kind.
"""

__all__ = ["VOCABULARY"]

VOCABULARY = {
    "item": "item_described",
    "plant": "planted",
    "harvest": "harvested",
    "buy": "bought",
    "receive": "received",
    "recipe": "recipe_written",
    "putup": "put_up",
    "meal": "eaten",
    "give": "given_away",
    "discard": "discarded",
    "count": "counted",
    "gauge": "gauge_tested",
    "settle": "checked",
    "price": "price_seen",
    "practise": "practised",
    "target": "target_set",
    "person": "person_described",
    "seed": "seed_checked",
    "frost": "frost_seen",
    "flock": "flock_counted",
    "meter": "meter_read",
    "setting": "setting_changed",
    "strike": "struck",
}
"""Commands, in the order in which help and forms list them, and the file of `ledger/kinds` of each."""
