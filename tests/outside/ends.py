"""Holds games of the opponent against python-chess: every move legal, and every end the one that it names.

    python ends.py GAMES.jsonl      a game a line, as `cargo bench --bench opponents -- --write` makes them
"""

import json
import sys
from collections import Counter

import chess


class Game:
    """A game as python-chess plays it, with how often each position has come up."""

    def __init__(self, game):
        self.board = chess.Board(game["start"], chess960=game["chess960"])
        self.seen = Counter()
        self.note()

    def note(self):
        self.seen[self.board._transposition_key()] += 1

    def times(self):
        return self.seen[self.board._transposition_key()]

    def play(self, text):
        move = chess.Move.from_uci(text)
        assert self.board.is_legal(move), f"{text} is illegal in {self.board.fen()}"
        self.board.push(move)
        self.note()

    def by_itself(self):
        """The ends that come by themselves, in the order of the Laws' precedence: mate before all."""
        board = self.board
        if board.is_checkmate():
            return "Checkmate"
        if board.is_stalemate():
            return "Stalemate"
        if board.is_insufficient_material():
            return "DeadPosition"
        if self.times() >= 5:
            return "Fivefold"
        return "SeventyFiveMoves" if board.is_seventyfive_moves() else None

    def by_claim(self):
        if self.times() >= 3:
            return "Threefold"
        return "FiftyMoves" if self.board.is_fifty_moves() else None

    def end(self, claims):
        return self.by_itself() or (self.by_claim() if claims else None)

    def result(self, end):
        if end is None:
            return None
        if end == "Checkmate":
            return "0-1" if self.board.turn == chess.WHITE else "1-0"
        return "1/2-1/2"


def check(game):
    played = Game(game)
    for text in game["moves"]:
        end = played.end(game["claims"])
        assert end is None, f"it goes on after {end} in {played.board.fen()}"
        played.play(text)
    end = played.end(game["claims"])
    assert end == game["end"], f"{game['end']} is {end} in {played.board.fen()}"
    assert played.result(end) == game["result"], f"{game['result']} after {end}"
    # The library's own count of repetitions, where it matters.
    if end in ("Threefold", "Fivefold"):
        assert played.board.is_repetition(3 if end == "Threefold" else 5)
    return end


def main(path):
    ends = Counter()
    plies = 0
    with open(path, encoding="utf-8") as lines:
        for number, line in enumerate(lines, 1):
            game = json.loads(line)
            try:
                ends[check(game)] += 1
            except AssertionError as error:
                sys.exit(f"game {number}: {error}")
            plies += len(game["moves"])
    told = ", ".join(f"{end or 'unfinished'} {count}" for end, count in ends.most_common())
    print(f"{sum(ends.values())} games, {plies} plies: {told}")
    wanted = ["Checkmate", "Stalemate", "DeadPosition", "Fivefold", "SeventyFiveMoves", "Threefold", "FiftyMoves"]
    missing = [end for end in wanted if not ends[end]]
    assert not missing, f"no game ended so: {missing}"


if __name__ == "__main__":
    main(sys.argv[1])
