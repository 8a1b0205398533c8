"""Forms: made from the descriptions of the kinds, written through the same door as the command."""
