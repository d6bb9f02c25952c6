//! The promises of a few pieces, counted over many seeds.

mod lines;
mod positions;

use super::*;
use crate::exercise::bound::Within;
use crate::question::Kind;

#[test]
fn a_round_without_a_question_is_rare() {
    for (kind, plies) in Kind::LINE
        .into_iter()
        .flat_map(|kind| [(kind, 0), (kind, 4)])
    {
        let settings = FewSettings {
            pieces: Within::nearest(5),
            plies: Within::nearest(plies),
            count: Within::nearest(1),
            per_round: Within::nearest(1),
            ask: vec![kind],
            think_millis: None,
            looks: None,
            seed: 1,
            from: None,
        };
        let wanted = settings.kinds().len();
        let has =
            |number: &usize| usize::from(round(&settings, &[], *number, 1).is_some()) == wanted;
        let with = (0..600).filter(has).count();
        // Few pieces leave little to take after the captures of the plies played on, and now and
        // then a promotion is among the moves.
        let least = match kind {
            Kind::Exchange => 40,
            Kind::Checks | Kind::Captures | Kind::Mate => 540,
            _ => 595,
        };
        assert!(with >= least, "{kind} after {plies} plies: {with} of 600");
    }
}
