use sansvoir::game::GameResult;
use sansvoir::pgn::{Cost, Passage, Reason, Trust, read};

use super::{game, games, said};

/// Asserts the only fault of a text: where it is, what it cost, and how many plies are kept.
#[track_caller]
fn one_fault(text: &str, place: &str, cost: Cost, plies: usize) -> Reason {
    let reading = game(text);
    assert_eq!(reading.faults.len(), 1, "{text:?}: {:?}", said(&reading));
    let fault = &reading.faults[0];
    assert_eq!(fault.place.to_string(), place, "{text:?}: {fault}");
    assert_eq!(fault.cost, cost, "{text:?}: {fault}");
    assert_eq!(reading.game.main_line().len(), plies, "{text:?}");
    fault.reason.clone()
}

#[test]
fn an_illegal_move_ends_the_game_where_it_stands() {
    one_fault("1. e4 e5\n  2. Nf4 Nc6 *", "2:6", Cost::Moves, 2);
    one_fault("1. e4 e5\r\n  2. Nf4 Nc6 *", "2:6", Cost::Moves, 2);
    one_fault("1. e4 e5\r  2. Nf4 Nc6 *", "2:6", Cost::Moves, 2);
    one_fault("1. e4 {é♘} 1... e5 2.Qx9 *", "1:20", Cost::Moves, 2);
    one_fault("\u{feff}1. e5 *", "1:4", Cost::Moves, 0);
}

#[test]
fn the_reason_for_an_illegal_move_is_precise() {
    let reason = |text: &str| match game(text).faults.first() {
        Some(fault) => fault.to_string(),
        None => panic!("{text} has no fault"),
    };
    assert_eq!(
        reason("1. e4 e5 2. Bg5 *"),
        "1:13: game 1, move 2. \"Bg5\": the bishop on c1 cannot go to g5: the pawn on d2 stands in the way; \
         look at the moves before"
    );
    assert_eq!(
        reason("1. e4 e5 2. Qh5 Ke7 3. Qxe5+ Kf6 *"),
        "1:30: game 1, move 3... \"Kf6\": the king on e7 cannot go to f6: the queen on e5 would attack it \
         there; look at the moves before"
    );
    assert_eq!(
        reason("1. Nf3 d5 2. d4 e6 3. Nd2 *"),
        "1:23: game 1, move 3. \"Nd2\": two pieces can do that, from b1 and from f3: write which"
    );
}

