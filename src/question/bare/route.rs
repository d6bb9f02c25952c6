//! By which squares a piece gets to a square in the fewest moves.

use serde::{Deserialize, Serialize};
use shakmaty::Square;

use super::super::{BareChoice, BareKind, Form, Mark, Reply, Tally, Truth};
use super::json::journey;
use super::{TravelWhy, travel};
use crate::board::{Misstep, Travel};

/// Asks for a shortest route of a piece to a square; any of them is right.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Route {
    /// The piece, the square and the blockers.
    #[serde(with = "journey")]
    pub travel: Travel,
}

/// A shortest route, and what is wrong with the learner's.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RouteWhy {
    /// A shortest route, or why there is none.
    pub travel: TravelWhy,
    /// The first fault of the learner's route; `None` when it is right or there was none.
    pub misstep: Option<Misstep>,
}

impl BareKind for Route {
    const FORM: Form = Form::Route;

    const THINK_MILLIS: u64 = 30_000;

    type Why = RouteWhy;

    fn truth(self) -> Truth {
        Truth::Distance {
            moves: self.travel.fewest(),
        }
    }

    fn mark(self, reply: &Reply) -> Mark {
        match reply {
            Reply::Route(said) => Mark::all_or_nothing(self.travel.misstep(said).is_none()),
            _ => Mark::new(&self.truth(), reply),
        }
    }

    fn why(self, _: &Tally, reply: Option<&Reply>) -> RouteWhy {
        let said = match reply {
            Some(Reply::Route(said)) => Some(said),
            _ => None,
        };
        RouteWhy {
            travel: TravelWhy::of(self.travel),
            misstep: said.and_then(|said| self.travel.misstep(said)),
        }
    }

    fn subject_squares(self) -> Vec<Square> {
        vec![self.travel.piece().square(), self.travel.to()]
    }

    fn draw(choice: &mut BareChoice<'_>) -> Route {
        Route {
            travel: travel::draw(choice),
        }
    }
}
