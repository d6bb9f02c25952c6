//! What is said in a game beside the learner's own moves: the opponent's moves, and words that end the game or
//! go back in it.

use std::fmt;
use std::str::FromStr;

use shakmaty::uci::UciMove;
use strum::{EnumString, IntoStaticStr};

/// What is said in a game beside the learner's own moves.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Said {
    /// By the opponent.
    Opponent(Countermove),
    /// By the learner.
    Learner(GameWord),
}

/// What an opponent says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Countermove {
    /// It moves.
    Move(UciMove),
    /// It resigns.
    Resigns,
    /// It agrees to a draw.
    Accepts,
    /// It does not.
    Declines,
}

/// What a learner can say in the place of a move.
#[derive(Clone, Copy, Debug, PartialEq, Eq, EnumString, IntoStaticStr)]
#[strum(serialize_all = "lowercase")]
pub enum GameWord {
    /// Takes the last move and the answer to it back.
    #[strum(to_string = "take back", serialize = "takeback")]
    TakeBack,
    /// Claims a draw, or offers one.
    #[strum(
        to_string = "draw",
        serialize = "offer draw",
        serialize = "i offer a draw"
    )]
    Draw,
    /// Resigns.
    #[strum(to_string = "resign", serialize = "i resign")]
    Resign,
}

impl GameWord {
    /// Reads such a word, in letters of any size, with or without a stop behind it.
    pub fn read(text: &str) -> Option<GameWord> {
        let words: Vec<&str> = text.split_whitespace().collect();
        let small = words.join(" ").to_lowercase();
        small.trim_end_matches(['.', '!', '?']).parse().ok()
    }
}

impl fmt::Display for Countermove {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Countermove::Move(mv) => mv.fmt(f),
            Countermove::Resigns => f.write_str("resigns"),
            Countermove::Accepts => f.write_str("accepts"),
            Countermove::Declines => f.write_str("declines"),
        }
    }
}

impl FromStr for Countermove {
    type Err = shakmaty::uci::ParseUciMoveError;

    fn from_str(text: &str) -> Result<Countermove, Self::Err> {
        Ok(match text {
            "resigns" => Countermove::Resigns,
            "accepts" => Countermove::Accepts,
            "declines" => Countermove::Declines,
            text => Countermove::Move(text.parse()?),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_in_the_place_of_a_move_are_read_as_they_are_said() {
        for (said, word) in [
            ("Take  back.", Some(GameWord::TakeBack)),
            ("takeback", Some(GameWord::TakeBack)),
            ("draw", Some(GameWord::Draw)),
            ("I offer a draw!", Some(GameWord::Draw)),
            ("resign", Some(GameWord::Resign)),
            ("draw back", None),
            ("e4", None),
        ] {
            assert_eq!(GameWord::read(said), word, "{said}");
        }
        for word in [GameWord::TakeBack, GameWord::Draw, GameWord::Resign] {
            assert_eq!(GameWord::read(word.into()), Some(word));
        }
    }

    #[test]
    fn what_an_opponent_says_is_written_and_read_alike() {
        for text in ["e7e5", "b2b1q", "resigns", "accepts", "declines"] {
            assert_eq!(text.parse::<Countermove>().unwrap().to_string(), text);
        }
        assert!("gives up".parse::<Countermove>().is_err());
    }
}
