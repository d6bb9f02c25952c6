//! Exercises from beginning to end as state machines, and what a learner's answers lead to.

mod ahead;
mod choice;
mod course;
mod dialogue;
mod drill;
mod few;
mod journal;
mod kept;
mod pace;
#[path = "../shared/passages.rs"]
mod passages;
mod play;
#[path = "../shared/program.rs"]
mod program;
#[path = "../shared/published.rs"]
mod published;
mod recite;
mod replay;
mod replies;
#[path = "../shared/variety.rs"]
mod shared_variety;
mod variety;

use sansvoir::exercise::{Answered, EarlierAnswer};

/// An answer as the journal keeps it for a session that goes on later.
fn kept(answered: &Answered) -> EarlierAnswer {
    EarlierAnswer {
        text: answered.text.clone(),
        millis: answered.millis.unwrap_or_default(),
        looks: answered.looks,
        seen_ago: answered.hardness.map_or(0, |hardness| hardness.plies),
        helped: answered.helped,
        tries: answered.tries.clone().unwrap_or_default(),
    }
}
