"""What was said, in the words of a household, as entries: a grammar and word lists, no guesses."""
