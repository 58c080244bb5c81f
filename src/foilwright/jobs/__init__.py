"""One verb a file: load, compute, answer."""
