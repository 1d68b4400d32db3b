"""What to buy so that the household is carried so many days."""