/// The last token of a text, and what is said of it; the piece letters of other languages are tried too, so
/// each game is one that no language makes legal.
#[test]
fn an_impossible_move_is_told_with_the_one_reason_of_its_squares() {
    let look = "; look at the moves before";
    let table = [
        (
            "1. e4 d5 2. d5",
            "the pawn on d2 cannot go to d5: it reaches d3 or d4; was exd5 meant?",
        ),
        (
            "1. e4 d5 2. c4 Nf6 3. d5",
            "the pawn on d2 cannot go to d5: it reaches d3 or d4; was exd5 or cxd5 meant?",
        ),
        (
            "1. e4 e5 2. e5",
            "the pawn on e4 cannot go to e5: the pawn on e5 stands in the way",
        ),
        (
            "1. e4 e5 2. d4 d5 3. dd5",
            "the pawn on d4 cannot go to d5: the pawn on d5 stands in the way; was exd5 meant?",
        ),
        (
            "1. e4 e5 2. d4 Bb4+ 3. h3",
            "the pawn on h2 cannot go to h3: White is in check from the bishop on b4, and this move does not stop that",
        ),
        (
            "1. e4 e6 2. d4 Bb4+ 3. Nc3 a6 4. Nd5",
            "the knight on c3 cannot go to d5: the bishop on b4 pins it to its king",
        ),
        (
            "1. e4 e5 2. O-O",
            "White cannot castle short: the bishop on f1 stands in the way",
        ),
        (
            "1. e4 e5 2. Ke2 Ke7 3. Ke1 Ke8 4. Nf3 Nf6 5. Be2 Be7 6. O-O",
            "White cannot castle short: the right to castle short is gone",
        ),
        (
            "1. e4 e5 2. Nf3 d6 3. Be2 Bg4 4. h3 Bxf3 5. Rg1 Bxe2 6. O-O-O",
            "White cannot castle long: the queen on d1 stands in the way",
        ),
        (
            "1. e4 e5 2. Qe1",
            "the queen on d1 cannot go to e1: a king of White stands there",
        ),
        (
            "1. e4 a6 2. e5 d5 3. h3 h6 4. exd6",
            "the pawn on e5 cannot go to d6: the pawn on d5 could be taken en passant by the very next move only",
        ),
        (
            "1. e4 e5 2. exd5",
            "the pawn on e4 cannot go to d5: a pawn does not move like that",
        ),
        (
            "1. e4 e5 2. d7d6",
            "it is White's turn, and the pawn on d7 is Black's",
        ),
        ("1. e4 e5 2. e2e3", "no piece stands on e2"),
        (
            "1. e4 e5 2. Ng1e3",
            "the knight on g1 cannot go to e3: a knight does not move like that",
        ),
        (
            "1. e4 e5 2. d4=Q",
            "no promotion is possible with this move: delete it",
        ),
        (
            "1. e4 e5 2. Nd4",
            "no knight of White can go to d4: look at the moves before",
        ),
        (
            "1. e4 e5 2. Bf1d4",
            "the bishop on f1 cannot go to d4: a bishop does not move like that",
        ),
        (
            "1. e4 e5 2. Ng1f3 Nc6 3. Bc4 Nf6 4. Kg1",
            "a king moves like that only in castling: write O-O",
        ),
        (
            "1. e4 e5 2. Nd1e3",
            "White has no such knight there: look at the moves before",
        ),
    ];
    let told = table.map(|(moves, _)| {
        let reading = game(format!("{moves} *"));
        let [fault] = reading.faults.as_slice() else {
            panic!("{moves}: {:?}", said(&reading));
        };
        assert_eq!(fault.token, moves.rsplit(' ').next().unwrap(), "{fault}");
        let told = fault.reason.to_string();
        let has_remedy = told.ends_with(" meant?") || told.ends_with(look);
        assert!(
            has_remedy || !matches!(fault.reason, Reason::Illegal(_)),
            "{told}"
        );
        (moves, told.trim_end_matches(look).to_owned())
    });
    assert_eq!(
        told,
        table.map(|(moves, reason)| (moves, reason.to_owned()))
    );
}

/// PGN standard, 8.2.3.3: a pawn's step names its square alone, a capture the file that it comes from. So
/// the one is never read as the other, although there is nothing else that could be meant.
#[test]
fn a_pawns_step_is_never_read_as_a_capture_nor_a_capture_as_a_step() {
    let plies = |text: &str| game(text).game.main_line().len();
    for (moves, read) in [
        ("1. e4 d5 2. exd5", 3),
        ("1. e4 d5 2. ed5", 3),
        ("1. e4 d5 2. e4xd5", 3),
        ("1. e4 d5 2. xd5", 3),
        ("1. e4 d5 2. d5", 2),
        ("1. e4 c5 2. d4 e6 3. d5", 5),
        ("1. e4 c5 2. d4 e6 3. xd5", 4),
        ("1. e4 c5 2. d4 e6 3. exd5", 4),
        ("1. e4 c5 2. d4 e6 3. ed5", 4),
    ] {
        assert_eq!(plies(&format!("{moves} *")), read, "{moves}");
    }
}

#[test]
fn a_game_of_chess960_without_its_start_is_never_told_by_the_usual_array() {
    let reading = game("[Variant \"Chess960\"]\n\n1. e4 e5 2. Nf3 *");
    assert_eq!(reading.faults[0].reason, Reason::Chess960WithoutFen);
    assert!(reading.is_whole() && reading.faults.len() == 1);
    let reading = game("[Variant \"Chess960\"]\n\n1. e4 e5 2. Ne3 *");
    let reasons: Vec<&Reason> = reading.faults.iter().map(|fault| &fault.reason).collect();
    assert_eq!(
        reasons,
        [&Reason::Chess960WithoutFen, &Reason::StartUnknown]
    );
    assert!(!reading.is_whole());
}

