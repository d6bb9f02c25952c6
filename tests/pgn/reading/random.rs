//! Games that nobody picked by hand, written in every dialect at random, and text that is broken at random.

use std::fmt::Write;

use crate::passages::{count_plies, each_game, heading_agrees, only};
use proptest::prelude::*;
use sansvoir::game::{GameEnd, GameResult, Line, MoveNumber, Start, fen_of};
use sansvoir::pgn::{Cost, Fault, Reason, export, read};
use sansvoir::question::{self, Scene};
use sansvoir::rules::{MoveFault, squares_meant};
use shakmaty::san::SanPlus;
use shakmaty::{Chess, Color, Move, Position, Role, Square, attacks};

use super::{games, is_understood, passages, said, witnessed};
use crate::unharmed::unharmed;

/// A stream of choices from one seed.
struct Dice(u64);

impl Dice {
    fn below(&mut self, sides: usize) -> usize {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        usize::try_from((self.0 >> 33) % sides as u64).unwrap()
    }

    fn pick<'a, T: ?Sized>(&mut self, list: &[&'a T]) -> &'a T {
        list[self.below(list.len())]
    }
}

/// Plays legal moves at random, promotions, captures and castling preferred where they are possible.
fn play(dice: &mut Dice, plies: usize) -> Vec<Move> {
    let mut position = Chess::new();
    let mut moves = Vec::new();
    while moves.len() < plies {
        let legal = position.legal_moves();
        if legal.is_empty() {
            break;
        }
        let rare = legal.iter().find(|mv| mv.is_en_passant() || mv.is_castle());
        let busy: Vec<Move> = legal
            .iter()
            .copied()
            .filter(|mv| mv.is_promotion() || mv.is_capture())
            .collect();
        let mv = match (rare, dice.below(3)) {
            (Some(mv), 0) => *mv,
            (_, 1) if !busy.is_empty() => busy[dice.below(busy.len())],
            _ => legal[dice.below(legal.len())],
        };
        position.play_unchecked(mv);
        moves.push(mv);
    }
    moves
}

/// Writes one move in some way that people do.
fn spell(dice: &mut Dice, position: &Chess, mv: Move) -> String {
    let san = SanPlus::from_move(position.clone(), mv).to_string();
    let bare = san.trim_end_matches(['+', '#']);
    let marks = &san[bare.len()..];
    let (from, to) = (mv.from().unwrap(), mv.to());
    let promotion = mv.promotion().map(Role::upper_char);
    match dice.below(8) {
        _ if mv.is_castle() => {
            let zeros = bare.replace('O', "0");
            let small = bare.replace('O', "o");
            let uci = mv.to_uci(shakmaty::CastlingMode::Standard).to_string();
            dice.pick(&[san.as_str(), &zeros, &small, &uci]).to_owned()
        }
        0..4 if mv.is_en_passant() => format!("{bare}{}", dice.pick(&["ep", "e.p.", " e.p."])),
        0 => bare.to_owned(),
        1 => format!("{bare}++"),
        2 => mv.to_uci(shakmaty::CastlingMode::Standard).to_string(),
        3 => {
            let letter = if mv.role() == Role::Pawn {
                String::new()
            } else {
                mv.role().upper_char().to_string()
            };
            let dash = dice.pick(&[
                "-",
                "",
                if mv.is_capture() { "x" } else { "" },
                if mv.is_capture() { ":" } else { "-" },
            ]);
            let queen = match (promotion, dice.below(3)) {
                (None, _) => String::new(),
                (Some(piece), 0) => format!("({piece})"),
                (Some(piece), 1) => format!("/{piece}"),
                (Some(piece), _) => format!("={piece}"),
            };
            format!("{letter}{from}{dash}{to}{queen}{marks}")
        }
        4 => bare.replace('x', ""),
        5 => bare.replace('x', ":"),
        6 => bare.replace('=', "") + marks,
        7 if position.turn() == Color::White => bare
            .chars()
            .map(|char| {
                "KQRBN"
                    .find(char)
                    .map_or(char, |at| "♔♕♖♗♘".chars().nth(at).unwrap())
            })
            .collect(),
        _ => san,
    }
}

