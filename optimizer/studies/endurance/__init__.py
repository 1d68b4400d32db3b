"""How long the store lasts on this menu repeated, and what changes that."""
