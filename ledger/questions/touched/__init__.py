"""The question who had of a lot, an item, a gauge or a batch."""