#[test]
fn a_fault_knows_its_game_move_and_token() {
    let readings = games("1. d4 *\n\n1. e4 e5 2. Nf3 Nc3 3. Bb5 *\n");
    let fault = &readings[1].faults[0];
    assert_eq!((fault.game, fault.ply, fault.token.as_str()), (2, 3, "Nc3"));
    assert_eq!(fault.number.unwrap().to_string(), "2...");
    assert_eq!(fault.place.to_string(), "3:17");
    assert_eq!(readings[1].skipped, 2, "number and move behind the fault");
}

#[test]
fn a_fault_in_a_sideline_cuts_that_sideline_only() {
    let reading = game("1. e4 e5 (1... c5 2. Nf3 Kxd6 3. d4 (3. c3 d5) cxd4) 2. Nf3 Nc6 *");
    assert_eq!(said(&reading).len(), 1);
    assert_eq!(reading.faults[0].cost, Cost::Sideline);
    assert!(reading.is_whole());
    assert_eq!(reading.game.main_line().len(), 4);
    assert_eq!(reading.game.ids().count(), 6);
}

#[test]
fn words_that_are_no_moves_are_faults() {
    for word in [
        "hello", "Nf", "e9", "i4", "exd", "x", "Qx9", "e4e5e6", "e8=X", "1-1", "[x]e4", "\"e4\"",
    ] {
        let reading = game(format!("1. d4 d5 2. {word} *"));
        assert!(!reading.is_clean(), "{word}");
    }
}

#[test]
fn signs_without_meaning_cost_no_moves() {
    assert_eq!(
        one_fault("1. e4 ⟳ e5 *", "1:7", Cost::Nothing, 2),
        Reason::Sign
    );
    assert_eq!(
        one_fault("1. e4 $256 e5 *", "1:7", Cost::Nothing, 2),
        Reason::Glyph
    );
    assert_eq!(
        one_fault("1. e4 $ e5 *", "1:7", Cost::Nothing, 2),
        Reason::Glyph
    );
    assert_eq!(
        one_fault("$1 1. e4 e5 *", "1:1", Cost::Nothing, 2),
        Reason::NothingToAnnotate
    );
    assert_eq!(
        one_fault("1. e4 e.p. e5 *", "1:7", Cost::Nothing, 2),
        Reason::EnPassantMark
    );
    assert_eq!(
        one_fault("1. e4 } e5 *", "1:7", Cost::Nothing, 2),
        Reason::StrayBrace
    );
    assert_eq!(
        one_fault("1. e4 [%clk 0:01:00] e5 *", "1:7", Cost::Nothing, 2),
        Reason::UnreadableTagPair
    );
}

#[test]
fn parentheses_that_do_not_match_are_said() {
    assert_eq!(
        one_fault("1. e4 e5) 2. d4 *", "1:9", Cost::Nothing, 3),
        Reason::StrayParenthesis
    );
    assert_eq!(
        one_fault("1. e4 e5 (1... c5 2. d4 *", "1:10", Cost::Moves, 2),
        Reason::OpenSideline
    );
    assert_eq!(
        one_fault("(1. d4) 1. e4 *", "1:1", Cost::Sideline, 1),
        Reason::NothingToReplace
    );
    assert_eq!(
        one_fault("1. e4 () e5 *", "1:8", Cost::Nothing, 2),
        Reason::EmptySideline
    );
    let reading = game("1. e4 ({only words}) e5 *");
    let first = reading.game.main_nodes().next().unwrap();
    assert_eq!(reading.game.node(first).comments, ["only words"]);
}

#[test]
fn a_null_move_is_for_sidelines_out_of_check() {
    assert_eq!(
        one_fault("1. e4 -- 2. d4 *", "1:7", Cost::Moves, 1),
        Reason::NullOnMainLine
    );
    let reading = game("1. e4 e5 (1... -- 2. d4 Z0 3. c4) 2. d4 *");
    assert!(reading.is_clean(), "{:?}", said(&reading));
    assert_eq!(reading.game.ids().count(), 7);
    let reading = game("1. e4 e5 2. Qh5 Ke7 3. Qxe5+ d6 (3... --) *");
    assert_eq!(
        reading.faults[0].cost,
        Cost::Moves,
        "d6 leaves the king in check"
    );
    let fen = "[FEN \"4k3/8/8/8/8/8/8/K3R3 b - - 0 1\"]\n\n1... Kd7 (1... --) *";
    assert_eq!(
        one_fault(fen, "3:16", Cost::Sideline, 1).to_string(),
        "a side in check cannot pass"
    );
}

