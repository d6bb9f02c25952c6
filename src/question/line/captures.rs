//! Every legal capture.

use serde::{Deserialize, Serialize};

use super::super::{Choice, Form, LineKind, Reply, Scene, Secret, Tally, Truth};
use super::MoveEffectsWhy;
use super::checks::{drawn, legal};

/// Asks for every legal capture, en passant among them; not to be asked where a promotion is among
/// them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Captures {}

impl LineKind for Captures {
    const FORM: Form = Form::Moves;

    type Why = MoveEffectsWhy;

    fn truth(self, scene: Scene<'_>) -> Truth {
        legal(scene, |_, mv| mv.is_capture())
    }

    fn why(self, scene: Scene<'_>, _: &Tally, reply: Option<&Reply>) -> MoveEffectsWhy {
        MoveEffectsWhy::new(scene, &self.truth(scene), reply)
    }

    fn reveal(self, secret: &mut Secret, _: &Truth, _: Scene<'_>) {
        secret.tells_moves();
    }

    fn draw(choice: &mut Choice<'_>) -> Option<Captures> {
        drawn(Captures {}, |_| true, choice)
    }
}
