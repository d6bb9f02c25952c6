"""Why a fully named move is illegal: the first reason of the list that applies.

Written from the list's words on python-chess's bitboards (`between`, `attackers_mask`); its legal
moves are not asked. So 'no reason' is a second opinion about what is legal, and is held against the
library's moves wherever this is used.
"""

import chess

REASONS = (
    "empty-square",
    "wrong-side",
    "castling-right-lost",
    "blocked",
    "castling-in-check",
    "castling-through-attack",
    "own-man-there",
    "en-passant-expired",
    "not-its-way",
    "pinned",
    "uncovers-check",
    "steps-into-check",
    "stays-in-check",
)

bit = chess.BB_SQUARES


def reason(line, start, to, promotion):
    """Returns (reason, square or None), or None where the move is legal."""
    board = line.board
    piece = board.piece_at(start)
    if piece is None:
        return "empty-square", None
    if piece.color != board.turn:
        return "wrong-side", None
    if piece.piece_type == chess.KING and tries_castling(line, start, to):
        found = castling_reason(board, start, to)
        if found or promotion is None:
            return found
    if board.occupied_co[board.turn] & bit[to]:
        return "own-man-there", None
    victim = to
    if piece.piece_type == chess.PAWN:
        expired = expired_victim(line, start, to)
        if expired is not None:
            return "en-passant-expired", expired
        if not pawn_way(board, start, to, promotion):
            return "not-its-way", None
        if to == board.ep_square and chess.square_file(start) != chess.square_file(to):
            victim = chess.square(chess.square_file(to), chess.square_rank(start))
        else:
            in_the_way = pawn_blocker(board, start, to)
            if in_the_way is not None:
                return "blocked", in_the_way
    else:
        if promotion is not None or not bit[to] & SPAN[piece.piece_type][start]:
            return "not-its-way", None
        if piece.piece_type not in (chess.KNIGHT, chess.KING):
            in_the_way = nearest(chess.between(start, to) & board.occupied, start)
            if in_the_way is not None:
                return "blocked", in_the_way
    return king_reason(board, piece.piece_type, start, to, victim)


def king_reason(board, role, start, to, victim):
    """What the move would do to the mover's own king."""
    us, them = board.turn, not board.turn
    if role == chess.KING:
        attackers = board.attackers_mask(them, to, board.occupied ^ bit[start]) & ~bit[to]
        return ("steps-into-check", chess.lsb(attackers)) if attackers else None
    king = board.king(us)
    held_by = pinner(board, king, start)
    if held_by is not None and not bit[to] & (chess.between(king, held_by) | bit[held_by]):
        return "pinned", held_by
    checkers = board.attackers_mask(them, king)
    occupied = (board.occupied & ~bit[victim] & ~bit[start]) | bit[to]
    left = board.attackers_mask(them, king, occupied) & ~bit[victim]
    if victim != to and left & ~checkers:
        return "uncovers-check", chess.lsb(left & ~checkers)
    assert not left & ~checkers, "only a pinned man or en passant uncovers the king"
    return ("stays-in-check", chess.lsb(left)) if left else None


def pinner(board, king, shield):
    """The enemy line piece from which only the man on `shield` parts the king."""
    enemy = board.occupied_co[not board.turn]
    straight = enemy & (board.rooks | board.queens)
    diagonal = enemy & (board.bishops | board.queens)
    line = chess.ray(king, shield)
    same = chess.square_file(king) == chess.square_file(shield) or chess.square_rank(
        king
    ) == chess.square_rank(shield)
    for square in chess.scan_forward(line & (straight if same else diagonal)):
        if chess.between(king, square) & board.occupied == bit[shield]:
            return square
    return None


def tries_castling(line, start, to):
    board = line.board
    if not board.chess960:
        home = chess.E1 if board.turn else chess.E8
        return start == home and to in (home - 2, home + 2)
    own_rank = chess.BB_RANK_1 if board.turn else chess.BB_RANK_8
    given = line.start_rights & own_rank
    at_home = given and start == line.start.king(board.turn)
    # Sideways in Chess960 too: a rook of its own on another rank is just a man in the way.
    return bool(at_home and bit[to] & own_rank & board.rooks & board.occupied_co[board.turn])


def castling_reason(board, king, to):
    them = not board.turn
    rank = chess.square_rank(king)
    short = chess.square_file(to) > chess.square_file(king)
    rook = to if board.chess960 else chess.square(7 if short else 0, rank)
    if not board.clean_castling_rights() & bit[rook]:
        return "castling-right-lost", None
    king_to = chess.square(6 if short else 2, rank)
    rook_to = chess.square(5 if short else 3, rank)
    way = chess.between(king, king_to) | chess.between(rook, rook_to) | bit[king_to] | bit[rook_to]
    others = board.occupied & ~bit[king] & ~bit[rook]
    in_the_way = nearest(way & others, king)
    if in_the_way is not None:
        return "blocked", in_the_way
    attackers = board.attackers_mask(them, king)
    if attackers:
        return "castling-in-check", chess.lsb(attackers)
    step = 1 if king_to > king else -1
    # What attacks the king's way as the board stands comes before what castling itself would uncover.
    for square in [*range(king + step, king_to, step), king_to]:
        attackers = board.attackers_mask(them, square, board.occupied ^ bit[king])
        if attackers:
            return "castling-through-attack", chess.lsb(attackers)
    # On arrival the rook has left its place and may have laid the king open.
    attackers = board.attackers_mask(them, king_to, others | bit[king_to] | bit[rook_to])
    return ("castling-through-attack", chess.lsb(attackers)) if attackers else None


def ahead(board, start, to):
    """How many ranks forward and how many files aside a pawn of the side to move would go."""
    ranks = chess.square_rank(to) - chess.square_rank(start)
    files = abs(chess.square_file(to) - chess.square_file(start))
    return (ranks if board.turn else -ranks), files


def expired_victim(line, start, to):
    board = line.board
    if ahead(board, start, to) != (1, 1) or board.piece_at(to):
        return None
    beside = chess.square(chess.square_file(to), chess.square_rank(start))
    if board.piece_at(beside) != chess.Piece(chess.PAWN, not board.turn):
        return None
    ply = line.double_step.get(beside)
    return beside if ply is not None and ply < len(line.moves) - 1 else None


def pawn_way(board, start, to, promotion):
    if (promotion is not None) != (chess.square_rank(to) in (0, 7)):
        return False
    way = ahead(board, start, to)
    if way == (1, 1):
        return to == board.ep_square or bool(board.occupied_co[not board.turn] & bit[to])
    home_rank = 1 if board.turn else 6
    return way == (1, 0) or (way == (2, 0) and chess.square_rank(start) == home_rank)


def pawn_blocker(board, start, to):
    if chess.square_file(start) != chess.square_file(to):
        return None
    return nearest((chess.between(start, to) | bit[to]) & board.occupied, start)


def nearest(mask, square):
    """The square of `mask` nearest to `square`, the lower of two; None where `mask` is empty."""
    found = list(chess.scan_forward(mask))
    return min(found, key=lambda other: chess.square_distance(square, other)) if found else None


def spans():
    """The squares that each role reaches from each square on the empty board."""
    table = {}
    for role in (chess.KNIGHT, chess.BISHOP, chess.ROOK, chess.QUEEN, chess.KING):
        board = chess.Board(None)
        table[role] = []
        for square in chess.SQUARES:
            board.set_piece_at(square, chess.Piece(role, chess.WHITE))
            table[role].append(board.attacks_mask(square))
            board.remove_piece_at(square)
    return table


SPAN = spans()
