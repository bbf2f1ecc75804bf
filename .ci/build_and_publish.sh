#!/bin/sh
# Build and publish a series on any machine that has Python: install, check, build, publish.
# Run it in the folder that holds content/. Neutral on purpose: a scheduled job, a hook of a
# repository or a build service can all call it.
#
#   SITEGEN   what pip installs the program from (default: sitegen)
#   TARGET    a name under publish: in series.yaml; without it the site is only built
#
# Credentials come from the environment of the job, never from this file or the content.
set -eu

python3 -m venv .venv-sitegen
.venv-sitegen/bin/pip install --quiet --disable-pip-version-check "${SITEGEN:-sitegen}"
.venv-sitegen/bin/sitegen check
.venv-sitegen/bin/sitegen build
if [ -n "${TARGET:-}" ]; then
    .venv-sitegen/bin/sitegen publish "$TARGET" --yes
fi