/// Writes a game with numbers, comments, glyphs and sidelines strewn in.
fn write_game(dice: &mut Dice, moves: &[Move]) -> String {
    let mut text =
        String::from("[Event \"Random \\\"games\\\"\"]\n[White \"Žofie\"]\n[Result \"1-0\"]\n\n");
    let end = *dice.pick(&[&"\n", &"\r\n", &"\r", &"\n\n"]);
    let mut position = Chess::new();
    for mv in moves {
        let number = MoveNumber::next_in(&position);
        match dice.below(5) {
            0 => write!(text, "{number}").unwrap(),
            1 => write!(text, "{number} ").unwrap(),
            2 => write!(text, "{} ", number.number).unwrap(),
            3 => write!(text, "{}. {}", number.number, dice.pick(&["", ".. "])).unwrap(),
            _ => {}
        }
        text += &spell(dice, &position, *mv);
        text += dice.pick(&["", "", "", "!", "?!", " $7", "$12", " =", " (=)"]);
        text += match dice.below(8) {
            0 => " {words [Event \"x\"] ( ; %}",
            1 => " ; ( { to the end\n",
            2 => "\n% escaped ( {\n",
            _ => " ",
        };
        if dice.below(6) == 0 {
            let legal = position.legal_moves();
            let other = legal[dice.below(legal.len())];
            let spelled = spell(dice, &position, other);
            write!(text, "( {{so}} {spelled} {{}} ) ").unwrap();
        }
        if dice.below(5) == 0 {
            text += end;
        }
        position.play_unchecked(*mv);
    }
    let result = result(&position).marker();
    text.replace("[Result \"1-0\"]", &format!("[Result \"{result}\"]")) + " " + result + end
}

/// The result of a position, where it has one.
fn result(end: &Chess) -> GameResult {
    let over = GameEnd::of(end, &[]);
    over.map_or(GameResult::WhiteWins, |over| over.result(end.turn()))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn a_game_in_any_dialect_reads_back_as_it_was_played(seed: u64, plies in 0..160_usize) {
        let mut dice = Dice(seed);
        let moves = play(&mut dice, plies);
        let text = write_game(&mut dice, &moves);
        let passages = passages(&text);
        prop_assert_eq!(passages.len(), 1, "{}", &text);
        let reading = witnessed(&passages[0]);
        let doubt = |fault: &Fault| matches!(fault.reason, Reason::Doubtful { taken: Some("English"), .. });
        prop_assert!(is_understood(&reading) || reading.faults.iter().any(doubt), "{:?}\n{}", said(&reading), text);
        prop_assert_eq!(reading.skipped, 0);
        let line = reading.game.main_line();
        let read_moves: Vec<Move> = line.plies().iter().map(|ply| ply.mv).collect();
        prop_assert_eq!(read_moves, moves, "{}", &text);
        prop_assert_eq!(reading.game.result, Some(result(line.end())));
        // Exported, it stands in the standard's own letters and marks.
        let again = read(&only(export(&reading.game)));
        prop_assert!(again.is_clean() && again.game.same_moves(&reading.game), "{:?}", said(&again));
        each_game(text.as_bytes(), |heading, _| heading_agrees(heading, &reading.game.tags)).unwrap();
    }

    #[test]
    fn the_pgn_library_counts_the_plies_that_the_strict_pass_reads(seed: u64, plies in 0..160_usize) {
        let mut dice = Dice(seed);
        let moves = play(&mut dice, plies);
        let mut position = Chess::new();
        let mut text = String::from("[Event \"x\"]\n\n");
        for mv in &moves {
            let san = SanPlus::from_move_and_play_unchecked(&mut position, *mv);
            write!(text, "{san}{} ", dice.pick(&["", "!", " $3", " {words}", " ; (e4\n"])).unwrap();
        }
        text.push('*');
        let passage = only(text);
        let reading = witnessed(&passage);
        // A short one may be legal with the letters of another language too.
        let is_english = |fault: &Fault| matches!(fault.reason, Reason::Doubtful { taken: Some("English"), .. });
        prop_assert!(reading.faults.iter().all(is_english), "{:?}", said(&reading));
        prop_assert_eq!(count_plies(&passage).unwrap(), moves.len());
        prop_assert_eq!(reading.game.main_nodes().count(), moves.len());
        prop_assert_eq!(fen_of(reading.game.main_line().end()), fen_of(&position));
    }

    #[test]
    fn games_one_after_the_other_come_apart_as_they_were(seed: u64, count in 1..6_usize) {
        let mut dice = Dice(seed);
        let games: Vec<Vec<Move>> = (0..count).map(|_| play(&mut dice, 30)).collect();
        let text: String = games.iter().map(|moves| write_game(&mut dice, moves)).collect();
        let read = super::games(&text);
        prop_assert_eq!(read.len(), count);
        for (reading, moves) in read.iter().zip(&games) {
            let line = reading.game.main_line();
            prop_assert!(line.plies().iter().map(|ply| ply.mv).eq(moves.iter().copied()));
        }
    }

    #[test]
    fn any_bytes_at_all_are_read_without_harm(bytes in proptest::collection::vec(any::<u8>(), 0..600)) {
        unharmed(&bytes);
    }

    #[test]
    fn any_soup_of_pgn_is_read_without_harm(pieces in proptest::collection::vec(piece(), 0..200)) {
        unharmed(pieces.concat().as_bytes());
    }

    #[test]
    fn a_game_that_was_damaged_is_read_without_harm(seed: u64) {
        let mut dice = Dice(seed);
        let moves = play(&mut dice, 60);
        let mut bytes = write_game(&mut dice, &moves).into_bytes();
        for _ in 0..=dice.below(8) {
            let at = dice.below(bytes.len());
            match dice.below(3) {
                0 => drop(bytes.remove(at)),
                1 => bytes.insert(at, b"{}()[]\"\\$;%* \n1eNx"[dice.below(18)]),
                _ => bytes[at] = u8::try_from(dice.below(256)).unwrap(),
            }
        }
        unharmed(&bytes);
    }
}

