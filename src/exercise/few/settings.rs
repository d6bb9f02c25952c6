//! How a drill of few pieces is to go.

use serde::{Deserialize, Serialize};

use super::super::bound::{Count, FewPieces, FewPlies, Looks, Millis, Questions, Trail};
use super::super::script::{Script, ScriptError};
use super::position::PIECES;
use crate::question::Kind;

/// How a drill of few pieces is to go. The journal keeps it, so that another process can go on.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct FewSettings {
    /// How many pieces stand on the board, the kings counted; with lines from a game, how many at most.
    #[serde(deserialize_with = "FewPieces::number")]
    pub pieces: usize,
    /// How many plies are played on before the questions come; 0 for none.
    #[serde(deserialize_with = "FewPlies::number")]
    pub plies: usize,
    /// How many questions are asked in all; 0 counts as 1.
    #[serde(deserialize_with = "Count::number")]
    pub count: usize,
    /// How many questions each round has at most; 0 counts as 1.
    #[serde(deserialize_with = "Questions::number")]
    pub per_round: usize,
    /// The kinds of question that may be asked; those over the bare board are passed over.
    pub ask: Vec<Kind>,
    /// The think time in milliseconds; replies after it are marked late.
    #[serde(deserialize_with = "Millis::number_or_none")]
    pub think_millis: Option<u64>,
    /// How many looks at the board the learner may take in all; `None` for any number.
    #[serde(deserialize_with = "Looks::number_or_none")]
    pub looks: Option<u32>,
    /// How many plies `again` says again, and how many stay readable.
    #[serde(deserialize_with = "Trail::number")]
    pub trail: usize,
    /// The seed of all choices.
    pub seed: u64,
    /// The lines that the rounds go through in turn, as [`excerpts`](super::excerpts) cuts them out
    /// of a game; without them, positions are drawn and plies made up.
    pub from: Option<Vec<Script>>,
}

/// Why there can be no drill of few pieces.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum FewError {
    /// So many pieces cannot be drawn.
    #[error("{asked} pieces cannot be drawn: give --pieces a number from {} to {}", PIECES.start(), PIECES.end())]
    Pieces {
        /// The number asked for.
        asked: usize,
    },
    /// No question of the given kinds would be left.
    #[error(
        "there is nothing to ask: give --ask a kind over a position; whereabouts, taken and played \
         only with --plies 1 or more, rights only with a game"
    )]
    NothingToAsk,
    /// The game never gets down to so few pieces.
    #[error(
        "the game never gets down to {asked} pieces, {fewest} are left at its end: {}",
        too_many(*fewest)
    )]
    TooManyPieces {
        /// The number asked for.
        asked: usize,
        /// The pieces on the board at the game's end.
        fewest: usize,
    },
    /// The game ends where it gets down to so few pieces.
    #[error(
        "the game ends as soon as it gets down to {pieces} pieces: {}choose another game",
        if pieces < PIECES.end() { "give --pieces a larger number, or " } else { "" }
    )]
    NothingPlayedOn {
        /// The number asked for.
        pieces: usize,
    },
    /// A line that was written down cannot be played.
    #[error(transparent)]
    Broken(#[from] ScriptError),
}

/// What to do about a game at whose end so many pieces are left.
fn too_many(fewest: usize) -> String {
    if PIECES.contains(&fewest) {
        format!("give --pieces {fewest} or more, or choose another game")
    } else {
        "choose another game".to_owned()
    }
}

impl FewSettings {
    /// The kinds that can be asked: before any ply, what became of the pieces is no question, nor are
    /// rights to castle where positions are drawn without any.
    pub(super) fn kinds(&self) -> Vec<Kind> {
        let can_be_asked = |kind: &Kind| match kind {
            Kind::Whereabouts | Kind::Taken | Kind::Played => self.plies > 0,
            Kind::Rights => self.from.is_some(),
            kind => Kind::LINE.contains(kind),
        };
        self.ask.iter().copied().filter(can_be_asked).collect()
    }

    /// The number of questions in all.
    pub(super) fn count(&self) -> usize {
        self.count.max(1)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_number_is_advised_that_the_option_does_not_take() {
        let advised = |error: FewError| error.to_string().contains("give --pieces");
        for pieces in 1..=32 {
            let too_many = FewError::TooManyPieces {
                asked: 3,
                fewest: pieces,
            };
            assert_eq!(advised(too_many), PIECES.contains(&pieces), "{pieces}");
            let nothing = FewError::NothingPlayedOn { pieces };
            assert_eq!(advised(nothing), pieces < *PIECES.end(), "{pieces}");
        }
    }
}
