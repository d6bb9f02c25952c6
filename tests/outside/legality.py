"""Choosing fully named moves to ask about, rich in near misses, and listing all of them."""

import chess

from reason import REASONS, SPAN, reason
from truth import truth

PROMOTIONS = (None, chess.QUEEN, chess.ROOK, chess.BISHOP, chess.KNIGHT)
# How many of each a position gets.
SHARE = {"not-its-way": 1, "own-man-there": 1, "blocked": 2, "steps-into-check": 2, None: 4}
OFTEN = 2
RARE = {
    "castling-in-check",
    "castling-through-attack",
    "en-passant-expired",
    "uncovers-check",
}


def legal_names(line):
    return {line.board.uci(move) for move in line.board.legal_moves}


def judged(line, legal, start, to, promotion):
    """The truth about one move, the reason held against the library's legal moves."""
    uci = chess.Move(start, to, promotion).uci() if start != to else same_square(start, promotion)
    found = reason(line, start, to, promotion)
    assert (found is None) == (uci in legal), f"{uci} in {line.board.fen()}: {found}"
    if found is None:
        return uci, {"legal": True}
    expected = {"legal": False, "reason": found[0]}
    if found[1] is not None:
        expected["by"] = chess.square_name(found[1])
    return uci, expected


def same_square(square, promotion):
    letter = chess.piece_symbol(promotion) if promotion else ""
    return chess.square_name(square) * 2 + letter


def near_misses(line):
    """Every move that a man of the side to move makes on some board, promotions where they belong."""
    board = line.board
    for start in chess.scan_forward(board.occupied_co[board.turn]):
        role = board.piece_type_at(start)
        if role != chess.PAWN:
            reached = SPAN[role][start]
            if role == chess.KING:
                rank = chess.BB_RANKS[chess.square_rank(start)]
                reached |= rank & (board.rooks | SPAN[chess.ROOK][start])
            yield from ((start, to, None) for to in chess.scan_forward(reached))
            continue
        up = 8 if board.turn else -8
        for to in (start + up, start + 2 * up, start + up - 1, start + up + 1):
            if 0 <= to < 64 and chess.square_distance(start, to) <= 2:
                promotes = chess.square_rank(to) in (0, 7)
                yield from ((start, to, p) for p in (PROMOTIONS[1:] if promotes else (None,)))


def has_rare_reason(line):
    found = (reason(line, *triple) for triple in near_misses(line))
    return any(one is not None and one[0] in RARE for one in found)


def some(line, rng, before):
    """A spread of moves; `before` are moves that were legal earlier in the line."""
    legal = legal_names(line)
    groups = {}
    for triple in near_misses(line):
        uci, expected = judged(line, legal, *triple)
        groups.setdefault(expected.get("reason"), []).append((uci, expected))
    chosen = {}
    for name, found in groups.items():
        chosen.update(rng.sample(found, min(len(found), SHARE.get(name, OFTEN))))
    occupied = list(chess.scan_forward(line.board.occupied))
    random_triples = [
        (rng.randrange(64), rng.randrange(64), None),
        (rng.choice(occupied), rng.randrange(64), rng.choice(PROMOTIONS)),
        (rng.choice(occupied), rng.choice(occupied), None),
    ]
    if before:
        move = chess.Move.from_uci(rng.choice(before))
        random_triples.append((move.from_square, move.to_square, move.promotion))
    pawns = list(line.board.pieces(chess.PAWN, line.board.turn))
    if pawns:
        # A promotion piece left out or put where none belongs.
        pawn = rng.choice(pawns)
        to = pawn + (8 if line.board.turn else -8)
        last = chess.square_rank(to) in (0, 7)
        random_triples.append((pawn, to, None if last else rng.choice(PROMOTIONS[1:])))
    chosen.update(judged(line, legal, *triple) for triple in random_triples)
    return [truth("legality", {"move": uci}, expected) for uci, expected in chosen.items()]


def every(line):
    """Every (from, to, promotion), told compactly: `[reason or "legal", by or null, moves]`.

    In the moves, `e2e4` is that move alone, `e2e4*` with no promotion piece and with each, `e2*`
    every move from e2; `e2e4+` with each promotion piece. What no row names is `not-its-way`.
    """
    legal = legal_names(line)
    rows = {}
    for start in chess.SQUARES:
        names = {}
        for to in chess.SQUARES:
            told = [judged(line, legal, start, to, promotion) for promotion in PROMOTIONS]
            plain, promoting = key(told[0][1]), {key(expected) for _, expected in told[1:]}
            assert len(promoting) == 1, "the piece that a pawn becomes changes no reason"
            uci, other = told[0][0], promoting.pop()
            if plain == other:
                names.setdefault(plain, []).append(uci + "*")
            else:
                names.setdefault(plain, []).append(uci)
                names.setdefault(other, []).append(uci + "+")
        for found, moves in names.items():
            whole = len(moves) == 64 and all(move.endswith("*") for move in moves)
            if found[0] != "not-its-way":
                short = [chess.square_name(start) + "*"] if whole else moves
                rows.setdefault(found, []).extend(short)
    return [[name, by, " ".join(moves)] for (name, by), moves in rows.items()]


def key(expected):
    return expected.get("reason", "legal"), expected.get("by")


assert (set(SHARE) - {None}) | RARE <= set(REASONS)
