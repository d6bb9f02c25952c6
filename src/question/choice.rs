//! What a question is drawn from: the dice, and what is worth asking about.

use serde::{Deserialize, Serialize};
use shakmaty::{Bitboard, Board, Chess, Color, Piece, Position, Role, Square};

use super::dice::Dice;
use super::{Scene, pinned};
use crate::board::{Pair, PieceAt};
use crate::game::Ply;

/// How many plies back a piece or square counts as touched.
const RECENT: usize = 8;

/// A scene to draw questions from, with the pieces and squares that the last plies touched.
#[derive(Debug)]
pub struct Choice<'a> {
    /// Where the questions stand.
    pub scene: Scene<'a>,
    /// After how many plies the board was known last, where a round is about the plies from there on; `None` where a
    /// game is followed.
    pub(super) known: Option<usize>,
    /// Whether to keep out what is hardly worth asking.
    pub strict: bool,
    /// The dice.
    pub dice: &'a mut Dice,
    /// The squares of pieces that moved, that have come under attack, or that have become pinned.
    pub(super) pieces: Bitboard,
    /// Squares that were vacated, reached or newly attacked.
    pub(super) squares: Bitboard,
    /// The squares that what was spoken last names or clearly tells about.
    pub(super) spoken: Bitboard,
    /// After how many plies the touching began.
    pub(super) since: usize,
    /// Whether a move to judge is to be legal. It stays so until such a question is taken: what is refused must not
    /// decide how often the answer is yes.
    pub legal: bool,
    /// Whether what the plies of a round left alone may be asked, which stays so as well.
    pub(super) untouched: bool,
    /// The seed of the rolls that stay the same, however often a question is drawn again.
    pub(super) fixed: u64,
}

impl<'a> Choice<'a> {
    /// Prepares to draw from a scene; in a round, the board was known last after so many plies.
    pub fn new(
        scene: Scene<'a>,
        known: Option<usize>,
        strict: bool,
        dice: &'a mut Dice,
    ) -> Choice<'a> {
        let since = known.unwrap_or(scene.plies().saturating_sub(RECENT));
        let touched: Bitboard = scene.played()[since..].iter().flat_map(named).collect();
        let before = scene.line().position(since);
        let now = scene.position();
        let newly_attacked =
            both(|side| attacked(now.board(), side) & !attacked(before.board(), side));
        let threatened = both(|side| now.board().by_color(!side) & attacked(now.board(), side));
        let newly_pinned = all_pinned(now) & !all_pinned(before);
        let occupied = now.board().occupied();
        let fixed = dice.own_seed();
        Choice {
            scene,
            known,
            strict,
            legal: dice.chance(1, 2),
            untouched: dice.chance(1, 10),
            fixed,
            dice,
            pieces: (touched | newly_pinned | (newly_attacked & threatened)) & occupied,
            squares: touched | newly_attacked,
            spoken: spoken_last(scene, known).iter().flat_map(named).collect(),
            since,
        }
    }

    /// Returns the plies that were spoken last.
    pub(super) fn spoken_last(&self) -> &'a [Ply] {
        spoken_last(self.scene, self.known)
    }

    /// Returns where the answer would have been known before the plies of the round. With the other side to move now,
    /// that is after the first of them.
    pub(super) fn before(&self) -> Option<Scene<'a>> {
        let known = self.known?;
        let read = self.scene.plies() - known;
        let before = if read > 1 { known + read % 2 } else { known };
        (read > 0).then(|| Scene::new(self.scene.line(), before))
    }

    /// Rolls what stays the same until the next question is taken, once one is, a move to judge or another.
    pub(crate) fn roll(&mut self, is_judged: bool) {
        let legal = self.dice.chance(1, 2);
        if is_judged {
            self.legal = legal;
        }
        self.untouched = self.dice.chance(1, 10);
    }

    /// Picks a touched square as often as is wanted, where there is one, and else an untouched one.
    pub(super) fn pick(&mut self, hot: Bitboard, cold: Bitboard) -> Option<Square> {
        let [hot, cold] = [hot, cold].map(|squares| squares.into_iter().collect::<Vec<Square>>());
        self.rather(&hot, &cold)
    }

    /// Picks one of the touched things where there is one: four times in five, and in a round nine times in ten.
    pub(super) fn rather<T: Copy>(&mut self, hot: &[T], cold: &[T]) -> Option<T> {
        let want_hot = match self.known {
            None => self.dice.chance(4, 5),
            Some(_) => !self.untouched,
        };
        let pool = if hot.is_empty() || (!want_hot && !cold.is_empty()) {
            cold
        } else {
            hot
        };
        self.dice.pick(pool).copied()
    }

    /// Picks one of these pieces. The pawns are left out three times in four: there are many of them, and
    /// they see little.
    pub(super) fn piece(&mut self, pieces: Bitboard) -> Option<Square> {
        let officers = pieces & !self.scene.board().pawns();
        let pieces = if officers.any() && self.dice.chance(3, 4) {
            officers
        } else {
            pieces
        };
        self.pick(pieces & self.pieces, pieces & !self.pieces)
    }
}

