"""Parts of pages: what a household is and has, its weather, its meals, its file."""
