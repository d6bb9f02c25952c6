//! Whole sessions of every exercise by mouth, at a terminal: their journals are those of the same sessions typed.

use super::*;
use crate::program::CLUB;
use crate::screen::Terminal;

/// Says a line as one would: what counts only when it is confirmed with its yes, squares of a list one by one.
fn utterances(line: &str) -> Vec<String> {
    if line.is_empty() {
        return vec!["go on".to_owned()];
    }
    let mut said = vec![String::new()];
    for word in line.split(' ') {
        let last = said.last_mut().unwrap();
        if !last.is_empty() {
            last.push(' ');
        }
        *last += &in_words(word);
        if word.contains(char::is_numeric) && word.contains(char::is_alphabetic) {
            said.push(String::new());
        }
    }
    said.retain(|utterance| !utterance.is_empty());
    if !["again", "question", "why", "help"].contains(&line) {
        said.push("yes".to_owned());
    }
    said
}

fn in_words(word: &str) -> String {
    const SAID: &str = "1one 2two 3three 4four 5five 6six 7seven 8eight aanna bbella ccesar ddavid eeva ffelix ggustav \
        hhector Nknight Bbishop Rrook Qqueen Kking xtakes";
    if !word.contains(char::is_numeric) {
        return word.replace("O-O", "castles short");
    }
    let of_sign = |sign| SAID.split(' ').find_map(|said| said.strip_prefix(sign));
    let said: Vec<&str> = word.chars().map(|sign| of_sign(sign).unwrap()).collect();
    said.join(" ")
}

/// Holds a session at a terminal, by mouth or typed, and returns what it wrote down.
fn held(desk: &Desk, words: &[&str], lines: &[&str], by_mouth: bool) -> Vec<Value> {
    let before = desk.records().len();
    let mut command = desk.program(&[words, &["--plain", "--seed", "1"]].concat());
    if by_mouth {
        let said: Vec<String> = lines.iter().flat_map(|line| utterances(line)).collect();
        let said = desk.file("said", said.join("\n") + "\n");
        // It never reads what it is told, and hangs once all is said.
        desk.wishes(&format!(
            "hearing = [\"sh\", \"-c\", \"cat {said}; exec sleep 1000\"]"
        ));
        command.arg("--hear");
    }
    let mut session = Terminal::start(command);
    for line in lines.iter().filter(|_| !by_mouth) {
        session.types_line(line);
    }
    let shown = session.ends();
    let mut records = desk.records().split_off(before);
    for record in &mut records {
        let answers = record["type"] == "answer";
        let fields = record.as_object_mut().unwrap();
        let heard = fields.remove("heard").is_some_and(|heard| heard == true);
        assert!(!answers || heard == by_mouth, "{words:?}: {shown}");
        for name in ["time", "session", "millis", "late"] {
            fields.remove(name);
        }
    }
    records
}

#[test]
fn every_exercise_by_mouth_leaves_the_journal_of_the_same_session_typed() {
    let lesson = "title = \"Tuesday\"\n[[part]]\nexercise = \"drill\"\nkinds = [\"color\"]\ncount = 2\n\
        [[part]]\nexercise = \"drill\"\nkinds = [\"name\"]\ncount = 1\n";
    let coach = Desk::new();
    let (lesson, game) = (
        coach.file("tuesday.toml", lesson),
        coach.file("short.pgn", "1. e4 e5 2. Nf3 Nc6 3. Bc4 Bc5 *\n"),
    );
    let rebuild = ["replay", &game, "--ask", "rebuild", "--every", "4"];
    let table: [(&[&str], &str, usize); 9] = [
        (
            &["replay", CLUB],
            ",,,,,illegal,,look,question,pass,,again,pass,,stop",
            3,
        ),
        (&rebuild, ",,,white Ke1 black Ke8,back,question,stop", 0),
        (&["recite", CLUB], "e4,Nf6,hint,e5,Nf3,O-O,Nf6,stop", 4),
        (
            &["play", "--side", "white", "--rating", "600"],
            "e4,Ke3,again,d4,take back,draw,resign",
            0,
        ),
        (&["ahead", "--count", "1"], ",,,,illegal,e5,,", 2),
        (
            &["drill", "few", "--count", "2"],
            ",,,,,,,legal,,g5 h4,,,stop",
            2,
        ),
        (
            &["drill", "color,distance,name", "--count", "3"],
            "light,c8,2,,dark,,help,stop",
            2,
        ),
        (&["lesson", &lesson], ",light,,dark,,,c4,,,", 3),
        (&["lesson"], ",6 3,,e1,g6,e1 f1,,pass,,stop", 3),
    ];
    for (words, lines, answers) in table {
        let lines: Vec<&str> = lines.split(',').collect();
        let [by_mouth, typed] =
            [true, false].map(|by_mouth| held(&Desk::new(), words, &lines, by_mouth));
        let answered = typed
            .iter()
            .filter(|record| record["type"] == "answer")
            .count();
        assert!(
            answered >= answers,
            "{words:?}: {answered} answers: {typed:#?}"
        );
        for (heard, typed) in by_mouth.iter().zip(&typed) {
            assert_eq!(heard, typed, "{words:?}");
        }
        assert_eq!(by_mouth.len(), typed.len(), "{words:?}");
    }
}

#[test]
fn what_is_to_be_done_is_chosen_by_mouth_too() {
    let [by_mouth, typed] = [true, false].map(|by_mouth| {
        let desk = Desk::new();
        desk.run(&["drill", "color", "--count", "1"], "light\n")
            .ends(0, &[]);
        held(&desk, &[], &["lesson", "", "pass", "", "stop"], by_mouth)
    });
    assert!(
        typed.iter().any(|record| record["exercise"] == "lesson"),
        "{typed:#?}"
    );
    assert_eq!(by_mouth, typed);
}
