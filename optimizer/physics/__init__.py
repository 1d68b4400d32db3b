"""Pure functions of heat: SI floats or arrays in, the same out; no files, no units package."""