#[test]
fn results_that_lack_or_abound_are_remarked() {
    assert_eq!(
        one_fault("1. e4 e5", "1:9", Cost::Nothing, 2),
        Reason::NoResult
    );
    assert_eq!(
        one_fault("1. e4 e5 1-0 0-1", "1:14", Cost::Nothing, 2),
        Reason::SecondResult
    );
    assert_eq!(
        one_fault("1. e4 e5 1-0 2. Nf3 Nc6", "1:17", Cost::Moves, 2),
        Reason::AfterResult
    );
    let reading = game("[Result \"0-1\"]\n\n1. e4 e5 1-0");
    assert_eq!(reading.game.result, Some(GameResult::WhiteWins));
    assert!(matches!(
        reading.faults[0].reason,
        Reason::ResultsDiffer { .. }
    ));
    let reading = game("1. e4 e5 (1... c5 1/2-1/2) 2. d4 1-0");
    assert!(reading.is_clean(), "a result may be quoted in a sideline");
}

#[test]
fn the_tag_section_is_read_with_its_flaws_said() {
    let text = "[Event \"The \"Big\" Open\"]\n[Site \"x]\n[Date \"2026.01.02\"\n[Round \"1\")\n[White]\n\
                [Black \"A\"]\n[Black \"B\"]\n[Cup-Name \"y\"]\n\n1. e4 *";
    let reading = game(text);
    assert_eq!(reading.game.main_line().len(), 1);
    let tags = &reading.game.tags;
    assert_eq!(tags.get("Event"), Some("The \"Big\" Open"));
    assert_eq!(tags.get("Site"), Some("x"));
    assert_eq!(tags.get("Date"), Some("2026.01.02"));
    assert_eq!(tags.get("Round"), Some("1"));
    assert_eq!(tags.get("Black"), Some("A"));
    let lines: Vec<usize> = reading
        .faults
        .iter()
        .map(|fault| fault.place.line)
        .collect();
    assert_eq!(lines, [1, 2, 3, 4, 5, 7, 8]);
    assert!(reading.is_whole());
}

#[test]
fn a_game_that_cannot_be_played_from_its_start_has_no_moves() {
    for (tags, place) in [
        ("[Event \"x\"]\n[Variant \"Atomic\"]", "2:1"),
        ("[SetUp \"1\"]", "1:1"),
        ("[FEN \"8/8/8/8/8/8/8/8 w - - 0 1\"]", "1:1"),
        ("[FEN \"nonsense\"]", "1:1"),
    ] {
        one_fault(&format!("{tags}\n\n1. e4 e5 1-0"), place, Cost::Moves, 0);
        let reading = game(format!("{tags}\n\n1. e4 e5 1-0"));
        assert_eq!(reading.game.result, Some(GameResult::WhiteWins));
    }
}

#[test]
fn an_unclosed_comment_spoils_its_own_game_only() {
    let text =
        "[Event \"A\"]\n\n1. e4 e5 {never closed 2. Nf3\n\n[Event \"B\"]\n\n1. d4 {fine} d5 *\n";
    let readings = games(text);
    assert_eq!(readings.len(), 2);
    assert_eq!(readings[0].faults.len(), 1);
    assert_eq!(readings[0].faults[0].place.to_string(), "3:10");
    assert_eq!(readings[0].faults[0].reason, Reason::OpenComment);
    assert_eq!(readings[0].game.main_line().len(), 2);
    assert!(readings[1].is_clean());
    assert_eq!(readings[1].game.main_line().len(), 2);
}

#[test]
fn move_numbers_that_disagree_are_said_once() {
    let reading = game("1. e4 e5 3. Nf3 Nc6 4. Bb5 *");
    assert_eq!(
        said(&reading),
        [
            "1:10: game 1, move 2. \"3.\": move number 3, but by the moves before it 2. is due: look for a move that is missing or too many"
        ]
    );
    assert_eq!(reading.game.main_line().len(), 5);
}

