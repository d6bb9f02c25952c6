//! Where the man that stood on a square at the start of the line stands now.

use serde::{Deserialize, Serialize};
use shakmaty::{Bitboard, Square};

use super::super::json::text;
use super::super::{
    Bearing, Choice, Form, Is, Journey, LineKind, Reply, Scene, Secret, Tally, Truth,
};
use crate::game::Man;
use crate::reply::{Unread, still_there};

/// Asks where a man stands now. It is followed through castling and promotion.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Whereabouts {
    /// The square where it stood at the start of the line.
    #[serde(with = "text")]
    pub man: Square,
}

impl LineKind for Whereabouts {
    const FORM: Form = Form::SquareOrGone;

    /// The man's whole way; `None` where no man stood there.
    type Why = Option<Journey>;

    fn truth(self, scene: Scene<'_>) -> Truth {
        match self.man(scene).and_then(|man| man.square(scene.plies())) {
            Some(square) => Truth::Square { square },
            None => Truth::Gone { gone: Is },
        }
    }

    fn why(self, scene: Scene<'_>, _: &Tally, _: Option<&Reply>) -> Option<Journey> {
        self.man(scene).map(|man| Journey::of(scene, man))
    }

    fn read(self, scene: Scene<'_>, text: &str) -> Result<Reply, Unread> {
        if still_there(text) {
            return Ok(Reply::Square(self.man));
        }
        Whereabouts::FORM.read_in(text, scene.position(), scene.line().start().mode())
    }

    fn man(self, scene: Scene<'_>) -> Option<&Man> {
        scene.line().roster().man(self.man)
    }

    fn reveal(self, secret: &mut Secret, _: &Truth, _: Scene<'_>) {
        secret.material = Bearing::Some;
        secret.score = Bearing::Some;
    }

    fn draw(choice: &mut Choice<'_>) -> Option<Whereabouts> {
        let plies = choice.scene.plies();
        let (mut hot, mut cold) = (Bitboard::EMPTY, Bitboard::EMPTY);
        for man in choice.scene.line().roster().men() {
            let last_step = man.steps(plies).last().map(|step| step.ply);
            let taken = man.taken_by.filter(|ply| *ply < plies);
            let changed = last_step.max(taken);
            if choice.strict && changed.is_some() && changed == plies.checked_sub(1) {
                continue;
            }
            match changed {
                Some(ply) if ply >= choice.since => hot.add(man.home),
                _ => cold.add(man.home),
            }
        }
        choice.pick(hot, cold).map(|man| Whereabouts { man })
    }
}
