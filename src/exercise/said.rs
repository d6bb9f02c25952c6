//! What is said in a game beside the learner's own moves: the opponent's moves, and words that end the game or
//! go back in it.

use std::fmt;
use std::str::FromStr;

use shakmaty::uci::UciMove;

use super::beside::OpenQuestion;

/// What is said in a game beside the learner's own moves.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Said {
    /// By the opponent.
    Opponent(Countermove),
    /// By the learner.
    Learner(GameWord),
    /// By the learner, in words of one's own; empty where the question was given up.
    Open {
        /// The question.
        question: OpenQuestion,
        /// What was replied.
        reply: String,
    },
}

/// What an opponent says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Countermove {
    /// It moves.
    Move(UciMove),
    /// It resigns.
    Resigns,
    /// It agrees to a draw.
    Accepts,
    /// It does not.
    Declines,
    /// It has looked at the games again, once they are over: these moves of the learner's cost most.
    Reviewed(Vec<Cost>),
}

/// A move of the learner's that cost much, as a search found it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cost {
    /// On which board it was played, counted from 0.
    pub board: usize,
    /// Behind how many plies of its game.
    pub plies: usize,
    /// What it cost, in hundredths of a pawn.
    pub cost: i32,
    /// What would have been better.
    pub better: UciMove,
    /// The best answer to it.
    pub answer: UciMove,
}

/// What a learner can say in the place of a move.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GameWord {
    /// Takes the last move and the answer to it back.
    TakeBack,
    /// Claims a draw, or offers one.
    Draw,
    /// Claims the draw that stands once a move is played (FIDE 9.2.1, 9.3.1).
    DrawWith(UciMove),
    /// Resigns.
    Resign,
}

impl GameWord {
    /// Reads such a word, in letters of any size, with or without a stop behind it; `read` reads the move beside
    /// a claim.
    pub fn read(text: &str, read: impl Fn(&str) -> Option<UciMove>) -> Option<GameWord> {
        let words: Vec<&str> = text.split_whitespace().collect();
        let words = words.join(" ");
        let small = words.to_lowercase();
        match small.trim_end_matches(['.', '!', '?']) {
            "take back" | "takeback" => Some(GameWord::TakeBack),
            "draw" | "offer draw" | "offer a draw" | "i offer a draw" => Some(GameWord::Draw),
            "resign" | "i resign" => Some(GameWord::Resign),
            small if small.starts_with("draw ") => read(&words[5..]).map(GameWord::DrawWith),
            _ => None,
        }
    }
}

impl fmt::Display for GameWord {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            GameWord::TakeBack => f.write_str("take back"),
            GameWord::Draw => f.write_str("draw"),
            GameWord::DrawWith(mv) => write!(f, "draw {mv}"),
            GameWord::Resign => f.write_str("resign"),
        }
    }
}

impl fmt::Display for Countermove {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Countermove::Move(mv) => mv.fmt(f),
            Countermove::Resigns => f.write_str("resigns"),
            Countermove::Accepts => f.write_str("accepts"),
            Countermove::Declines => f.write_str("declines"),
            Countermove::Reviewed(costs) => {
                f.write_str("reviewed")?;
                costs.iter().try_for_each(|cost| write!(f, ", {cost}"))
            }
        }
    }
}

impl fmt::Display for Cost {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Cost { plies, cost, .. } = self;
        let (board, better, answer) = (self.board + 1, self.better, self.answer);
        write!(
            f,
            "board {board} ply {plies} cost {cost} better {better} answer {answer}"
        )
    }
}

impl FromStr for Cost {
    type Err = ParseCountermoveError;

    fn from_str(text: &str) -> Result<Cost, ParseCountermoveError> {
        let words: Vec<&str> = text.split(' ').collect();
        let read = || match words[..] {
            [
                "board",
                board,
                "ply",
                plies,
                "cost",
                cost,
                "better",
                better,
                "answer",
                answer,
            ] => Some(Cost {
                board: board.parse::<usize>().ok()?.checked_sub(1)?,
                plies: plies.parse().ok()?,
                cost: cost.parse().ok()?,
                better: better.parse().ok()?,
                answer: answer.parse().ok()?,
            }),
            _ => None,
        };
        read().ok_or(ParseCountermoveError)
    }
}

/// A text that no opponent says.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("no move, and no other word of an opponent")]
pub struct ParseCountermoveError;

impl FromStr for Countermove {
    type Err = ParseCountermoveError;

    fn from_str(text: &str) -> Result<Countermove, ParseCountermoveError> {
        let mut parts = text.split(", ");
        if parts.next() == Some("reviewed") {
            let costs: Result<Vec<Cost>, _> = parts.map(str::parse).collect();
            return costs.map(Countermove::Reviewed);
        }
        Ok(match text {
            "resigns" => Countermove::Resigns,
            "accepts" => Countermove::Accepts,
            "declines" => Countermove::Declines,
            text => Countermove::Move(text.parse().map_err(|_| ParseCountermoveError)?),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_in_the_place_of_a_move_are_read_as_they_are_said() {
        let uci = |text: &str| text.parse().ok();
        let knight = uci("g1f3").unwrap();
        for (said, word) in [
            ("Take  back.", Some(GameWord::TakeBack)),
            ("takeback", Some(GameWord::TakeBack)),
            ("draw", Some(GameWord::Draw)),
            ("I offer a draw!", Some(GameWord::Draw)),
            ("resign", Some(GameWord::Resign)),
            ("Draw G1F3.", None),
            ("draw g1f3", Some(GameWord::DrawWith(knight))),
            ("draw back", None),
            ("e4", None),
        ] {
            assert_eq!(GameWord::read(said, uci), word, "{said}");
            if let Some(word) = word {
                assert_eq!(GameWord::read(&word.to_string(), uci), Some(word));
            }
        }
    }

    #[test]
    fn what_an_opponent_says_is_written_and_read_alike() {
        for text in [
            "e7e5",
            "b2b1q",
            "resigns",
            "accepts",
            "declines",
            "reviewed",
            "reviewed, board 1 ply 14 cost 230 better e2e4 answer d8h4",
        ] {
            assert_eq!(text.parse::<Countermove>().unwrap().to_string(), text);
        }
        for text in [
            "gives up",
            "reviewed, board 0 ply 1 cost 2 better a1a2 answer a2a1",
        ] {
            assert!(text.parse::<Countermove>().is_err());
        }
    }
}
