//! What holds for everything that is said.

use super::announce::STYLES;
use super::line_kinds::QUESTIONS;
use super::scores::{MORPHY, from_fen};
use super::sessions;
use super::*;
use crate::exercise::PromptWord;
use crate::reply::Unread;

/// Something of every kind of output, with every question kind right, wrong and given up.
fn everything() -> Vec<Output> {
    let mut all: Vec<Output> = sessions::all()
        .into_iter()
        .map(|(_, output)| output)
        .collect();
    let line = usual(FIDE_SAMPLE);
    for (index, (kind, subject, replies)) in QUESTIONS.into_iter().enumerate() {
        for reply in replies.iter().chain(&["pass"]) {
            let question = of_line(kind, subject);
            let form = question.form();
            all.push(Output::Ask(put(&line, question, 1)));
            all.push(Output::AskAgain(put(&line, question, index + 1)));
            all.push(Output::Help(Help {
                form: Some(form),
                words: vec![PromptWord::Again, PromptWord::Look],
            }));
            all.push(Output::ReplyWanted(form));
            all.push(Output::Unread {
                unread: Unread::NoSquare("z9\u{7}".to_owned()),
                form,
                kept: form == Form::Placement,
            });
            all.extend(told(answered(&line, question, reply)));
        }
    }
    let problem = from_fen(MORPHY, "");
    let question = of_line("mate", r#""in":2"#);
    for reply in ["Ra6", "Ra2", "none", "pass"] {
        all.push(Output::Ask(put(&problem, question, 1)));
        all.extend(told(answered(&problem, question, reply)));
    }
    all
}

#[test]
fn whatever_is_said_plainly_is_made_of_clean_sentences() {
    for announce in [Announce::Words, Announce::Spelled] {
        let voice = Voice { announce, ..PLAIN };
        for output in everything() {
            let said = voice.say(&output);
            assert!(!said.is_empty(), "{output:?}");
            for line in said {
                assert_eq!(line, clean_line(&line), "{output:?}");
                assert!(line.ends_with(['.', '?', ':']), "{line}");
                assert!(!line.contains(".."), "{line}");
                assert!(!line.contains(['|', '+', '#', '*', '_', '=']), "{line}");
            }
        }
    }
}

#[test]
fn nothing_said_for_the_eye_holds_a_control_character_or_is_too_wide_to_draw() {
    for announce in STYLES {
        let voice = Voice { announce, ..DRAWN };
        for output in everything() {
            for line in voice.say(&output) {
                assert_eq!(line, clean(&line), "{output:?}");
                assert!(!line.contains(['\n', '\t']), "{line}");
                assert_eq!(line, line.trim_end(), "{output:?}");
            }
        }
    }
}

/// A synthesizer reads `a6` as a square, `a 6` with an article, and `#` or `x` in its own way.
#[test]
fn whatever_is_for_the_ear_is_told_in_words_a_synthesizer_reads_rightly() {
    for announce in STYLES {
        let voice = Voice { announce, ..DRAWN };
        for output in everything() {
            let said = voice.for_the_ear(&output);
            assert!(!said.is_empty(), "{output:?}");
            for sentence in said {
                assert_eq!(sentence, clean_line(&sentence), "{output:?}");
                assert_eq!(
                    sentence,
                    for_the_ear(&sentence),
                    "said twice it is the same"
                );
                for mark in ["#", "+", "=", "/", "|", "*", "..", "\u{2026}", "--", " x "] {
                    assert!(!sentence.contains(mark), "{sentence}");
                }
                let words: Vec<&str> = sentence.split(' ').collect();
                for (word, next) in words.iter().zip(&words[1..]) {
                    let file = matches!(word.as_bytes(), [b'a'..=b'h']);
                    let rank = next.starts_with(|letter: char| letter.is_ascii_digit());
                    assert!(!(file && rank), "{sentence}");
                }
                for word in words {
                    let capture = word.contains('x') && word.contains(|c: char| c.is_ascii_digit());
                    assert!(!capture, "{sentence}");
                }
            }
        }
    }
}
