//! The move played at a given move number.

use std::num::NonZeroU32;

use serde::{Deserialize, Serialize};
use shakmaty::Color;

use super::super::json::text;
use super::super::{Attempt, Choice, Form, LineKind, Reply, Scene, Share, Tally, Truth};
use super::Refused;
use crate::game::{MoveNumber, Ply};
use crate::reply::Unread;

/// Asks which move a side played at a move number; to be asked only of moves that have been played.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Played {
    /// The side.
    #[serde(with = "text")]
    pub color: Color,
    /// The move number.
    pub number: NonZeroU32,
}

/// The move, and what was said instead, if it cannot be played there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlayedWhy {
    /// The move.
    pub ply: Ply,
    /// When the move that was named was played instead, by either side, nearest to the one that was asked for.
    pub elsewhere: Option<MoveNumber>,
    /// The illegal move.
    pub refused: Option<Refused>,
}

impl Played {
    /// Asks for the move of a ply.
    pub const fn at(number: MoveNumber) -> Played {
        Played {
            color: number.side,
            number: number.number,
        }
    }

    fn found(self, scene: Scene<'_>) -> Option<usize> {
        let asked = |ply: &Ply| Played::at(ply.number) == self;
        scene.played().iter().position(asked)
    }

    fn index(self, scene: Scene<'_>) -> usize {
        self.found(scene).expect("this move has been played")
    }

    fn ply(self, scene: Scene<'_>) -> Ply {
        scene.played()[self.index(scene)]
    }

    /// Returns the scene in which the move was played.
    fn before(self, scene: Scene<'_>) -> Scene<'_> {
        Scene::new(scene.line(), self.index(scene))
    }
}

impl LineKind for Played {
    const GAME: Share = Share::All;

    type Why = PlayedWhy;

    fn truth(self, scene: Scene<'_>) -> Truth {
        Truth::Move(Attempt::of(self.ply(scene).mv, scene.position()))
    }

    fn fits(self, scene: Scene<'_>) -> bool {
        self.found(scene).is_some()
    }

    fn why(self, scene: Scene<'_>, _: &Tally, reply: Option<&Reply>) -> PlayedWhy {
        let said = reply.and_then(|reply| reply.moves().first()?.squares());
        let position = scene.position();
        let same = |(_, ply): &(usize, &Ply)| said == Some(Attempt::of(ply.mv, position));
        let (asked, all) = (self.index(scene), scene.played().iter().enumerate());
        let nearest = all.filter(same).min_by_key(|(at, _)| at.abs_diff(asked));
        PlayedWhy {
            ply: self.ply(scene),
            elsewhere: nearest
                .map(|(_, ply)| ply.number)
                .filter(|at| Played::at(*at) != self),
            refused: Refused::all(self.before(scene), reply).pop(),
        }
    }

    fn read(self, form: Form, scene: Scene<'_>, text: &str) -> Result<Reply, Unread> {
        form.read_in(text, self.before(scene).position())
    }

    /// Four times in five one of the last plies, never one that was spoken last.
    fn draw(choice: &mut Choice<'_>) -> Option<Played> {
        let played = choice.scene.played();
        let unspoken = played.len() - choice.spoken_last().len();
        let numbers: Vec<Played> = played[..unspoken]
            .iter()
            .map(|ply| Played::at(ply.number))
            .collect();
        let (cold, hot) = numbers.split_at(choice.since.min(unspoken));
        choice.rather(hot, cold)
    }
}
