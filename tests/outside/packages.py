"""Holds what `sansvoir games` reads in every PGN file of some packages against python-chess and chess.js.

Usage: packages.py BINARY NODE FOLDER...          compare with packages.tsv, exit code 1 where that fails
       packages.py --show BINARY NODE FOLDER...   print the rows that differ, without their last column

FOLDER is a package that was unpacked, NODE a folder with chess.js in its node_modules. Each game is cut out of its
file by the lines that we say it begins on, and all three read it: its plies and its last position must be the same, or
all must give it up. Where one differs, packages.tsv says why; a row that has become needless is an error too, so
that the table says what holds. Row 0 of a file tells how many games are counted in it where those differ.
"""

import io
import json
import logging
import pathlib
import re
import subprocess
import sys

import chess.pgn

from reading import OURS, ours

TABLE = pathlib.Path(__file__).with_name("packages.tsv")
CLASSES = {
    "blank": "python-chess ends a game at a blank line among its moves; by the standard that ends none",
    "strict": "chess.js gives up, as at Chess960, a null move of a sideline, a bare king or a tag at fault; the other two agree",
    "null": "a null move on the main line, which we refuse and tell",
    "crash": "python-chess gives up a text that the other reads as we do",
    "broken": "at fault in itself: we keep what stands before the fault and tell it, another reads on or gives up",
    "mended": "at fault in itself: we read what is meant and tell it, the others otherwise",
}


def slices(path, found):
    """The text of each game, by the line on which it begins."""
    text = path.read_bytes().decode("utf-8-sig", errors="replace")
    lines = re.split(r"(?<=\n)|(?<=\r)(?!\n)", text)
    begins = [game["line"] - 1 for game in found] + [len(lines)]
    return text, ["".join(lines[a:b]) for a, b in zip(begins, begins[1:])]


def theirs(text):
    """What python-chess reads: games, plies and the last position of the first."""
    file, games = io.StringIO(text.replace("\r\n", "\n").replace("\r", "\n")), []
    try:
        while (game := chess.pgn.read_game(file)) is not None:
            games.append(game)
        start, end = games[0].board(), games[0].end()
    except (ValueError, IndexError) as error:
        return len(games), f"error {type(error).__name__}"
    if OURS.get(type(start).uci_variant) is None:
        return len(games), "error variant"
    reading = f"{end.ply() - games[0].ply()} {end.board().fen().split()[0]}"
    return len(games), reading if len(games) == 1 else f"{reading}, and {len(games) - 1} games more"


def rows(binary, node, folders):
    logging.getLogger("chess.pgn").setLevel(logging.CRITICAL)
    games, told = 0, []
    asked = []
    for folder in map(pathlib.Path, folders):
        for path in sorted(p for p in folder.rglob("*") if p.suffix.lower() == ".pgn"):
            name = f"{folder.name}/{path.relative_to(folder)}"
            found = ours(binary, path) if path.stat().st_size else []
            text, parts = slices(path, found)
            # Of a large file each game is looked at alone.
            count = theirs(text)[0] if len(text) < 100_000 else len(found)
            if count != len(found):
                told.append((name, 0, str(len(found)), str(count), ""))
            for n, (game, part) in enumerate(zip(found, parts), 1):
                lost = any(fault["kept_up_to_here"] for fault in game["faults"])
                reading = f"{game['plies']} {game['final'].split()[0]}"
                asked.append((name, n, reading, lost, theirs(part)[1], part))
    answers = subprocess.run(
        ["node", str(TABLE.with_name("packages.mjs"))], cwd=node, text=True, check=True, capture_output=True,
        input=json.dumps([part for *_, part in asked])).stdout
    for (name, n, reading, lost, other, _), third in zip(asked, json.loads(answers)):
        games += 1
        if any(one != reading and not (lost and one.startswith("error")) for one in (other, third)):
            cut = [one.split(" ")[0] + one[one.find(", and") :] * (", and" in one) for one in (reading, other, third)]
            # The plies alone, and a mark where the position differs all the same.
            marks = ["!" if lost else "", *("*" if a == cut[0] and b != reading else "" for a, b in zip(cut[1:], (other, third)))]
            told.append((name, n, *(a + b for a, b in zip(cut, marks))))
    return games, told


def main():
    show = sys.argv[1] == "--show"
    binary, node, *folders = sys.argv[1 + show :]
    games, told = rows(binary, node, folders)
    if show:
        for row in told:
            print(*row, sep="\t")
        return
    lines = [line.split("\t") for line in TABLE.read_text().splitlines() if line and not line.startswith("#")]
    known = {tuple(line[:-1]): line[-1] for line in lines}
    found = {tuple(map(str, row)) for row in told}
    wrong = [f"not in the table: {row}" for row in sorted(found - known.keys())]
    wrong += [f"in the table alone: {row}" for row in sorted(known.keys() - found)]
    wrong += [f"no such class: {why}" for why in set(known.values()) - CLASSES.keys()]
    for line in wrong:
        print("DIFFERENCE:", line)
    same = games - sum(row[1] != "0" for row in found)
    print(f"{games} games of packages, {same} read the same by all three, the others as the table says")
    if wrong or not games:
        sys.exit(1)


if __name__ == "__main__":
    main()
