"""The question where a name stands in the book."""
