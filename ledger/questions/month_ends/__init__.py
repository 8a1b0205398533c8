"""The question what was there at the ends of months."""
