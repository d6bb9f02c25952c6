//! The second witness: another reader of PGN reads a game again and must hear the same moves.

use std::ops::ControlFlow;

use pgn_reader::{Reader, Skip, Visitor};
use shakmaty::san::{San, SanPlus};
use shakmaty::{Chess, Position};

use super::export::export;
use super::fault::Reason;
use super::faults::Faults;
use super::lost::Cost;
use super::passage::{Passage, Places};
use super::reading::{Reading, read};
use super::signs::{outcome, split_number};
use super::token::{Kind, Lexer, Token};
use super::tokens::Tokens;
use crate::game::{Game, Line, MoveNumber, MoveOrNull, NodeId, after_null};

/// Reads a game as [`read`] does and lets the PGN library read it once more: a game in standard notation
/// from the file's own text, another one from the SAN that the strict pass made of it. Both must give the
/// same plies, sidelines included, and the same final position. Where they differ, the game is kept up to
/// there, and a fault says so.
pub fn read_twice(passage: &Passage) -> Reading {
    let mut reading = read(passage);
    if let Some(agreed) = disagreement(passage, &reading) {
        object(passage, &mut reading, agreed);
    }
    reading
}

/// Counts the moves up to the first that the witness does not confirm; `None` where there is none.
fn disagreement(passage: &Passage, reading: &Reading) -> Option<usize> {
    let game = &reading.game;
    let is_clean = reading.is_clean() && reading.letters.is_none();
    if is_clean && let Some(text) = standard_movetext(passage) {
        match hear(text, game) {
            Heard::Same => return None,
            Heard::Other(agreed) => return Some(agreed),
            // What only looks like standard notation, as a capture without its x, is a dialect.
            Heard::NoMove(_) => {}
        }
    }
    let written = export(game);
    let movetext = written.split_once("\n\n").map_or("", |(_, moves)| moves);
    match hear(movetext.as_bytes(), game) {
        Heard::Same => None,
        Heard::Other(agreed) | Heard::NoMove(agreed) => Some(agreed),
    }
}

/// What the witness heard, beside a game; the number is that of the moves before, in the order of the
/// text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Heard {
    /// The same game.
    Same,
    /// Another move, or none where there is one.
    Other(usize),
    /// A word that is no legal move to it.
    NoMove(usize),
}

/// Lets the witness read a movetext.
fn hear(movetext: &[u8], game: &Game) -> Heard {
    let start = game.start.position();
    let mut witness = Witness {
        game,
        expected: game.ids().collect(),
        agreed: 0,
        lines: vec![[(start.clone(), None), (start.clone(), None)]],
        said: None,
    };
    let mut reader = Reader::new(movetext);
    // A blank line ends a game there, and none here: what follows is heard as the rest of it.
    while let Ok(Some(true)) = reader.read_game(&mut witness) {}
    let is_whole = witness.agreed == witness.expected.len()
        && matches!(&witness.lines[..], [[_, (end, _)]] if end == game.main_line().end());
    match witness.said {
        Some(said) => said,
        None if is_whole => Heard::Same,
        None => Heard::Other(witness.agreed),
    }
}

/// Where a line that is being read has come to, and the last move there.
type LineEnd = (Chess, Option<NodeId>);

/// The PGN library's reading of a game, held against ours move by move.
struct Witness<'a> {
    game: &'a Game,
    /// Our moves in the order of the text.
    expected: Vec<NodeId>,
    agreed: usize,
    /// The main line, and on it the sidelines that are open: each before its last move, where a sideline
    /// begins, and behind it.
    lines: Vec<[LineEnd; 2]>,
    /// What ended the reading early.
    said: Option<Heard>,
}

impl Witness<'_> {
    /// Ends the reading.
    fn end<T>(&mut self, said: Heard) -> ControlFlow<bool, T> {
        self.said = Some(said);
        ControlFlow::Break(false)
    }
}

