//! In how few moves a piece gets to a square, and by which squares.

use serde::{Deserialize, Deserializer, Serialize, Serializer, de};
use shakmaty::{Bitboard, Role, Square};

use super::super::json::{text, texts};
use super::super::{BareChoice, BareKind, Mark, Reply, Truth};
use crate::board::{PieceAt, Travel};

/// A question about a piece's shortest way to a square: in how many moves or, for a route, by which squares.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct ShortestWay<const ROUTE: bool> {
    /// The piece, the square and the blockers.
    #[serde(with = "Subject")]
    pub travel: Travel,
}

/// Asks for the fewest moves that a piece needs to a square.
pub type Distance = ShortestWay<false>;

/// Asks for a shortest route of a piece to a square; any of them is right.
pub type Route = ShortestWay<true>;

/// A journey as it stands in JSON.
#[derive(Serialize, Deserialize)]
struct Subject {
    #[serde(rename = "man", with = "text")]
    piece: PieceAt,
    #[serde(with = "text")]
    to: Square,
    #[serde(with = "texts", default)]
    blockers: Bitboard,
}

impl Subject {
    fn serialize<S: Serializer>(travel: &Travel, to: S) -> Result<S::Ok, S::Error> {
        let subject = Subject {
            piece: travel.piece(),
            to: travel.to(),
            blockers: travel.blockers(),
        };
        Serialize::serialize(&subject, to)
    }

    fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Travel, D::Error> {
        let subject = <Subject as Deserialize>::deserialize(from)?;
        Travel::new(subject.piece, subject.to, subject.blockers).map_err(de::Error::custom)
    }
}

impl<const ROUTE: bool> BareKind for ShortestWay<ROUTE> {
    fn truth(self) -> Truth {
        let moves = self.travel.fewest();
        Truth::Distance { moves }
    }

    fn mark(self, reply: &Reply) -> Mark {
        match reply {
            Reply::Route(said) if ROUTE => {
                Mark::all_or_nothing(self.travel.misstep(said).is_none())
            }
            _ => Mark::new(&self.truth(), reply),
        }
    }

    fn subject_squares(self) -> Vec<Square> {
        vec![self.travel.piece().square(), self.travel.to()]
    }

    fn draw(choice: &mut BareChoice<'_>) -> ShortestWay<ROUTE> {
        let travel = draw(choice);
        ShortestWay { travel }
    }
}

/// Draws a piece, more often than not a knight, a square to go to, and blockers that stand where they matter: near the way.
fn draw(choice: &mut BareChoice<'_>) -> Travel {
    loop {
        let piece = choice.piece("NNNNNNNNNNNKKKKKBBQR", |role| role != Role::Pawn);
        let to = choice.square();
        let Ok(open) = Travel::new(piece, to, Bitboard::EMPTY) else {
            continue;
        };
        // A bishop never gets to a square of the other color; that is asked now and then.
        if open.fewest().is_none() && !choice.dice.chance(1, 4) {
            continue;
        }
        if choice.blockers == 0 {
            // Two moves or more, mostly: one move is no journey.
            if open.fewest() != Some(1) || choice.dice.chance(1, 8) {
                return open;
            }
            continue;
        }
        if let Ok(travel) = Travel::new(piece, to, blockers(open, choice)) {
            return travel;
        }
    }
}

/// Puts half of the blockers on a shortest route or beside the piece, and the rest anywhere.
fn blockers(open: Travel, choice: &mut BareChoice<'_>) -> Bitboard {
    let free = !(Bitboard::from(open.piece().square()).with(open.to()));
    let near: Vec<Square> = open
        .route()
        .into_iter()
        .chain(open.steps(open.piece().square()))
        .filter(|square| free.contains(*square))
        .collect();
    let mut set = Bitboard::EMPTY;
    while set.count() < choice.blockers.min(32) {
        let chosen = if choice.dice.chance(1, 2) {
            choice.dice.pick(&near).copied()
        } else {
            Some(choice.square())
        };
        let square = chosen.unwrap_or_else(|| choice.square());
        if free.contains(square) {
            set.add(square);
        }
    }
    set
}
