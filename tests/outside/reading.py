"""Reads PGN files with python-chess and holds `sansvoir games --format json` against it.

Usage: reading.py BINARY FILE...      compare, exit code 1 when a game is read otherwise
       reading.py --show FILE...      only print what python-chess reads, one JSON object a game

Game for game, the variant, the first and the final position, the number of plies of the main line and
the number of sidelines must be the same. A game of another variant than standard and Chess960, or one that
the library gives up, must have a fault of ours. Where the library reads what we refuse, KNOWN says
why. Each of these is printed.
"""

import io
import json
import logging
import pathlib
import re
import subprocess
import sys

import chess
import chess.pgn

FIELDS = ("variant", "start", "plies", "sidelines", "final")
# Demo games in spellings that the library cannot read: their piece letters in standard order.
LETTERS = {("dialects.pgn", 2): "KDTLS", ("dialects.pgn", 3): "♔♕♖♗♘"}
KNOWN = {("anastasian-lewis.pgn", 1): "a null move on the main line"}
OURS = {"chess": "standard", "chess960": "chess960"}


def outside(path):
    """What python-chess makes of each game of a file."""
    logging.getLogger("chess.pgn").setLevel(logging.CRITICAL)
    text = path.read_text(encoding="utf-8-sig", errors="replace")
    file, number, begin = io.StringIO(text), 0, 0
    while (game := chess.pgn.read_game(file)) is not None:
        number += 1
        if letters := LETTERS.get((path.name, number)):
            respelled = in_english(text[begin : file.tell()], letters)
            game = chess.pgn.read_game(io.StringIO(respelled))
        yield {"file": str(path), "number": number, **told(game)}
        begin = file.tell()


def in_english(text, letters):
    """Puts the moves, but not the tags, into English piece letters."""
    table = str.maketrans(letters, "KQRBN")
    moves = re.compile(rf"(?<![\w♔-♙])[{letters}](?=[a-h1-8x])|=[{letters}]")
    lines = text.splitlines(keepends=True)
    return "".join(
        line if line.startswith("[") else moves.sub(lambda word: word[0].translate(table), line)
        for line in lines
    )


def told(game):
    try:
        start = game.board()
    except ValueError as error:
        return {"variant": None, "errors": [str(error)]}
    end = game.end()
    variant = "chess960" if start.chess960 else OURS.get(type(start).uci_variant)
    return {
        "variant": variant,
        "start": start.fen(),
        "plies": end.ply() - game.ply(),
        "sidelines": sidelines(game),
        "final": end.board().fen(),
        "errors": [str(error) for error in game.errors],
    }


def sidelines(game):
    count, waiting = 0, [game]
    while waiting:
        node = waiting.pop()
        count += max(0, len(node.variations) - 1)
        waiting += node.variations
    return count


def ours(binary, path):
    """What our reader makes of each game of a file."""
    command = [binary, "games", "--format", "json", "--game", "all", str(path)]
    run = subprocess.run(command, capture_output=True, text=True, check=False)
    if run.returncode not in (0, 1):
        sys.exit(f"{' '.join(command)}: exit code {run.returncode}\n{run.stderr}")
    return [json.loads(line) for line in run.stdout.splitlines()]


def difference(theirs, found):
    """None where both read the same; else a sentence and whether it is a fault that we point out."""
    # A fault that cost no move is a remark and excuses nothing.
    faults = [fault for fault in found["faults"] if fault["kept_up_to_here"]]
    reasons = "; ".join(str(fault["reason"]) for fault in faults)
    if theirs["variant"] is None:
        return (f"refused: {reasons}", True) if faults else ("another variant, no fault", False)
    # A fault that cost no move is a remark, so it alone tells nothing apart.
    same = all(theirs[field] == found.get(field) for field in FIELDS)
    if same and not theirs["errors"]:
        return None
    name = pathlib.Path(theirs["file"]).name, theirs["number"]
    if faults and (theirs["errors"] or name in KNOWN):
        return f"{KNOWN.get(name, theirs['errors'])}; ours: {reasons}", True
    pairs = [f"{field} {theirs[field]} outside, ours {found.get(field)}" for field in FIELDS]
    return f"{'; '.join(pairs)}; errors outside {theirs['errors']}; ours {reasons}", False


def compare(binary, paths):
    same = pointed_out = wrong = 0
    for path in paths:
        theirs, found = list(outside(path)), ours(binary, path)
        if len(theirs) != len(found):
            wrong += 1
            print(f"{path}: {len(theirs)} games outside, ours {len(found)}")
        for one, other in zip(theirs, found):
            told_apart = difference(one, other)
            if told_apart is None:
                same += 1
                continue
            sentence, fault = told_apart
            pointed_out += fault
            wrong += not fault
            print(f"{'fault' if fault else 'DIFFERENCE'}: {path}, game {one['number']}: {sentence}")
    print(f"{same} games read the same, {pointed_out} with a fault of ours, {wrong} differences")
    if wrong or not same:
        sys.exit(1)


def main():
    first, *paths = sys.argv[1:]
    paths = [pathlib.Path(path) for path in paths]
    if first != "--show":
        compare(first, paths)
        return
    for path in paths:
        for game in outside(path):
            print(json.dumps(game))


if __name__ == "__main__":
    main()
