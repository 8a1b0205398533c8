"""The question who eats, and what each needs."""
