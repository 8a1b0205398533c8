"""The question how long the house lasts without shop, power or water."""
