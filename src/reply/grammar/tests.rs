//! Sentences of the grammars, sampled, and the words of both.

use std::collections::{BTreeMap, BTreeSet};

use shakmaty::fen::Fen;
use shakmaty::{CastlingMode, Chess};

use super::*;
use crate::reply::{Reply, Unread};

/// The rules of a grammar by their names, and a simple reader of what they say.
struct Rules(BTreeMap<String, Vec<String>>);

/// A word that was said, and the rule that it stands in.
type Leaf = (String, String);

impl Rules {
    fn of(grammar: &str) -> Rules {
        let spaced = ["(", ")", "[", "]", "|", "*", "+", "=", ";"];
        let mut text = grammar.split_once("sansvoir;").unwrap().1.to_owned();
        for sign in spaced {
            text = text.replace(sign, &format!(" {sign} "));
        }
        let rules = text.split(';').filter_map(|rule| {
            let (name, body) = rule.split_once('=')?;
            let name = name.trim().trim_start_matches("public ").to_owned();
            Some((name, body.split_whitespace().map(str::to_owned).collect()))
        });
        Rules(rules.collect())
    }

    /// Says one sentence of a rule.
    fn say(&self, rule: &str, dice: &mut Dice) -> Vec<Leaf> {
        let body = &self.0[rule];
        let mut at = 0;
        let said = self.choice(rule, body, &mut at, dice);
        assert_eq!(at, body.len(), "{rule}: {body:?}");
        said
    }

    fn choice(&self, rule: &str, body: &[String], at: &mut usize, dice: &mut Dice) -> Vec<Leaf> {
        let mut ways = vec![Vec::new()];
        while let Some(token) = body
            .get(*at)
            .filter(|token| ![")", "]"].contains(&token.as_str()))
        {
            if token == "|" {
                *at += 1;
                ways.push(Vec::new());
                continue;
            }
            let begins = *at;
            let mut said = self.part(rule, body, at, dice);
            if let Some("*" | "+") = body.get(*at).map(String::as_str) {
                let ends = *at;
                let least = usize::from(body[ends] == "+");
                let times = least + dice.below(3);
                said.truncate(if times == 0 { 0 } else { said.len() });
                for _ in 1..times {
                    said.extend(self.part(rule, body, &mut begins.clone(), dice));
                }
                *at = ends + 1;
            }
            ways.last_mut().unwrap().extend(said);
        }
        let way = dice.below(ways.len());
        ways.swap_remove(way)
    }

    fn part(&self, rule: &str, body: &[String], at: &mut usize, dice: &mut Dice) -> Vec<Leaf> {
        let token = &body[*at];
        *at += 1;
        match token.as_str() {
            "(" | "[" => {
                let said = self.choice(rule, body, at, dice);
                *at += 1;
                if token == "[" && dice.below(2) == 0 {
                    Vec::new()
                } else {
                    said
                }
            }
            named if named.starts_with('<') => self.say(named, dice),
            weight if weight.starts_with('/') => Vec::new(),
            word => vec![(rule.to_owned(), word.to_owned())],
        }
    }

    /// The words that can be said from a rule on.
    fn words(&self, rule: &str, seen: &mut BTreeSet<String>, words: &mut BTreeSet<String>) {
        if !seen.insert(rule.to_owned()) {
            return;
        }
        for token in &self.0[rule] {
            if token.starts_with('<') {
                self.words(token, seen, words);
            } else if token.chars().all(|char| char.is_ascii_lowercase()) {
                words.insert(token.clone());
            }
        }
    }
}

/// Knuth's MMIX numbers.
struct Dice(u64);

impl Dice {
    fn below(&mut self, end: usize) -> usize {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as usize % end
    }
}

/// What a word means in writing, by a table of its own.
fn sign(word: &str) -> &str {
    const PAIRS: &str = "anna=a bella=b cesar=c david=d eva=e felix=f gustav=g hector=h one=1 two=2 three=3 four=4 \
        five=5 six=6 seven=7 eight=8 zero=0 nine=9 ten=10 eleven=11 twelve=12 thirteen=13 \
        fourteen=14 fifteen=15 eins=1 zwei=2 drei=3 vier=4 fuenf=5 sechs=6 sieben=7 acht=8 \
        springer=N laeufer=B turm=R dame=Q koenig=K knight=N bishop=B rook=R queen=Q king=K pawn= \
        bauer= bauern= tuerme=R damen=Q weiss=white schwarz=black";
    let mut pairs = PAIRS.split(' ').filter_map(|pair| pair.split_once('='));
    pairs
        .find(|(said, _)| *said == word)
        .map_or(word, |(_, sign)| sign)
}