#[test]
fn a_fault_shows_no_control_characters_and_no_endless_token() {
    let reading = game(format!("1. e4 \u{1b}[2J\u{202e}{} *", "x".repeat(1000)));
    let text = reading.faults[0].to_string();
    assert!(
        text.chars().all(|c| !c.is_control() && c != '\u{202e}'),
        "{text:?}"
    );
    assert!(text.len() < 300, "{text}");
}

#[test]
fn no_more_than_a_hundred_remarks_are_listed() {
    let reading = game(format!("1. e4 {} e5 2. Kxh8 *", ")".repeat(100_000)));
    assert_eq!(reading.faults.len(), 102);
    assert_eq!(reading.faults[100].reason, Reason::More);
    assert_eq!(reading.faults[101].cost, Cost::Moves);
}

#[test]
fn a_sideline_lost_behind_a_hundred_remarks_is_still_told_as_a_loss() {
    let remarks = "[%clk 0:01:02]".repeat(150);
    let reading = game(format!("1. e4 {remarks} e5 (1... Kd4 2. d4 d5) 2. Nf3 *"));
    assert_eq!((reading.faults.len(), reading.skipped), (101, 3));
    let last = &reading.faults[100];
    assert_eq!((&last.reason, last.cost), (&Reason::More, Cost::Sideline));
    assert_eq!(reading.game.main_line().len(), 3);
    assert!(reading.is_whole());
}

#[test]
fn places_count_from_where_the_passage_begins() {
    let passage = Passage {
        number: 7,
        line: 40,
        column: 9,
        text: b"e4 e6\n Ke3".to_vec(),
        too_long: false,
        letters: None,
    };
    let reading = read(&passage);
    let nodes: Vec<String> = reading
        .game
        .main_nodes()
        .map(|id| reading.game.node(id).place.to_string())
        .collect();
    assert_eq!(nodes, ["40:9", "40:12"]);
    assert_eq!(reading.faults[0].place.to_string(), "41:2");
    assert_eq!(reading.faults[0].game, 7);
}

#[test]
fn a_bracket_that_takes_moves_with_it_ends_the_game_there() {
    for (text, plies, whole) in [
        ("1. e4 e5 [2. Nf3 Nc6\n3. Bb5 a6 *", 2, false),
        ("1. e4 e5 2. Nf3 [31mNc6 3. Bb5 *", 3, false),
        ("1. e4 e5 [%clk 1] 2. Nf3 Nc6 *", 4, true),
        ("1. e4 e5 [ [ \n2. Nf3 Nc6 *", 4, true),
        ("1. e4 e5 * [and so on", 2, true),
    ] {
        let reading = read(&crate::passages::only(text));
        assert_eq!(reading.game.main_line().len(), plies, "{text}");
        assert_eq!(reading.is_whole(), whole, "{text}");
    }
}

#[test]
fn what_contradicts_the_moves_is_told() {
    let told = |text: &str| said(&game(text)).join("\n");
    assert!(told("1. e4 e5 2. Nf3 3. d6 Bb5 *").contains("move number 3, but"));
    assert!(told("1. e4 e5 2. Nxf3 *").contains("this takes nothing"));
    assert!(told("1... e5 2. Nf3 *").contains("the game begins with Black's move"));
    assert!(
        told("1. e4 e5 2. Ke2 d6 3. Nf3 d5 4. O-O *")
            .contains("castling is meant, but White's king stands on e2")
    );
    assert!(told("1. P-K4 P-K4 *").contains("descriptive notation"));
    let fen = "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/1NBQKBNR w KQkq - 0 1";
    let reading = game(format!("[FEN \"{fen}\"]\n\n1. e4 e5 *"));
    assert!(reading.is_whole() && said(&reading)[0].contains("delete the Q"));
}

