"""From a household to a checked plan: ways, the linear mix, the schedule, its comparison."""
