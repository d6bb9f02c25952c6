"""The truths of every question kind over a position, computed with python-chess."""

import chess

VALUE = {chess.PAWN: 1, chess.KNIGHT: 3, chess.BISHOP: 3, chess.ROOK: 5, chess.QUEEN: 9}
BY_VALUE = "QRBNP"
COLORS = (("white", chess.WHITE), ("black", chess.BLACK))


def truth(kind, subject, expected):
    return {"kind": kind, "subject": subject, "expected": expected}


def names(mask):
    return [chess.square_name(square) for square in chess.scan_forward(int(mask))]


def whereabouts(line):
    for home, square in line.whereabouts().items():
        gone = square is None
        expected = {"gone": True} if gone else {"square": chess.square_name(square)}
        yield truth("whereabouts", {"man": chess.square_name(home)}, expected)


def occupant(line):
    for square in chess.SQUARES:
        piece = line.board.piece_at(square)
        subject = {"square": chess.square_name(square)}
        yield truth("occupant", subject, {"piece": piece.symbol() if piece else None})


def standing(line):
    for name, color in COLORS:
        for role in chess.PIECE_TYPES:
            subject = {"color": name, "role": chess.piece_name(role)}
            yield truth("standing", subject, {"squares": names(line.board.pieces(role, color))})


def attacks(line):
    board = line.board
    for square in chess.scan_forward(board.occupied):
        attacked = board.attacks_mask(square)
        own = board.occupied_co[board.color_at(square)]
        expected = {"squares": names(attacked & ~own)}
        if attacked & own:
            expected["optional"] = names(attacked & own)
        yield truth("attacks", {"square": chess.square_name(square)}, expected)


def attackers(line):
    for square in chess.SQUARES:
        for name, color in COLORS:
            subject = {"color": name, "square": chess.square_name(square)}
            squares = names(line.board.attackers_mask(color, square))
            yield truth("attackers", subject, {"squares": squares})


def arrival(board, move):
    """The square where the moving man arrives: castling counts as the king's."""
    if not board.is_castling(move):
        return move.to_square
    file = 6 if chess.square_file(move.to_square) > chess.square_file(move.from_square) else 2
    return chess.square(file, chess.square_rank(move.from_square))


def moves(line):
    board = line.board
    reached = {square: 0 for square in chess.scan_forward(board.occupied)}
    for move in board.legal_moves:
        reached[move.from_square] |= chess.BB_SQUARES[arrival(board, move)]
    for square, mask in reached.items():
        yield truth("moves", {"square": chess.square_name(square)}, {"squares": names(mask)})


def check(line):
    yield truth("check", {}, {"squares": names(line.board.checkers_mask())})


def rebuild(line):
    yield truth("rebuild", {}, {"placement": line.board.board_fen()})


def move_list(line, kind, chosen):
    """A truth about several moves; not asked where a promotion is among them."""
    if any(move.promotion for move in chosen):
        return
    chosen.sort(key=lambda move: (move.from_square, move.to_square))
    yield truth(kind, {}, {"moves": [line.board.uci(move) for move in chosen]})


def checks(line):
    board = line.board
    return move_list(line, "checks", [m for m in board.legal_moves if board.gives_check(m)])


def captures(line):
    board = line.board
    return move_list(line, "captures", [m for m in board.legal_moves if board.is_capture(m)])


def mate(line):
    def mates(move):
        after = line.board.copy(stack=False)
        after.push(move)
        return after.is_checkmate()

    board = line.board
    return move_list(
        line, "mate", [m for m in board.legal_moves if board.gives_check(m) and mates(m)]
    )


def hanging(line):
    board = line.board
    for name, color in COLORS:
        squares = [
            square
            for square in chess.scan_forward(board.occupied_co[color] & ~board.kings)
            if board.attackers_mask(not color, square) and not board.attackers_mask(color, square)
        ]
        squares = [chess.square_name(square) for square in squares]
        yield truth("hanging", {"color": name}, {"squares": squares})


def exchange(line):
    board = line.board
    targets = {
        move.to_square
        for move in board.legal_moves
        if board.is_capture(move) and not board.is_en_passant(move)
    }
    for square in sorted(targets):
        guards = chess.popcount(board.attackers_mask(not board.turn, square))
        takers = chess.popcount(board.attackers_mask(board.turn, square))
        # The tree of all orders of capture grows too large beyond.
        if min(guards + 1, takers) <= 3:
            points = takes(board, square)
            yield truth("exchange", {"square": chess.square_name(square)}, {"points": points})


def takes(board, square):
    """The best outcome of taking on `square`, None where no capture is legal."""
    best = None
    victim = VALUE[board.piece_type_at(square)]
    for move in board.generate_legal_moves(to_mask=chess.BB_SQUARES[square]):
        if not board.is_capture(move):
            continue
        gain = victim + (VALUE[move.promotion] - 1 if move.promotion else 0)
        after = board.copy(stack=False)
        after.push(move)
        if after.piece_type_at(square) != chess.KING:
            gain -= max(0, takes(after, square) or 0)
        best = gain if best is None else max(best, gain)
    return best


def balance(line):
    board = line.board
    points = sum(
        worth * (len(board.pieces(role, True)) - len(board.pieces(role, False)))
        for role, worth in VALUE.items()
    )
    yield truth("balance", {}, {"points": points})


def rights(line):
    board = line.board
    for name, color in COLORS:
        wings = []
        if board.has_kingside_castling_rights(color):
            wings.append("short")
        if board.has_queenside_castling_rights(color):
            wings.append("long")
        yield truth("rights", {"color": name}, {"wings": wings})


def taken(line):
    men = [line.start.piece_at(home) for home, now in line.whereabouts().items() if now is None]
    for name, color in COLORS:
        letters = [man.symbol().upper() for man in men if man.color == color]
        letters.sort(key=BY_VALUE.index)
        yield truth("taken", {"color": name}, {"pieces": "".join(letters)})


def played(line):
    first = 2 * line.start.fullmove_number + (0 if line.start.turn else 1)
    for ply, move in enumerate(line.moves, first):
        subject = {"color": COLORS[ply % 2][0], "number": ply // 2}
        yield truth("played", subject, {"move": move})


# Each kind and how many of its questions a position gets in a file that does not ask them all.
KINDS = {
    whereabouts: 5,
    occupant: 3,
    standing: 2,
    attacks: 5,
    attackers: 4,
    moves: 5,
    check: 1,
    rebuild: 1,
    checks: 1,
    captures: 1,
    hanging: 2,
    mate: 1,
    exchange: 2,
    balance: 1,
    rights: 2,
    taken: 2,
    played: 2,
}
# Where a position is asked everything, these still stop at so many.
MOST = {occupant: 12, attackers: 24}
BY_NAME = {kind.__name__: kind for kind in KINDS}
USUAL = (
    "whereabouts,occupant,standing,attacks,attackers,moves,legality,check,checks,captures,hanging,mate,"
    "exchange,balance,rights,taken,played,rebuild"
)
