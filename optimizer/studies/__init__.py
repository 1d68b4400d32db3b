"""Questions beside the plan: one dish in every way, and what follows from it."""
