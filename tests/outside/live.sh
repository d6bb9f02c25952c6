#!/usr/bin/env bash
# Holds the truths against python-chess and chess.js on freshly drawn positions, and our reading of
# PGN against python-chess's. Needs python3, node, npm and the network. See README.md.
#   live.sh [SEED]     positions drawn: SANSVOIR_POSITIONS (24000) from two generators
set -euo pipefail
shopt -s nullglob

CHESS=1.11.2
CHESS_JS=1.4.0
seed=${1:-1}
positions=${SANSVOIR_POSITIONS:-24000}
export PYTHONDONTWRITEBYTECODE=1

here=$(cd "$(dirname "$0")" && pwd)
root=$(cd "$here/../.." && pwd)
away=$(mktemp -d)
trap 'rm -rf "$away"' EXIT
python=$away/python/bin/python

step() { printf '\n[%3d s] %s\n' "$SECONDS" "$*"; }

step "chess $CHESS for Python, chess.js $CHESS_JS for Node"
python3 -m venv "$away/python"
"$python" -m pip install --quiet --disable-pip-version-check "chess==$CHESS"
"$python" -m pip download --quiet --disable-pip-version-check --no-deps --no-binary :all: \
    --dest "$away" "chess==$CHESS"
tar -xzf "$away"/chess-*.tar.gz -C "$away"
npm install --silent --no-audit --no-fund --prefix "$away/node" "chess.js@$CHESS_JS"

step "the reasons against themselves and published counts"
"$python" "$here/selfcheck.py"

step "the bare board's table, made again"
"$python" "$here/bare.py" | cmp - "$here/bare.txt"

step "$positions positions, and those of the demo games"
demo=("$root"/games-demo/*.pgn)
half=$((positions / 2))
# Two processes at a time: each draws its positions, then chess.js verifies them.
draw() {
    "$python" "$here/make.py" "$@"
    (cd "$away/node" && node "$here/check.mjs" "${@: -1}") >"${*: -1}.log"
}
draw --seed "$seed" --positions "$half" --games ${demo[@]+"${demo[@]}"} --out "$away/1.jsonl" &
first=$!
draw --seed "$((seed + 1000000))" --positions "$half" --out "$away/2.jsonl"
wait "$first"
cat "$away"/[12].jsonl.log
cat "$away"/[12].jsonl >"$away/positions.jsonl"
rm "$away"/[12].jsonl

step "our truths"
cd "$root"
SANSVOIR_OUTSIDE=$away/positions.jsonl cargo test --test truths outside:: -- --nocapture

step "our reading of PGN"
cargo build --release --quiet
sansvoir=${CARGO_TARGET_DIR:-target}/release/sansvoir
"$python" "$here/writing.py" --seed "$seed" --games 500 --out "$away/written.pgn"
"$python" "$here/reading.py" "$sansvoir" ${demo[@]+"${demo[@]}"} "$away/written.pgn" \
    "$away/chess-$CHESS"/data/pgn/*.pgn "$away"/node/node_modules/chess.js/benchmarks/*.pgn

step "our reading of a made-up collection"
cargo test --quiet --bench collections -- --write "$away/made-up.pgn" 12
"$python" "$here/made_up.py" --show "$away/made-up.pgn" 300 | cmp - "$here/made_up.txt"
"$python" "$here/made_up.py" "$sansvoir" "$away/made-up.pgn"

step "our export of PGN"
"$python" "$here/exporting.py" "$sansvoir" "$away" ${demo[@]+"${demo[@]}"} "$away/written.pgn" \
    "$away/chess-$CHESS"/data/pgn/*.pgn
(cd "$away/node" && node "$here/exporting.mjs" "$away/exported.jsonl")

step "our reading of what packages carry"
mkdir "$away/packages"
for package in "@mliebelt/pgn-parser@1.4.19" "cm-pgn@5.0.0" "kokopu@4.13.4"; do
    packed=$(cd "$away" && npm pack --silent "$package")
    folder=${packed%.tgz}
    tar -xzf "$away/$packed" -C "$away/packages" --transform "s,^package,$folder,"
done
crate=$(cargo metadata --format-version 1 --locked | "$python" -c '
import json, pathlib, sys
found = [p for p in json.load(sys.stdin)["packages"] if p["name"] == "pgn-reader"]
print(pathlib.Path(found[0]["manifest_path"]).parent)')
ln -s "$crate" "$away/chess-$CHESS" "$away/packages"
ln -s "$away/node/node_modules/chess.js" "$away/packages/chess.js-$CHESS_JS"
"$python" "$here/packages.py" "$sansvoir" "$away/node" "$away/packages"/*

step "what our export mends"
"$python" "$here/mending.py" "$sansvoir" "$away" "$seed"
(cd "$away/node" && node "$here/exporting.mjs" "$away/mended.jsonl")

step "games of the opponent, and how they end"
engine=$(PATH=$PATH:/usr/games command -v stockfish) || echo "stockfish is not installed: no game against an engine"
cargo bench --quiet --bench opponents --no-run
SANSVOIR_GAMES=1000 SANSVOIR_SEED=$seed SANSVOIR_ENGINE=$engine \
    cargo bench --quiet --bench opponents -- --write "$away/games.jsonl"
"$python" "$here/ends.py" "$away/games.jsonl"
"$python" "$here/playing.py" "$sansvoir" 40 "$seed"

step "what a learner's answers come to"
"$python" "$here/progress.py" "$sansvoir" "$away" "$seed"
"$python" "$here/journal.py" "$root/tests/journal/ilse.jsonl"

step "what pages allow themselves"
"$python" "$here/policy.py" "$sansvoir" "$away"

step "everything agrees"
