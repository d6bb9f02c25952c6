//! When the rights to castle were lost, in words.

use shakmaty::{CastlingSide, Color};

use crate::exercise::Stand;
use crate::question::{Rights, RightsWhy, Since, Truth};
use crate::voice::naming::{list, move_of, side, wing};
use crate::voice::words::LineWords;

use super::blame::loss;

impl LineWords for Rights {
    fn ask(self, _: &Stand) -> String {
        format!(
            "On which wings may {} still castle some day? Name short, long, both or none.",
            side(self.color)
        )
    }

    fn tell(self, truth: &Truth) -> String {
        let wings: Vec<&str> = truth.wings().names().collect();
        if wings.is_empty() {
            return format!("{} has no right to castle any more.", side(self.color));
        }
        format!("{} may still castle {}.", side(self.color), list(wings))
    }

    fn explain(why: &RightsWhy) -> Vec<String> {
        why.wings
            .iter()
            .map(|(wing, since)| told(why.color, *wing, since))
            .collect()
    }
}

fn told(color: Color, on: CastlingSide, since: &Since) -> String {
    let right = format!("{}'s right to castle {}", side(color), wing(on));
    match since {
        Since::RightLost(ply) => format!(
            "{right} was lost with {}, when {}.",
            move_of(ply.number),
            loss(color, ply)
        ),
        Since::NeverHadRight => format!("{right} was not there at the start of the line."),
        Since::NoMatter | Since::DoubleStep(_) => {
            format!("{right} is still there: neither the king nor that rook has moved.")
        }
    }
}
