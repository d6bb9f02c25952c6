//! What a learner can say to a session.

/// One thing said by the learner, or by the clock on the learner's behalf.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Input {
    /// Go on: Enter alone, or the pace.
    GoOn,
    /// A reply to the question, and how long it took.
    Reply {
        /// The words as typed.
        text: String,
        /// Milliseconds since the question was put.
        millis: u64,
    },
    /// Say the last plies again.
    Again,
    /// Say the question again.
    Question,
    /// Show the board.
    Look,
    /// Give this question up.
    Pass {
        /// Milliseconds since the question was put.
        millis: u64,
    },
    /// Say what can be said here.
    Help,
    /// End the session; what was answered is kept.
    Stop,
}

impl Input {
    /// Reads one line: one of the words of the prompt, with or without a stop behind it, or else a reply.
    #[must_use]
    pub fn read(line: &str, millis: u64) -> Input {
        let text = line.trim();
        let small = text.to_lowercase();
        let word = small.trim_end_matches(['.', '!']);
        match if word.is_empty() { &small } else { word } {
            "" => Input::GoOn,
            "again" => Input::Again,
            "question" => Input::Question,
            "look" => Input::Look,
            "pass" => Input::Pass { millis },
            "help" => Input::Help,
            "stop" => Input::Stop,
            _ => Input::Reply {
                text: text.to_owned(),
                millis,
            },
        }
    }
}
