"""The question what an hour of work is worth."""
