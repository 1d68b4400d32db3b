"""A household's YAML file, read and written."""
