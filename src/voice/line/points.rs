//! Each side's pieces and their points, and a line of captures with its running count, in words.

use shakmaty::Color;

use crate::exercise::Stand;
use crate::game::Ply;
use crate::question::{
    Balance, BalanceWhy, CapturedPieces, Exchange, ExchangeWhy, Truth, points, worth,
};
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

    /// Tells what each side has more than the other, which is all that the number is made of.
    fn explain(BalanceWhy { pieces, said }: &BalanceWhy) -> Vec<String> {
        let truth = points(&pieces.white) - points(&pieces.black);
        let off = said.map_or(0, |said| said - truth);
        let too_many = match off {
            0 => None,
            _ if *said == Some(-truth) => {
                let right = "You have the number, but the wrong way round: White's points come first, \
                             and Black's are taken off.";
                return vec![right.to_owned()];
            }
            _ => {
                let (off, side) = (amount(off), side(Color::from_white(off > 0)));
                Some(format!("You are {off} off, in {side}'s favor."))
            }
        };
        let more = |color: Color| {
            let [own, other] = [color, !color].map(|color| pieces.get(color));
            let more = |role| usize::from(own.get(role).saturating_sub(*other.get(role)));
            let counted = CapturedPieces::ORDER.map(|role| (role, more(role)));
            let points: i32 = { counted.iter() }
                .map(|(role, more)| worth(*role) * i32::try_from(*more).unwrap_or(0))
                .sum();
            let (side, counted) = (side(color), pieces_counted(counted));
            (points > 0).then(|| format!("{side} has {counted} more: {}.", amount(points)))
        };
        let mut more: Vec<String> = Color::ALL.into_iter().filter_map(more).collect();
        if more.is_empty() {
            more.push("Both sides have the same pieces.".to_owned());
        }
        too_many.into_iter().chain(more).collect()
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
            None => format!("{next} cannot take back."),
        };
        let last = why.takings.last().map_or(0, |(_, count)| *count);
        let stopped = { why.takings.iter() }.any(|(_, count)| why.said == Some(*count));
        let slip = match why.said {
            Some(said) if said == -last && last != 0 => {
                let sign = match last {
                    ..0 => "You have the number, but it is a loss, which takes a minus.",
                    0.. => "You have the number, but it is a gain, which takes no minus.",
                };
                return vec![sign.to_owned()];
            }
            Some(said) if stopped && said != last => {
                Some(format!("You stopped at {said}, and they go on taking."))
            }
            Some(said) if said != last => {
                let off = amount(said - last);
                let way = if said > last { "many" } else { "few" };
                Some(format!("You counted {off} too {way}."))
            }
            _ => None,
        };
        let takings = why.takings.iter().map(taking);
        slip.into_iter().chain(takings).chain([end]).collect()
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
