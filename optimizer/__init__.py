"""Plan cooking on scarce fuel."""
