//! Games written in the export format of the PGN standard, and read back.

use std::fs;

use crate::held::held;
use crate::passages::only;
use crate::program::{CLUB, Desk};
use sansvoir::exercise::Dice;
use sansvoir::game::{Game, GameEnd, MoveOrNull, NodeId, Place, Start, Tags, after_null};
use sansvoir::pgn::{Collection, export, read, read_twice};
use shakmaty::{CastlingMode, Position};

/// Reads a text back, with both witnesses.
fn back(text: &str) -> Game {
    let reading = read_twice(&only(text));
    let faults: Vec<String> = reading.faults.iter().map(ToString::to_string).collect();
    assert!(reading.is_clean(), "{faults:?}\n{text}");
    reading.game
}

fn holds(game: &Game) {
    let text = export(game);
    let again = back(&text);
    assert_eq!(held(&again), held(game), "{text}");
    assert_eq!(export(&again), text);
    let (tags, movetext) = text.split_once("\n\n").unwrap();
    // PGN standard 8.1.1: the seven tags first, in order, the others in ASCII order.
    let names: Vec<&str> = tags
        .lines()
        .map(|line| &line[1..line.find(' ').unwrap()])
        .collect();
    assert_eq!(
        names[..7],
        ["Event", "Site", "Date", "Round", "White", "Black", "Result"]
    );
    assert!(names[7..].is_sorted() && !names[7..].contains(&"Result"));
    // 8.2.1: movetext lines have fewer than 80 characters; only a word of a comment may be longer.
    for line in movetext.lines() {
        let length = line.chars().count();
        let in_comment = game.ids().count() == 0 || text.contains('{') || text.contains(';');
        assert!(length < 80 || in_comment, "{line}");
        // 6: nothing at the head of a line hides the line.
        assert!(!line.starts_with('%') && !line.starts_with('['), "{line}");
        assert_eq!(line.trim_end(), line);
    }
}

#[test]
fn the_demo_games_are_written_and_read_back_the_same() {
    let mut games = 0;
    for file in fs::read_dir("games-demo").unwrap() {
        let path = file.unwrap().path();
        if path.extension().is_none_or(|ending| ending != "pgn") {
            continue;
        }
        for passage in Collection::new(fs::File::open(&path).unwrap()) {
            holds(&read(&passage.unwrap()).game);
            games += 1;
        }
    }
    assert!(games >= 10, "{games}");
}

/// PGN standard 8.2.3.8: `Qxa8?` is exported as `Qxa8 $2`; 8.2.2.2: Black's number stands where something
/// intervenes.
#[test]
fn suffixes_become_glyphs_and_numbers_stand_where_the_standard_wants_them() {
    let movetext = |text: &str| {
        let text = export(&read(&only(text)).game);
        text.split_once("\n\n").unwrap().1.trim_end().to_owned()
    };
    assert_eq!(movetext("1.e4? e5! 2 Nf3 1-0"), "1. e4 $2 e5 $1 2. Nf3 1-0");
    assert_eq!(
        movetext("{A} 1. e4 {Best} e5 (1... c5 (1... e6 {French.} 2. d4) 2. Nf3) 2. Nf3 *"),
        "{A} 1. e4 {Best} 1... e5 (1... c5 (1... e6 {French.} 2. d4) 2. Nf3) 2. Nf3 *"
    );
    assert_eq!(
        movetext("1. e4 (1. d4) 1... e5 *"),
        "1. e4 (1. d4) 1... e5 *"
    );
    assert_eq!(
        movetext("[SetUp \"1\"]\n[FEN \"4k3/8/8/8/8/8/4P3/4K3 b - - 5 39\"]\n\n39... Kd7 40. e4 *"),
        "39... Kd7 40. e4 *"
    );
}

#[test]
fn what_a_tag_cannot_hold_is_made_harmless_and_reads_back() {
    let mut tags = Tags::default();
    for (name, value) in [
        ("White", "A \"quoted\" \\ name"),
        ("Wei rd", "a\nb\tc"),
        ("annotator", "x] [Event \"y\"]"),
        ("Annotator", "z"),
        ("Event", ""),
        ("Round", "\u{0} \u{1b}"),
    ] {
        tags.push(name, value);
    }
    let game = Game::new(tags, Start::standard());
    let text = export(&game);
    assert!(
        text.starts_with("[Event \"?\"]\n[Site \"?\"]\n[Date \"????.??.??\"]\n"),
        "{text}"
    );
    let again = read(&only(text.clone())).game;
    assert_eq!(again.tags.get("White"), Some("A \"quoted\" \\ name"));
    assert_eq!(again.tags.get("Wei_rd"), Some("a b c"));
    // Case tells no two tags apart: the first counts.
    assert_eq!(again.tags.get("Annotator"), Some("x] [Event \"y\"]"));
    assert!(!text.contains("\"z\""), "{text}");
    assert_eq!(export(&again), text);
}

