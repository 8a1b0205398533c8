"""The question what is there month by month."""
