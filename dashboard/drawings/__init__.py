"""Drawings: numbers and texts in, one SVG as text out; a file a drawing, beside the `marks` they share."""
