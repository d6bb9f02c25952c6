//! Replies as one says them mean what they mean in writing: in the position, and in the form of the
//! question.

use sansvoir::question::Form;
use sansvoir::rules::Language;
use sansvoir::voice::{Announce, pieces};
use shakmaty::fen::Fen;
use shakmaty::{CastlingMode, Chess, Position};

fn position(fen: &str) -> Chess {
    let fen: Fen = fen.parse().unwrap();
    fen.into_position(CastlingMode::Standard).unwrap()
}

/// White can castle both ways, take, promote and take en passant.
const RICH: &str = "1n2k3/P4ppp/8/2bpP3/8/2N2N2/PP3PPP/R3K2R w KQ d6 0 20";

#[test]
fn moves_by_mouth_are_the_moves_in_writing() {
    let table = [
        ("knight d4", "Nd4"),
        ("knight to d4", "Nd4"),
        ("Springer David vier", "Nd4"),
        ("knight takes d5", "Nxd5"),
        ("knight takes on d5", "Nxd5"),
        ("castles short", "O-O"),
        ("castles long", "O-O-O"),
        ("Kurze Rochade", "O-O"),
        ("Lange Rochade", "O-O-O"),
        ("castles king side", "O-O"),
        ("pawn a8 queen", "a8=Q"),
        ("a8 knight", "a8=N"),
        ("pawn to a8, becomes a rook", "a8=R"),
        ("pawn takes b8 bishop", "axb8=B"),
        ("a takes b8 queen", "axb8=Q"),
        ("Bauer Anna acht Dame", "a8=Q"),
        ("e takes d6 en passant", "exd6"),
        ("pawn from e5 takes on d6, en passant", "exd6"),
        ("bella drei", "b3"),
        ("b three", "b3"),
        ("pawn b3", "b3"),
        ("h2 to h4", "h4"),
        ("h2 h4", "h4"),
        ("rook a one d one", "Rd1"),
        ("rook from h1 to f1", "Rhf1"),
        ("king e2", "Ke2"),
        ("Koenig Eva zwei", "Ke2"),
        ("Turm Hector eins Gustav eins", "Rg1"),
        ("knight f3 d4", "Nd4"),
        ("N d4", "Nd4"),
        ("Knight D4!", "Nd4"),
    ];
    let position = position(RICH);
    let read = |text: &str| Form::Move.read_in(text, &position);
    for (said, written) in table {
        let wanted = read(written).unwrap_or_else(|error| panic!("{written}: {error:?}"));
        assert_eq!(read(said).as_ref(), Ok(&wanted), "{said}");
    }
    for said in [
        "knight",
        "knight e4 please",
        "castles",
        "bella",
        "king takes",
    ] {
        assert!(read(said).is_err(), "{said}");
    }
    assert_eq!(read("queen d4"), read("Qd4"), "an illegal move is one too");
    assert!(read("queen d4").is_ok());
}

#[test]
fn several_moves_by_mouth_are_told_apart() {
    let position = position(RICH);
    let read = |text: &str| Form::Moves.read_in(text, &position);
    for said in [
        "knight d4, pawn a8 queen, castles short",
        "knight d4 and a8 queen and Kurze Rochade",
        "Springer David vier, Anna acht Dame, castles short",
    ] {
        assert_eq!(read(said), read("Nd4 a8=Q O-O"), "{said}");
    }
    assert_eq!(read("h3 g3"), read("h3, g3"), "two pawns");
}

/// What is heard can be said back: every legal move of some positions, in the words that announce it.
#[test]
fn every_announced_move_can_be_said_back() {
    use sansvoir::game::{Line, Start};
    for fen in [
        RICH,
        "r3k2r/p1ppqpb1/bn2pnp1/3PN3/1p2P3/2N2Q1p/PPPBBPPP/R3K2R w KQkq - 0 1",
        "r2q1rk1/pP1p2pp/Q4n2/bbp1p3/Np6/1B3NBn/pPPP1PPP/R3K2R b KQ - 0 1",
        "8/8/8/7k/8/1R6/8/KR3QQ1 w - - 0 1",
    ] {
        let position = position(fen);
        for mv in position.legal_moves() {
            let start = Start::from_fen(fen, CastlingMode::Standard).unwrap();
            let mut line = Line::new(start);
            line.push(mv).unwrap();
            for style in [Announce::Words, Announce::Spelled] {
                let said = style.ply(&line.plies()[0]);
                let said = said.split_once(": ").unwrap().1;
                let read = Form::Move.read_in(said, &position);
                let uci = mv.to_uci(CastlingMode::Standard).to_string();
                let wanted = Form::Move.read_in(&uci, &position);
                assert!(wanted.is_ok(), "{uci}");
                assert_eq!(read, wanted, "{said}");
            }
        }
    }
}

#[test]
fn a_board_that_was_told_can_be_told_back() {
    let board = position(RICH).board().clone();
    let told = pieces(&board).join(" ");
    let wanted = Form::Placement.read(&board.to_string());
    assert!(wanted.is_ok());
    assert_eq!(Form::Placement.read(&told), wanted);
}

#[test]
fn all_other_forms_are_understood_by_mouth_too() {
    let table = [
        (Form::SquareOrGone, "Bella vier", "b4"),
        (Form::SquareOrGone, "the knight on f three", "f3"),
        (Form::Squares, "Anna eins, Hector acht and c 3", "a1 h8 c3"),
        (Form::Route, "b three, d four, e six", "b3 d4 e6"),
        (Form::Piece, "Springer", "knight"),
        (Form::Piece, "black Laeufer", "black bishop"),
        (Form::Taken, "Dame, zwei Bauern", "QPP"),
        (Form::Wings, "castles short", "short"),
        (Form::Wings, "king side and queen side", "both"),
        (Form::Wings, "Lange Rochade", "long"),
        (Form::Points, "minus two", "-2"),
        (Form::Place, "six three", "6 3"),
        (Form::Distance, "sechs", "6"),
    ];
    for (form, said, written) in table {
        assert_eq!(form.read(said), form.read(written), "{said}");
        assert!(form.read(written).is_ok(), "{written}");
    }
}

#[test]
fn letters_of_a_language_mean_its_own_pieces() {
    let position = position(RICH);
    let table = [
        ("german", Form::Move, "Sd4", "Nd4"),
        ("german", Form::Move, "a8D", "a8=Q"),
        ("french", Form::Move, "Re2", "Ke2"),
        ("spanish", Form::Move, "Cxd5", "Nxd5"),
        ("german", Form::Move, "0-0", "O-O"),
        ("german", Form::Move, "knight d4", "Nd4"),
        ("german", Form::Piece, "s", "n"),
        ("french", Form::Taken, "CPP", "NPP"),
        ("german", Form::Placement, "Kg1 Dd1 / Ke8", "Kg1 Qd1 / Ke8"),
    ];
    for (language, form, said, written) in table {
        let language: Language = language.parse().unwrap();
        let english = form.in_english(said, language);
        let read = |text: &str| form.read_in(text, &position);
        assert_eq!(read(&english), read(written), "{said}");
        assert!(read(written).is_ok(), "{written}");
    }
    let german: Language = "german".parse().unwrap();
    assert_eq!(
        Form::Color.in_english("D", german),
        "D",
        "dark, and no queen"
    );
}