#[test]
fn what_people_leave_among_the_moves_is_understood_and_told() {
    let moves = super::uci(&game("1. e4 e5 2. Nf3 Nc6 3. Bc4 Nf6 4. O-O Bc5 1-0"));
    for text in [
        "1. e4, e5. 2. Nf3 Nc6 3. Bc4 Nf6 4. O - O Bc5 1:0",
        "1.e4e5 2.Nf3Nc6 3. Bc4 Nf6 4. OO Bc5 1 - 0",
        "1. E4 E5 2. NF3 NC6 3. BC4 NF6 4. O-O BC5 1-0 ff",
        "1. e4 e5 a fine reply 2. Nf3 Nc6 D 3. Bc4 (D) Nf6 4. О-О Bc5 Black resigns",
        "<p><b>1. e4</b>&nbsp;e5<br>2. Nf3 Nc6 3. Bc4 Nf6 <a href=\"x\">4. O-O</a> Bc5 1-0",
        "The first game\n\n1. e4 e5\nThis is the old move.\n2. Nf3 Nc6 3. Bc4 Nf6 4. O-O Bc5 1-0\0\0\0",
        "[Event \"A\"] [Site \"B\"] 1. e4 e5 2. Nf3 Nc6 3. Bc4 Nf6 4. O-O Bc5 1-0",
        "1. e4 e5 2. Nf3 Nc6 3. Bc4 Nf6 4. O-O Bc5 Black lost on time 1-0",
        "1. e4 e5 2. Nf3 and now Nc6 would be best 3. Bc4 Nf6 #D 4. O-O Bc5 1-0",
        "1. e4, the best move. 1... e5 is a good answer. 2. Nf3 Nc6 3. Bc4 Nf6 4. O-O Bc5 1-0",
    ] {
        let reading = game(text);
        assert!(reading.is_whole(), "{text}: {:?}", said(&reading));
        assert_eq!(super::uci(&reading), moves, "{text}");
        assert_eq!(reading.game.result, Some(GameResult::WhiteWins), "{text}");
    }
    for (text, result) in [
        ("1. e4 e5 draw", Some(GameResult::Draw)),
        ("1. e4 e5 Drawn.", Some(GameResult::Draw)),
        ("1. e4 e5 draw agreed", Some(GameResult::Draw)),
        ("1. e4 e5 a clear draw", None),
        ("1. e4 e5 draw offered", None),
    ] {
        let reading = game(text);
        assert_eq!(reading.game.result, result, "{text}");
        assert!(reading.is_whole() && !reading.is_clean(), "{text}");
    }
    let reading = game("1. e4 d5 2. ed Qxd5 3. Nc3 Qa5 ch 4. a3 *");
    assert!(reading.is_whole(), "{:?}", said(&reading));
    for text in ["1. e4 e5 White won on time", "1. e4 e5 on time 2. Nf3 *"] {
        assert_eq!(game(text).is_whole(), !text.contains("Nf3"), "{text}");
    }
}

#[test]
fn prose_between_games_is_no_game_and_a_repeated_tag_opens_one() {
    let text = "<html><body>\n<h1>Games of the club</h1>\n[White \"A\"]\n\n1. e4 1-0\n\nRound two\n\n[White \"B\"]\n[Black \"C\"]\n\n[Black \"D\"]\n\n1. d4 *\n\nThe end of it\n";
    let readings = games(text);
    let whites: Vec<_> = readings
        .iter()
        .map(|reading| reading.game.tags.get("White"))
        .collect();
    assert_eq!(whites, [Some("A"), Some("B"), None]);
    assert_eq!(readings[1].plies, 0);
}

#[test]
fn a_result_that_the_last_position_contradicts_is_told_at_its_place() {
    let mate = "1. f3 e5 2. g4 Qh4#";
    for (text, due) in [
        (format!("{mate} 1-0"), Some(GameResult::BlackWins)),
        (format!("{mate} 1/2-1/2"), Some(GameResult::BlackWins)),
        (format!("{mate} 0-1"), None),
        (format!("{mate} *"), None),
        ("1. f3 e5 2. g4 Qg5 1-0".to_owned(), None),
        (
            "[FEN \"7k/8/6K1/5Q2/8/8/8/8 w - - 0 1\"]\n\n1. Qf7 1-0".to_owned(),
            Some(GameResult::Draw),
        ),
    ] {
        let reading = game(text.clone());
        let told = reading.faults.iter().find_map(|fault| match fault.reason {
            Reason::ResultAgainstBoard { due, .. } => Some((due, fault.span.start)),
            _ => None,
        });
        let at = text.rfind(' ').unwrap() + 1;
        assert_eq!(told, due.map(|due| (due, at)), "{text}");
        assert!(reading.is_whole(), "{text}");
    }
}

