//! What is said around a placement.

use super::exercise::{ExerciseWords, goes_on};
use super::style::Voice;
use crate::exercise::{Placement, Summary};

impl ExerciseWords for Placement {
    fn title(_: &bool) -> String {
        "Your level".to_owned()
    }

    fn say_opening(_: Voice, resumed: &bool) -> Vec<String> {
        let resumed = goes_on("The search for your level", *resumed);
        let to_come = format!(
            "A few questions of each sort, harder from sort to sort, find where your course begins: {} at \
             most, in ten minutes or less.",
            Placement::MOST
        );
        let help = "Where you do not know, say pass; help says what else can be said.";
        let said = resumed.into_iter().chain([to_come]);
        said.chain([help.to_owned()]).collect()
    }

    fn say_on_paper(voice: Voice, resumed: &bool) -> Vec<String> {
        Placement::say_opening(voice, resumed)
    }

    /// What was found is told in the words of the course.
    fn say_summary(_: Voice, (): &(), _: &Summary) -> Vec<String> {
        Vec::new()
    }
}
