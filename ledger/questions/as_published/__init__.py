"""The question whether a batch was processed as a published schedule says."""
