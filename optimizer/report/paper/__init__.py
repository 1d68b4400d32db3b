"""What is printed: templates of pages that need nothing beside them, and the press."""
