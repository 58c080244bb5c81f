# Thin: every target is a verb of dev.py, so `python3 dev.py VERB` does the same where there is no make.
# Another Python: make demo PYTHON=python3.12. More words for the verb: make test ARGS="tests/water -x".
PYTHON ?= python3
ARGS ?=

.PHONY: help demo test test-postgres test-page fuzz serve check tidy bench study wheel-check lock setup

help:
	@$(PYTHON) dev.py help

demo test test-postgres test-page fuzz serve check tidy bench study wheel-check lock setup:
	@$(PYTHON) dev.py $@ $(ARGS)
