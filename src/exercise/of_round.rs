//! What the replay of one round says to the session that is made of rounds.

use super::output::{Answered, Ask, Asked, Output};

/// One output of a round's replay, by what the session around it does with it.
#[derive(Debug)]
pub(super) enum OfRound {
    /// The replay's own first and last words, in whose place the session has others.
    Aside,
    /// A question; the one checkpoint of a round needs no number.
    Ask(Ask),
    /// The question once more.
    AskAgain(Ask),
    /// An answer.
    Answered(Box<Answered>),
    /// All of the round has been read and asked.
    Finished,
    /// The learner stopped.
    Stopped,
    /// Anything else, which is passed on as it is.
    PassedOn(Output),
}

impl From<Output> for OfRound {
    fn from(output: Output) -> OfRound {
        match output {
            Output::Opening(_) | Output::Summary(_) => OfRound::Aside,
            Output::Ask(ask) => OfRound::Ask(without_checkpoint(ask)),
            Output::AskAgain(ask) => OfRound::AskAgain(without_checkpoint(ask)),
            Output::Answered(answered) => OfRound::Answered(answered),
            Output::Finished { .. } => OfRound::Finished,
            Output::Stopped => OfRound::Stopped,
            Output::Heard(_)
            | Output::SidelineBegins { .. }
            | Output::SidelineEnds { .. }
            | Output::Unread { .. }
            | Output::ReplyWanted(_)
            | Output::NothingAsked { .. }
            | Output::Again(_)
            | Output::NothingHeardYet
            | Output::Board { .. }
            | Output::NoLookLeft
            | Output::Help { .. }
            | Output::DrillOpening { .. }
            | Output::NothingToSee
            | Output::DrillFinished
            | Output::DrillSummary(_)
            | Output::FewOpening(_)
            | Output::Men(_)
            | Output::FewSummary(_)
            | Output::AheadOpening(_)
            | Output::Shown(_)
            | Output::AheadSummary(_)
            | Output::MatesOpening(_)
            | Output::Defended(_)
            | Output::Mated(_)
            | Output::MatesSummary(_)
            | Output::Recite(_) => OfRound::PassedOn(output),
        }
    }
}

fn without_checkpoint(mut ask: Ask) -> Ask {
    if let Asked::Line(_, stand) = &mut ask.asked {
        stand.checkpoint = None;
    }
    ask
}
