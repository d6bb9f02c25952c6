"""Holds the reading of FEN and EPD files against python-chess, which writes them.

Usage: epd.py BINARY FOLDER SEED

Draws 400 positions by random play, from the usual array and from others, and writes half of them as FEN and half as EPD
with opcodes: `id`, `bm`, `dm`, `hmvc`, `fmvn`, `c0` with a semicolon, and `acd`. `games --format json` must tell the same
positions, names and operands, each on its line.
"""

import json
import pathlib
import random
import subprocess
import sys

import chess


def main():
    binary, folder, seed = sys.argv[1:]
    dice = random.Random(int(seed))
    folder = pathlib.Path(folder)
    lines, wanted = {"fen": ["# positions", ""], "epd": ["", "# positions"]}, {"fen": [], "epd": []}
    for number in range(400):
        board = chess.Board()
        for _ in range(dice.randrange(1, 120)):
            if board.is_game_over():
                break
            board.push(dice.choice(list(board.legal_moves)))
        if board.is_game_over() or not board.move_stack:
            continue
        kind = "epd" if number % 2 else "fen"
        tags = {}
        if kind == "fen":
            lines[kind].append(board.fen(en_passant="legal"))
        else:
            best = dice.choice(list(board.legal_moves))
            operations = {"bm": [best], "acd": 12, "hmvc": board.halfmove_clock, "fmvn": board.fullmove_number}
            operations |= {"id": f"No. {number}; mine", "c0": "one; two"}
            tags = {"Event": operations["id"], "bm": board.san(best), "c0": operations["c0"], "acd": "12"}
            if number % 3 == 0:
                operations["dm"] = 3
                tags["dm"] = "3"
            lines[kind].append(board.epd(en_passant="legal", **operations))
            again, told = chess.Board.from_epd(lines[kind][-1])
            assert again.fen(en_passant="legal") == board.fen(en_passant="legal") and told["id"] == operations["id"]
        wanted[kind].append((len(lines[kind]), board.fen(en_passant="legal"), tags))
    count = 0
    for kind, positions in wanted.items():
        file = folder / f"positions.{kind}"
        file.write_text("\n".join(lines[kind]) + "\n")
        command = [binary, "games", file, "--format", "json"]
        said = subprocess.run(command, check=True, capture_output=True, encoding="utf-8").stdout
        found = [json.loads(line) for line in said.splitlines()]
        assert len(found) == len(positions), (len(found), len(positions))
        for game, (line, fen, tags) in zip(found, positions):
            assert (game["line"], game["start"], game["plies"]) == (line, fen, 0), (game, line, fen)
            for name, value in tags.items():
                assert game["tags"].get(name) == value, (name, value, game["tags"])
            count += 1
    print(f"{count} positions in FEN and EPD agree")


main()
