use sansvoir::pgn::Reason;

use super::{game, is_understood, said};

#[test]
fn comments_glyphs_and_sidelines_hang_where_they_stand() {
    let reading = game(
        "{before} ; the game\n[Event \"x\"]\n% not read ( { [\n{preface}\n1. e4 $2 {first} {second}\n\n\
         (1. d4! {queen} d5 ({why} 1... Nf6 $10 2. c4) 2. c4) ({so} 1. c4) e5 ; to the end ( {\n2. Nf3 {last} * {gone}\n",
    );
    assert!(reading.is_clean(), "{:?}", said(&reading));
    let game = &reading.game;
    assert_eq!(game.preface, ["before", "the game", "preface"]);
    let main: Vec<_> = game.main_nodes().map(|id| game.node(id)).collect();
    assert_eq!(main.len(), 3);
    assert_eq!(main[0].nags, [2]);
    assert_eq!(main[0].comments, ["first", "second"]);
    assert_eq!(main[0].sidelines().len(), 2);
    assert_eq!(main[1].comments, ["to the end ( {"]);
    assert_eq!(main[2].comments, ["last", "gone"]);
    let queen: Vec<_> = game
        .nodes_from(main[0].sidelines()[0])
        .map(|id| game.node(id))
        .collect();
    assert_eq!(queen.len(), 3);
    assert_eq!(
        (queen[0].nags.as_slice(), queen[0].comments.as_slice()),
        ([1].as_slice(), ["queen".to_owned()].as_slice())
    );
    let inner = game.node(queen[1].sidelines()[0]);
    assert_eq!(
        (inner.preface.as_slice(), inner.nags.as_slice()),
        (["why".to_owned()].as_slice(), [10].as_slice())
    );
    assert_eq!(game.node(main[0].sidelines()[1]).preface, ["so"]);
    assert_eq!(game.sideline_count(), 3);
}

#[test]
fn fields_that_are_not_utf8_are_read_one_by_one() {
    let reading = game(
        b"[White \"M\xfcller\"]\n[Black \"Ren\xc3\xa9e\"]\n\n1. e4 {gr\xfc\xdfe} e5 {\xc3\xa9} *"
            .to_vec(),
    );
    assert!(reading.is_clean());
    assert_eq!(reading.game.tags.get("White"), Some("Müller"));
    assert_eq!(reading.game.tags.get("Black"), Some("Renée"));
    let comments: Vec<_> = reading
        .game
        .main_nodes()
        .flat_map(|id| reading.game.node(id).comments.clone())
        .collect();
    assert_eq!(comments, ["grüße", "é"]);
}

#[test]
fn letters_for_novelty_and_diagram_stand_alone_only_and_are_told() {
    let reading = game("1. e4 N e5 2. Nf3 D Nc6 N {new} *");
    assert_eq!(
        reading.game.main_line().len(),
        1,
        "N e5 may be a knight's move"
    );
    let reading = game("1. e4 N 1... e5 2. Nf3 D Nc6 N 3. d4 *");
    assert!(is_understood(&reading), "{:?}", said(&reading));
    assert_eq!(reading.faults[0].reason, Reason::Respelled(3));
    let reading = game("1. e4 {a} N {b} e5 2. Nf3 D (2. d4) Nc6 *");
    assert!(is_understood(&reading), "{:?}", said(&reading));
    let nags: Vec<_> = reading
        .game
        .main_nodes()
        .map(|id| reading.game.node(id).nags.clone())
        .collect();
    assert_eq!(nags, [vec![146], vec![], vec![220], vec![]]);
}

#[test]
fn games_without_moves_or_tags_are_games() {
    let reading = game("[Event \"x\"]\n[Result \"1-0\"]\n\n1-0\n");
    assert!(reading.is_clean());
    assert_eq!(reading.game.ids().count(), 0);
    assert!(game("e4 *").is_clean());
    assert!(game("*").is_clean());
}

#[test]
fn every_move_knows_its_place_in_the_file() {
    let reading = game("[Event \"x\"]\r\n\r\n1. e4 e5\r\n2.Nf3 ( 2. f4 ) Nc6 *");
    let places: Vec<String> = reading
        .game
        .main_nodes()
        .map(|id| reading.game.node(id).place.to_string())
        .collect();
    assert_eq!(places, ["3:4", "3:7", "4:1", "4:17"]);
}
