"""The pages: one file each, which reads state, calls what is cached and draws."""
