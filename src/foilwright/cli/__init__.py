"""The command line."""

import os

# Our matrices are small: a thread of linear algebra for every core costs 50 ms to start and gains nothing.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
# Looking for plugins means reading the notes of every package installed; we have none.
os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
