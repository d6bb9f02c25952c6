"""A line of play followed by a book of its own: which man is which, and what each pawn did."""

import chess


class Line:
    """A start position and the plies played from it, as questions see them."""

    def __init__(self, fen, chess960=False):
        board = chess.Board(fen, chess960=chess960)
        # One rule for the en passant square: it stands only where the capture is legal.
        self.start = chess.Board(board.fen(), chess960=chess960)
        self.board = self.start.copy(stack=False)
        self.moves = []
        self.start_rights = self.start.clean_castling_rights()
        # The square of every man by its home, and the other way round.
        self.home_on = {square: square for square in chess.scan_forward(self.start.occupied)}
        # The ply of the double step that brought a pawn to the square where it stands.
        self.double_step = {}

    @property
    def variant(self):
        return "chess960" if self.start.chess960 else "standard"

    def push(self, move):
        board = self.board
        journeys = [(move.from_square, move.to_square)]
        if board.is_castling(move):
            journeys = castling_journeys(board, move)
        elif board.is_en_passant(move):
            self._lift(behind(move))
        elif board.piece_at(move.to_square):
            self._lift(move.to_square)
        pawn = board.piece_type_at(move.from_square) == chess.PAWN
        homes = [self._lift(start) for start, _ in journeys]
        for home, (_, arrival) in zip(homes, journeys):
            self.home_on[arrival] = home
        if pawn and abs(move.from_square - move.to_square) == 16:
            self.double_step[move.to_square] = len(self.moves)
        self.moves.append(move.uci())
        board.push(move)

    def _lift(self, square):
        self.double_step.pop(square, None)
        return self.home_on.pop(square)

    def whereabouts(self):
        """The square of each man of the start by its home, None for a man that is gone."""
        now = {home: square for square, home in self.home_on.items()}
        return {home: now.get(home) for home in chess.scan_forward(self.start.occupied)}


def behind(move):
    """The square of the pawn that an en passant capture takes."""
    return chess.square(chess.square_file(move.to_square), chess.square_rank(move.from_square))


def castling_journeys(board, move):
    """The ways of king and rook, whichever way the move is written."""
    king, rank = move.from_square, chess.square_rank(move.from_square)
    short = chess.square_file(move.to_square) > chess.square_file(king)
    if board.chess960:
        rook = move.to_square
    else:
        rook = chess.square(7 if short else 0, rank)
    return [
        (king, chess.square(6 if short else 2, rank)),
        (rook, chess.square(5 if short else 3, rank)),
    ]
