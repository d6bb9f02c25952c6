//! A sheet to be heard: what is said, and the silences between.

use crate::exercise::Output;
use crate::question::Truth;
use crate::voice::{self, Voice, for_the_ear, paper};

use super::part::{SheetItem, SheetPart, SheetQuestion};

/// One thing in the order of hearing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Cue {
    /// The question of this number begins.
    Chapter(usize),
    /// A sentence.
    Say(String),
    /// A silence, in milliseconds.
    Pause(u64),
}

/// The silence between two sentences, in milliseconds. Its length and the two below are our own choice.
const AFTER_SENTENCE: u64 = 500;
/// The silence between an answer and what comes next.
const AFTER_ANSWER: u64 = 2_000;
/// The longest one to think in where no think time is named: over a line nobody has measured yet how long one
/// thinks.
const LONGEST_OF_A_KIND: u64 = 30_000;

/// Puts a sheet into sentences and silences: each question, twice where that is wished for, the time to think, its
/// answer, and why it is so where that is wished for. Without a time to think in milliseconds, each kind of
/// question has its own. A position is said twice, since nobody can look at it again.
pub(crate) fn cues(parts: &[SheetPart], twice: bool, why: bool) -> Vec<Cue> {
    let mut cues = Vec::new();
    for part in parts {
        let voice = part.voice.aloud();
        if let Some((heading, notes)) = &part.heading {
            say(&mut cues, [heading.clone()], AFTER_SENTENCE);
            say(&mut cues, notes.iter().cloned(), AFTER_SENTENCE);
        }
        for item in &part.items {
            let item = match item {
                SheetItem::Told(output) => {
                    let is_heard = matches!(output, Output::Heard(_));
                    let pause = part.pace.filter(|_| is_heard).unwrap_or(AFTER_SENTENCE);
                    let times = 1 + usize::from(matches!(output, Output::Given(_)));
                    for _ in 0..times {
                        say(&mut cues, voice.on_paper(output), pause);
                    }
                    if let Output::AskOpen(open) = output {
                        say(
                            &mut cues,
                            voice.on_paper(output).into_iter().filter(|_| twice),
                            pause,
                        );
                        wait(&mut cues, LONGEST_OF_A_KIND);
                        say(&mut cues, [voice::open_answer(open)], AFTER_SENTENCE);
                        wait(&mut cues, AFTER_ANSWER);
                    }
                    continue;
                }
                SheetItem::Question(item) => item,
            };
            say(&mut cues, voice::checkpoint(&item.ask), AFTER_SENTENCE);
            cues.push(Cue::Chapter(item.number));
            let board = voice::marked_board(&item.ask, true);
            say(&mut cues, board, AFTER_SENTENCE);
            let asked = voice::question(&item.ask);
            say(
                &mut cues,
                [paper::numbered(item.number, &asked)],
                AFTER_SENTENCE,
            );
            say(&mut cues, twice.then_some(asked), AFTER_SENTENCE);
            let of_kind = item.answered.question.kind().think_millis();
            let of_kind = of_kind.min(LONGEST_OF_A_KIND);
            let think = part.think.map_or(of_kind, |think| think.get().into());
            wait(&mut cues, think);
            say(&mut cues, answer(item, voice, why), AFTER_SENTENCE);
            wait(&mut cues, AFTER_ANSWER);
        }
    }
    cues
}

/// Makes the last silence this long.
fn wait(cues: &mut [Cue], millis: u64) {
    if let Some(Cue::Pause(last)) = cues.last_mut() {
        *last = millis;
    }
}

/// The answer to a question in sentences.
fn answer(item: &SheetQuestion, voice: Voice, why: bool) -> Vec<String> {
    let answered = &item.answered;
    let mut answer = vec![voice::truth(&answered.question, &answered.truth)];
    if why && answered.why.names_truth() {
        // The move in full says all that its squares say.
        answer.clear();
    }
    if let Truth::Placement(placement) = &answered.truth {
        answer.extend(voice.board(placement));
    } else if why {
        answer.extend(paper::reasons(&answered.why));
    }
    answer
}

/// Adds sentences, each with a silence behind it.
fn say(cues: &mut Vec<Cue>, sentences: impl IntoIterator<Item = String>, pause: u64) {
    let said = sentences.into_iter().map(|said| for_the_ear(&said));
    let said = said.filter(|said| !said.is_empty());
    cues.extend(said.flat_map(|said| [Cue::Say(said), Cue::Pause(pause)]));
}

/// Writes down what is to be heard, a sentence a line, the silences in brackets.
pub(crate) fn script(cues: &[Cue]) -> String {
    let mut script = String::new();
    for cue in cues {
        match cue {
            Cue::Chapter(_) => script.push('\n'),
            Cue::Say(sentence) => script.extend([sentence, "\n"]),
            Cue::Pause(millis) => script.extend([&*paper::pause(*millis), "\n"]),
        }
    }
    script
}
