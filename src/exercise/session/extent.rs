//! How much a session is, before anybody holds it.

use super::super::asking::{Asked, Asking};
use super::super::input::Input;
use super::{Awaits, Session};

/// How many questions a session has, and about how long it takes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Extent {
    /// The questions.
    pub questions: usize,
    /// The time, in milliseconds.
    pub millis: u64,
}

/// What a ply takes to be heard, a verdict to be read, a question over a line to be answered at most, and a game to be
/// played, in milliseconds; our own guesses.
const HEARING: u64 = 2_000;
const READING: u64 = 4_000;
const LONGEST: u64 = 15_000;
const PLAYING: u64 = 10 * 60_000;

/// Measures a session that is about to begin, by giving each of its questions up, save the moves that are recited: one
/// that is not said brings its chunk back.
pub fn extent(session: &mut Session) -> Extent {
    session.begin();
    let mut playing = 0;
    loop {
        // Nobody knows how many moves a game has.
        if session.asking().is_some_and(Asking::is_turn) || session.awaits() == Awaits::Opponent {
            playing = PLAYING;
        }
        let input = match session.awaits() {
            _ if playing > 0 => break,
            Awaits::Nothing | Awaits::Opponent => break,
            Awaits::GoOn | Awaits::Truth => Input::GoOn,
            Awaits::Reply => session
                .asking()
                .and_then(recited)
                .unwrap_or(Input::Pass { millis: 0 }),
        };
        session.hear(input);
    }
    let answers = &session.past.answers;
    let thinking = answers.iter().map(|answered| {
        let kind = answered.question.kind();
        // What was heard right before is soon said.
        if !answered.counts() {
            return HEARING;
        }
        (kind.think_millis() / 2).min(LONGEST) + READING
    });
    Extent {
        questions: answers.iter().filter(|answered| answered.counts()).count(),
        millis: thinking.sum::<u64>()
            + session.past.heard as u64 * HEARING
            + session.past.said.len() as u64 * 2 * LONGEST
            + playing,
    }
}

/// Says the move that is asked for in a recital.
fn recited(asking: &Asking) -> Option<Input> {
    let place = asking.place.as_ref()?;
    matches!(asking.ask.asked, Asked::Move { .. }).then(|| Input::Reply {
        text: place.line.plies()[place.plies].san.to_string(),
        millis: 0,
    })
}
