#!/usr/bin/env bash
# Replies by mouth against a synthesizer and a recognizer from outside: see hearing.py. Where flite is not there
# and cannot be installed, that is said and nothing is measured.
#   hearing.sh [REPLIES [SEED]]
set -euo pipefail
cd "$(dirname "$0")/../.."

if ! command -v flite >/dev/null; then
    if ! { apt-get update && apt-get install -y flite; } >/dev/null 2>&1; then
        echo "NOT MEASURED: flite is not here and cannot be installed"
        exit 0
    fi
fi

away=$(mktemp -d)
trap 'rm -rf "$away"' EXIT
python3 -m venv "$away/python"
"$away/python/bin/python" -m pip install --quiet --disable-pip-version-check \
    "pocketsphinx==5.1.1" numpy pyjsgf
PYTHONDONTWRITEBYTECODE=1 "$away/python/bin/python" tests/outside/hearing.py \
    "${CARGO_TARGET_DIR:-target}/debug/sansvoir" src/voice/handbook/by-ear.md "$@"
