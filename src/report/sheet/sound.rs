//! A sheet to be heard: what is said, and the silences between.

use std::fmt::Write;

use crate::question::{Truth, Why};
use crate::voice::{self, Voice, for_the_ear, paper};

use super::{Item, Part};

/// One thing in the order of hearing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Beat {
    /// The question of this number begins.
    Chapter(usize),
    /// A sentence.
    Say(String),
    /// A silence, in milliseconds.
    Pause(u64),
}

/// How long the silences are. The lengths beside the think time are our own choice.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pauses {
    /// The time to think in milliseconds; without it, each kind of question has its own.
    pub think_millis: Option<u64>,
}

impl Pauses {
    /// Between two sentences.
    const SENTENCE: u64 = 500;
    /// Between an answer and what comes next.
    const ANSWER: u64 = 2_000;
    /// Over a line nobody has measured yet how long one thinks: no more silence than this.
    const LONGEST_OF_A_KIND: u64 = 30_000;

    fn think(self, item: &Item) -> u64 {
        let of_kind = || item.answered.question.kind().think_millis();
        self.think_millis
            .unwrap_or_else(|| of_kind().min(Pauses::LONGEST_OF_A_KIND))
    }
}

/// Puts a sheet into sentences and silences: each question, the time to think, its answer, and why it is
/// so where that is wished for.
#[must_use]
pub fn beats(parts: &[Part], voice: Voice, pauses: Pauses, why: bool) -> Vec<Beat> {
    let voice = voice.aloud();
    let mut beats = Vec::new();
    for part in parts {
        match part {
            Part::Told(output) => {
                for sentence in voice.on_paper(output) {
                    say(&mut beats, &sentence, Pauses::SENTENCE);
                }
            }
            Part::Asked(item) => ask(&mut beats, item, voice, pauses, why),
        }
    }
    beats
}

fn ask(beats: &mut Vec<Beat>, item: &Item, voice: Voice, pauses: Pauses, why: bool) {
    if let Some(heading) = voice::checkpoint(&item.ask) {
        say(beats, &heading, Pauses::SENTENCE);
    }
    beats.push(Beat::Chapter(item.number));
    for sentence in voice::marked_board(&item.ask, true) {
        say(beats, &sentence, Pauses::SENTENCE);
    }
    let question = paper::numbered(item.number, &voice::question(&item.ask));
    say(beats, &question, pauses.think(item));
    let answered = &item.answered;
    let mut answer = vec![voice::truth(&answered.question, &answered.truth)];
    if why && answered.why.as_ref().is_some_and(Why::names_truth) {
        // The move in full says all that its squares say.
        answer.clear();
    }
    if let Truth::Placement(placement) = &answered.truth {
        answer.extend(voice.board(placement));
    } else if why {
        answer.extend(answered.why.iter().flat_map(paper::reasons));
    }
    for sentence in answer {
        say(beats, &sentence, Pauses::SENTENCE);
    }
    if let Some(Beat::Pause(last)) = beats.last_mut() {
        *last = Pauses::ANSWER;
    }
}

fn say(beats: &mut Vec<Beat>, sentence: &str, pause: u64) {
    let sentence = for_the_ear(sentence);
    if !sentence.is_empty() {
        beats.extend([Beat::Say(sentence), Beat::Pause(pause)]);
    }
}

/// Writes down what is to be heard, a sentence a line, the silences in brackets.
#[must_use]
pub fn script(beats: &[Beat]) -> String {
    let mut script = String::new();
    for beat in beats {
        match beat {
            Beat::Chapter(_) => script.push('\n'),
            Beat::Say(sentence) => {
                script.push_str(sentence);
                script.push('\n');
            }
            Beat::Pause(millis) => {
                let _ = writeln!(script, "{}", paper::pause(*millis));
            }
        }
    }
    script
}
