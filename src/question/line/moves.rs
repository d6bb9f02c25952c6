//! The squares to which the piece on a square can legally go.

use serde::{Deserialize, Serialize};
use shakmaty::{Bitboard, CastlingSide, Chess, Position, Role, Square};

use super::super::json::text;
use super::super::{
    Attempt, Choice, Disclosure, Form, LineKind, Reply, Scene, Share, Tally, Truth, pinned,
};
use super::{LegalityWhy, near_miss};
use crate::game::TrackedPiece;
use crate::reply::{Unread, arrival};

/// What stands between the squares of a reply.
const SEPARATORS: [char; 3] = [' ', ',', ';'];

/// Asks to which squares a piece can legally go; castling counts as the king's arrival square.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Moves {
    /// The square of the piece.
    #[serde(with = "text")]
    pub square: Square,
}

/// What binds the piece, and why each square named wrongly is closed to it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MovesWhy {
    /// The square of the piece.
    pub from: Square,
    /// Where it moves.
    pub position: Chess,
    /// The squares that it can go to and the learner did not name.
    pub missed: Bitboard,
    /// Why it cannot go to each square that should not have been named.
    pub extra: Vec<LegalityWhy>,
}

impl LineKind for Moves {
    const TELLS_CHECK: bool = true;

    const MOVES: Share = Share::Some;

    type Why = MovesWhy;

    fn truth(self, scene: Scene<'_>) -> Truth {
        let moves = scene.position().legal_moves().into_iter();
        let own = moves.filter(|mv| mv.from() == Some(self.square));
        let king_to = |wing: CastlingSide| wing.king_to(scene.position().turn());
        let to = own.map(|mv| mv.castling_side().map_or(mv.to(), king_to));
        Truth::squares(to.collect())
    }

    fn fits(self, scene: Scene<'_>) -> bool {
        scene.position().us().contains(self.square)
    }

    fn why(self, scene: Scene<'_>, tally: &Tally, _: Option<&Reply>) -> MovesWhy {
        let told = self.shut_in(scene).filter(|_| tally.extra.is_empty());
        let extra = told.unwrap_or(tally.extra).into_iter().map(|to| {
            let mut why = LegalityWhy::new(scene, self.attempt(scene, to));
            (why.attempt.to, why.attempt.promotion) = (to, None);
            why
        });
        MovesWhy {
            from: self.square,
            position: scene.position().clone(),
            missed: tally.missed,
            extra: extra.filter(|why| why.blame.is_some()).collect(),
        }
    }

    fn read(self, form: Form, scene: Scene<'_>, text: &str) -> Result<Reply, Unread> {
        // The move of another piece is not where this one goes.
        let own = scene.board().role_at(self.square);
        let is_other = |word: &&str| {
            let mut letters = word.chars();
            let named = letters.next().filter(char::is_ascii_uppercase);
            let named = named.and_then(|letter| Role::from_char(letter.to_ascii_lowercase()));
            named.is_some() && named != own && letters.as_str().parse::<Square>().is_ok()
        };
        if let Some(word) = text.split(SEPARATORS).find(is_other) {
            return Err(Unread::NoSquare(word.into()));
        }
        form.read(&self.arrivals(scene, text))
    }

    fn piece(self, scene: Scene<'_>) -> Option<&TrackedPiece> {
        scene.piece_on(self.square)
    }

    fn disclose(self, disclosure: &mut Disclosure, truth: &Truth, _: Scene<'_>) {
        disclosure.asks_ways(self.square, truth);
    }

    fn draw(choice: &mut Choice<'_>) -> Option<Moves> {
        let square = choice.piece(choice.scene.position().us())?;
        Some(Moves { square })
    }
}

impl Moves {
    /// Brings moves of the piece that are written in full into the squares on which they arrive.
    fn arrivals(self, scene: Scene<'_>, text: &str) -> String {
        let Some(piece) = scene.board().piece_at(self.square) else {
            return text.to_owned();
        };
        let words = text.split(SEPARATORS);
        let words = words.map(|word| {
            arrival(word, piece, self.square).map_or_else(|| word.to_owned(), |to| to.to_string())
        });
        words.collect::<Vec<String>>().join(" ")
    }

    /// Names the move to `to` that comes nearest to what the learner can have meant: a pawn that
    /// reaches the last rank becomes a queen, a king on its way to castle goes onto its rook where
    /// the rules name castling so.
    fn attempt(self, scene: Scene<'_>, to: Square) -> Attempt {
        let to = self.castling_rook(scene, to).unwrap_or(to);
        near_miss::tried(scene.board(), self.square, to)
    }

    /// The nearest squares of a piece that has no move, whose reasons explain it; `None` where it has one, or where a
    /// pin or a check says all.
    fn shut_in(self, scene: Scene<'_>) -> Option<Bitboard> {
        let (position, piece) = (scene.position(), scene.board().piece_at(self.square)?);
        let is_king = piece.role == Role::King;
        let is_bound = pinned(position, self.square) || (position.is_check() && !is_king);
        if is_bound || self.truth(scene).set().any() {
            return None;
        }
        let is_near = |to: &Square| {
            let is_its_way = piece.role != Role::Pawn || to.file() == self.square.file();
            is_its_way && (piece.role == Role::Knight || self.square.distance(*to) == 1)
        };
        Some(
            { near_miss::targets(scene, self.square, piece).into_iter() }
                .filter(is_near)
                .collect(),
        )
    }

    fn castling_rook(self, scene: Scene<'_>, to: Square) -> Option<Square> {
        let piece = scene.board().piece_at(self.square)?;
        let king = Some(piece).filter(|piece| piece.role == Role::King)?;
        let castles = scene.position().castles();
        let far = castles.mode().is_chess960() && self.square.distance(to) > 1;
        let wing = CastlingSide::from_king_side(to > self.square);
        castles
            .rook(king.color, wing)
            .filter(|_| far && wing.king_to(king.color) == to)
    }
}
