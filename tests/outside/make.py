"""Writes positions and the truths about them, one JSON object a line. See README.md."""

import argparse
import itertools
import json
import random
import sys

import legality
import truth
from games import main_line, pgn_games, random_game


def record(line, rng, kinds, whole):
    row = {
        "variant": line.variant,
        "start": line.start.fen(),
        "moves": line.moves,
        "position": line.board.fen(),
        "truths": [],
    }
    for kind in kinds:
        if kind == "legality":
            row["truths"] += legality.some(line, rng, line.moves[-12:])
            continue
        ask = truth.BY_NAME[kind]
        found = list(ask(line))
        most = truth.MOST.get(ask, len(found)) if whole else truth.KINDS[ask]
        if most < len(found):
            found = rng.sample(found, most)
        row["truths"] += found
    if whole and "legality" in kinds:
        row["every"] = legality.every(line)
    return row


def lines(options, rng):
    for path in options.games:
        for game in pgn_games(path):
            yield from main_line(game, rng, 0.2 * options.share)
    while True:
        yield from random_game(rng, options.share)


def worth_keeping(line, rng, rich):
    return not rich or legality.has_rare_reason(line) or rng.random() < 0.25


def arguments():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--positions", type=int, default=100, help="how many to write")
    parser.add_argument("--games", nargs="*", default=[], help="PGN files, read before random play")
    parser.add_argument("--share", type=float, default=1.0, help="fewer positions a game below 1")
    parser.add_argument("--rich", action="store_true", help="prefer positions with rare reasons")
    parser.add_argument("--kinds", default=truth.USUAL, help="by comma, or 'all'")
    parser.add_argument("--whole", type=int, default=100, help="ask everything in one of so many")
    parser.add_argument("--out", default="-")
    return parser.parse_args()


def main():
    options = arguments()
    kinds = options.kinds.split(",")
    if kinds == ["all"]:
        kinds = ["legality", *truth.BY_NAME]
    rng = random.Random(options.seed)
    out = sys.stdout if options.out == "-" else open(options.out, "w", encoding="utf-8")
    with out:
        chosen = (line for line in lines(options, rng) if worth_keeping(line, rng, options.rich))
        for count, line in enumerate(itertools.islice(chosen, options.positions)):
            row = record(line, rng, kinds, count % options.whole == 0)
            out.write(json.dumps(row, separators=(",", ":")) + "\n")


if __name__ == "__main__":
    main()