fn piece() -> impl Strategy<Value = &'static str> {
    prop::sample::select(vec![
        "e4",
        "e5",
        "Nf3",
        "Nc6",
        "d4",
        "exd4",
        "O-O",
        "0-0",
        "1.",
        "1...",
        "{",
        "}",
        "(",
        ")",
        " ",
        " ",
        " ",
        "\n",
        "\r\n",
        "\n\n",
        "[Event \"x\"]",
        "[Result \"*\"]",
        "[FEN \"",
        "\"]",
        "[",
        "]",
        "*",
        "1-0",
        "$1",
        "$999",
        "$",
        ";",
        "%",
        "!",
        "?!",
        "+-",
        "--",
        "Z0",
        "N",
        "b",
        "bc4",
        "e8(Q)",
        "\u{feff}",
        "é",
        "♘",
        "\\",
        "\"",
        "Sf3",
        "(=)",
        "e.p.",
    ])
}

#[test]
fn the_dialects_of_the_random_games_are_all_met() {
    let mut dice = Dice(1);
    let mut text = String::new();
    for _ in 0..200 {
        let moves = play(&mut dice, 120);
        text += &write_game(&mut dice, &moves);
    }
    for sign in ["♘", "0-0", "o-o", "e.p.", "++", "(Q)", "/N", ":", "-", "=R"] {
        assert!(text.contains(sign), "{sign}");
    }
    assert!(games(&text).iter().all(is_understood));
}

/// Letters for knight, bishop, rook, queen and king: PGN standard 1994.03.12, 8.2.3.2, up to Romanian; the others are
/// common knowledge.
const LETTERS: [&str; 18] = [
    "NBRQK",
    "JSVDK",
    "SLTDK",
    "PLTDK",
    "ROVLK",
    "RLTDK",
    "CFTDR",
    "HFBVK",
    "RBHDK",
    "CATDR",
    "SGWHK",
    "CBTDR",
    "CNTDR",
    "AFKVŞ",
    "КСЛФк",
    "КОТДЦ",
    "СЛТДК",
    "ΙΑΠΒΡ",
];

