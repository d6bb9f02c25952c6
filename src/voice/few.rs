//! What is said around a drill of few pieces: its beginning, and the rights to castle of a position.

use shakmaty::{CastlingSide, Color, Position};

use crate::exercise::FewOpening;
use crate::game::Start;

use super::naming::{count, side};

/// Says how many questions come and what Enter does.
pub(super) fn opening(opening: &FewOpening) -> Vec<String> {
    let mut said = Vec::new();
    if let Some(answered) = opening.resumed {
        said.push(format!(
            "The drill goes on where it stopped: {} of {} answered.",
            answered,
            count(opening.questions, "question", "questions")
        ));
    } else {
        said.push(what_comes(opening));
    }
    said.push(if opening.plies > 0 {
        "The board stays hidden. Enter reads on; help says what else can be said.".to_owned()
    } else {
        "The board stays hidden; help says what can be said beside a reply.".to_owned()
    });
    said
}

/// Says what is read, what is played on and how many questions come.
pub(super) fn what_comes(opening: &FewOpening) -> String {
    format!(
        "A few pieces will be read out, then {} asked, round by round: {} in all.",
        match opening.plies {
            0 => "questions are".to_owned(),
            plies => format!(
                "up to {} played on, then questions are",
                count(plies, "ply is", "plies are")
            ),
        },
        count(opening.questions, "question", "questions")
    )
}

/// Pieces out of a game may still castle.
pub(super) fn castling(start: &Start, color: Color) -> Option<String> {
    let castles = start.position().castles();
    let wings: Vec<&str> = [
        (CastlingSide::KingSide, "short"),
        (CastlingSide::QueenSide, "long"),
    ]
    .into_iter()
    .filter(|(wing, _)| castles.has(color, *wing))
    .map(|(_, name)| name)
    .collect();
    let rules = if start.mode().is_chess960() {
        " by the rules of Chess960"
    } else {
        ""
    };
    (!wings.is_empty()).then(|| {
        format!(
            "{} still has the right to castle {}{rules}.",
            side(color),
            wings.join(" and ")
        )
    })
}

#[cfg(test)]
mod tests {
    use shakmaty::CastlingMode;

    use super::super::ahead::shown;
    use super::super::{Announce, List, Voice};
    use super::*;
    use crate::exercise::{GivenPosition, Show};

    fn told(fen: &str, mode: CastlingMode, plies: usize) -> Vec<String> {
        let voice = Voice {
            announce: Announce::Words,
            view: Color::White,
            plain: false,
            list: List::Piece,
        };
        let given = GivenPosition {
            round: 2,
            of: None,
            game: None,
            show: Show::List,
            start: Start::from_fen(fen, mode).unwrap(),
            heard_before: 0,
            plies,
        };
        shown(voice, &given)
    }

    #[test]
    fn a_round_reads_the_pieces_the_side_to_move_and_how_much_follows() {
        let fen = "8/8/1KP5/3r4/8/8/8/k7 b - - 0 1";
        assert_eq!(
            told(fen, CastlingMode::Standard, 4),
            [
                "Round 2: 4 pieces.",
                "White: king b6, pawn c6.",
                "Black: king a1, rook d5.",
                "Black to move; 4 plies to follow.",
            ]
        );
        assert_eq!(told(fen, CastlingMode::Standard, 0)[3], "Black to move.");
    }

    #[test]
    fn rights_to_castle_are_told_where_there_are_any() {
        let fen = "4k3/8/8/8/8/8/8/R3K2R w KQ - 0 40";
        assert_eq!(
            told(fen, CastlingMode::Standard, 1)[3..],
            [
                "White still has the right to castle short and long.",
                "White to move; 1 ply to follow.",
            ]
        );
        let fen = "1rk5/8/8/8/8/8/8/4K3 w b - 0 40";
        assert_eq!(
            told(fen, CastlingMode::Chess960, 1)[3],
            "Black still has the right to castle long by the rules of Chess960."
        );
    }

    #[test]
    fn the_opening_says_what_comes_and_where_an_earlier_drill_goes_on() {
        let begin = |plies, resumed| {
            opening(&FewOpening {
                questions: 10,
                resumed,
                plies,
            })
            .remove(0)
        };
        assert_eq!(
            begin(4, None),
            "A few pieces will be read out, then up to 4 plies are played on, then questions are \
             asked, round by round: 10 questions in all."
        );
        assert_eq!(
            begin(0, None),
            "A few pieces will be read out, then questions are asked, round by round: 10 questions in \
             all."
        );
        assert_eq!(
            begin(4, Some(3)),
            "The drill goes on where it stopped: 3 of 10 questions answered."
        );
    }
}
