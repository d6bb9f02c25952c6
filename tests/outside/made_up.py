"""Reads a large collection with python-chess and holds `sansvoir games` against it, game for game.

Usage: made_up.py BINARY FILE [EVERY]   compare, exit code 1 when a game is read otherwise
       made_up.py --show FILE GAMES     print the table that `cargo test --test pgn made_up` reads

The tags of every game must be the same, all of them and in their order; of every EVERY-th game (1), so
must the plies of the main line, the number of sidelines, the result and the final position. The listing
must name the same players, date and result for every game. Games go by one at a time, so that the
size of the file does not matter.
"""

import itertools
import json
import logging
import subprocess
import sys

import chess
import chess.pgn

# The columns of the table.
SHOWN = ("White", "Black", "Date", "Result")


class Told(chess.pgn.BaseVisitor):
    """The tags of a game, and what came of its moves where they are `wanted`."""

    def __init__(self, wanted):
        self.wanted = wanted
        self.tags = {}
        self.plies = self.depth = self.sidelines = 0
        self.board = None
        self.ended = None

    def visit_header(self, tagname, tagvalue):
        self.tags.setdefault(tagname, tagvalue)

    def end_headers(self):
        return None if self.wanted else chess.pgn.SKIP

    def visit_board(self, board):
        # The first board is the main line's, and stays it.
        self.board = self.board or board

    def visit_move(self, board, move):
        self.plies += self.depth == 0

    def begin_variation(self):
        self.depth += 1
        self.sidelines += 1

    def end_variation(self):
        self.depth -= 1

    def visit_result(self, result):
        self.ended = result

    def result(self):
        told = {"tags": list(self.tags.items())}
        if self.wanted:
            told["plies"] = self.plies
            told["sidelines"] = self.sidelines
            told["result"] = self.ended
            told["final"] = self.board.fen()
        return told


def outside(path, every):
    """What python-chess reads: of every `every`-th game its moves too."""
    logging.getLogger("chess.pgn").setLevel(logging.CRITICAL)
    with open(path, encoding="utf-8") as file:
        for number in itertools.count(1):
            told = chess.pgn.read_game(file, Visitor=lambda: Told(number % every == 0))
            if told is None:
                return
            yield number, told


def lines(binary, path, *options):
    """What our program writes about each game."""
    command = [binary, "games", path, *options]
    with subprocess.Popen(command, stdout=subprocess.PIPE, encoding="utf-8") as run:
        yield from run.stdout
    if run.returncode:
        sys.exit(f"{' '.join(command)}: exit code {run.returncode}")


def differences(number, told, entry, listed):
    entry["tags"] = list(entry["tags"].items())
    for field, theirs in {"number": number, **told}.items():
        if theirs != entry[field]:
            yield f"{field} {theirs} outside, ours {entry[field]}"
    # The results are made up too.
    faults = [fault for fault in entry["faults"] if "the last position ends the game" not in fault["reason"]]
    if faults:
        yield f"our faults {faults}"
    tags = dict(told["tags"])
    players = f"{tags['White']} - {tags['Black']}"
    found = listed.split(maxsplit=1)
    if found[0] != str(number) or any(
        part not in listed for part in (players, tags["Date"], tags["Result"])
    ):
        yield f"listed as {listed.strip()!r}"


def compare(binary, path, every):
    games = moved = plies = sidelines = wrong = 0
    ours = zip(
        lines(binary, path, "--format", "json"), lines(binary, path), strict=True
    )
    for theirs, found in itertools.zip_longest(outside(path, every), ours):
        if theirs is None or found is None:
            sys.exit(f"{path}: after game {games} one side reads more games than the other")
        (number, told), (line, listed) = theirs, found
        games += 1
        moved += "final" in told
        plies += told.get("plies", 0)
        sidelines += told.get("sidelines", 0)
        for difference in differences(number, told, json.loads(line), listed):
            wrong += 1
            print(f"DIFFERENCE: {path}, game {number}: {difference}")
    print(
        f"{games} games with the same tags; the moves of {moved} of them, {plies} plies and "
        f"{sidelines} sidelines, to the same final positions; {wrong} differences"
    )
    if wrong or not moved:
        sys.exit(1)


def show(path, games):
    for _, told in itertools.islice(outside(path, 1), games):
        tags = dict(told["tags"])
        fields = [tags[name] for name in SHOWN] + [told[key] for key in ("plies", "sidelines", "final")]
        print("\t".join(map(str, fields)))


def main():
    if sys.argv[1] == "--show":
        show(sys.argv[2], int(sys.argv[3]))
    else:
        binary, path, *every = sys.argv[1:]
        compare(binary, path, int(every[0]) if every else 1)


if __name__ == "__main__":
    main()
