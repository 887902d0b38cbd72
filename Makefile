# Panewright's targets. `make` alone lists them.
V := .venv
BIN := $(V)/bin
PYTHON ?= python3
PIP := $(BIN)/python -m pip --disable-pip-version-check --quiet
JOBS ?= 2

.DEFAULT_GOAL := help
.PHONY: help demo test peers check bench proof lock clean

help: ## list the targets
	@grep -hE '^[a-z]+:.*## ' $(MAKEFILE_LIST) | sed 's/:.*## /\t/' | expand -t 10

demo: $(V)/.ahead ## set up, design the demonstration order and write its pack
	$(BIN)/panewright pack examples/jetty.toml --to pack

test: $(V)/.dev $(V)/.ahead peers ## set up, with the outside programs the tests compare with, and run all tests
	PEERS=$(PEERS) $(BIN)/pytest -q -n $(JOBS)

check: $(V)/.dev ## style, types and the direction of imports
	$(BIN)/ruff format --check
	$(BIN)/ruff check
	$(BIN)/mypy
	$(BIN)/lint-imports

peers:
	PEERS=$(PEERS) sh tests/peers.sh

bench: $(V)/.dev peers ## speed beside outside programs, each ratio measured in one run
	$(BIN)/python benchmarks/run.py
	$(BIN)/python benchmarks/shop_floor.py
	$(BIN)/python benchmarks/catalogue_speed.py

proof: $(V)/.dev peers ## long campaigns; results go to docs/proof
	$(BIN)/python benchmarks/proof.py

lock: ## pin every dependency again with hashes (needs uv)
	uv lock
	uv export -q --no-header --no-emit-project --no-dev --group build --format requirements-txt > requirements.txt
	uv export -q --no-header --no-emit-project --group dev --format requirements-txt > requirements-dev.txt

clean: ## remove the environment and all caches
	rm -rf $(V) pack build .pytest_cache .mypy_cache .ruff_cache .import_linter_cache .hypothesis

$(V)/bin/python:
	$(PYTHON) -m venv $(V) || { rm -rf $(V); echo "Python's venv is missing: sudo apt install python3-venv"; exit 1; }

$(V)/.run: requirements.txt pyproject.toml | $(V)/bin/python
	$(PIP) install $(HOW) --require-hashes -r requirements.txt
	$(PIP) install --no-deps --no-build-isolation -e .
	$(BIN)/python -m compileall -q src # so that no command has to compile them first
	@touch $@

$(V)/.ahead: $(V)/.run # nor compile the first great catalogue or lot
	$(BIN)/python benchmarks/compile_ahead.py
	@touch $@

$(V)/.dev: requirements-dev.txt $(V)/.run
	$(PIP) install $(HOW) --require-hashes -r requirements-dev.txt
	@touch $@
