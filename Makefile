# What can be made here. Everything stays in this folder; only libcairo is installed with the
# system's packages, where that needs no password (LIBCAIRO=no leaves it out).
# PYTHON=/path/to/python3 chooses the Python, 3.11 or later.

.DELETE_ON_ERROR:
.NOTPARALLEL:
.PHONY: help setup demo check lint types imports tests fuzz bench matrix pictures clean

python := .venv/bin/python

help:  ## say what can be made
	@sed -n 's/^\([a-z]*\):.*## /make \1:/p' Makefile | awk -F: '{ printf "%-15s %s\n", $$1, $$2 }'

setup: .venv/dev  ## install the program and the tools of its checks into .venv

demo: .venv/installed  ## make everything the demo order needs, into out/
	$(python) -m jigs make jigs/demo/order.toml --out out

check: lint types imports tests  ## all four checks that follow, up to the first that fails

lint: .venv/dev  ## style and layout of the code
	$(python) -m ruff check
	$(python) -m ruff format --check

types: .venv/dev  ## types
	$(python) -m mypy

imports: .venv/dev  ## which module may import which
	.venv/bin/lint-imports --no-logo

tests: .venv/dev  ## tests, with the lines and branches they leave out
	$(python) -m pytest --cov -n auto --dist loadfile

fuzz: .venv/dev  ## read thousands of broken files of artwork
	$(python) -m tests.fuzz

bench: .venv/dev  ## time and memory of looking at artwork, and of jigs beside bare libraries
	$(python) -m tests.bench.artwork
	$(python) -m tests.bench.jigs

matrix: .venv/dev  ## draw every jig of every garment on contact sheets, into out/matrix/
	$(python) -m tests.matrix out/matrix

pictures: .venv/dev  ## draw the README's pictures anew
	$(python) -m tests.pictures

clean:  ## remove what set-up, checks and builds have made; out/ stays
	rm -rf .venv .*_cache .hypothesis .coverage build dist *.egg-info
	find jigs tests -name __pycache__ -prune -exec rm -rf {} +

.venv/installed: pyproject.toml .ci/set-up
	@sh .ci/set-up

.venv/dev: pyproject.toml .ci/set-up
	@sh .ci/set-up dev