const WORDS: [&str; 16] = [
    "plan",
    "%eval",
    "[%clk",
    "0:01:02]",
    "[Event",
    "\"x\"]",
    "(",
    ")",
    ";",
    "{",
    "$4",
    "1.",
    "e4",
    "1-0",
    "ж",
    "a-word-that-is-so-long-that-no-line-of-a-game-has-room-for-it-and-for-anything-else-beside-it",
];

fn remark(dice: &mut Dice) -> Vec<String> {
    let comments = if dice.chance(1, 4) {
        1 + dice.below(2)
    } else {
        0
    };
    (0..comments)
        .map(|_| {
            let words: Vec<&str> = (0..=dice.below(30))
                .map(|_| WORDS[dice.below(WORDS.len())])
                .collect();
            words.join(" ")
        })
        .collect()
}

/// A game of random legal moves with sidelines in sidelines, glyphs and comments everywhere, from one of
/// three starts; in sidelines a side passes now and then.
fn random_game(seed: u64) -> Game {
    let mut dice = Dice::new(seed, 9);
    let start = match dice.below(4) {
        0 => {
            let fen = "r3k2r/pppp1ppp/8/4pP2/4P3/8/PPPP2PP/R3K2R b KQkq - 3 17";
            Start::from_fen(fen, CastlingMode::Standard).unwrap()
        }
        1 => {
            let fen = "1r2k1r1/pp4pp/8/8/8/8/PP4PP/1R2K1R1 w GBgb - 0 1";
            Start::from_fen(fen, CastlingMode::Chess960).unwrap()
        }
        _ => Start::standard(),
    };
    let mut game = Game::new(Tags::default(), start);
    game.preface = remark(&mut dice);
    game.result = Some(sansvoir::game::GameResult::Draw);
    let place = Place { line: 1, column: 1 };
    let mut ends: Vec<(Option<NodeId>, Option<NodeId>, usize)> = vec![(None, None, 30)];
    while let Some((before, replaced, length)) = ends.pop() {
        let mut last = before;
        let mut position = before.map_or_else(
            || game.start.position().clone(),
            |id| game.line_to(id).end().clone(),
        );
        for n in 0..length {
            let legal = position.legal_moves();
            if legal.is_empty() {
                break;
            }
            let passed = (replaced.is_some() && dice.chance(1, 8)).then(|| after_null(&position));
            let (step, after) = if let Some(after) = passed.flatten() {
                (MoveOrNull::Null, after)
            } else {
                let mv = legal[dice.below(legal.len())];
                (MoveOrNull::Move(mv), position.clone().play(mv).unwrap())
            };
            let id = match replaced.filter(|_| n == 0) {
                Some(replaced) => game.branch(replaced, step, place),
                None => game.go_on(last, step, place),
            };
            let preface = if n == 0 && replaced.is_some() {
                remark(&mut dice)
            } else {
                Vec::new()
            };
            let comments = remark(&mut dice);
            let node = game.node_mut(id);
            node.preface = preface;
            node.comments = comments;
            if dice.chance(1, 5) {
                node.nags = (0..=dice.below(3))
                    .map(|_| u8::try_from(dice.below(256)).unwrap())
                    .collect();
            }
            position = after;
            if length > 2 && dice.chance(1, 6) {
                ends.push((last, Some(id), length / 3));
            }
            last = Some(id);
        }
    }
    let end = game.main_line().end().clone();
    if let Some(over) = GameEnd::of(&end, &[]) {
        game.result = Some(over.result(end.turn()));
    }
    game
}

#[test]
fn random_games_are_written_and_read_back_the_same() {
    let (mut sidelines, mut castled, mut passed) = (0, 0, 0);
    for seed in 0..300 {
        let game = random_game(seed);
        sidelines += game.sideline_count();
        let is_chess960 = game.start.mode().is_chess960();
        for id in game.ids() {
            match game.node(id).step {
                MoveOrNull::Move(mv) => castled += usize::from(is_chess960 && mv.is_castle()),
                MoveOrNull::Null => passed += 1,
            }
        }
        holds(&game);
    }
    assert!(sidelines > 1_000, "{sidelines}");
    assert!(castled > 10 && passed > 100, "{castled} {passed}");
}

