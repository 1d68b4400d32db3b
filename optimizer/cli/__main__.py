"""Run the command line as ``python -m optimizer.cli``."""

from optimizer.cli import main

main()
