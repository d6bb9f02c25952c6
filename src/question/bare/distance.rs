//! In how few moves a piece gets to a square.

use serde::{Deserialize, Serialize};
use shakmaty::Square;

use super::super::{BareChoice, BareKind, Form, Reply, Tally, Truth};
use super::json::journey;
use super::travel;
use crate::board::{Travel, Unreachable};

/// Asks for the fewest moves that a piece needs to a square.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Distance {
    /// The piece, the square and the blockers.
    #[serde(with = "journey")]
    pub travel: Travel,
}

/// A shortest route, or why there is none.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TravelWhy {
    /// The piece, the square and the blockers.
    pub travel: Travel,
    /// The fewest moves; `None` when the piece never gets there.
    pub fewest: Option<u32>,
    /// One shortest route, the piece's own square first; empty when there is none.
    pub route: Vec<Square>,
    /// How many shortest routes there are.
    pub routes: u64,
    /// Why the piece never gets there; `None` when it does.
    pub unreachable: Option<Unreachable>,
}

impl TravelWhy {
    pub(super) fn of(travel: Travel) -> TravelWhy {
        TravelWhy {
            travel,
            fewest: travel.fewest(),
            route: travel.route(),
            routes: travel.routes(),
            unreachable: travel.unreachable(),
        }
    }
}

impl BareKind for Distance {
    const FORM: Form = Form::Distance;

    const THINK_MILLIS: u64 = 20_000;

    type Why = TravelWhy;

    fn truth(self) -> Truth {
        Truth::Distance {
            moves: self.travel.fewest(),
        }
    }

    fn why(self, _: &Tally, _: Option<&Reply>) -> TravelWhy {
        TravelWhy::of(self.travel)
    }

    fn subject_squares(self) -> Vec<Square> {
        vec![self.travel.piece().square(), self.travel.to()]
    }

    fn draw(choice: &mut BareChoice<'_>) -> Distance {
        Distance {
            travel: travel::draw(choice),
        }
    }
}