#[test]
fn a_comment_with_a_closing_brace_stands_behind_a_semicolon() {
    let game = read(&only("1. e4 ; a } brace\n e5 *")).game;
    let text = export(&game);
    assert!(text.ends_with("1. e4 ; a } brace\n1... e5 *\n\n"), "{text}");
    holds(&game);
}

#[test]
fn sidelines_nested_ten_thousand_deep_are_written() {
    let depth = 10_000;
    let text = format!(
        "1. e4 {}{} *",
        "(1. d4 (1. e4 ".repeat(depth / 2),
        ")".repeat(depth / 2 * 2)
    );
    let game = read(&only(text)).game;
    assert_eq!(game.sideline_count(), depth);
    assert!(back(&export(&game)).same_moves(&game));
}

#[test]
fn each_change_is_told_once_with_its_reason_and_what_stays_is_not_called_left_out() {
    let text = "[FEN \"7k/8/6K1/5Q2/8/8/8/8 w - - 0 1\"]\n\n1. Qxf7 1-0";
    let passage = only(text);
    let repairs = read(&passage).repairs(&passage);
    let told: Vec<_> = repairs
        .iter()
        .map(|repair| {
            (
                repair.before.as_str(),
                repair.after.as_str(),
                repair.reason.is_some(),
            )
        })
        .collect();
    assert_eq!(told, [("Qxf7", "Qf7", true), ("1-0", "1-0", true)]);
}

#[test]
fn a_file_is_written_whole_and_never_overwritten() {
    let desk = Desk::new();
    let to = desk.path("out.pgn");
    let to = to.to_str().unwrap();
    let said = desk.run(&["games", CLUB, "--export", to], "");
    said.ends(0, &[]);
    let first = fs::read_to_string(to).unwrap();
    let said = desk.run(&["games", CLUB, "--export", to, "--game", "1"], "");
    assert_eq!(said.code, Some(1));
    assert!(said.err.contains("delete it first"), "{}", said.err);
    assert_eq!(fs::read_to_string(to).unwrap(), first);
    fs::remove_file(to).unwrap();
    let said = desk.run(&["games", CLUB, "--export", to, "--game", "1"], "");
    assert_eq!(said.code, Some(0), "{}", said.err);
    let one = fs::read_to_string(to).unwrap();
    assert!(one.len() < first.len() && first.starts_with(&one));
    let said = desk.run(&["games", CLUB, "--export", "-", "--game", "1"], "");
    assert_eq!(said.out, one);
    assert!(said.err.contains("1 game written."), "{}", said.err);
    let said = desk.run(&["games", to, "--check"], "");
    assert!(said.out.contains("0 faults"), "{}", said.out);
}

#[test]
fn a_game_with_a_fault_is_written_as_far_as_it_goes_and_told() {
    let desk = Desk::new();
    let file = desk.file("bad.pgn", "1. e4 e5 2. Ke3 Nc6 1-0\n\n1. d4 *\n");
    let said = desk.run(&["games", &file, "--export", "-"], "");
    assert_eq!(said.code, Some(1));
    let comment = "1. e4 e5 {The moves from here on are lost. White's move 2, \"Ke3\": the king on e1 \
                   cannot go to e3: a king does not move like that; look at the moves before. There stood: Ke3 Nc6 1-0} 1-0\n";
    let on_one_line = said.out.replace('\n', " ").replace("  ", "\n\n");
    assert!(
        on_one_line.contains(comment) && said.out.contains("1. d4 *"),
        "{}",
        said.out
    );
    assert!(
        said.err.contains("bad.pgn:1:13") && said.err.contains("1 of them only in part"),
        "{}",
        said.err
    );
}

