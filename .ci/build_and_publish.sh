#!/bin/sh
# Build and publish a series on a machine that nobody sits at: install, check, build, publish.
#
#   sh build_and_publish.sh
#
# Run it in the folder that holds content/. Neutral on purpose: a scheduled job, a hook of a
# repository or a build service can all call it; nothing but Python 3.11 or newer has to be there
# (and git, for a git target). From the environment of the job:
#
#   TARGET          a name under publish: in series.yaml; not needed where there is one only
#   SITEGEN         what pip installs (sitegen); with the extra of the target: sitegen[publish-s3]
#   SITEGEN_LOCK    its requirements.lock: libraries of these versions and hashes only, whatever the registry has
#   PYTHON          the Python to make the virtual environment with (python3)
#   SITEGEN_VENV    where the virtual environment is (.venv-sitegen); used as it is if sitegen is in it
#   BUILD_FLAGS     more options for the build and the publication, such as --pages-only
#   PUBLISH_FLAGS   more options for the publication, such as --take-over after a run was cut off
#
# and the credentials of the target (README.md of sitegen/publish): keep them in the job's own
# secrets, never in this file or in the content.
set -eu

venv=${SITEGEN_VENV:-.venv-sitegen}
sitegen="$venv/bin/sitegen"

if [ ! -x "$sitegen" ]; then
    echo "== install"
    "${PYTHON:-python3}" -m venv "$venv"
    install="$venv/bin/python -m pip install --quiet --disable-pip-version-check"
    if [ -n "${SITEGEN_LOCK:-}" ]; then
        $install --require-hashes --requirement "$SITEGEN_LOCK"
        $install --no-deps "${SITEGEN:-sitegen}"
    else
        $install "${SITEGEN:-sitegen}"
    fi
fi

echo "== check"
"$sitegen" check

echo "== build"
# shellcheck disable=SC2086 # several options are several words
"$sitegen" build ${BUILD_FLAGS:-}

echo "== publish"
# shellcheck disable=SC2086
"$sitegen" publish ${TARGET:+"$TARGET"} --yes ${BUILD_FLAGS:-} ${PUBLISH_FLAGS:-}
