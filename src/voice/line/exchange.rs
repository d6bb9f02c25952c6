//! A line of captures with its running count, in words.

use crate::exercise::Stand;
use crate::question::{Exchange, ExchangeWhy, Taking, Truth};
use crate::voice::naming::{count, piece_named, role, side};
use crate::voice::words::LineWords;

use super::balance::VALUES;

impl LineWords for Exchange {
    fn ask(self, stand: &Stand) -> String {
        let turn = side(stand.turn);
        format!(
            "{turn} to move: how many points does {turn} win by taking on {}, if both sides then take \
             there for as long as it pays? {VALUES}",
            self.square
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
        let mut said: Vec<String> = why.takings.iter().map(taking).collect();
        let next = side(why.next);
        said.push(match why.holds_back {
            Some(declined) => format!(
                "{next} stops there: taking with the {} on {} would {}.",
                role(declined.piece.role),
                declined.from,
                match declined.points {
                    ..0 => format!("lose {}", amount(declined.points)),
                    0.. => "win nothing".to_owned(),
                }
            ),
            None => format!("{next} has no legal capture there then."),
        });
        said
    }
}

fn taking(taking: &Taking) -> String {
    let promotion = taking
        .promotion
        .map_or_else(String::new, |kind| format!(" and becomes a {}", role(kind)));
    format!(
        "{} from {} takes {}{promotion}: {}.",
        piece_named(taking.piece),
        taking.from,
        piece_named(taking.taken),
        so_far(taking.count)
    )
}

fn so_far(points: i32) -> String {
    match points {
        0 => "even so far".to_owned(),
        1.. => format!("{} won so far", amount(points)),
        ..0 => format!("{} lost so far", amount(points)),
    }
}

fn amount(points: i32) -> String {
    count(points.unsigned_abs() as usize, "point", "points")
}
