"""What the independent checker looks at; nothing here knows the planner's columns or formulas."""
