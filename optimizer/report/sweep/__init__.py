"""A sweep told: a table in text, a chart with its table on a page, a file for other programs."""
