//! Whether a question is one too many of its sort: what is true has to vary, or a fixed answer would win.

use shakmaty::zobrist::Zobrist64;
use shakmaty::{EnPassantMode, Position, Role};

use super::{CapturedPieces, Choice, Dice, LineQuestion, Scene, Truth};
use crate::game::Ply;

/// In a hundred of a kind's questions, so many are to have the answer `none` or `even` at most: a third would be too
/// many, and what is drawn is not quite even.
const DULL: usize = 30;
/// The same in a round, whose few places tell less.
const DULL_IN_ROUND: usize = 20;
/// And so many any other answer that positions share.
const SHARED: usize = 34;
/// So many plies of a game are its first moves.
const FIRST_MOVES: usize = 8;
/// The same question is looked at in about so many places of the line.
const PLACES: usize = 64;
/// What the dice are rolled for where nothing changed; kinds have the small numbers.
const UNCHANGED: u64 = 99;
/// So often what is too much is cut down to its share of what was left: by then next to nothing changes.
const CUTS: usize = 24;

impl LineQuestion {
    /// Tells whether the question is worth asking where it was drawn.
    ///
    /// In a round, it is when the plies changed its answer, or when it is the turn of what they left alone. And
    /// where much of the line gives it the same answer, it is as often as keeps that answer to its share. Where nothing
    /// better is to be had, all is let in but that there is nothing.
    pub(crate) fn is_worth_asking(self, choice: &Choice<'_>) -> bool {
        let truth = self.truth(choice.scene);
        if self.is_untouched(choice.scene, &truth) {
            return false;
        }
        if !choice.strict {
            return self.is_varied() || !is_dull(&truth);
        }
        // What seldom changes would come unchanged too often: there a change is not to be had at every turn.
        let is_turn = choice.untouched
            && (self.is_varied() || Dice::new(choice.fixed, UNCHANGED).chance(1, 3));
        let changed = is_turn || self.is_changed(choice, &truth);
        changed && (self.is_varied() || self.has_its_share(choice, &truth))
    }

    /// Tells whether it is about material that is even, or complete, because nothing has been taken since the start.
    fn is_untouched(self, scene: Scene<'_>, truth: &Truth) -> bool {
        let is_of_material = matches!(self, LineQuestion::Balance(_) | LineQuestion::Taken(_));
        let changes = |ply: &Ply| ply.mv.is_capture() || ply.mv.is_promotion();
        is_of_material && is_dull(truth) && !scene.played().iter().any(changes)
    }

    /// Tells whether the plies of the round changed the answer.
    fn is_changed(self, choice: &Choice<'_>, truth: &Truth) -> bool {
        let never_before = matches!(self, LineQuestion::Check(_) | LineQuestion::Played(_));
        let before = choice.before().filter(|_| !never_before);
        before.is_none_or(|before| self.truth(before) != *truth)
    }

    fn has_its_share(self, choice: &Choice<'_>, truth: &Truth) -> bool {
        let in_round = choice.known.is_some();
        let most = |truth: &Truth| limit(truth, in_round);
        if let Some(percent) = usual(truth).filter(|_| in_round) {
            // By the place alone: what was refused there would come in the end, where many rounds are looked for.
            let place: Zobrist64 = choice.scene.position().zobrist_hash(EnPassantMode::Legal);
            return Dice::new(place.0, self.kind() as u64).chance(percent, 100);
        }
        let mut dice = Dice::new(choice.fixed, self.kind() as u64);
        let Some(own) = most(truth) else { return true };
        let line = choice.scene.line();
        // Each answer that has a limit, and in how many places it is the right one.
        let (mut shared, mut others) = (Vec::<(Truth, usize, usize)>::new(), 0);
        // In a game, hardly anything is asked before the first moves are played.
        let first = choice.known.unwrap_or(line.len().min(FIRST_MOVES));
        for plies in (first..=line.len()).step_by(1 + line.len() / PLACES) {
            let scene = Scene::new(line, plies);
            let truth = self.truth(scene);
            if self.is_untouched(scene, &truth) {
                continue;
            }
            let known = shared.iter_mut().find(|(known, ..)| *known == truth);
            match (known, most(&truth)) {
                (Some((_, places, _)), _) => *places += 1,
                (None, Some(limit)) => shared.push((truth, 1, limit)),
                (None, None) => others += 1,
            }
        }
        // In thousandths of a place.
        let mut left = 1000 * PLACES;
        for _ in 0..CUTS {
            let cut =
                |(_, places, limit): &(_, usize, usize)| (1000 * places).min(left * limit / 100);
            left = 1000 * others + shared.iter().map(cut).sum::<usize>();
        }
        let places = shared.iter().find(|(known, ..)| known == truth);
        let places = places.map_or(0, |(_, places, _)| 1000 * places);
        let share = left * own / 100;
        places <= share || dice.chance(share, places)
    }
}

/// How many in a hundred of a kind's questions an answer may make up; `None` where few positions share it. In a
/// round what was so before is seldom asked anyway, and little else is known of how the answers vary.
fn limit(truth: &Truth, in_round: bool) -> Option<usize> {
    match truth {
        _ if is_dull(truth) => Some(if in_round { DULL_IN_ROUND } else { DULL }),
        Truth::Points(_) | Truth::Wings(_) | Truth::Taken(_) if !in_round => Some(SHARED),
        _ => None,
    }
}

/// What the plies of a round mostly come to: one pawn is taken or to be won, a side castles, or loses one of its
/// rights. Such an answer is let in so often, in a hundred: by count, as none of the others comes up nearly as much.
fn usual(truth: &Truth) -> Option<usize> {
    match truth {
        Truth::Taken(pieces) if *pieces == [Role::Pawn].into_iter().collect() => Some(55),
        Truth::Points(1) => Some(60),
        Truth::Wings(wings) => Some(match (wings.short, wings.long) {
            (false, false) => 4,
            (true, false) => 28,
            _ => 100,
        }),
        _ => None,
    }
}

/// Tells whether the answer is that there is nothing, or that all is as in the beginning.
fn is_dull(truth: &Truth) -> bool {
    match truth {
        Truth::Squares { squares, .. } => squares.is_empty(),
        Truth::Moves(moves) => moves.is_empty(),
        Truth::Points(points) => *points == 0,
        Truth::Wings(wings) => wings.short == wings.long,
        Truth::Taken(pieces) => *pieces == CapturedPieces::default(),
        _ => false,
    }
}
