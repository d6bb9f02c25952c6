//! What several exercises can be told, and why there can be no such session.

use serde::{Deserialize, Serialize};

use super::bound::FewPieces;
use super::script::ScriptError;

/// How much is read in one go.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum By {
    /// One ply.
    Ply,
    /// A whole move, up to Black's ply.
    Move,
    /// All up to the next checkpoint.
    Checkpoint,
}

/// How a position is given before plies are read from it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Show {
    /// The board is drawn and stays before the eyes, unchanged, while plies are read.
    Diagram,
    /// The pieces are read out.
    List,
    /// As heard so far: the game is read aloud up to there.
    None,
}

/// Why there can be no such session.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PlanError {
    /// A line cannot be played.
    #[error(transparent)]
    Script(#[from] ScriptError),
    /// No question of the given kinds would be left.
    #[error(
        "there is nothing to ask: give --ask another kind, --plies a larger number, or choose another \
         game; rights are asked only over a game"
    )]
    NothingToAsk,
    /// No position of the games has so many plies to follow.
    #[error(
        "from no position can {asked} plies be read: the longest line has {longest}; give --plies \
         {longest} or less, or choose a longer game"
    )]
    TooShort {
        /// The plies asked for.
        asked: usize,
        /// The plies of the longest stretch that could be read.
        longest: usize,
    },
    /// No game has a ply to read.
    #[error("there is no ply to read ahead: choose a game with more moves")]
    NoPlies,
    /// There is no game to play.
    #[error("there is no game to play: begin one with sansvoir play")]
    NoGame,
    /// The game is over where it would begin.
    #[error("the game is over there: choose an earlier move, or another position")]
    OverAlready,
    /// There is no problem.
    #[error("no mate is there to be found: choose another game, or give --mate a larger number")]
    NoProblem,
    /// A position that was written down has no mate.
    #[error("the position {0} has no mate within the moves that are written down for it")]
    NoMate(String),
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
        if *pieces < FewPieces::MOST { "give --pieces a larger number, or " } else { "" }
    )]
    NothingPlayedOn {
        /// The number asked for.
        pieces: usize,
    },
}

/// What to do about a game at whose end so many pieces are left.
fn too_many(fewest: usize) -> String {
    if (FewPieces::LEAST..=FewPieces::MOST).contains(&fewest) {
        format!("give --pieces {fewest} or more, or choose another game")
    } else {
        "choose another game".to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_number_is_advised_that_the_option_does_not_take() {
        let advised = |error: PlanError| error.to_string().contains("give --pieces");
        for pieces in 1..=32 {
            let too_many = PlanError::TooManyPieces {
                asked: 3,
                fewest: pieces,
            };
            let can_be_drawn = (FewPieces::LEAST..=FewPieces::MOST).contains(&pieces);
            assert_eq!(advised(too_many), can_be_drawn, "{pieces}");
            let nothing = PlanError::NothingPlayedOn { pieces };
            assert_eq!(advised(nothing), pieces < FewPieces::MOST, "{pieces}");
        }
    }
}