impl Visitor for Witness<'_> {
    type Tags = ();
    type Movetext = ();
    /// Whether the rest of the text may belong to the game.
    type Output = bool;

    fn begin_tags(&mut self) -> ControlFlow<bool> {
        ControlFlow::Continue(())
    }

    fn begin_movetext(&mut self, (): ()) -> ControlFlow<bool> {
        ControlFlow::Continue(())
    }

    fn san(&mut self, (): &mut (), said: SanPlus) -> ControlFlow<bool> {
        let agreed = self.agreed;
        let (Some([before, (position, last)]), Some(id)) =
            (self.lines.last_mut(), self.expected.get(agreed))
        else {
            return self.end(Heard::Other(agreed));
        };
        let played = match said.san {
            San::Null => after_null(position).map(|after| (MoveOrNull::Null, after)),
            san => san.to_move(position).ok().map(|mv| {
                let mut after = position.clone();
                after.play_unchecked(mv);
                (MoveOrNull::Move(mv), after)
            }),
        };
        let Some((step, after)) = played else {
            return self.end(Heard::NoMove(agreed));
        };
        let node = self.game.node(*id);
        if step != node.step || *last != node.before() {
            return self.end(Heard::Other(agreed));
        }
        *before = (std::mem::replace(position, after), last.replace(*id));
        self.agreed += 1;
        ControlFlow::Continue(())
    }

    fn begin_variation(&mut self, (): &mut ()) -> ControlFlow<bool, Skip> {
        let Some([before, _]) = self.lines.last().cloned() else {
            return self.end(Heard::Other(self.agreed));
        };
        self.lines.push([before.clone(), before]);
        ControlFlow::Continue(Skip(false))
    }

    fn end_variation(&mut self, (): &mut ()) -> ControlFlow<bool> {
        self.lines.pop();
        ControlFlow::Continue(())
    }

    fn end_game(&mut self, (): ()) -> bool {
        true
    }
}

/// Returns the movetext of a game in which every word and every space is of the standard's spelling:
/// others are passed over by the PGN library without a word.
fn standard_movetext(passage: &Passage) -> Option<&[u8]> {
    let lexer = Lexer::whole(&passage.text, passage.column == 1);
    let mut begin = None;
    let mut at = 0;
    while let Some(Token { kind, span }) = lexer.token(at) {
        at = span.end;
        let text = &passage.text[span.clone()];
        let is_standard = match kind {
            Kind::Word => is_standard(text),
            Kind::Space => begin.is_none() || text.iter().all(|byte| b" \t\r\n".contains(byte)),
            // A word that follows a number of a NAG at once is passed over there as a part of it.
            Kind::Nag => {
                (passage.text.get(at)).is_none_or(|next| b" \t\r\n{}()!?$;.*".contains(next))
            }
            Kind::Open
            | Kind::Close
            | Kind::Escape
            | Kind::LineComment
            | Kind::Brace { closed: true } => true,
            Kind::Pair => begin.is_none(),
            Kind::Bracket
            | Kind::DrawOffer
            | Kind::Markup
            | Kind::Prose
            | Kind::StrayBrace
            | Kind::Brace { closed: false } => false,
        };
        if !is_standard {
            return None;
        }
        if matches!(kind, Kind::Word | Kind::Open | Kind::Close | Kind::Nag) {
            begin.get_or_insert(span.start);
        }
    }
    let movetext = &passage.text[begin.unwrap_or(at)..];
    // A carriage return alone ends no line there.
    let alone = memchr::memchr_iter(b'\r', movetext).any(|cr| movetext.get(cr + 1) != Some(&b'\n'));
    (!alone).then_some(movetext)
}

fn is_standard(word: &[u8]) -> bool {
    let Ok(word) = std::str::from_utf8(word) else {
        return false;
    };
    let (_, rest) = split_number(word);
    let bare = rest.trim_end_matches(['!', '?']);
    word.is_ascii()
        && (outcome(word.as_bytes()).is_some()
            || rest.is_empty()
            || SanPlus::from_ascii(bare.as_bytes()).is_ok())
}

/// Cuts the game behind the moves on which both agree, and notes why.
fn object(passage: &Passage, reading: &mut Reading, agreed: usize) {
    let game = &mut reading.game;
    let ids: Vec<NodeId> = game.ids().collect();
    // Where a move is missing, it is behind the last one.
    let said = ids.get(agreed).or(ids.last());
    let place = said.map(|id| game.node(*id).place);
    let mut places = Places::new(passage);
    let is_it = |token: &Token| Some(places.of(token.span.start)) == place;
    let token = Tokens::new(passage).find(is_it);
    let token = token.unwrap_or_else(|| Token::end_of(&passage.text));
    let before = match ids.get(agreed) {
        Some(id) => game.node(*id).before(),
        None => ids.last().copied(),
    };
    let line = before.map_or_else(
        || Line::new(game.start.clone()),
        |before| game.line_to(before),
    );
    let due = (line.len(), MoveNumber::next_in(line.end()));
    let mut faults = Faults::new(passage);
    faults.add(&token, Some(due), Reason::ReadOtherwise, Cost::Moves);
    reading.faults.extend(faults.into_sorted());
    reading.faults.sort_by_key(|fault| fault.span.start);
    reading.skipped += ids.len() - agreed;
    game.keep_first(agreed);
    reading.end = game.main_line().end().clone();
    reading.plies = game.main_nodes().count();
    reading.sidelines = game.sideline_count();
}

#[cfg(test)]
mod tests {
    use super::*;

    const OPEN: &str = "1. e4 e5 (1... c5 2. Nf3 (2. c3)) 2. Nf3 Nc6 3. Bb5 a6 *";

    fn game(text: &str) -> Game {
        read(&Passage::alone(text)).game
    }