/// Writes moves as they were meant, a word a move.
fn moves_written(said: &[Leaf]) -> String {
    let mut text = String::new();
    for (rule, word) in said {
        let in_move = text.rsplit(' ').next().unwrap();
        match (rule.as_str(), word.as_str()) {
            ("<and>", _) => text.push_str(", "),
            ("<piece>", word) if in_move.ends_with(|c: char| c.is_ascii_digit()) => {
                text = text + "=" + sign(word);
            }
            ("<piece>" | "<file>" | "<rank>" | "<edge>", word) => text.push_str(sign(word)),
            ("<takes>", _) => text.push('x'),
            ("<short>", _) | ("<wing>", "king") => text.push_str("O-O"),
            ("<long>", _) | ("<wing>", "queen") => text.push_str("O-O-O"),
            (_, "none") => text.push_str("none"),
            _ => {}
        }
    }
    text
}

fn placement_written(said: &[Leaf]) -> String {
    let (mut text, mut role) = (String::new(), String::new());
    for (rule, word) in said {
        match rule.as_str() {
            "<white>" | "<black>" | "<slash>" => {
                role.clear();
                let side = if rule == "<slash>" { "/" } else { sign(word) };
                text = text + " " + side;
            }
            "<piece>" => role = sign(word).to_owned(),
            "<pieces>" => role = sign(word.trim_end_matches('s')).to_owned(),
            "<file>" => text = text + " " + &role + sign(word),
            "<rank>" => text.push_str(sign(word)),
            _ => {}
        }
    }
    text
}

fn written(form: Form, said: &[Leaf]) -> String {
    let all = || {
        said.iter()
            .map(|(rule, word)| (rule.as_str(), word.as_str()))
    };
    let words = |keep: fn(&str) -> bool| {
        let kept = all()
            .filter(|(rule, _)| keep(rule))
            .map(|(_, word)| sign(word));
        kept.collect::<Vec<_>>().join(" ")
    };
    match form {
        Form::Move | Form::MoveOrNone | Form::Moves => moves_written(said),
        Form::Placement => placement_written(said),
        Form::SquareOrGone | Form::Square | Form::Squares | Form::Route => {
            let text = words(|rule| !["<on>", "<and>", "<piece>"].contains(&rule));
            let mut glued = String::new();
            for word in text.split(' ') {
                let glue = word.parse::<u8>().is_ok();
                glued.push_str(if glue { "" } else { " " });
                glued.push_str(word);
            }
            glued.trim().replace("still there", "there")
        }
        Form::Wings => match all().find(|(rule, _)| *rule != "<castles>").unwrap() {
            ("<short>", _) | ("<wing>", "king") => "short".to_owned(),
            ("<long>", _) | ("<wing>", "queen") => "long".to_owned(),
            (_, word) => word.to_owned(),
        },
        Form::Taken => {
            let mut pieces = String::new();
            let mut many = 1;
            for (rule, word) in all() {
                match rule {
                    "<many>" => many = sign(word).parse().unwrap(),
                    "<piece>" | "<pieces>" => {
                        let letter = sign(word.trim_end_matches('s'));
                        let letter = if letter.is_empty() { "P" } else { letter };
                        pieces.push_str(&letter.repeat(std::mem::replace(&mut many, 1)));
                    }
                    "<and>" => {}
                    _ => pieces.push_str(word),
                }
            }
            pieces
        }
        Form::Piece => all()
            .map(|(_, word)| match sign(word) {
                "" => "pawn",
                "N" => "knight",
                "B" => "bishop",
                "R" => "rook",
                "Q" => "queen",
                "K" => "king",
                word => word,
            })
            .collect::<Vec<_>>()
            .join(" "),
        _ => words(|_| true),
    }
}

/// A word in the place of a move.
fn said_turn(text: &str) -> bool {
    ["hint", "take back", "draw", "resign"].contains(&text)
}

