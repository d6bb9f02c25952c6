//! Grading: a reply held against the truth.

use serde::{Deserialize, Serialize};
use shakmaty::{Bitboard, Board, Square};

use super::{Attempt, MoveSaid, Reply, Truth, Wings};

/// What came of a question.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Verdict {
    /// All of it is right.
    Right,
    /// Some of it is right.
    Part,
    /// None of it is right.
    Wrong,
    /// The learner gave the question up.
    Pass,
}

/// A graded reply.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// What came of it.
    pub verdict: Verdict,
    /// The share that is right, 0 to 1.
    pub score: f64,
    /// The squares in detail, where squares were asked for.
    pub tally: Tally,
}

/// Which squares of a reply were right, by the names of a coach's ticks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    /// Asked for and named.
    pub hit: Bitboard,
    /// Asked for and not named.
    pub missed: Bitboard,
    /// Named and not asked for.
    pub extra: Bitboard,
    /// Named with another piece than the one that stands there (whole placements only).
    pub wrong_piece: Bitboard,
}

impl Mark {
    /// Grades a reply.
    ///
    /// Sets score |hit| / |hit ∪ missed ∪ extra|, the optional squares left out of all three; a
    /// placement scores the pieces placed right out of all squares that truth or reply fill. Of pieces without
    /// squares, each counts for itself; where one move is said, any one of the right ones will do. An
    /// illegal move is one named too many.
    ///
    /// A reply of another shape than the truth's is wrong. A route is held against its question, not
    /// against the number of its moves: [`BareQuestion::mark`].
    ///
    /// [`BareQuestion::mark`]: super::BareQuestion::mark
    pub fn new(truth: &Truth, reply: &Reply) -> Mark {
        let right = match (truth, reply) {
            (Truth::Squares { squares, optional }, Reply::Squares(said)) => {
                return Mark::squares(*squares, said.without(*optional), Bitboard::EMPTY);
            }
            (Truth::Placement(placement), Reply::Placement(said)) => {
                return Mark::placement(placement, said);
            }
            (Truth::Moves(moves), Reply::Moves(said)) => {
                let hit = said.iter().filter(|said| is_among(said, moves)).count();
                return Mark::shared(hit, moves.len() + said.len() - hit, Tally::default());
            }
            (Truth::Wings(wings), Reply::Wings(said)) => return Mark::wings(*wings, *said),
            (Truth::Taken(pieces), Reply::Taken(said)) => {
                let (both, all) = pieces.shared(*said);
                return Mark::shared(both, all, Tally::default());
            }
            (Truth::Piece(Some(piece)), Reply::Role(said)) => piece.role == *said,
            (Truth::Moves(moves), Reply::Move(said)) => is_among(said, moves),
            (Truth::Moves(moves), Reply::NoMove) => moves.is_empty(),
            (truth, reply) => truth.reply().is_some_and(|right| right == *reply),
        };
        Mark::all_or_nothing(right)
    }

    /// Marks a question that the learner gave up.
    pub fn pass(truth: &Truth) -> Mark {
        Mark {
            verdict: Verdict::Pass,
            score: 0.0,
            tally: Tally {
                missed: truth.set(),
                ..Tally::default()
            },
        }
    }

    pub(crate) fn all_or_nothing(right: bool) -> Mark {
        Mark::shared(usize::from(right), 1, Tally::default())
    }

    fn squares(asked: Bitboard, said: Bitboard, wrong_piece: Bitboard) -> Mark {
        let tally = Tally {
            hit: asked & said & !wrong_piece,
            missed: asked & !said,
            extra: said & !asked,
            wrong_piece,
        };
        Mark::shared(tally.hit.count(), (asked | said).count(), tally)
    }

    fn wings(truth: Wings, said: Wings) -> Mark {
        let both = [truth.short && said.short, truth.long && said.long];
        let either = [truth.short || said.short, truth.long || said.long];
        let [hit, all] = [both, either].map(|wings| wings.map(usize::from).iter().sum());
        Mark::shared(hit, all, Tally::default())
    }

    fn placement(truth: &Board, said: &Board) -> Mark {
        let both = (truth.occupied() & said.occupied()).into_iter();
        let differs = |square: &Square| truth.piece_at(*square) != said.piece_at(*square);
        let wrong_piece = both.filter(differs).collect();
        Mark::squares(truth.occupied(), said.occupied(), wrong_piece)
    }

    /// A share of `right` out of `all`; nothing asked for and nothing said is all right.
    fn shared(right: usize, all: usize, tally: Tally) -> Mark {
        #[expect(clippy::cast_precision_loss, reason = "at most 218 moves")]
        let score = if all == 0 {
            1.0
        } else {
            right as f64 / all as f64
        };
        let verdict = match right {
            _ if right == all => Verdict::Right,
            0 => Verdict::Wrong,
            _ => Verdict::Part,
        };
        Mark {
            verdict,
            score,
            tally,
        }
    }
}

fn is_among(said: &MoveSaid, moves: &[Attempt]) -> bool {
    said.squares().is_some_and(|said| moves.contains(&said))
}
