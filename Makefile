# Two commands: `make site` compiles the demo series, `make test` checks everything.
# Each makes the virtual environment .venv and installs what it needs.

PYTHON ?= python3
BIN := .venv/bin

.PHONY: site test thorough lint bench clean

site: .venv/site.stamp
	$(BIN)/sitegen build

# Four workers for two cores: while one waits for a browser or the disk, another works.
test: .venv/test.stamp browser
	$(BIN)/python -m pytest -n 4 --dist worksteal

# Before a release, or at night: the large counts and exhaustive audits as well (the mark `thorough`).
thorough: .venv/test.stamp browser
	$(BIN)/python -m pytest -n 4 --dist worksteal -m 'not engines' --hypothesis-profile=thorough

# Style and types; what continuous integration asks first, for it is quickest.
lint: .venv/test.stamp
	$(BIN)/ruff check sitegen tests
	$(BIN)/ruff format --check sitegen tests
	$(BIN)/mypy

bench: .venv/test.stamp
	$(BIN)/python -m tests.bench

# The libraries are the very ones that were tried: versions and hashes are in the two lock files.
INSTALL := $(BIN)/pip install --quiet --disable-pip-version-check

.venv/site.stamp: pyproject.toml requirements.lock
	$(PYTHON) -m venv .venv
	$(INSTALL) --require-hashes --requirement requirements.lock
	$(INSTALL) --no-deps --editable .
	touch $@

.venv/test.stamp: tests/requirements.lock .venv/site.stamp
	$(INSTALL) --require-hashes --requirement tests/requirements.lock
	touch $@

# After a change of pyproject.toml, or to take newer versions: make lock UV='uvx uv' (or wherever uv is).
UV ?= uv
LOCK := $(UV) pip compile pyproject.toml --universal --generate-hashes --no-header --upgrade --quiet
.PHONY: lock
lock:
	$(LOCK) --extra test --extra dev --output-file tests/requirements.lock
	sed -n 's/^\([A-Za-z0-9._-]*==[^ ]*\).*/\1/p' tests/requirements.lock > .venv/versions.txt
	$(LOCK) --extra publish-sftp --extra publish-s3 --extra publish-brotli \
	    --constraint .venv/versions.txt --output-file requirements.lock

# Chromium, ffmpeg and the PDF tools come from the system's packages, where they may be installed.
.PHONY: browser
browser:
	@sh .ci/install_test_tools.sh

clean:
	rm -rf .venv .build.sitegen
	find build -mindepth 1 ! -name .gitkeep -delete