const ALL: [Grammar; 3] = [
    Grammar {
        files: FileNames::Laws,
        german: false,
    },
    Grammar {
        files: FileNames::Letters,
        german: false,
    },
    Grammar {
        files: FileNames::Laws,
        german: true,
    },
];

#[test]
fn every_sentence_of_a_grammar_is_read_as_it_was_meant() {
    let fen: Fen = "1n2k3/P4ppp/8/2bpP3/8/2N2N2/PP3PPP/R3K2R w KQ d6 0 20"
        .parse()
        .unwrap();
    let position: Chess = fen.into_position(CastlingMode::Standard).unwrap();
    let mut dice = Dice(18);
    for (grammar, form) in ALL
        .into_iter()
        .flat_map(|one| Form::VARIANTS.iter().map(move |form| (one, *form)))
    {
        let rules = Rules::of(&format!(
            "{}<reply> = {};",
            grammar.of(&[form]),
            reply(form)
        ));
        let mut read = 0;
        for _ in 0..400 {
            let said = rules.say("<reply>", &mut dice);
            let text = said
                .iter()
                .map(|(_, word)| word.as_str())
                .collect::<Vec<_>>()
                .join(" ");
            // A word for two things: "the a-pawn" and "a queen".
            if grammar.files == FileNames::Letters && text.contains(" a ") {
                continue;
            }
            let (said, meant) = (form.read_in(&text, &position), written(form, &said));
            let wanted = form.read_in(&meant, &position);
            if said_turn(&text) {
                continue;
            }
            if text.starts_with("still there") {
                assert!(crate::reply::still_there(&text));
                continue;
            }
            // Two squares in a row are one move or two, as the position tells.
            let is_open = matches!(said, Err(Unread::OneMoveWanted(_)))
                || matches!(&said, Ok(Reply::Moves(_))) && wanted.is_ok() && said != wanted;
            let squares_in_a_row = meant
                .split(' ')
                .any(|mv| mv.trim_start_matches(['N', 'B', 'R', 'Q', 'K']).len() >= 4);
            if is_open && squares_in_a_row {
                continue;
            }
            let named = |read: &Result<Reply, Unread>| read.as_ref().ok().cloned();
            assert_eq!(
                named(&said),
                named(&wanted),
                "{form:?}: {text:?} is {meant:?}, {said:?} {wanted:?}"
            );
            read += usize::from(said.is_ok());
        }
        let least = if form == Form::Placement { 10 } else { 100 };
        assert!(read > least, "{form:?}: {read}");
    }
}

#[test]
fn every_word_that_is_read_can_be_said_and_every_word_that_can_be_said_has_a_pronunciation() {
    let pronounced: BTreeSet<&str> = DICTIONARY
        .lines()
        .map(|line| line.split([' ', '(']).next().unwrap())
        .collect();
    let mut all = BTreeSet::new();
    for grammar in ALL {
        let mut words = BTreeSet::new();
        Rules::of(&grammar.whole()).words("<said>", &mut BTreeSet::new(), &mut words);
        for (_, _, english, german, _) in &TABLE {
            let said = if grammar.german && !german.is_empty() {
                german
            } else {
                english
            };
            for word in said.split(' ').filter(|_| grammar.files == FileNames::Laws) {
                assert!(words.contains(word), "{word} can be read and not be said");
            }
        }
        for number in NUMBERS[usize::from(grammar.german)].split(' ') {
            assert!(words.contains(number), "{number}");
        }
        all.extend(words);
    }
    let all: BTreeSet<&str> = all.iter().map(String::as_str).collect();
    assert_eq!(all, pronounced);
    let garbage = DICTIONARY
        .lines()
        .filter(|line| line.starts_with("garbage"));
    assert_eq!(garbage.count(), 39);
}

#[test]
fn every_grammar_has_the_words_of_the_prompt_and_what_is_no_reply() {
    for form in Form::VARIANTS
        .iter()
        .map(std::slice::from_ref)
        .chain([&[][..]])
    {
        let text = Grammar::default().of(form);
        let mut words = BTreeSet::new();
        Rules::of(&text).words("<said>", &mut BTreeSet::new(), &mut words);
        for word in ["again", "question", "help", "stop", "yes", "no", "garbage"] {
            assert!(words.contains(word), "{form:?}: {word}");
        }
    }
}
