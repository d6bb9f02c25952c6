//! Reasons in words: what a coach would say after a reply that was not right.

mod attackers;
mod attacks;
mod blame;
mod journey;
mod legality;
mod moves;
mod rebuild;
mod standing;
mod way;

use crate::question::Why;

/// Explains why the truth is what it is, one fact a line.
#[must_use]
pub fn why(why: &Why) -> Vec<String> {
    match why {
        Why::Whereabouts(Some(journey)) => journey::way(journey),
        Why::Whereabouts(None) => {
            vec!["No man stood there at the start.".to_owned()]
        }
        Why::Occupant(found) => journey::found(found),
        Why::Standing(why) => standing::standing(why),
        Why::Attacks(why) => attacks::attacks(why),
        Why::Attackers(why) => attackers::attackers(why, attackers::Target::Square),
        Why::Moves(why) => moves::moves(why),
        Why::Legality(why) => legality::legality(why),
        Why::Check(why) => attackers::attackers(why, attackers::Target::King),
        Why::Rebuild(why) => rebuild::rebuild(why),
    }
}

#[cfg(test)]
mod tests;
