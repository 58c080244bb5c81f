"""What every test stands on: drawn examples are the same on every machine and have no deadline."""

from hypothesis import settings

settings.register_profile("house", deadline=None, derandomize=True, print_blob=True)
settings.load_profile("house")
