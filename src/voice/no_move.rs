//! Why a reply is no move of the position, in words.

use shakmaty::CastlingSide;

use crate::rules::MoveFault;

use super::naming::{self, role, side};

/// Says why a text is no move of the position, or which two moves it could be.
pub(super) fn no_move(word: &str, fault: &MoveFault) -> String {
    match fault {
        MoveFault::Unreadable | MoveFault::Pass => format!("{word} is no move."),
        MoveFault::NoSuchPiece { color, role: kind } => {
            format!(
                "{word} is no move there: {} has no such {}.",
                side(*color),
                role(*kind)
            )
        }
        MoveFault::CannotGo {
            color,
            role: kind,
            to,
        } => format!(
            "{word} is no legal move: no {} of {} can go to {to}.",
            role(*kind),
            side(*color)
        ),
        MoveFault::Ambiguous { one, other } => format!(
            "{word} can be the move from {one} or the one from {other}: name that square too."
        ),
        MoveFault::NoPromotion { to } => {
            format!("{word} does not say what the pawn becomes on {to}: add a letter, as in {to}Q.")
        }
        MoveFault::NeedlessPromotion => {
            format!("{word} is no legal move: no pawn promotes with it.")
        }
        MoveFault::OnlyCastling { wing } => {
            let castling = match wing {
                CastlingSide::KingSide => "O-O",
                CastlingSide::QueenSide => "O-O-O",
            };
            format!("{word} can only be castling there: say {castling}.")
        }
        MoveFault::CannotCastle { color, wing } => format!(
            "{word} is no legal move: {} cannot castle {} there.",
            side(*color),
            naming::wing(*wing)
        ),
    }
}

#[cfg(test)]
mod tests {
    use shakmaty::{Color, Role, Square};

    use super::*;

    #[test]
    fn a_move_that_is_none_is_said_with_its_reason() {
        let (color, to) = (Color::White, Square::D2);
        let table = [
            (MoveFault::Unreadable, "\"z9\" is no move."),
            (
                MoveFault::NoSuchPiece {
                    color,
                    role: Role::Queen,
                },
                "\"z9\" is no move there: White has no such queen.",
            ),
            (
                MoveFault::CannotGo {
                    color,
                    role: Role::Knight,
                    to,
                },
                "\"z9\" is no legal move: no knight of White can go to d2.",
            ),
            (
                MoveFault::Ambiguous {
                    one: Square::B1,
                    other: Square::F3,
                },
                "\"z9\" can be the move from b1 or the one from f3: name that square too.",
            ),
            (
                MoveFault::NoPromotion { to: Square::D8 },
                "\"z9\" does not say what the pawn becomes on d8: add a letter, as in d8Q.",
            ),
            (
                MoveFault::NeedlessPromotion,
                "\"z9\" is no legal move: no pawn promotes with it.",
            ),
            (
                MoveFault::CannotCastle {
                    color,
                    wing: CastlingSide::QueenSide,
                },
                "\"z9\" is no legal move: White cannot castle long there.",
            ),
            (
                MoveFault::OnlyCastling {
                    wing: CastlingSide::KingSide,
                },
                "\"z9\" can only be castling there: say O-O.",
            ),
        ];
        for (reason, said) in table {
            assert_eq!(no_move("\"z9\"", &reason), said);
        }
    }
}
