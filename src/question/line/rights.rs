//! The wings on which a side may still castle some day.

use serde::{Deserialize, Serialize};
use shakmaty::{CastlingSide, Color, Position, Role};

use super::super::json::text;
use super::super::{Choice, Disclosure, Form, LineKind, Reply, Scene, Share, Tally, Truth, Wings};
use super::Since;
use super::legality::right_lost;

/// Asks on which wings a side has its right to castle, whether castling is possible now or not (FIDE
/// 3.8.2.1).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Rights {
    /// The side.
    #[serde(with = "text")]
    pub color: Color,
}

/// What became of a side's rights to castle.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RightsWhy {
    /// The side.
    pub color: Color,
    /// For each wing that was judged wrongly, when the right was lost; [`Since::NoMatter`] where it is still
    /// there.
    pub wings: Vec<(CastlingSide, Since)>,
}

impl LineKind for Rights {
    const FORM: Form = Form::Wings;

    const GAME: Share = Share::Some;

    type Why = RightsWhy;

    fn truth(self, scene: Scene<'_>) -> Truth {
        Truth::Wings(held(scene, self.color))
    }

    fn why(self, scene: Scene<'_>, _: &Tally, reply: Option<&Reply>) -> RightsWhy {
        let held = held(scene, self.color);
        let wrong = match reply {
            Some(Reply::Wings(said)) => [said.short != held.short, said.long != held.long],
            _ => [true, true],
        };
        let wings = [CastlingSide::KingSide, CastlingSide::QueenSide].into_iter();
        let wings = wings.zip(wrong).filter(|(_, wrong)| *wrong);
        RightsWhy {
            color: self.color,
            wings: wings
                .map(|(wing, _)| (wing, right_lost(scene, self.color, wing)))
                .collect(),
        }
    }

    fn disclose(self, disclosure: &mut Disclosure, _: &Truth, scene: Scene<'_>) {
        let king = scene.board().by_piece(Role::King.of(self.color));
        let own = scene.board().by_color(self.color);
        let rooks = scene.position().castles().castling_rights() & own;
        // The pieces that have never moved, if there is a right to castle.
        disclosure.tells = if rooks.is_empty() {
            rooks
        } else {
            rooks | king
        };
        // A castling move to judge, or the king's own moves, would tell of the right.
        disclosure.asks = disclosure.tells | king;
    }

    /// A side, four times in five one that has a right to castle or has lost one lately. A king's own
    /// move, spoken last, answers by itself; so does a start without any right.
    fn draw(choice: &mut Choice<'_>) -> Option<Rights> {
        let scene = choice.scene;
        let spoken = |color: Color| {
            let last = scene.played().last();
            last.is_some_and(|ply| ply.side() == color && ply.mv.role() == Role::King)
        };
        let wings = |plies, color| held(Scene::new(scene.line(), plies), color);
        let none = Wings::default();
        let sides = Color::ALL.into_iter();
        let (hot, cold): (Vec<Color>, Vec<Color>) = sides
            .filter(|color| !choice.strict || (!spoken(*color) && wings(0, *color) != none))
            .partition(|color| wings(choice.since, *color) != none);
        choice.rather(&hot, &cold).map(|color| Rights { color })
    }
}

/// The wings on which a side has not lost its right to castle (FIDE 3.8.2.1).
fn held(scene: Scene<'_>, color: Color) -> Wings {
    let castles = scene.position().castles();
    Wings {
        short: castles.has(color, CastlingSide::KingSide),
        long: castles.has(color, CastlingSide::QueenSide),
    }
}
