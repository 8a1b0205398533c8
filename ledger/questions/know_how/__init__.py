"""The question which skills are in hand, going rusty or never tried."""
