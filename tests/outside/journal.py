"""Rechecks a journal from the page `journal` of the handbook alone: positions, truths, scores of sets, hardness, lateness.

Usage: journal.py JOURNAL

Lines that are no JSON (cut off by a crash) are passed over. Left out are the bare board, which has a table
of its own, and mates in more than one move.
"""

import json
import sys

import chess

import truth
from legality import judged, legal_names
from line import Line, castling_journeys


def replayed(row):
    line = Line(row["start"], row.get("variant") == "chess960")
    for uci in row["moves"]:
        line.push(line.board.parse_uci(uci))
    return line


def expected(line, row):
    if row["kind"] == "legality":
        move = chess.Move.from_uci(row["subject"]["move"])
        return judged(line, legal_names(line), move.from_square, move.to_square, move.promotion)[1]
    found = (one for one in truth.BY_NAME[row["kind"]](line) if one["subject"] == row["subject"])
    return next(found)["expected"]


def ordered(value):
    """The same, whatever the order of a list."""
    return {key: sorted(part) if isinstance(part, list) else part for key, part in value.items()}


def share(row):
    """The score of a set of squares that was said square by square."""
    said = set(row["reply"].split()) - set(row["expected"].get("optional", ()))
    asked = set(row["expected"]["squares"])
    return len(said & asked) / len(said | asked)


def lines_of_sight(before, after, moved):
    """How many directions of men that stayed where they were see farther now, and how many less far."""
    opened = closed = 0
    for square, piece in before.piece_map().items():
        if square in moved or piece.piece_type not in (chess.BISHOP, chess.ROOK, chess.QUEEN):
            continue
        for step in (1, 7, 8, 9, -1, -7, -8, -9):
            seen = [sight(board, square, step) for board in (before, after)]
            opened += seen[1] > seen[0]
            closed += seen[1] < seen[0]
    return opened, closed


def sight(board, square, step):
    attacked, count = board.attacks(square), 0
    while 0 <= square + step < 64 and chess.square_distance(square, square + step) == 1:
        square += step
        if square not in attacked:
            break
        count += 1
    return count


def hardness(line, row):
    """What is counted by the start and the moves; castling moves two men."""
    since = len(line.moves) - row["hardness"]["plies"]
    board = line.start.copy(stack=False)
    before, captures, moved = board.copy(stack=False), 0, set()
    for number, uci in enumerate(line.moves):
        if number == since:
            before, moved = board.copy(stack=False), set()
        move = board.parse_uci(uci)
        captures += board.is_capture(move)
        ways = castling_journeys(board, move) if board.is_castling(move) else [(move.from_square, move.to_square)]
        moved.update(square for way in ways for square in way)
        board.push(move)
    if since == len(line.moves):
        before, moved = board, set()
    opened, closed = lines_of_sight(before, board, moved)
    return {"men": len(board.piece_map()), "captures": captures, "opened": opened, "closed": closed}


def main():
    wrong, checked = [], 0

    def same(row, what, ours, theirs):
        if ours != theirs:
            wrong.append(f"{row['kind']} {row['subject']}, {what}: ours {ours}, from outside {theirs}")

    with open(sys.argv[1], encoding="utf-8") as journal:
        for text in journal:
            try:
                row = json.loads(text)
            except json.JSONDecodeError:
                continue
            if row["type"] != "answer":
                continue
            late = row["millis"] is not None and row["millis"] > row.get("think", row["millis"])
            same(row, "late", row["late"], late)
            if "start" not in row:
                continue
            checked += 1
            line = replayed(row)
            same(row, "position", row["position"], line.board.fen())
            counted = hardness(line, row)
            same(row, "hardness", {key: row["hardness"][key] for key in counted}, counted)
            if "in" in row["subject"]:
                continue
            same(row, "truth", ordered(row["expected"]), ordered(expected(line, row)))
            if row["expected"].get("squares") and row["reply"]:
                same(row, "score", row["score"], share(row))
    for line in wrong:
        print("DIFFERENCE:", line)
    print(f"a journal's {checked} answers over lines: {len(wrong)} differences from outside")
    sys.exit(bool(wrong) or not checked)


if __name__ == "__main__":
    main()
