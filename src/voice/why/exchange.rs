//! A line of captures with its running count, in words.

use crate::question::{ExchangeWhy, Taking};
use crate::voice::naming::{count, man, role, side};

pub(super) fn exchange(why: &ExchangeWhy) -> Vec<String> {
    let mut said: Vec<String> = why.takings.iter().map(taking).collect();
    let next = side(why.next);
    said.push(match why.holds_back {
        Some((square, piece)) => format!(
            "{next} stops there: taking with the {} on {square} would win nothing.",
            role(piece.role)
        ),
        None => format!("{next} has no legal capture there then."),
    });
    said
}

fn taking(taking: &Taking) -> String {
    let promotion = taking
        .promotion
        .map_or_else(String::new, |kind| format!(" and becomes a {}", role(kind)));
    format!(
        "{} from {} takes {}{promotion}: {}.",
        man(taking.piece),
        taking.from,
        man(taking.taken),
        so_far(taking.count)
    )
}

fn so_far(points: i32) -> String {
    let amount = count(points.unsigned_abs() as usize, "point", "points");
    match points {
        0 => "even so far".to_owned(),
        1.. => format!("{amount} won so far"),
        ..0 => format!("{amount} lost so far"),
    }
}
