//! How each exercise is to go, and why it cannot.

use serde::{Deserialize, Serialize};
use shakmaty::Color;

use super::bound::{
    Blockers, Count, Every, FewPieces, FewPlies, Looks, MateMoves, Millis, PerRound, Plies,
    Questions, Rounds, Trail,
};
use super::script::{Script, ScriptError};
use super::staircase::Staircase;
use crate::question::{BareQuestion, Kind, Views};

/// How a replay is to go. The journal keeps it, so that another process can go on.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Settings {
    /// How much is read in one go.
    pub by: By,
    /// Where checkpoints are made.
    pub checkpoints: Checkpoints,
    /// The kinds of question that may be asked.
    pub ask: Vec<Kind>,
    /// How many questions each checkpoint has.
    #[serde(deserialize_with = "Questions::number")]
    pub questions: usize,
    /// How many plies `again` says again, and how many stay readable.
    #[serde(deserialize_with = "Trail::number")]
    pub trail: usize,
    /// The think time in milliseconds; replies after it are marked late.
    #[serde(deserialize_with = "Millis::number_or_none")]
    pub think_millis: Option<u64>,
    /// How many looks at the board the learner may take; `None` for any number.
    #[serde(deserialize_with = "Looks::number_or_none")]
    pub looks: Option<u32>,
    /// The seed of all choices.
    pub seed: u64,
}

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

/// Where checkpoints are made.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Checkpoints {
    /// After every so many plies, and at the end.
    Every(#[serde(deserialize_with = "Every::number")] usize),
    /// After these moves of the main line.
    At(Vec<Stop>),
}

/// A place for a checkpoint.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Stop {
    /// After so many plies of the main line.
    Plies(usize),
    /// At the end of the main line.
    End,
}

/// The settings of a recital. Nothing in it is left to chance.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct ReciteSettings {
    /// Whose moves the learner says.
    pub sides: Sides,
    /// The whole position is asked every so many plies and at the end; `None` for never.
    #[serde(deserialize_with = "Every::number_or_none")]
    pub every: Option<usize>,
    /// Whether the piece that moves is named by itself after a first miss.
    pub hint: bool,
    /// Milliseconds after which a reply is late; `None` for never.
    #[serde(deserialize_with = "Millis::number_or_none")]
    pub think_millis: Option<u64>,
}

/// Whose moves the learner says.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Sides {
    /// Both sides'.
    #[default]
    Both,
    /// White's; Black's are read out.
    White,
    /// Black's; White's are read out.
    Black,
}

impl Sides {
    /// Tells whether the learner says the moves of this side.
    pub const fn says(self, color: Color) -> bool {
        match self {
            Sides::Both => true,
            Sides::White => color.is_white(),
            Sides::Black => color.is_black(),
        }
    }
}

/// How a session of calculation is to go. The journal keeps it, so that another process can go on.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct AheadSettings {
    /// The games that positions are taken from, round by round in turn; a game's sidelines too, where
    /// its script has them.
    pub games: Vec<Script>,
    /// How a position is given.
    pub show: Show,
    /// How many plies are read from each position; `None` to follow the learner.
    #[serde(deserialize_with = "Plies::number_or_none")]
    pub plies: Option<usize>,
    /// Where the learner stood before the session; followed where `plies` is `None`.
    pub staircase: Staircase,
    /// How many rounds there are; 0 counts as 1.
    #[serde(deserialize_with = "Rounds::number")]
    pub rounds: usize,
    /// How many questions each round has at most; 0 counts as 1.
    #[serde(deserialize_with = "PerRound::number")]
    pub per_round: usize,
    /// The kinds of question that may be asked; those over the bare board are passed over.
    pub ask: Vec<Kind>,
    /// The think time in milliseconds; replies after it are marked late.
    #[serde(deserialize_with = "Millis::number_or_none")]
    pub think_millis: Option<u64>,
    /// How many looks at the board the learner may take in all; `None` for any number.
    #[serde(deserialize_with = "Looks::number_or_none")]
    pub looks: Option<u32>,
    /// The seed of all choices.
    pub seed: u64,
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