    fn heard(text: &str, game: &Game) -> Heard {
        let passage = Passage::alone(text);
        hear(
            standard_movetext(&passage).expect("standard notation"),
            game,
        )
    }

    #[test]
    fn the_witness_objects_to_the_moves_of_another_game() {
        let open = game(OPEN);
        assert_eq!(heard(OPEN, &open), Heard::Same);
        for (other, said) in [
            ("1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 *", Heard::Other(2)),
            (
                "1. e4 e5 (1... c5 2. Nf3) 2. Nf3 Nc6 3. Bb5 a6 *",
                Heard::Other(4),
            ),
            (
                "1. e4 e5 (1... c5 2. Nf3 2... d6) 2. Nf3 *",
                Heard::Other(4),
            ),
            (
                "1. e4 e5 (1... c5 2. Nf3 (2. c3)) 2. Nf3 Nc6 3. Bc4 a6 *",
                Heard::Other(7),
            ),
            (
                "1. e4 e5 (1... c5 2. Nf3 (2. c3)) 2. Nf3 Nc6 3. Bb5 *",
                Heard::Other(8),
            ),
            (
                "1. e4 e5 (1... c5 2. Nf3 (2. c3)) 2. Nf3 Nc6 3. Bb5 a6 4. Ba4 *",
                Heard::Other(9),
            ),
            (
                "1. e4 e5 (1... c5 2. Nf3 (2. c3)) 2. Nd3 *",
                Heard::NoMove(5),
            ),
        ] {
            assert_eq!(heard(other, &open), said, "{other}");
        }
    }

    #[test]
    fn a_game_in_doubt_is_kept_as_far_as_both_read_it_and_the_place_is_told() {
        let passage = Passage::alone(OPEN.replace(" 2. Nf3 Nc6", "\n2. Nf3 Nc6"));
        let mut reading = read(&passage);
        object(&passage, &mut reading, 6);
        assert_eq!(
            reading
                .faults
                .iter()
                .map(ToString::to_string)
                .collect::<Vec<_>>(),
            [
                "2:8: game 1, move 2... \"Nc6\": a second PGN reader does not read the same moves \
                 from here on, so they are left out: write them in standard notation, as in Nf3"
            ]
        );
        assert!(!reading.is_whole());
        assert_eq!(reading.faults[0].ply, 3);
        assert_eq!(reading.game.main_line().len(), 3);
        assert_eq!((reading.game.sideline_count(), reading.skipped), (2, 3));
        // Nothing that was kept points at what was not.
        let text = export(&reading.game);
        assert!(
            text.ends_with("1. e4 e5 (1... c5 2. Nf3 (2. c3)) 2. Nf3 *\n\n"),
            "{text}"
        );
        // In a sideline, and behind the last move.
        for (agreed, place, plies) in [(3, "1:22", 2), (9, "2:19", 6)] {
            let mut reading = read(&passage);
            object(&passage, &mut reading, agreed);
            let fault = &reading.faults[0];
            assert_eq!(fault.place.to_string(), place);
            assert_eq!(reading.game.main_line().len(), plies);
        }
        let nothing = Passage::alone("*");
        let mut reading = read(&nothing);
        object(&nothing, &mut reading, 0);
        assert_eq!(reading.faults[0].ply, 0);
    }

    #[test]
    fn what_the_witness_would_pass_over_is_told_from_standard_notation() {
        for text in [
            "1. e4 e5 *",
            "{so}\n[Event \"1. d4\"]\n\n1.e4! e5?!\n\n% 2. d4\n2... ; 3. d4\n$1 ({x} 1... -- 2. d4) 1/2-1/2",
        ] {
            assert!(standard_movetext(&Passage::alone(text)).is_some(), "{text}");
        }
        for text in [
            "1. e4\u{a0}e5 *",
            "1. \u{2659}e4 *",
            "1. e4 (=) *",
            "1. e2-e4 *",
            "1. e4 e5 2. Sf3 *",
            "1. e4 e5± *",
            "1. e4 ; so\re5 *",
            "1. e4 e5 2. Nf3 Nf6 3. Be2 Be7 4. 0-0 *",
            "1. e4 $1e5 *",
            "1. e4 $1$2e5 *",
        ] {
            let passage = Passage::alone(text);
            assert!(standard_movetext(&passage).is_none(), "{text}");
            assert_eq!(read_twice(&passage).faults, read(&passage).faults, "{text}");
        }
    }

    #[test]
    fn a_capture_without_its_mark_is_heard_in_the_words_of_the_strict_pass() {
        let text = "1. e4 d5 2. ed5 Qd5 *";
        let passage = Passage::alone(text);
        assert_eq!(heard(text, &game(text)), Heard::NoMove(2));
        let reading = read_twice(&passage);
        assert!(reading.is_whole() && reading.game.main_line().len() == 4);
    }
}
