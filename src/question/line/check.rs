//! Whether the side to move is in check, and from where.

use serde::{Deserialize, Serialize};
use shakmaty::Position;

use super::super::{Choice, Form, LineKind, Reply, Scene, Secret, Tally, Truth};
use super::AttackersWhy;

/// Asks for the squares of the pieces that give check; none when there is no check (FIDE 3.9.1).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Check {}

impl LineKind for Check {
    const FORM: Form = Form::Squares;

    /// A learner who sees nothing says that there is no check; who gives it is hardly asked beyond that.
    const GUESS: f64 = 1.0 / 2.0;

    type Why = AttackersWhy;

    fn truth(self, scene: Scene<'_>) -> Truth {
        Truth::squares(scene.position().checkers())
    }

    fn why(self, scene: Scene<'_>, tally: &Tally, _: Option<&Reply>) -> AttackersWhy {
        let side = scene.position().turn();
        let king = scene.board().king_of(side).expect("each side has its king");
        AttackersWhy::new(scene.board(), !side, king, tally)
    }

    fn reveal(self, secret: &mut Secret, _: &Truth, _: Scene<'_>) {
        secret.speaks_of_check = true;
    }

    /// Announcing a move tells of the check that the moved piece gives, and of no check; only a check from
    /// behind it is still a question.
    fn draw(choice: &mut Choice<'_>) -> Option<Check> {
        let checkers = choice.scene.position().checkers();
        let last = choice.scene.played().last();
        let unspoken = last.is_none_or(|ply| checkers.without(ply.to()).any());
        (!choice.strict || unspoken).then_some(Check {})
    }
}
