"""The front end: pages in a browser on this machine, over the planner in ``optimizer``."""
