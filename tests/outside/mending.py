"""Holds what `sansvoir games --export` mends against the games as they were played.

Usage: mending.py BINARY FOLDER SEED

Random games are written with the piece letters of each language and other habits: lines cut after 4 to 12 plies, by
language and all mixed, and whole games with sidelines, comments and glyphs. Each is exported and read by python-chess:
its moves, and what is said of them, must be those that were written, or a fault of ours tells of it. What was exported
is checked again and must be without a note where nothing was lost. FOLDER/mended.jsonl gets a line a game for
exporting.mjs.
"""

import json
import pathlib
import random
import subprocess
import sys

import chess.pgn

from exporting import games, text_of, walk, written
from reading import ours
from writing import grow

# Letters for knight, bishop, rook, queen and king: the PGN standard, 8.2.3.2, and common knowledge beyond it.
LETTERS = {
    "English": "NBRQK", "Czech": "JSVDK", "German": "SLTDK", "Dutch": "PLTDK", "Estonian": "ROVLK",
    "Finnish": "RLTDK", "French": "CFTDR", "Hungarian": "HFBVK", "Icelandic": "RBHDK", "Italian": "CATDR",
    "Polish": "SGWHK", "Portuguese": "CBTDR", "Romanian": "CNTDR", "Turkish": "AFKVŞ", "Russian": "КСЛФк",
    "Bulgarian": "КОТДЦ", "Serbian": "СЛТДК", "Greek": "ΙΑΠΒΡ", "figurines": "♘♗♖♕♔",
}


class Spelled(chess.pgn.StringExporter):
    """Writes moves with other letters, and with what else people write otherwise."""

    def __init__(self, letters, rng):
        super().__init__(columns=None, headers=True, variations=True, comments=True)
        self.letters, self.rng = letters, rng

    def visit_move(self, board, move):
        if board.turn == chess.WHITE:
            self.write_token(f"{board.fullmove_number}.{self.rng.choice(('', ' '))}")
        elif self.force_movenumber:
            self.write_token(f"{board.fullmove_number}... ")
        san = board.san(move)
        if san.startswith("O"):
            san = san.replace("O", self.rng.choice("O0"))
        else:
            san = san.translate(str.maketrans("NBRQK", self.letters)).replace("к", "Кр")
            san = san.replace("x", self.rng.choice(("x", ":"))).replace("+", self.rng.choice(("+", "")))
        self.write_token(san + " ")
        self.force_movenumber = False


def line(rng, plies):
    game = chess.pgn.Game()
    node = game
    for _ in range(plies):
        legal = list(node.board().legal_moves)
        if not legal:
            break
        node = node.add_variation(rng.choice(legal))
    return game


def main():
    binary, folder, seed = sys.argv[1:]
    folder, rng = pathlib.Path(folder), random.Random(int(seed))
    files = {name: [(name, line(rng, rng.randrange(4, 13))) for _ in range(100)] for name in LETTERS}
    files["mixed"] = [(name, line(rng, rng.randrange(4, 13))) for name in LETTERS for _ in range(20)]
    rng.shuffle(files["mixed"])
    whole = []
    for name in LETTERS:
        for _ in range(10):
            game = chess.pgn.Game()
            grow(game, rng.randrange(20, 60), 0, rng)
            whole.append((name, game))
    files["whole"] = whole
    same = told = 0
    wrong = []
    with (folder / "mended.jsonl").open("w") as lines:
        for name, played in files.items():
            path, out = folder / f"{name}.pgn", folder / f"mended-{name}.pgn"
            path.write_text("".join(game.accept(Spelled(LETTERS[letters], rng)) + "\n\n" for letters, game in played))
            subprocess.run([binary, "games", path, "--export", out], capture_output=True, check=False)
            found, again, after = ours(binary, path), ours(binary, out), list(games(out))
            if not len(found) == len(again) == len(after) == len(played):
                wrong.append(f"{name}: {len(played)} games written, {len(after)} exported")
                continue
            for n, (letters, game) in enumerate(played):
                lost = any("kept_up_to_here" in fault and fault["kept_up_to_here"] for fault in found[n]["faults"])
                doubtful = any("piece letters are" in fault["reason"] for fault in found[n]["faults"])
                if written(game) == written(after[n]):
                    same += 1
                elif lost or doubtful:
                    told += 1
                else:
                    wrong.append(f"{name}, game {n + 1}, {letters}: {written(game)}\n{written(after[n])}")
                if not lost and again[n]["faults"]:
                    wrong.append(f"{name}, game {n + 1}, exported: {again[n]['faults']}")
                if not lost and all(node.move for node in walk(after[n])):
                    end = after[n].end()
                    row = {"name": f"{name}, game {n + 1}", "pgn": "\n\n".join(text_of(out, n))}
                    row |= {"plies": end.ply(), "final": end.board().fen()}
                    lines.write(json.dumps(row) + "\n")
    for text in wrong:
        print("DIFFERENCE:", text)
    print(f"{same} games mended and read as they were played, {told} told to be lost or in doubt, {len(wrong)} differences")
    if wrong or not same:
        sys.exit(1)


if __name__ == "__main__":
    main()