/// Writes moves in SAN with these letters, with a number before each of White's.
fn written(moves: &[Move], letters: &str) -> Vec<String> {
    let mut position = Chess::new();
    let write = |mv: &Move| {
        let number = MoveNumber::next_in(&position);
        let san = SanPlus::from_move_and_play_unchecked(&mut position, *mv).to_string();
        let letter = |c| match "NBRQK".find(c) {
            Some(at) if !san.starts_with('O') => letters.chars().nth(at).unwrap(),
            Some(_) | None => c,
        };
        let san = san
            .chars()
            .map(letter)
            .collect::<String>()
            .replace('к', "Кр");
        if number.to_string().ends_with("...") {
            san
        } else {
            format!("{number} {san}")
        }
    };
    moves.iter().map(write).collect()
}

#[test]
fn short_lines_in_any_language_are_read_as_they_were_played_or_it_is_told() {
    let (mut doubtful, mut kept) = (0, 0);
    for (at, letters) in LETTERS.into_iter().enumerate() {
        for seed in 0..400 {
            let mut dice = Dice(seed * 31 + at as u64);
            let plies = 4 + dice.below(9);
            let moves = play(&mut dice, plies);
            let reading = read(&only(written(&moves, letters).join(" ") + " *"));
            let line = reading.game.main_line();
            let is_right = line
                .plies()
                .iter()
                .map(|ply| ply.mv)
                .eq(moves.iter().copied());
            assert!(
                is_right || !reading.faults.is_empty(),
                "{letters}: {}",
                written(&moves, letters).join(" ")
            );
            doubtful += usize::from(!is_right);
            // With a fault at its end it is kept up to there or to an earlier place, and never as other moves unsaid.
            let reading = read(&only(written(&moves, letters).join(" ") + " Zz9 *"));
            let line = reading.game.main_line();
            let own: Vec<Move> = line.plies().iter().map(|ply| ply.mv).collect();
            let is_told = |fault: &Fault| matches!(fault.reason, Reason::Doubtful { .. });
            assert!(
                moves.starts_with(&own) || reading.faults.iter().any(is_told),
                "{letters}: {}",
                written(&moves, letters).join(" ")
            );
            kept += usize::from(own == moves);
        }
    }
    // Most lines leave no doubt.
    assert!(doubtful < 400, "{doubtful}");
    assert!(kept > 5_000, "{kept}");
}

#[test]
fn a_ply_that_is_missing_or_doubled_is_always_told() {
    for seed in 0..4_000 {
        let mut dice = Dice(seed);
        let moves = play(&mut dice, 40);
        let mut words = written(&moves, "NBRQK");
        // What is missing at the very end leaves no trace.
        let at = dice.below(words.len().saturating_sub(3).max(1));
        if dice.below(2) == 0 {
            words.remove(at);
        } else {
            words.insert(at, words[at].clone());
        }
        let text = words.join(" ");
        let reading = read(&only(format!("{text} *")));
        assert!(!reading.faults.is_empty() || moves.len() < 6, "{text}");
    }
}

/// Writes a line as movetext.
fn movetext(line: &Line) -> String {
    let mut text = String::new();
    for ply in line.plies() {
        write!(text, "{} {} ", ply.number, ply.san).unwrap();
    }
    text
}

/// A token that reads as a move, whatever the position.
fn token(dice: &mut Dice) -> String {
    let square = |dice: &mut Dice| Square::new(u32::try_from(dice.below(64)).unwrap());
    let to = square(dice);
    let takes = dice.pick(&["", "", "x"]);
    match dice.below(12) {
        0 => dice.pick(&["O-O", "O-O-O"]).to_owned(),
        1 => format!("{}{to}", square(dice)),
        2 => format!(
            "{}{}{takes}{to}",
            dice.pick(&["N", "B", "R", "Q", "K"]),
            square(dice)
        ),
        3..5 => format!(
            "{}x{to}",
            dice.pick(&["a", "b", "c", "d", "e", "f", "g", "h"])
        ),
        5..8 => to.to_string(),
        _ => format!("{}{takes}{to}", dice.pick(&["N", "B", "R", "Q", "K"])),
    }
}

