"""dashboard."""
