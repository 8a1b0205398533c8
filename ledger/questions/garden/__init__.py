"""What questions of the garden share: plots by season, earlier seasons, targets, and what was left over."""
