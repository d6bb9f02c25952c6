//! What a learner can say to a session, and an opponent.

use super::said::Countermove;

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
    /// Say so many of the last plies again, or as many as there are.
    AgainPlies(usize),
    /// Say the question again.
    Question,
    /// Show the board.
    Look,
    /// Give this question up.
    Pass {
        /// Milliseconds since the question was put.
        millis: u64,
    },
    /// Tell the reason once more.
    Why,
    /// Go back to where the picture held, and find together what was missed.
    Back,
    /// The opponent moves, or says something.
    Opponent(Countermove),
    /// Say what can be said here.
    Help,
    /// End the session; what was answered is kept.
    Stop,
}

impl Input {
    /// Reads one line: one of the words of the prompt, with or without a stop behind it, or else a reply.
    pub fn read(line: &str, millis: u64) -> Input {
        let text = line.trim();
        let small = text.to_lowercase();
        let word = small.trim_end_matches(['.', '!']);
        match if word.is_empty() { &small } else { word } {
            "" => Input::GoOn,
            "again" => Input::Again,
            "question" => Input::Question,
            "look" => Input::Look,
            "why" | "why?" => Input::Why,
            "back" => Input::Back,
            "pass" => Input::Pass { millis },
            "help" => Input::Help,
            "stop" => Input::Stop,
            word => match plies_again(word) {
                Some(plies) => Input::AgainPlies(plies),
                None => Input::Reply {
                    text: text.to_owned(),
                    millis,
                },
            },
        }
    }
}

/// Reads how many plies are to be said again: `again 6`, `again all`.
fn plies_again(words: &str) -> Option<usize> {
    let mut words = words.split_whitespace();
    let (Some("again"), Some(plies), None) = (words.next(), words.next(), words.next()) else {
        return None;
    };
    if plies == "all" {
        return Some(usize::MAX);
    }
    plies.parse().ok().filter(|plies| *plies > 0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_word_of_the_prompt_may_end_with_a_stop_and_nothing_else_becomes_one() {
        let read = |line| Input::read(line, 5);
        assert_eq!(read(" Pass. "), Input::Pass { millis: 5 });
        assert_eq!(read("stop!"), Input::Stop);
        assert_eq!(read("Again."), Input::Again);
        assert_eq!(read("again  12"), Input::AgainPlies(12));
        assert_eq!(read("Again all."), Input::AgainPlies(usize::MAX));
        assert_eq!(read("why?"), Input::Why);
        assert_eq!(read(" "), Input::GoOn);
        for text in [
            ".",
            "?",
            "quit",
            "idk",
            "Yes.",
            "again 0",
            "again e4",
            "back rank",
        ] {
            let (said, millis) = (text.to_owned(), 5);
            assert_eq!(read(text), Input::Reply { text: said, millis });
        }
    }
}
