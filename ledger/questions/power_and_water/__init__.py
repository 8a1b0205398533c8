"""The question what power and water went where."""
