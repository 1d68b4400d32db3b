"""A plan told: to a terminal, to a file, to a program."""
