"""The question whether what is there feeds the household."""
