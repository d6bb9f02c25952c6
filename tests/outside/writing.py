"""Writes random games as PGN with python-chess: nested sidelines, comments, glyphs, Chess960 and
positions set up, so that a second writer's PGN can be read by us. See README.md."""

import argparse
import random

import chess.pgn

from games import random_start

REMARKS = (
    "a plan (so far)",
    "see 12. e4 e5 0-1",
    "quiet; then the center",
    '[Event "not a tag"]',
    "½ and é, ♞",
    "%clk [%clk 0:05:00]",
)


def annotate(node, rng):
    if rng.random() < 0.1:
        node.comment = rng.choice(REMARKS)
    if rng.random() < 0.1:
        node.nags.add(rng.randrange(1, 140))


def grow(node, length, depth, rng):
    """Plays on from a node, and here and there another move in its place."""
    for _ in range(length):
        legal = list(node.board().legal_moves)
        if not legal:
            return
        rng.shuffle(legal)
        # The main move goes first: python-chess writes the first variation as the line itself.
        main = node.add_variation(legal[0])
        for other in legal[1:3]:
            if rng.random() < 0.08 and depth < 4:
                side = node.add_variation(other)
                if rng.random() < 0.2:
                    side.starting_comment = rng.choice(REMARKS)
                annotate(side, rng)
                grow(side, rng.randrange(8), depth + 1, rng)
        annotate(main, rng)
        node = main


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--games", type=int, default=100)
    parser.add_argument("--out", required=True)
    options = parser.parse_args()
    rng = random.Random(options.seed)
    with open(options.out, "w", encoding="utf-8") as out:
        for number in range(options.games):
            start, longest = random_start(rng)
            game = chess.pgn.Game({"Event": f"Random game {number + 1}"})
            game.setup(start.start)
            grow(game, rng.randrange(longest), 0, rng)
            columns = rng.choice((None, 40, 80))
            print(game.accept(chess.pgn.StringExporter(columns=columns)), end="\n\n", file=out)


if __name__ == "__main__":
    main()
