"""Holds `sansvoir games --export` against python-chess, and writes the games down for chess.js.

Usage: exporting.py BINARY FOLDER FILE...

Every file is exported into FOLDER and read there by python-chess: game for game it must find what it finds in
the file itself, sidelines, comments, glyphs and the tags of the Seven Tag Roster included, and no error. Games that
either side has a fault with are held by reading.py alone and counted here. FOLDER/exported.jsonl gets a line
a game for exporting.mjs.
"""

import io
import json
import pathlib
import subprocess
import sys

import chess.pgn

from reading import LETTERS, outside, ours

ROSTER = ("Event", "Site", "Date", "Round", "White", "Black")


class Held(chess.pgn.StringExporter):
    """A game as one line, by python-chess's own writer."""

    def __init__(self):
        super().__init__(columns=None, headers=False, variations=True, comments=True)


def written(game):
    def spaced(text):
        return " ".join(text.split())

    for node in [game, *walk(game)]:
        node.comment = spaced(str(node.comment))
        node.starting_comment = spaced(str(node.starting_comment))
    # One fashion for the order of glyphs, which python-chess keeps as a set.
    return spaced(game.accept(Held()))


def walk(game):
    waiting = list(game.variations)
    while waiting:
        node = waiting.pop()
        yield node
        waiting += node.variations


def games(path):
    file = io.StringIO(path.read_text(encoding="utf-8-sig", errors="replace"))
    while (game := chess.pgn.read_game(file)) is not None:
        yield game


def main():
    binary, folder, *paths = sys.argv[1:]
    folder = pathlib.Path(folder)
    same = left_out = 0
    wrong = []
    with (folder / "exported.jsonl").open("w") as lines:
        for path in map(pathlib.Path, paths):
            out = folder / f"exported-{path.name}"
            command = [binary, "games", str(path), "--export", str(out)]
            run = subprocess.run(command, capture_output=True, text=True, check=False)
            if run.returncode not in (0, 1):
                sys.exit(f"{' '.join(command)}: exit code {run.returncode}\n{run.stderr}")
            ours_in = ours(binary, path)
            theirs_in, theirs_out = list(outside(path)), list(outside(out))
            before, after = list(games(path)), list(games(out))
            if not len(ours_in) == len(theirs_out) == len(after) == len(before):
                wrong.append(f"{path}: {len(before)} games, {len(after)} exported")
                continue
            for n, found in enumerate(ours_in):
                name = f"{path}, game {n + 1}"
                known = (path.name, n + 1) in LETTERS
                costly = any(fault["kept_up_to_here"] for fault in found["faults"])
                if costly or theirs_in[n]["variant"] is None or theirs_in[n]["errors"]:
                    left_out += 1
                    continue
                fields = [field for field in theirs_in[n] if field not in ("file", "number")]
                differ = [f for f in fields if theirs_in[n][f] != theirs_out[n][f]]
                tags = [t for t in ROSTER if before[n].headers.get(t, "?") not in ("", after[n].headers[t])]
                if differ or (tags and not known):
                    wrong.append(f"{name}: {differ} {tags}")
                elif not known and written(before[n]) != written(after[n]):
                    wrong.append(f"{name}: annotations\n{written(before[n])}\n{written(after[n])}")
                else:
                    same += 1
                game = after[n]
                if theirs_out[n]["variant"] == "standard" and not any(not m for m in walk_moves(game)):
                    row = {"name": name, "pgn": "\n\n".join(text_of(out, n)), "plies": theirs_out[n]["plies"]}
                    lines.write(json.dumps(row | {"final": theirs_out[n]["final"]}) + "\n")
    for line in wrong:
        print("DIFFERENCE:", line)
    print(f"{same} games exported and read the same, {left_out} with a fault left out, {len(wrong)} differences")
    if wrong or not same:
        sys.exit(1)


def walk_moves(game):
    return [node.move for node in walk(game)]


def text_of(path, number):
    """The text of one game of an export, which has an empty line behind the tags and behind the moves."""
    return path.read_text(encoding="utf-8").split("\n\n")[2 * number : 2 * number + 2]


if __name__ == "__main__":
    main()
