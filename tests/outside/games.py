"""Random legal games: from the usual array, from tricky starts, from Chess960 arrays."""

import pathlib

import chess
import chess.pgn

from line import Line

# What a player prefers in a game of each style; every legal move keeps a chance.
STYLES = ("even", "even", "captures", "checks", "pawns", "castles")


def weight(board, move, style):
    if style == "captures":
        return 6 if board.is_capture(move) else 1
    if style == "checks":
        return 10 if board.gives_check(move) else 1
    if style == "pawns":
        if move.promotion or board.is_en_passant(move):
            return 30
        return 5 if board.piece_type_at(move.from_square) == chess.PAWN else 1
    if board.is_castling(move):
        return 100
    return 0.3 if board.piece_type_at(move.from_square) in (chess.KING, chess.ROOK) else 2


def random_move(board, style, rng):
    legal = list(board.legal_moves)
    if style == "even" or not legal:
        return rng.choice(legal) if legal else None
    return rng.choices(legal, [weight(board, move, style) for move in legal])[0]


def tricky_starts():
    text = pathlib.Path(__file__).with_name("starts.txt").read_text()
    rows = [row for row in text.splitlines() if row and not row.startswith("#")]
    for row in rows:
        variant, fen, _ = (part.strip() for part in row.split("|"))
        yield variant, fen


TRICKY = list(tricky_starts())


def scattered(rng, board, men):
    """Lays men of both colors on free squares, pawns off the first and last rank."""
    for _ in range(men):
        square = rng.randrange(64)
        pawns = "PPpp" if 0 < chess.square_rank(square) < 7 else ""
        if not board.piece_at(square):
            letter = rng.choice("QRRBBNNqrrbbnn" + pawns)
            board.set_piece_at(square, chess.Piece.from_symbol(letter))


def lay(board, men):
    for square, letter in men:
        board.set_piece_at(square, chess.Piece.from_symbol(letter))


def rank_to_open(rng):
    """King, pawn and line piece on a rank beside which the enemy is about to double step."""
    board = chess.Board(None)
    pawn, victim = rng.choice([(1, 2), (2, 1), (2, 3), (3, 2), (3, 4), (4, 3), (4, 5), (5, 4)])
    low, high = sorted((pawn, victim))
    king, piece = rng.choice(range(low)), rng.choice(range(high + 1, 8))
    if rng.random() < 0.5:
        king, piece = piece, king
    lay(board, [(32 + king, "K"), (32 + piece, rng.choice("rq")), (32 + pawn, "P")])
    lay(board, [(48 + victim, "p"), (rng.choice((0, 7, 56, 63)), "k")])
    scattered(rng, board, rng.randrange(4))
    board.turn = chess.BLACK
    return board


def castling_home(rng, chess960):
    """Kings and rooks at home with rights, a few men scattered about."""
    board = chess.Board(None, chess960=chess960)
    files = sorted(rng.sample(range(8), 3)) if chess960 else [0, 4, 7]
    for rank, letters in ((0, "RKR"), (56, "rkr")):
        lay(board, [(rank + file, letter) for file, letter in zip(files, letters)])
    board.castling_rights = sum(
        chess.BB_SQUARES[rank + file] for rank in (0, 56) for file in (files[0], files[2])
    )
    scattered(rng, board, rng.randrange(1, 9))
    board.turn = rng.random() < 0.5
    return board


def loose_kings(rng):
    """Kings and men anywhere: pins, checks and promotions in plenty."""
    board = chess.Board(None)
    lay(board, zip(rng.sample(range(64), 2), "Kk"))
    scattered(rng, board, rng.randrange(3, 18))
    board.turn = rng.random() < 0.5
    return board


def composed_start(rng):
    """A random board that a game can go on from, mirrored half of the time."""
    while True:
        maker = rng.choice(("rank", "home", "home", "home960", "loose"))
        if maker == "rank":
            board = rank_to_open(rng)
        elif maker == "loose":
            board = loose_kings(rng)
        else:
            board = castling_home(rng, maker == "home960")
            if not board.is_check() and rng.random() < 0.85:
                continue
        if rng.random() < 0.5:
            board = board.mirror()
        if board.status() == chess.STATUS_VALID:
            return board


def double_step(line, rng):
    """A double step that lands beside an enemy pawn, if the side to move has one."""

    def is_one(move):
        if abs(move.from_square - move.to_square) != 16:
            return False
        if line.board.piece_type_at(move.from_square) != chess.PAWN:
            return False
        after = line.board.copy(stack=False)
        after.push(move)
        return after.has_pseudo_legal_en_passant()

    found = [move for move in line.board.legal_moves if is_one(move)]
    return rng.choice(found) if found else None


def random_start(rng):
    kind = rng.choices(("usual", "array", "tricky", "composed"), (20, 15, 20, 45))[0]
    if kind == "usual":
        return Line(chess.STARTING_FEN), 140
    if kind == "array":
        board = chess.Board.from_chess960_pos(rng.randrange(960))
        return Line(board.fen(), chess960=True), 120
    if kind == "tricky":
        variant, fen = rng.choice(TRICKY)
        return Line(fen, variant == "chess960"), 40
    board = composed_start(rng)
    return Line(board.fen(), board.chess960), 16


def random_game(rng, share):
    """Yields the line at some of its positions: a share of those that a usual run looks at."""
    line, longest = random_start(rng)
    style = rng.choice(STYLES)
    if longest < 100 and rng.random() < 2 * share:
        yield line
    if longest < 100 and rng.random() < 0.5 and (move := double_step(line, rng)):
        line.push(move)
        if rng.random() < 2 * share:
            yield line
    # Short lines are looked at closely, long ones now and then.
    share *= 0.35 if longest < 20 else 0.12 if longest < 100 else 0.07
    for _ in range(longest):
        if rng.random() < share:
            yield line
        move = random_move(line.board, style, rng)
        if move is None:
            break
        line.push(move)
    # Mates and stalemates are worth a look.
    if rng.random() < (0.5 if line.board.is_game_over() else share):
        yield line


def main_line(game, rng, share):
    """Yields the line of a PGN game at a share of its positions, the end always."""
    board = game.board()
    line = Line(board.fen(), board.chess960)
    for move in game.mainline_moves():
        if rng.random() < share:
            yield line
        line.push(move)
    yield line


def pgn_games(path):
    with open(path, encoding="utf-8", errors="replace") as file:
        while (game := chess.pgn.read_game(file)) is not None:
            if type(game.board()) is chess.Board and not game.errors:
                yield game
