"""Computes the truths over the bare board outside this project, into tests/outside/bare.txt.

    pip install chess==1.11.2
    python3 tests/outside/bare.py > tests/outside/bare.txt

Nothing here shares code or tables with the crate. What a man attacks comes from python-chess 1.11.2
(a general rules library) with the men set on its board; views, colors, lines and the squares between
come from string and coordinate loops below; numbers of routes come from counting walks (powers of the
move matrix), not from layers. What is checked against a second way here is checked by assertions, so
that this program fails rather than write a doubtful table.

One record a line, its name first; squares in the order a1, b1, ... h8 where a record gives 64 values:

    view SIDE               64 two-digit numbers: files from the left, rows from the bottom
    color                   64 letters: l or d
    aligned FROM            64 letters: f file, r rank, d diagonal, n none, . the square itself
    between FROM TO         the squares strictly between, in order; every aligned pair, a space apart
    span MAN                the squares attacked on the empty board; every man on every square
    distance ROLE FROM      64 digits: the fewest moves, - for never
    routes ROLE FROM        64 numbers of shortest routes, 0 for never, 1 for the square itself
    crossing MAN ROLE       64 sets as 16 hexadecimal digits (bit 0 is a1, bit 63 h8): what the man
                            and one of ROLE on each square both attack; 0 for the man's own square
    crossings MAN ROLE      the same told by two numbers: how many squares in all, and the sum of
                            (index of ROLE's square + 1) * (index of the crossing square + 1)
    travel MAN TO BLOCKERS  fewest moves (- for never) and the number of shortest routes; blockers as
                            16 hexadecimal digits; seeded cases, few blockers and mazes
"""

import random

import chess

FILES = "abcdefgh"
RANKS = "12345678"
NAMES = [file + rank for rank in RANKS for file in FILES]
TRAVELERS = "KQRBN"
SPANNERS = "KQRBNPp"
SEED = 20260301


def coordinates(name):
    return FILES.index(name[0]) + 1, RANKS.index(name[1]) + 1


def seen(name, side):
    """Walks from the near left corner until the square is met."""
    files = FILES if side == "white" else FILES[::-1]
    ranks = RANKS if side == "white" else RANKS[::-1]
    return f"{files.index(name[0]) + 1}{ranks.index(name[1]) + 1}"


def color(name):
    """Paints the board as FIDE 2.1 says: h1 is light, and neighbors differ."""
    steps = abs(FILES.index(name[0]) - FILES.index("h")) + abs(RANKS.index(name[1]) - RANKS.index("1"))
    letter = "l" if steps % 2 == 0 else "d"
    assert bool(chess.BB_LIGHT_SQUARES & chess.BB_SQUARES[chess.parse_square(name)]) == (letter == "l")
    return letter


def aligned(one, other):
    (f1, r1), (f2, r2) = coordinates(one), coordinates(other)
    if one == other:
        return "."
    if f1 == f2:
        return "f"
    if r1 == r2:
        return "r"
    return "d" if f1 + r1 == f2 + r2 or f1 - r1 == f2 - r2 else "n"


def between(one, other):
    (f1, r1), (f2, r2) = coordinates(one), coordinates(other)
    toward = lambda a, b: (b > a) - (b < a)
    df, dr = toward(f1, f2), toward(r1, r2)
    walked = []
    f, r = f1 + df, r1 + dr
    while (f, r) != (f2, r2):
        walked.append(FILES[f - 1] + RANKS[r - 1])
        f, r = f + df, r + dr
    mask = chess.between(chess.parse_square(one), chess.parse_square(other))
    assert {chess.square_name(s) for s in chess.SquareSet(mask)} == set(walked)
    return walked


def attacked(letter, square, others=()):
    """What python-chess says that a man attacks, other men standing on `others`."""
    board = chess.Board(None)
    for other in others:
        board.set_piece_at(other, chess.Piece.from_symbol("n"))
    board.set_piece_at(square, chess.Piece.from_symbol(letter))
    return board.attacks(square)


def pawn_can_stand(letter, square):
    return letter not in "Pp" or 0 < chess.square_rank(square) < 7


def steps(letter, blockers):
    """Where the man can go in one move from every square that it can stand on."""
    held = set(chess.SquareSet(blockers))
    return [
        [] if square in held else [to for to in attacked(letter, square, held) if to not in held]
        for square in range(64)
    ]


def walks(table, start):
    """Yields, move by move, the number of walks of that length to each square."""
    row = [0] * 64
    row[start] = 1
    while True:
        yield row
        following = [0] * 64
        for square, count in enumerate(row):
            if count:
                for to in table[square]:
                    following[to] += count
        row = following


def travel(table, start):
    """Distance and number of shortest routes to every square: the first walks that get there."""
    distance, routes = [None] * 64, [0] * 64
    for moves, row in enumerate(walks(table, start)):
        if moves == 64:
            return distance, routes
        for square, count in enumerate(row):
            if count and distance[square] is None:
                distance[square], routes[square] = moves, count


def crossing(one, s1, other, s2):
    return attacked(one, s1, [s2]) & attacked(other, s2, [s1])


def write_board():
    for side in ("white", "black"):
        print("view", side, " ".join(seen(name, side) for name in NAMES))
    print("color", "".join(map(color, NAMES)))
    for one in NAMES:
        print("aligned", one, "".join(aligned(one, other) for other in NAMES))
    for i, one in enumerate(NAMES):
        for other in NAMES[i + 1 :]:
            if aligned(one, other) != "n":
                print("between", one, other, *between(one, other))


def write_spans():
    for letter in SPANNERS:
        for square in range(64):
            if pawn_can_stand(letter, square):
                print("span", letter + NAMES[square], *(NAMES[to] for to in attacked(letter, square)))


def write_travel():
    for letter in TRAVELERS:
        table = steps(letter, 0)
        for start in range(64):
            distance, routes = travel(table, start)
            print("distance", letter, NAMES[start], "".join("-" if d is None else str(d) for d in distance))
            print("routes", letter, NAMES[start], *routes)


def write_crossings():
    for i, one in enumerate(SPANNERS):
        for other in SPANNERS[i:]:
            for s1 in range(64):
                if not pawn_can_stand(one, s1):
                    continue
                count = check = 0
                sets = []
                for s2 in range(64):
                    both = chess.SquareSet()
                    if s2 != s1 and pawn_can_stand(other, s2):
                        both = crossing(one, s1, other, s2)
                    sets.append(f"{int(both):016x}")
                    count += len(both)
                    check += sum((s2 + 1) * (to + 1) for to in both)
                print("crossings", one + NAMES[s1], other, count, check)
                if one + other == "RB":
                    print("crossing", one + NAMES[s1], other, *sets)


def write_blocked():
    dice = random.Random(SEED)
    for case in range(4000):
        letter = TRAVELERS[case % 5]
        how_many = dice.randint(1, 5) if case % 2 else dice.randint(6, 44)
        start, to, *held = dice.sample(range(64), how_many + 2)
        if case % 40 == 0:
            held.append(to)
        blockers = sum(1 << square for square in held)
        distance, routes = travel(steps(letter, blockers), start)
        fewest = "-" if distance[to] is None else distance[to]
        print("travel", letter + NAMES[start], NAMES[to], f"{blockers:016x}", fewest, routes[to])


if __name__ == "__main__":
    write_board()
    write_spans()
    write_travel()
    write_crossings()
    write_blocked()
