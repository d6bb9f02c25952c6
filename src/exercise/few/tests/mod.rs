//! The promises of a few pieces, counted over many seeds.

mod lines;
mod positions;

use super::*;
use crate::exercise::bound::Within;
use crate::question::Kind;

#[test]
fn a_round_without_a_question_is_rare_where_answers_vary() {
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
            follow: false,
        };
        let wanted = settings.kinds().len();
        let has = |number: &usize| {
            usize::from(round(&settings, &[], *number, true, 1).is_some()) == wanted
        };
        let with = (0..600).filter(has).count();
        // Few pieces leave little to take after the captures of the plies played on, and what nearly always has the
        // same answer is passed over.
        let least = match kind {
            Kind::Check | Kind::Mate => 0,
            Kind::Exchange => 30,
            Kind::Captures => 60,
            Kind::Checks | Kind::Hanging | Kind::Balance | Kind::Taken => 120,
            _ => 590,
        };
        assert!(with >= least, "{kind} after {plies} plies: {with} of 600");
    }
}
