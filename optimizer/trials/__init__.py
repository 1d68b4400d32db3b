"""Measurements in, numbers out: what a boiling test says of a stove."""
