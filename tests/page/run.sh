#!/usr/bin/env bash
# Tries the page in a real browser: installs Chromium (Debian) and the test libraries (npm) where
# they are missing, then runs every test here against target/release/brimful, or $BRIMFUL.
set -euo pipefail
cd "$(dirname "$0")"
if ! command -v chromium > /dev/null; then
    as_root=$([ "$(id -u)" = 0 ] || echo sudo)
    $as_root apt-get update -qq
    $as_root apt-get install -y -qq chromium > /dev/null
fi
npm ci --silent --no-audit --no-fund
node --test --test-reporter=spec .
