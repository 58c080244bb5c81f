"""The boat as one body: loads, steady flight, margins."""
