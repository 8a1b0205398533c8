"""One question asked at two dates: what changed, and why."""