#[test]
fn a_game_that_lost_moves_says_so_in_the_file_where_the_check_knows_it() {
    let desk = Desk::new();
    for (text, comment) in [
        (
            "1. e4 e5 2. Ke3 Nc6 1-0",
            "1. e4 e5 {The moves from here on are lost. White's move 2, ",
        ),
        (
            "1. e4 e5 {open",
            "1. e4 e5 {open} ; The moves from here on are lost. White's move 2, ",
        ),
        (
            "1. Qh7 e5 *",
            "{The moves from here on are lost. White's move 1, \"Qh7\": the queen on",
        ),
        (
            "1. e4 e}5 2. d4 *",
            "1. e4 {The moves from here on are lost. Black's move 1, ",
        ),
        (
            "[FEN \"8/8\"]\n\n1. e4 *",
            "{The moves from here on are lost. \"[FEN ",
        ),
        (
            "1. e4 e5 (1... Ke6) 2. d4 *",
            "1. e4 e5 {Moves of a sideline are lost here. Black's move 1, \"Ke6\": the ",
        ),
        (
            "1. e4 e5 (1... Ke6) (1... Ke5) 2. d4 *",
            "There stood: Ke6} {Moves of a sideline are lost here. Black's move 1, \"Ke5\"",
        ),
    ] {
        let file = desk.file("bad.pgn", format!("{text}\n"));
        let clean = desk.path("clean.pgn");
        let clean = clean.to_str().unwrap();
        let is_cut = !comment.contains("{Moves of");
        let _ = fs::remove_file(clean);
        let said = desk.run(&["games", &file, "--export", clean], "");
        assert_eq!(said.code, Some(i32::from(is_cut)), "{text}: {said:?}");
        let written = fs::read_to_string(clean).unwrap();
        let on_one_line = written.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(on_one_line.contains(comment), "{text}: {written}");
        let checked = desk.run(&["games", clean, "--check"], "");
        assert_eq!(checked.code, Some(i32::from(is_cut)), "{checked:?}");
        let trust = if is_cut { "1 broken" } else { "1 mended" };
        assert!(checked.out.contains(trust), "{text}: {checked:?}");
        assert!(
            checked.out.contains("when the game was exported"),
            "{text}: {checked:?}"
        );
        // Written once more it is the same, without a second comment.
        let again = desk.run(&["games", clean, "--export", "-"], "");
        assert_eq!(again.out, written);
    }
}

/// PGN standard, 9.7.2: a game that does not start from the usual array needs its FEN. What the file does
/// not give is not made up, and so the check of what was written still asks for it.
#[test]
fn a_start_of_chess960_is_written_where_it_is_known_and_never_made_up() {
    let desk = Desk::new();
    let clean = desk.path("clean.pgn");
    let clean = clean.to_str().unwrap();
    let file = desk.file("lost.pgn", "[Variant \"Chess960\"]\n\n1. e4 e5 2. Nf3 *\n");
    let said = desk.run(&["games", &file, "--export", clean], "");
    assert_eq!(said.code, Some(0), "{said:?}");
    assert!(
        said.err.contains("nobody can tell how the pieces stood"),
        "{said:?}"
    );
    let written = fs::read_to_string(clean).unwrap();
    assert!(
        !written.contains("FEN") && !written.contains("SetUp"),
        "{written}"
    );
    assert!(written.contains("[Variant \"Chess960\"]"), "{written}");
    let checked = desk.run(&["games", clean, "--check"], "");
    assert!(
        checked.out.contains("nobody can tell how the pieces stood"),
        "{checked:?}"
    );
    assert!(checked.out.contains("1 fault"), "{checked:?}");

    let array = "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1";
    let other = "bqnbnrkr/pppppppp/8/8/8/8/PPPPPPPP/BQNBNRKR w KQkq - 0 1";
    // A variant that is not said and that the array and its castling rights give away is written.
    for (variant, fen) in [("Chess960", array), ("Chess960", other), ("?", other)] {
        let text = format!("[Variant \"{variant}\"]\n[FEN \"{fen}\"]\n\n1. e4 e5 *\n");
        let file = desk.file("known.pgn", text);
        fs::remove_file(clean).unwrap();
        desk.run(&["games", &file, "--export", clean], "");
        let written = fs::read_to_string(clean).unwrap();
        let pairs = format!("[FEN \"{fen}\"]\n[SetUp \"1\"]\n[Variant \"Chess960\"]");
        assert!(written.contains(&pairs), "{written}");
        let checked = desk.run(&["games", clean, "--check"], "");
        assert!(checked.out.contains("0 faults"), "{checked:?}");
    }
}

#[cfg(unix)]
#[test]
fn what_goes_to_a_terminal_is_cleaned_and_what_goes_to_a_pipe_is_exact() {
    let desk = Desk::new();
    let text = "1. e4 {a \u{1b}[2J b\u{3164}c} 1... e5 *\n";
    let file = desk.file("steers.pgn", text);
    let arguments = ["games", &file, "--export", "-"];
    let piped = desk.run(&arguments, "");
    assert!(piped.out.contains("{a \u{1b}[2J b\u{3164}c}"), "{piped:?}");
    let program = desk.program(&arguments);
    let mut session = crate::screen::Terminal::start(program);
    let shown = session.ends();
    assert!(shown.contains("{a [2J bc}"), "{shown:?}");
    assert!(
        !shown.contains("\u{1b}[2J") && !shown.contains('\u{3164}'),
        "{shown:?}"
    );
}
