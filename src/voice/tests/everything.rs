//! What holds for everything that is said.

use super::*;
use crate::exercise::{
    AheadOpening, Cut, Earlier, FewOpening, GameOpening, GivenPosition, Input, MatesOpening,
    Opening, Recite, ReciteSettings, RoundsSummary, Script, Session, Show, Sides, Told,
};
use crate::voice::score::from_fen;

/// Something of every kind of output, with every question kind right, wrong and given up.
fn everything() -> Vec<Output> {
    let line = usual(FIDE_SAMPLE);
    let plies = line.plies().to_vec();
    let tags = [("White", "Berg,\u{1b} \t Anna"), ("Event", "Club  evening")];
    let mut all = vec![
        Output::Opening(Box::new(Opening::Replay(GameOpening {
            tags: tags.into_iter().collect::<Tags>(),
            start: Start::standard(),
            first: Some(plies[0].number),
            plies: plies.len(),
            checkpoints: 3,
            resumed: true,
        }))),
        Output::Heard(Heard {
            plies: plies.clone(),
            stalemate: false,
        }),
        Output::Told(Told::SidelineBegins {
            instead_of: plies[9],
            plies: 4,
        }),
        Output::Told(Told::SidelineEnds {
            back_after: plies[9],
        }),
        Output::NothingAsked {
            text: "\u{1b}[31m  e4   e5".to_owned(),
        },
        Output::Again(plies),
        Output::Again(Vec::new()),
        Output::Board {
            board: line.end().board().clone(),
            turn: Color::Black,
            looks_left: Some(2),
        },
        Output::NoBoard { exists: true },
        Output::NoBoard { exists: false },
        Output::Help {
            form: None,
            again: true,
            look: true,
            hint: false,
        },
        Output::Ended(Ending::Stopped),
        Output::Ended(Ending::Asked),
        Output::Ended(Ending::Read(None)),
        Output::Summary(Box::new(summary())),
    ];
    all.extend(drill_of_few_pieces());
    all.extend(recital());
    all.extend(calculation());
    all.extend(mates());
    for result in [
        GameResult::WhiteWins,
        GameResult::BlackWins,
        GameResult::Draw,
        GameResult::Unknown,
    ] {
        all.push(Output::Ended(Ending::Read(Some(result))));
    }
    for (index, (_, question, right, wrong)) in QUESTIONS.into_iter().enumerate() {
        for reply in [right, wrong, "pass"] {
            let answered = answered(&line, question, reply);
            let form = ask(&answered, 1).form;
            all.push(Output::Ask(ask(&answered, index + 1)));
            all.push(Output::AskAgain(ask(&answered, index + 1)));
            all.push(Output::Help {
                form: Some(form),
                again: true,
                look: true,
                hint: false,
            });
            all.push(Output::ReplyWanted(form));
            all.push(Output::Unread {
                unread: Unread::NoSquare("z9\u{7}".to_owned()),
                form,
            });
            all.push(Output::Answered(Box::new(answered)));
        }
    }
    all
}

/// A recital with tries of every sort, stopped and taken up again.
fn recital() -> Vec<Output> {
    let passage = crate::pgn::Collection::new(FIDE_SAMPLE.as_bytes()).next();
    let reading = crate::pgn::read(&passage.expect("a game").expect("readable"));
    let script = Script::new(&reading.game, Cut::default()).expect("a script");
    let settings = ReciteSettings {
        sides: Sides::White,
        every: Some(6),
        hint: true,
        think_millis: Some(1000),
    };
    let session = || {
        let tags = reading.game.tags.clone();
        Session::new(Recite::new(&script, settings.clone(), tags, None).expect("a recital"))
    };
    let mut recite = session();
    let mut all = recite.begin();
    let words = "Nf3\u{7} e4 help hint Nf3 O-O look d4 pass Ke2 Rd5 pass what Ne5 Nd4 Qh5 pass";
    for word in words.split(' ') {
        all.extend(recite.hear(Input::read(word, 2000)));
    }
    all.extend(recite.hear(Input::Stop));
    all.extend(session().resume(Earlier {
        looks: 1,
        ..Earlier::default()
    }));
    all
}

/// What only a drill of few pieces puts out.
fn drill_of_few_pieces() -> Vec<Output> {
    let openings = [(0, None), (1, None), (4, Some(3))].map(|(plies, resumed)| {
        Output::Opening(Box::new(Opening::Few(FewOpening {
            questions: 10,
            resumed,
            plies,
        })))
    });
    let pieces = [0, 1, 4].map(|plies| {
        Output::Given(Box::new(GivenPosition {
            round: 2,
            of: None,
            game: None,
            show: Show::List,
            start: Start::standard(),
            heard_before: 0,
            plies,
        }))
    });
    let last = [summed_up(OwnSummary::Few(RoundsSummary {
        asked: 3,
        held: 1,
    }))];
    openings.into_iter().chain(pieces).chain(last).collect()
}

/// The end of a session in which the exercise counted this.
fn summed_up(own: OwnSummary) -> Output {
    let replay = summary();
    Output::Summary(Box::new(Summary { own, ..replay }))
}

/// What only calculation puts out.
fn calculation() -> Vec<Output> {
    let mut all = Vec::new();
    for show in [Show::Diagram, Show::List, Show::None] {
        for (plies, resumed) in [(None, None), (Some(1), None), (Some(6), Some(2))] {
            all.push(Output::Opening(Box::new(Opening::Ahead(AheadOpening {
                rounds: 5,
                resumed,
                plies,
                show,
            }))));
        }
        let odd = from_fen("4k3/8/8/8/8/8/8/4K2R w K - 0 1", "");
        for start in [Start::standard(), odd.start().clone()] {
            for (heard_before, plies) in [(0, 0), (0, 1), (8, 6)] {
                all.push(Output::Given(Box::new(GivenPosition {
                    round: 2,
                    of: Some(5),
                    game: Some(0),
                    show,
                    start: start.clone(),
                    heard_before,
                    plies,
                })));
            }
        }
    }
    for next in [None, Some(1)] {
        let rounds = RoundsSummary { asked: 3, held: 1 };
        all.push(summed_up(OwnSummary::Ahead { rounds, next }));
    }
    all
}

/// What only mates put out.
fn mates() -> Vec<Output> {
    let line = from_fen(MORPHY, "1. Ra6 bxa6 2. b7#");
    let plies = line.plies();
    let mut all = vec![
        Output::Told(Told::Played(plies[..2].to_vec())),
        Output::Told(Told::Played(plies[2..].to_vec())),
        summed_up(OwnSummary::Mates { tried: 3, mated: 1 }),
    ];
    for show in [Show::Diagram, Show::List, Show::None] {
        for resumed in [None, Some(1)] {
            all.push(Output::Opening(Box::new(Opening::Mates(MatesOpening {
                problems: 3,
                resumed,
                show,
            }))));
        }
    }
    let question = r#"{"kind":"mate","subject":{"in":2}}"#;
    let start = from_fen(MORPHY, "");
    for reply in ["Ra6", "Ra2", "none", "pass"] {
        let answered = answered(&start, question, reply);
        all.push(Output::Ask(ask(&answered, 1)));
        all.push(Output::Answered(Box::new(answered)));
    }
    all
}

/// P. Morphy, New York Clipper, 28 June 1856: mate in 2.
const MORPHY: &str = "kbK5/pp6/1P6/8/8/8/8/R7 w - - 0 1";

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
    for announce in Announce::ALL {
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
    for announce in Announce::ALL {
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
