//! What is said around forced mates.

use super::ending;
use super::exercise::ExerciseWords;
use super::naming::count;
use super::rounds::given;
use super::style::Voice;
use crate::exercise::{Mates, MatesOpening, MatesSummary, MovesPlayed, Show, Summary};

impl ExerciseWords for Mates {
    fn title(_: &MatesOpening) -> String {
        "Forced mates".to_owned()
    }

    fn say_opening(voice: Voice, opening: &MatesOpening) -> Vec<String> {
        let mut said = Mates::say_on_paper(voice, opening);
        said.push(
            "A move that cannot be read costs nothing; help says what else can be said.".to_owned(),
        );
        said
    }

    fn say_on_paper(voice: Voice, opening: &MatesOpening) -> Vec<String> {
        let positions = count(opening.problems, "position", "positions");
        let first = match opening.resumed {
            Some(done) => {
                format!("The mates go on where they stopped: {done} of {positions} done.")
            }
            None => format!("{positions} with a forced mate."),
        };
        let how = match given(voice, opening.show) {
            Show::Diagram if voice.empty_board => {
                "The position is shown, and an empty board is before your eyes while you say the moves."
            }
            Show::Diagram => "The position stays as it is while you say the moves.",
            Show::List => "The pieces are read out, and the board stays hidden.",
            Show::None => "The game is read up to the position, and the board stays hidden.",
        };
        vec![
            first,
            format!(
                "{how} Say every move up to the mate; the other side holds out as long as it can."
            ),
        ]
    }

    fn say_told(voice: Voice, MovesPlayed(plies): &MovesPlayed) -> Vec<String> {
        voice.announce.plies(plies)
    }

    fn say_summary(voice: Voice, own: &MatesSummary, all: &Summary) -> Vec<String> {
        let positions = count(own.tried, "position", "positions");
        let led = format!("Led to the mate: {} of {positions}.", own.mated);
        ending::counts(voice, all, [led])
    }
}

/// Said while mates are being searched for, where the learner is heard.
pub(crate) const STOP_SEARCHING: &str = "Say stop to end the search.";

/// Says that mates are being searched for, and for how long.
pub(crate) fn searching(within: u32, game: usize, positions: usize, seconds: u64) -> String {
    let positions = count(positions, "position", "positions");
    let seconds = count(seconds, "second", "seconds");
    format!("Searching for mates within {within}: {positions} of game {game}, {seconds} so far.")
}
