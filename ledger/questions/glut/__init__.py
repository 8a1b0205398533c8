"""The question what to do with a glut."""
