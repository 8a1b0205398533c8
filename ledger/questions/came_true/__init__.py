"""The question whether what was said before came true."""
