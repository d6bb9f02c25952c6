//! One sitting: the loop between a session, the learner at the terminal, and the journal.

mod desk;
mod engine;
mod kept;
mod page;

use super::failure::{Failure, something_was_told};
use crate::exercise::{Awaits, Earlier, Ending, Input, Output, OwnSummary, Session};
use crate::learner::{AnswerRecord, EndRecord, Record, SaidRecord};
use crate::terminal::Way;
use crate::voice::{asides, by_mouth};
use page::Page;

pub(super) use desk::Desk;
pub(super) use engine::EngineOpponent;
pub(super) use kept::can_keep;

/// Holds a session from its beginning, or from where an earlier sitting had stopped, to its end. Where the
/// screen can be wiped, it is held on the alternate screen, and how it went is told on the normal one.
pub(super) fn hold(
    mut desk: Desk,
    session: Session,
    earlier: Option<Earlier>,
) -> Result<(), Failure> {
    // The lines of a pipe are replies: nobody is there who would go back.
    let mut session = session.with_waiting_truths(desk.manner.way != Way::Piped);
    let opening = match earlier {
        Some(earlier) => session.resume(earlier),
        None => session.begin(),
    };
    if desk.can_wipe() {
        if something_was_told() {
            desk.wait_for_enter(asides::BEGIN_PROMPT)?;
        }
        desk.screen.enter()?;
        desk.wipe()?;
    } else if std::mem::take(&mut desk.voice.empty_board) {
        desk.aside(asides::NOTHING_DRAWN)?;
    }
    take(&mut desk, &session, opening)?;
    while session.awaits() != Awaits::Nothing {
        desk.tell_of_speech()?;
        let input = match session.awaited() {
            Some(_) if desk.leaving => Input::Stop,
            Some(awaited) => Input::Opponent(match &mut desk.engine {
                Some(engine) => engine.decided(awaited)?,
                None => awaited.decided(),
            }),
            None => desk.hear(&session)?,
        };
        let outputs = session.hear(input);
        let page = take(&mut desk, &session, outputs)?;
        if page.holds_what_answers(session.awaits()) {
            desk.wait_and_wipe()?;
            let question = session.hear(Input::Question);
            take(&mut desk, &session, question)?;
        }
    }
    desk.screen.leave()?;
    if let Some(kept) = desk.kept.take() {
        desk.aside(&kept)?;
    }
    if desk.interrupted || desk.listener.borrow().is_to_end() {
        desk.aloud.silence();
    }
    desk.tell_of_speech()
}

/// Takes what the session puts out: what belongs in the journal is on the disk before it is said. Returns
/// what stands on the screen then.
fn take(desk: &mut Desk, session: &Session, outputs: Vec<Output>) -> Result<Page, Failure> {
    write_down(desk, session, &outputs)?;
    let mut page = Page::default();
    for output in outputs {
        if desk.leaving && session.awaits() != Awaits::Nothing {
            break;
        }
        desk.aloud.say(desk.voice, &output);
        let is_help = matches!(output, Output::Help(_)) && desk.listener.borrow().hears();
        if desk.can_wipe() {
            page.show(desk, session, &output)?;
        } else {
            if let Output::Given(given) = &output {
                desk.turn_to(given);
            }
            desk.say(&output)?;
        }
        if is_help {
            desk.aside(by_mouth::HELP)?;
        }
    }
    Ok(page)
}

/// Writes down what was answered, and that the session is over.
fn write_down(desk: &mut Desk, session: &Session, outputs: &[Output]) -> Result<(), Failure> {
    let mut ended = None;
    for output in outputs {
        match output {
            Output::Answered(answered) => {
                let (stamp, game) = (desk.stamp(), desk.game.clone());
                let mut answer = AnswerRecord::new(stamp, desk.exercise, game, answered);
                (answer.heard, answer.taken_back) = desk.mouth.account();
                desk.keep(Record::Answer(Box::new(answer)))?;
            }
            Output::Said(said) => {
                let said = SaidRecord::new(desk.stamp(), said);
                desk.keep(Record::Said(said))?;
            }
            Output::Summary(summary) => {
                if let OwnSummary::Play(own) = &summary.own {
                    kept::keep(desk, own)?;
                }
            }
            Output::Ended(ending) => ended = Some(*ending),
            _ => {}
        }
    }
    // A game that cannot be kept as a file is not over: it can be resumed, and kept elsewhere.
    let Some(ending) = ended else { return Ok(()) };
    desk.keep(Record::End(EndRecord {
        stamp: desk.stamp(),
        finished: ending != Ending::Stopped,
        plies: session.heard(),
        looks: session.looks(),
        helped: session.helped(),
    }))
}