/// All squares that a side's pieces attack.
pub(super) fn attacked(board: &Board, side: Color) -> Bitboard {
    let pieces = board.by_color(side).into_iter();
    pieces.flat_map(|at| board.attacks_from(at)).collect()
}

/// What is so of one side or the other.
fn both(of: impl Fn(Color) -> Bitboard) -> Bitboard {
    of(Color::White) | of(Color::Black)
}

fn all_pinned(position: &Chess) -> Bitboard {
    let pieces = position.board().occupied().into_iter();
    pieces.filter(|square| pinned(position, *square)).collect()
}

/// The plies that were spoken last: one, and where a game is followed two, which may have been spoken together.
fn spoken_last(scene: Scene<'_>, known: Option<usize>) -> &[Ply] {
    let spoken = if known.is_none() { 2 } else { 1 };
    let played = scene.played();
    &played[played.len().saturating_sub(spoken)..]
}

/// The squares that a move names or clearly tells about.
fn named(ply: &Ply) -> Bitboard {
    let mut named = Bitboard::from(ply.from()).with(ply.to());
    named.extend(ply.taken_on());
    if let Some(wing) = ply.mv.castling_side() {
        named.add(ply.mv.to());
        named.add(wing.rook_to(ply.side()));
    }
    named
}

/// From which side squares are seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Views {
    /// White's.
    White,
    /// Black's.
    Black,
    /// Now White's, now Black's.
    Both,
}

/// What questions over the bare board are drawn from.
#[derive(Debug)]
pub(crate) struct BareChoice<'a> {
    /// From which side squares are seen.
    pub view: Views,
    /// The pieces that travel and attack, by their FEN letters; where none is wished for, all.
    pub pieces: &'a [char],
    /// How many blockers stand in the way of a piece that travels.
    pub blockers: usize,
    /// The dice.
    pub dice: &'a mut Dice,
}

impl BareChoice<'_> {
    pub(super) fn square(&mut self) -> Square {
        Square::ALL[self.dice.below(64)]
    }

    pub(super) fn side(&mut self) -> Color {
        match self.view {
            Views::White => Color::White,
            Views::Black => Color::Black,
            Views::Both => Color::ALL[self.dice.below(2)],
        }
    }

    pub(super) fn pair(&mut self) -> Pair {
        loop {
            if let Some(pair) = Pair::new(self.square(), self.square()) {
                return pair;
            }
        }
    }

    /// A piece of those wished for that fit, or else one of `usual`, where a letter stands as often as it is to come.
    pub(super) fn piece(&mut self, usual: &str, fits: impl Fn(Role) -> bool) -> PieceAt {
        let wished = self.pieces.iter().copied();
        let wished = wished.filter_map(Piece::from_char);
        let mut pieces: Vec<Piece> = wished.filter(|piece| fits(piece.role)).collect();
        if pieces.is_empty() {
            pieces = usual.chars().filter_map(Piece::from_char).collect();
        }
        loop {
            let piece = pieces[self.dice.below(pieces.len())];
            if let Some(piece) = PieceAt::new(piece, self.square()) {
                return piece;
            }
        }
    }
}