#[test]
fn a_letter_that_looks_like_a_latin_one_is_read_where_it_is_certain_and_told_where_it_is_not() {
    for text in [
        "1. е4 d5 2. ехd5 Qxd5 3. Nс3 Qа5 *",
        "1. е4 е5 2. Кf3 Кс6 3. Сb5 а6 *",
    ] {
        let reading = game(text);
        assert!(
            reading.plies == 6 && reading.trust() == Trust::Mended,
            "{text}: {:?}",
            said(&reading)
        );
    }
    for (text, plies, letter) in [
        ("1. e4 e5 2. Nf3 Nc6 3. Вb5 a6 *", 4, 'В'),
        ("1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. Кe2 d6 *", 6, 'К'),
        ("1. e4 e5 2. Νf3 Nc6 *", 2, 'Ν'),
        ("1. e4 e5 2. Кf3 Кc6 3. Сb5 a6 4. Сa4 Kf6 *", 7, 'K'),
    ] {
        let reading = game(text);
        let told = reading.faults.iter().map(|fault| &fault.reason);
        assert!(
            told.clone()
                .any(|reason| *reason == Reason::LookAlike(letter)),
            "{text}: {:?}",
            said(&reading)
        );
        assert_eq!(reading.plies, plies, "{text}");
    }
}

#[test]
fn the_encoding_of_a_text_that_was_read_wrongly_is_told() {
    let text = "1. e4 e5 2. Кf3 Кc6 3. Сb5 Кf6 4. О-О *";
    for (encoding, name) in [
        (encoding_rs::WINDOWS_1251, "windows-1251"),
        (encoding_rs::KOI8_R, "koi8-r"),
    ] {
        let reading = game(encoding.encode(text).0.into_owned());
        assert!(
            said(&reading)
                .join("\n")
                .contains(&format!("--encoding {name}")),
            "{:?}",
            said(&reading)
        );
    }
    // Taken for Windows-1252 or ISO 8859-1, and written as UTF-8.
    for (encoding, name) in [
        (encoding_rs::UTF_8, "utf-8"),
        (encoding_rs::WINDOWS_1251, "windows-1251"),
    ] {
        let (bytes, _, _) = encoding.encode(text);
        let latin: String = bytes.iter().copied().map(char::from).collect();
        let windows = encoding_rs::WINDOWS_1252.decode(&bytes).0;
        for twice in [latin, windows.into_owned()] {
            let said = said(&game(twice)).join("\n");
            let remedy = format!("save it as windows-1252, and read that with --encoding {name}");
            assert!(said.contains(&remedy), "{said}");
        }
    }
}

#[test]
fn a_p_that_may_be_a_dutch_knight_is_not_guessed() {
    let doubtful = "1. Pf3 Pf6 *";
    let reading = game(doubtful);
    assert!(
        reading.doubtful && reading.plies == 0,
        "{:?}",
        said(&reading)
    );
    let dutch = sansvoir::pgn::Passage {
        letters: Some("PLTDK"),
        ..crate::passages::only(doubtful)
    };
    assert_eq!(super::uci(&read(&dutch)), "g1f3 g8f6");
    // Where other games speak for English, that is told too.
    let english = sansvoir::pgn::Passage {
        letters: Some("NBRQK"),
        ..crate::passages::only(doubtful)
    };
    let reading = read(&english);
    assert!(super::uci(&reading) == "f2f3 f7f6" && said(&reading)[0].contains("read as English"));
}

#[test]
fn a_game_of_pawns_speaks_for_no_language_and_one_with_pieces_for_its_own() {
    let text = "1. Pf3 Pf6 *\n\n1. a3 a6 2. b3 b6 3. c3 c6 4. d3 d6 *\n\n\
                1. Pf3 Pf6 2. Pc3 Pc6 3. e4 e5 4. Lb5 Lb4 *\n";
    let block = sansvoir::pgn::Collection::new(text.as_bytes()).block(Vec::new());
    let block = block.unwrap().unwrap();
    assert_eq!(block.games().len(), 3);
    assert_eq!(block.letters_beside(&block.games()[0]), Some("PLTDK"));
}

