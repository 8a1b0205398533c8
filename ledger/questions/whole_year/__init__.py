"""The question what a whole year of food would take."""