/// The reason that a fault tells is the one that the judge of all questions finds for the squares that the
/// token means, and where it blames the safety of the king, the board says the same.
#[test]
fn every_impossible_token_is_told_with_the_judges_reason_for_its_squares() {
    let club = std::fs::read("games-demo/club-evening.pgn").unwrap();
    let demo: Vec<Line> = (games(club).iter())
        .map(|reading| reading.game.main_line())
        .filter(|line| line.start().is_usual())
        .collect();
    let (mut reasons, mut told) = (std::collections::BTreeMap::new(), 0);
    for seed in 0..120 {
        let mut dice = Dice(seed);
        let line = if seed % 3 == 0 {
            let whole = &demo[dice.below(demo.len())];
            whole.cut(0, dice.below(whole.len()))
        } else {
            let mut line = Line::new(Start::standard());
            let plies = 1 + dice.below(90);
            for mv in play(&mut dice, plies) {
                line.push(mv).unwrap();
            }
            line
        };
        let (text, scene) = (movetext(&line), Scene::new(&line, line.len()));
        let (position, board, turn) = (line.end(), line.end().board(), line.end().turn());
        let judge = scene.judge();
        for _ in 0..40 {
            let token = token(&mut dice);
            let reading = read(&only(format!("{text}{token} *")));
            let Some(fault) = reading
                .faults
                .iter()
                .find(|fault| fault.cost == Cost::Moves)
            else {
                continue;
            };
            assert_eq!(fault.token, token, "{text}");
            let meant = squares_meant(&token, position);
            let judged = meant.and_then(|attempt| Some((attempt, judge.illegal(attempt)?)));
            let illegal = match (&fault.reason, judged) {
                (Reason::Illegal(illegal), Some(judged)) => {
                    assert_eq!((illegal.attempt, illegal.illegal), judged, "{text}{token}");
                    illegal
                }
                (
                    Reason::Move(
                        MoveFault::NoSuchPiece { .. }
                        | MoveFault::CannotGo { .. }
                        | MoveFault::CannotCastle { .. },
                    ),
                    None,
                )
                | (
                    Reason::Move(
                        MoveFault::Ambiguous { .. }
                        | MoveFault::NoPromotion { .. }
                        | MoveFault::OnlyCastling { .. },
                    )
                    | Reason::CastlingFrom { .. },
                    _,
                ) => continue,
                (other, judged) => panic!("{text}{token}: {other:?} {judged:?}"),
            };
            told += 1;
            let (from, to) = (illegal.attempt.from, illegal.attempt.to);
            let reason = illegal.illegal.reason;
            *reasons.entry(format!("{reason:?}")).or_insert(0) += 1;
            if token.len() == 2 {
                assert_eq!(from.file(), to.file(), "a step is straight: {text}{token}");
            }
            let blames_the_king = [
                question::Reason::Pinned,
                question::Reason::UncoversCheck,
                question::Reason::StepsIntoCheck,
                question::Reason::StaysInCheck,
            ];
            if blames_the_king.contains(&reason) {
                let piece = board.piece_at(from).unwrap();
                let mut after = board.clone();
                after.discard_piece_at(from);
                if piece.role == Role::Pawn
                    && from.file() != to.file()
                    && board.role_at(to).is_none()
                {
                    after.discard_piece_at(Square::from_coords(to.file(), from.rank()));
                }
                after.set_piece_at(to, piece);
                let king = after.king_of(turn).unwrap();
                let attacked = after.attacks_to(king, !turn, after.occupied());
                assert!(attacked.any(), "{text}{token}: {}", fault.reason);
                let is_step = piece.role == Role::Pawn && from.file() == to.file();
                let sees = attacks::attacks(from, piece, board.occupied()).contains(to);
                assert_ne!(
                    is_step && board.role_at(to).is_none(),
                    sees,
                    "{text}{token}"
                );
            }
        }
    }
    assert!(told > 2_500 && reasons.len() >= 9, "{told} {reasons:?}");
}