impl AheadSettings {
    /// The kinds that can be asked: all over a position, for a ply at least has been read.
    pub(super) fn kinds(&self) -> Vec<Kind> {
        let asked = self.ask.iter().copied();
        asked.filter(|kind| Kind::LINE.contains(kind)).collect()
    }

    pub(super) fn rounds(&self) -> usize {
        self.rounds.max(1)
    }
}

/// How a session of mates is to go. The journal keeps it, so that another process can go on.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct MatesSettings {
    /// The positions, in the order of asking.
    pub problems: Vec<Problem>,
    /// How they are given.
    pub show: Show,
    /// The most moves that a mate was searched for.
    #[serde(deserialize_with = "MateMoves::number")]
    pub within: u32,
    /// The think time in milliseconds; replies after it are marked late.
    #[serde(deserialize_with = "Millis::number_or_none")]
    pub think_millis: Option<u64>,
    /// How many looks at the board the learner may take in all; `None` for any number.
    #[serde(deserialize_with = "Looks::number_or_none")]
    pub looks: Option<u32>,
    /// The seed; nothing depends on it so far.
    pub seed: u64,
}

/// A position from which the side to move forces mate.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Problem {
    /// The line up to the position: the game's moves where they are to be heard, else the position
    /// alone.
    pub script: Script,
    /// Which of the games it is from, counted from 0.
    pub game: usize,
    /// The fewest moves that force mate.
    #[serde(deserialize_with = "MateMoves::number")]
    pub within: u32,
}

/// How a drill is to go. The journal keeps it, so that another process can go on.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct DrillSettings {
    /// The kinds of question, all of the bare board.
    pub kinds: Vec<Kind>,
    /// How many questions are put, those that return included.
    #[serde(deserialize_with = "Count::number")]
    pub count: usize,
    /// From which side squares are seen.
    pub view: Views,
    /// The think time in milliseconds; without it, each kind has its own ([`Kind::think_millis`]).
    #[serde(deserialize_with = "Millis::number_or_none")]
    pub think_millis: Option<u64>,
    /// The roles of the pieces that travel and attack, by their FEN letters.
    pub pieces: Vec<char>,
    /// How many blockers stand in the way of a piece that travels.
    #[serde(deserialize_with = "Blockers::number")]
    pub blockers: usize,
    /// The seed of all choices.
    pub seed: u64,
    /// Questions that were missed or slow in earlier runs; about one in three is taken from them.
    pub weak: Vec<BareQuestion>,
    /// The first questions, chosen beforehand; what is left of the count is drawn.
    #[serde(default)]
    pub chosen: Vec<BareQuestion>,
}

impl DrillSettings {
    /// Returns the think time of a kind in this drill, in milliseconds.
    pub fn think(&self, kind: Kind) -> u64 {
        self.think_millis.unwrap_or_else(|| kind.think_millis())
    }
}

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

/// Why there can be no such session.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PlanError {
    /// A line cannot be played.
    #[error(transparent)]
    Script(#[from] ScriptError),
    /// No question of the given kinds would be left in a session of calculation.
    #[error("there is nothing to ask: give --ask a kind over a position")]
    NothingToAsk,
    /// No question of the given kinds would be left in a drill of few pieces.
    #[error(
        "there is nothing to ask: give --ask a kind over a position; whereabouts, taken and played \
         only with --plies 1 or more, rights only with a game"
    )]
    NothingToAskOfFew,
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
    /// There is no problem.
    #[error("no mate is there to be found: choose another game, or give --mate a larger number")]
    NoProblem,
    /// A position that was written down has no mate.
    #[error("the position {0} has no mate within the moves that are written down for it")]
    NoMate(String),
    /// So many pieces cannot be drawn.
    #[error(
        "{asked} pieces cannot be drawn: give --pieces a number from {} to {}",
        FewPieces::LEAST,
        FewPieces::MOST
    )]
    Pieces {
        /// The number asked for.
        asked: usize,
    },
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
