//! Each side's pieces and their points, and a line of captures with its running count, in words.

use shakmaty::{ByColor, ByRole, Color};

use crate::exercise::Stand;
use crate::game::Ply;
use crate::question::{Balance, CapturedPieces, Exchange, ExchangeWhy, Truth, points};
use crate::voice::naming::{count, piece_named, pieces_counted, role, side};
use crate::voice::words::LineWords;

/// What the pieces are worth, for questions that count points.
const VALUES: &str = "A pawn counts 1, a knight or bishop 3, a rook 5, a queen 9.";

/// Counts points, won or lost.
fn amount(points: i32) -> String {
    count(points.unsigned_abs(), "point", "points")
}

impl LineWords for Balance {
    fn ask(self, _: &Stand) -> String {
        format!("What is White's material minus Black's, in points? {VALUES}")
    }

    fn tell(self, truth: &Truth) -> String {
        let points = truth.points();
        let amount = amount(points);
        match points {
            0 => "Material is even: 0 points.".to_owned(),
            1.. => format!("White is {amount} ahead."),
            ..0 => format!("Black is {amount} ahead, so the answer is {points}."),
        }
    }

    fn explain(pieces: &ByColor<ByRole<u8>>) -> Vec<String> {
        let told = |color| {
            let (side, pieces) = (side(color), pieces.get(color));
            let counted = CapturedPieces::ORDER.map(|role| (role, usize::from(*pieces.get(role))));
            let (points, pieces) = (points(pieces), pieces_counted(counted));
            match points {
                0 => format!("{side} has only the king: 0 points."),
                _ => format!("Without the king, {side} has {pieces}: {}.", amount(points)),
            }
        };
        Color::ALL.into_iter().map(told).collect()
    }
}

impl LineWords for Exchange {
    fn ask(self, stand: &Stand) -> String {
        let (turn, square) = (side(stand.turn), self.square);
        format!(
            "{turn} to move: how many points does {turn} win by taking on {square}, if both sides then \
             take there for as long as it pays? {VALUES}"
        )
    }

    fn tell(self, truth: &Truth) -> String {
        let (square, points) = (self.square, truth.points());
        match points {
            0 => format!("Taking on {square} wins nothing and loses nothing."),
            1.. => format!("Taking on {square} wins {}.", amount(points)),
            ..0 => format!("Taking on {square} loses {}.", amount(points)),
        }
    }

    fn explain(why: &ExchangeWhy) -> Vec<String> {
        let next = side(why.next);
        let end = match why.holds_back {
            Some((ply, points)) => {
                let (name, from) = (role(ply.mv.role()), ply.from());
                let outcome = match points {
                    ..0 => format!("lose {}", amount(points)),
                    0.. => "win nothing".to_owned(),
                };
                format!("{next} stops there: taking with the {name} on {from} would {outcome}.")
            }
            None => format!("{next} has no legal capture there then."),
        };
        why.takings.iter().map(taking).chain([end]).collect()
    }
}

fn taking((ply, count): &(Ply, i32)) -> String {
    let (piece, from) = (piece_named(ply.piece()), ply.from());
    let taken = ply.taken().map(|(_, piece)| piece_named(piece));
    let taken = taken.unwrap_or_default();
    let promotion = ply.mv.promotion();
    let promotion =
        promotion.map_or_else(String::new, |kind| format!(" and becomes a {}", role(kind)));
    let so_far = match *count {
        0 => "even".to_owned(),
        count @ 1.. => format!("{} won", amount(count)),
        count @ ..0 => format!("{} lost", amount(count)),
    };
    format!("{piece} from {from} takes {taken}{promotion}: {so_far} so far.")
}
