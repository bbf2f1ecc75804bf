# Two commands: `make site` compiles the demo series, `make test` checks everything.
# Each makes the virtual environment .venv and installs what it needs.

PYTHON ?= python3
BIN := .venv/bin

.PHONY: site test lint bench clean

site: .venv/site.stamp
	$(BIN)/sitegen build

test: .venv/test.stamp browser
	$(BIN)/python -m pytest -n 2 --dist loadfile --no-loadscope-reorder

# Style and types; what continuous integration asks first, for it is quickest.
lint: .venv/test.stamp
	$(BIN)/ruff check sitegen tests
	$(BIN)/ruff format --check sitegen tests
	$(BIN)/mypy

bench: .venv/test.stamp
	$(BIN)/python -m tests.bench

.venv/site.stamp: pyproject.toml
	$(PYTHON) -m venv .venv
	$(BIN)/pip install --quiet --disable-pip-version-check --editable .
	touch $@

.venv/test.stamp: pyproject.toml .venv/site.stamp
	$(BIN)/pip install --quiet --disable-pip-version-check --editable '.[test,dev]'
	touch $@

# Chromium, ffmpeg and the PDF tools come from the system's packages, where they may be installed.
.PHONY: browser
browser:
	@sh .ci/install_test_tools.sh

clean:
	rm -rf .venv .build.sitegen
	find build -mindepth 1 ! -name .gitkeep -delete
