"""The question what a first year could bring."""
