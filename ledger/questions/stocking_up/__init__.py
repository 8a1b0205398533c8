"""The question what to buy, and when."""
