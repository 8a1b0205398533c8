"""The question how own prices rose."""
