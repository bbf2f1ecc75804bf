#!/bin/sh
# Make sure that the programs which the tests drive are there: a browser, ffmpeg, PDF tools.
# Installs them with apt-get where that is allowed; otherwise says in one line what to install.
set -eu

missing=""
command -v chromium-headless-shell >/dev/null 2>&1 || command -v chromium >/dev/null 2>&1 \
    || command -v chromium-browser >/dev/null 2>&1 || command -v google-chrome >/dev/null 2>&1 \
    || missing="$missing chromium-headless-shell"
command -v ffprobe >/dev/null 2>&1 || missing="$missing ffmpeg"
command -v pdftoppm >/dev/null 2>&1 || missing="$missing poppler-utils"
[ -z "$missing" ] && exit 0

if command -v apt-get >/dev/null 2>&1 && [ "$(id -u)" = 0 ]; then
    echo "installing$missing"
    apt-get update -qq
    apt-cache show chromium-headless-shell >/dev/null 2>&1 || missing=$(echo "$missing" | sed s/-headless-shell//)
    DEBIAN_FRONTEND=noninteractive apt-get install -y -qq $missing >/dev/null
else
    echo "The tests need$missing: install them with your system's package manager, then run make test again." >&2
    exit 1
fi
