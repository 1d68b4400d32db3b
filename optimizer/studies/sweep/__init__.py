"""Many scenarios made from one file: a grid of changes, each point planned, in one table."""
