"""The page: thin routes over the jobs, templates, and plain modules for the browser."""