#[test]
fn a_sideline_in_other_letters_or_in_doubt_is_told_and_never_guessed() {
    for (text, plies) in [
        ("1. e4 e5 (1... Sf6) 2. Nf3 *", 3),
        ("1. e4 e5 2. Sf3 (2. Nc3 Nf6) Sc6 *", 4),
        ("1. e4 e5 (1... Pf6) *", 2),
    ] {
        let reading = game(text);
        assert_eq!(reading.plies, plies, "{text}");
        assert!(
            reading
                .faults
                .iter()
                .any(|fault| fault.cost > Cost::Nothing),
            "{text}"
        );
    }
}

#[test]
fn a_fault_in_a_game_of_another_language_cuts_no_more_than_in_an_english_one() {
    for (text, plies, language) in [
        (
            "1. e4 e5 2. Sf3 Sc6 3. Lb5 a6 4. La4 Sf6 5. O-O Le7 6. Te1 b5 7. Lb3 d6 8. Zz9 O-O *",
            14,
            "German",
        ),
        ("1. e4 e5 2. Cf3 Cc6 3. Fb5 a6 4. Fxb7 Cf6 *", 6, "French"),
        ("1. e4 e5 2. Кf3 Кc6 3. Сb5 a6 4. Сa4 Фxd5 *", 7, "Russian"),
        (
            "1. e4 e5 2. Sf3 Sc6 3. Lb5 a6 4. La4 Sf6 5. O-O Le7 6. T",
            10,
            "German",
        ),
        (
            "1. e4 e5 2. Sf3 Sc6 3. Lb5 a6 (3... Sd5 4. O-O) 4. La4 Sf6 *",
            8,
            "German",
        ),
        ("1. e4 e5 2. Pf3 Pc6 3. Lb5 a6 4. Pd9 *", 6, "Dutch"),
    ] {
        let reading = game(text);
        let found = reading
            .letters
            .as_ref()
            .map(|letters| letters.languages.clone());
        assert!(
            found.is_some_and(|found| found.contains(&language)),
            "{text}"
        );
        assert_eq!(reading.plies, plies, "{text}");
        let costly = reading
            .faults
            .iter()
            .find(|fault| fault.cost > Cost::Nothing);
        assert!(
            !["Sf3", "Cf3", "Кf3", "Lb5"].contains(&&*costly.unwrap().token),
            "{text}"
        );
    }
    // Two readings reach equally far, or one letter may be a slip: English, unless P stands there or the file tells.
    let pawns = game("1. e4 e5 2. Pf3 Zz9 *");
    assert!(pawns.doubtful && pawns.plies == 2, "{:?}", said(&pawns));
    let slip = "1. e4 e5 2. Hf3 d6 3. d4 exd4 4. Nxd4 *";
    let reading = game(slip);
    assert!(reading.doubtful && reading.plies == 2 && reading.letters.is_none());
    assert!(said(&reading)[0].contains("English as well as Hungarian"));
    let hungarian = sansvoir::pgn::Passage {
        letters: Some("HFBVK"),
        ..crate::passages::only(slip)
    };
    assert_eq!(read(&hungarian).plies, 6);
}

/// R is the knight in Icelandic, and b the bishop there too.
#[test]
fn a_short_game_that_other_languages_fit_is_english_in_export_format_alone() {
    let short = "1. a4 e5 2. Ra3 Bxa3 *";
    let reading = game(short);
    assert!(reading.doubtful && super::uci(&reading).ends_with("a1a3 f8a3"));
    assert!(
        said(&reading)[0].contains("Icelandic")
            && said(&reading)[0].contains("are read as English")
    );
    let exported = sansvoir::pgn::export(&reading.game);
    assert!(game(exported.clone()).is_clean(), "{exported}");
    // Where other games speak for another language, it is taken even so, and that is told.
    let icelandic = sansvoir::pgn::Passage {
        letters: Some("RBHDK"),
        ..crate::passages::only(exported)
    };
    let reading = read(&icelandic);
    assert!(super::uci(&reading).ends_with("b1a3 f8a3") && !reading.is_clean());
}
