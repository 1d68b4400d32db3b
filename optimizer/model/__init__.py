"""Frozen records: what the shelf holds, what a household has, what a plan says."""
