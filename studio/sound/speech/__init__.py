"""The machine that speaks a script, and what it has to be told."""
