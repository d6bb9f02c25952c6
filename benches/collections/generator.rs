//! A made-up collection of any size: legal games by chance, with clocks, comments and sidelines.

use std::fmt::Write as _;

use sansvoir::exercise::Dice;
use shakmaty::san::SanPlus;
use shakmaty::{Chess, Color, Position};

/// How many players there are.
const PLAYERS: usize = 20_000;

/// The name of a player, made of syllables, some with accents.
pub(crate) fn player(number: usize) -> String {
    const FIRST: [&str; 10] = [
        "Bra", "Cor", "Dune", "Fal", "Hes", "Jo", "Mir", "Ō", "Ré", "Tam",
    ];
    const SECOND: [&str; 10] = [
        "bert", "den", "gård", "lin", "mont", "nay", "ris", "sen", "vik", "wood",
    ];
    let syllable = |list: [&'static str; 10], place: usize| list[number / place % 10];
    format!(
        "{}{}, {}{}",
        syllable(FIRST, 1),
        syllable(SECOND, 10),
        syllable(FIRST, 100),
        if number < 10_000 { "a" } else { "o" }
    ) + &format!(" {}.", letter(number / 1000 % 10))
}

fn letter(number: usize) -> char {
    ('A'..='Z').nth(number).unwrap_or('Z')
}

/// Returns a game, the same for the same number.
pub(crate) fn game(number: u64) -> String {
    let mut dice = Dice::new(number, 0);
    let mut moves = Moves {
        text: String::new(),
        column: 0,
    };
    let with_clocks = dice.chance(2, 5);
    let with_comments = dice.chance(1, 8);
    let with_sidelines = dice.chance(1, 8);
    let plies = 44 + dice.below(72);
    let mut position = Chess::default();
    for ply in 0..plies {
        let legal = position.legal_moves();
        if legal.is_empty() {
            break;
        }
        let before = position.clone();
        let mv = legal[dice.below(legal.len())];
        moves.ply(&mut position, mv, ply == 0);
        if with_clocks {
            let left = 5400 - ply * 37;
            moves.word(&format!(
                "{{[%clk {}:{:02}:{:02}]}}",
                left / 3600,
                left / 60 % 60,
                left % 60
            ));
        }
        if with_comments && dice.chance(1, 8) {
            moves.word("{a plan to keep in mind: the rook belongs behind the passed pawn}");
        }
        if with_sidelines && dice.chance(1, 10) && legal.len() > 1 {
            let mut side = before;
            moves.word("(");
            for step in 0..4 {
                let legal = side.legal_moves();
                if legal.is_empty() {
                    break;
                }
                let other = legal[dice.below(legal.len())];
                moves.ply(&mut side, other, step == 0);
            }
            moves.word(")");
        }
    }
    let result = ["1-0", "0-1", "1/2-1/2"][dice.below(3)];
    moves.word(result);
    // The games of an event stand together, and round by round, as they do in collections.
    let (event, round) = (number / 90, number / 10 % 9);
    let (white, black) = (dice.below(PLAYERS), dice.below(PLAYERS));
    let mut text = String::with_capacity(moves.text.len() + 400);
    let pairs = [
        ("Event", format!("Ferryhouse Open {event}")),
        ("Site", format!("Ferryhouse {}", event % 90)),
        (
            "Date",
            format!("20{:02}.{:02}.{:02}", event % 26, 1 + event % 12, 1 + round),
        ),
        ("Round", format!("{}", 1 + round)),
        ("White", player(white)),
        ("Black", player(black)),
        ("Result", result.to_owned()),
        ("WhiteElo", format!("{}", 1400 + dice.below(1200))),
        ("BlackElo", format!("{}", 1400 + dice.below(1200))),
        (
            "ECO",
            format!("{}{:02}", letter(dice.below(5)), dice.below(100)),
        ),
        ("TimeControl", "5400+30".to_owned()),
    ];
    for (name, value) in pairs {
        // Writing into a text cannot fail.
        let _ = writeln!(text, "[{name} \"{value}\"]");
    }
    text.push('\n');
    text.push_str(&moves.text);
    text.push_str("\n\n");
    text
}

/// Movetext in lines of at most 80 columns.
struct Moves {
    text: String,
    column: usize,
}

impl Moves {
    fn word(&mut self, word: &str) {
        if self.column + word.len() >= 80 {
            self.text.push('\n');
            self.column = 0;
        } else if self.column > 0 {
            self.text.push(' ');
            self.column += 1;
        }
        self.text.push_str(word);
        self.column += word.len();
    }

    fn ply(&mut self, position: &mut Chess, mv: shakmaty::Move, first: bool) {
        let number = position.fullmoves();
        match position.turn() {
            Color::White => self.word(&format!("{number}.")),
            Color::Black if first => self.word(&format!("{number}...")),
            Color::Black => {}
        }
        let san = SanPlus::from_move_and_play_unchecked(position, mv);
        self.word(&san.to_string());
    }
}
