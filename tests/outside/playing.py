"""Plays games through `sansvoir play` as a learner who moves by chance, and holds them against python-chess: every
move of the journal legal, the end the one that it names, the kept PGN the same game.

    python playing.py PROGRAM GAMES SEED
"""

import json
import os
import pathlib
import random
import subprocess
import sys
import tempfile

import chess
import chess.pgn

program, games, dice = sys.argv[1], int(sys.argv[2]), random.Random(int(sys.argv[3]))
DECIDED = {"resigns", "accepts", "declines", "reviewed"}


def replayed(folder):
    """The game as the journal has it, and its records."""
    journal = next(pathlib.Path(folder).glob("*.jsonl"))
    records = [json.loads(line) for line in journal.read_text().splitlines()]
    script = records[0]["plan"]["plan"]["play"]["games"][0]["script"]
    board = chess.Board(script["start"], chess960=script["chess960"])
    for record in records:
        if record.get("kind") == "turn":
            assert len(record["moves"]) == len(board.move_stack), "nothing lost or twice"
            move = record.get("move")
        elif record["type"] == "said" and record["by"] == "opponent":
            # Behind the end stands what cost most.
            word = record["said"].split(",")[0]
            move = None if word in DECIDED else word
        else:
            continue
        if move:
            move = chess.Move.from_uci(move)
            assert move in board.legal_moves, (move, board.fen())
            board.push(move)
    return board, records


def illegal(board):
    """A move of squares that is not legal, and no castling; nothing where luck has it otherwise."""
    move = chess.Move(dice.randrange(64), dice.randrange(64))
    pairs = {(legal.from_square, legal.to_square) for legal in board.legal_moves}
    is_king = board.piece_type_at(move.from_square) == chess.KING
    fits = move.from_square != move.to_square and (move.from_square, move.to_square) not in pairs
    return move.uci() if fits and not is_king else None


def play(folder, options):
    command = [program, "play", "--data", folder, *options]
    environment = {**os.environ, "XDG_CONFIG_HOME": folder}
    pipes = {"env": environment, "stdin": subprocess.PIPE, "stdout": subprocess.PIPE, "text": True, "bufsize": 1}
    slips, claims = 0, dice.random() < 0.5
    with subprocess.Popen(command, **pipes) as game:
        for line in game.stdout:
            if "hink back to" in line:
                # The question of the review is not answered here.
                game.stdin.write("pass\n")
            if not line.startswith("Your move"):
                continue
            board, _ = replayed(folder)
            slip = illegal(board) if dice.random() < 0.1 else None
            if slip:
                slips += 1
                said = slip
            elif claims and (board.is_repetition(3) or board.is_fifty_moves()):
                said = "draw"
            elif len(board.move_stack) > 240:
                said = "resign"
            else:
                said = board.san(dice.choice(list(board.legal_moves)))
            game.stdin.write(said + "\n")
    assert game.returncode == 0
    return slips


for number in range(games):
    with tempfile.TemporaryDirectory() as folder:
        kept = f"{folder}/kept.pgn"
        beginning = dice.choice([[], ["--pieces", "4"], ["--start", str(dice.randrange(960))]])
        rating, side = dice.choice(["500", "930", "1490"]), dice.choice(["white", "black"])
        seed = str(dice.randrange(1_000_000))
        options = ["--rating", rating, "--side", side, "--seed", seed, "--out", kept, *beginning]
        slips = play(folder, options)
        board, records = replayed(folder)
        [over] = [record for record in records if record["type"] == "game"]
        ends = {
            "checkmate": board.is_checkmate(),
            "stalemate": board.is_stalemate(),
            "dead-position": board.is_insufficient_material(),
            "fivefold": board.is_fivefold_repetition(),
            "seventy-five-moves": board.is_seventyfive_moves(),
            "threefold": board.is_repetition(3),
            "fifty-moves": board.is_fifty_moves(),
            "agreed": True,
            "resigned": True,
        }
        assert ends[over["end"]], (number, over, board.fen())
        assert over["slips"] == slips, (number, over, slips)
        with open(kept) as file:
            game = chess.pgn.read_game(file)
        assert not game.errors and game.end().board().fen() == board.fen(), number
        assert game.headers["Result"] == over["result"], number
print(f"{games} games were played and replayed")
