//! Reasons in words: what a coach would say after a reply that was not right.

mod attackers;
mod attacks;
mod balance;
mod blame;
mod deeds;
mod exchange;
mod hanging;
mod journey;
mod legality;
mod moves;
mod rebuild;
mod refused;
mod rights;
mod standing;
pub(super) mod way;

pub(super) use deeds::MISSED;

use crate::question::{LineWhy, Why};
use crate::voice::Announce;

/// Explains why the truth is what it is, one fact a line.
#[must_use]
pub fn why(why: &Why) -> Vec<String> {
    match why {
        Why::Line(why) => line_why(why),
        Why::Bare(why) => super::bare::why(why),
    }
}

fn line_why(why: &LineWhy) -> Vec<String> {
    match why {
        LineWhy::Whereabouts(Some(journey)) => journey::way(journey),
        LineWhy::Whereabouts(None) => {
            vec!["No man stood there at the start.".to_owned()]
        }
        LineWhy::Occupant(found) => journey::found(found),
        LineWhy::Standing(why) => standing::standing(why),
        LineWhy::Attacks(why) => attacks::attacks(why),
        LineWhy::Attackers(why) => attackers::attackers(why, attackers::Target::Square),
        LineWhy::Moves(why) => moves::moves(why),
        LineWhy::Legality(why) => legality::legality(why),
        LineWhy::Check(why) => attackers::attackers(why, attackers::Target::King),
        LineWhy::Checks(why) => deeds::checks(why),
        LineWhy::Captures(why) => deeds::captures(why),
        LineWhy::Hanging(why) => hanging::hanging(why),
        LineWhy::Mate(why) => deeds::mate(why),
        LineWhy::Exchange(why) => exchange::exchange(why),
        LineWhy::Balance(why) => balance::balance(why),
        LineWhy::Rights(why) => rights::rights(why),
        LineWhy::Taken(why) => why.men.iter().flat_map(journey::way).collect(),
        LineWhy::Played(why) => {
            let mut said: Vec<String> = why.refused.iter().map(refused::refused).collect();
            said.push(format!("It was {}.", Announce::Words.named(&why.ply)));
            said
        }
        LineWhy::Rebuild(why) => rebuild::rebuild(why),
    }
}

#[cfg(test)]
mod tests;
