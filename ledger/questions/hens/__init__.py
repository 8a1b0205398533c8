"""The question what hens cost and bring."""
