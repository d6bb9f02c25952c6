"""Holds the list of reasons against itself and against published counts.

A move is legal where no reason forbids it. Counted so, without asking the library for its legal
moves, the sequences of moves must be as many as perft.txt says; and on every tricky start the moves
without a reason must be the library's legal moves, one by one.
"""

import copy
import pathlib

import chess

import legality
from games import TRICKY
from line import Line
from reason import reason


def unforbidden(line):
    for start in chess.scan_forward(line.board.occupied_co[line.board.turn]):
        for to in chess.SQUARES:
            for promotion in legality.PROMOTIONS:
                if reason(line, start, to, promotion) is None:
                    yield chess.Move(start, to, promotion)


def sequences(line, depth):
    moves = list(unforbidden(line))
    if depth == 1:
        return len(moves)
    total = 0
    for move in moves:
        after = copy.deepcopy(line)
        after.push(move)
        total += sequences(after, depth - 1)
    return total


def main():
    rows = pathlib.Path(__file__).with_name("perft.txt").read_text().splitlines()
    rows = [row for row in rows if not row.startswith("#")]
    counted = 0
    for row in rows:
        variant, fen, depth, nodes, source = (part.strip() for part in row.split("|"))
        found = sequences(Line(fen, variant == "chess960"), int(depth))
        assert found == int(nodes), f"{source}: {found} sequences, published are {nodes}"
        counted += found
    for variant, fen in TRICKY:
        line = Line(fen, variant == "chess960")
        told = legality.every(line)
        legal = [moves.split(" ") for name, _, moves in told if name == "legal"]
        # A legal promotion is written once for its four pieces.
        count = sum(4 if move.endswith("+") else 1 for moves in legal for move in moves)
        assert count == line.board.legal_moves.count(), fen
    print(f"{len(rows)} published counts met ({counted} sequences), {len(TRICKY)} starts agree")


if __name__ == "__main__":
    main()
