"""The question how long what was put by keeps, and what was lost."""
