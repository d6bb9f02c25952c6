//! The words of each exercise, which stand in a file of its own.

use super::style::Voice;
use crate::exercise::{self, Exercise, Opening, OwnSummary, Summary, Told, exercises};

/// What is said of one exercise alone.
pub(super) trait ExerciseWords: Exercise {
    /// Heads a sheet.
    fn title(opening: &Self::Opening) -> String;

    /// Says what is about to be held.
    fn say_opening(voice: Voice, opening: &Self::Opening) -> Vec<String>;

    /// Says what is about to be held, and how, on paper.
    fn say_on_paper(voice: Voice, opening: &Self::Opening) -> Vec<String>;

    /// Says what only this exercise tells, where there is such a thing.
    fn say_told(_: Voice, _: &Self::Told) -> Vec<String> {
        Vec::new()
    }

    /// Says how it went.
    fn say_summary(voice: Voice, own: &Self::Summary, all: &Summary) -> Vec<String>;
}

/// Says that an earlier session goes on, where one does.
pub(super) fn goes_on(what: &str, resumed: bool) -> Option<String> {
    resumed.then(|| format!("{what} goes on where it stopped."))
}

/// Finds the words of whichever exercise it is.
macro_rules! find_words {
    ($($command:ident $Command:ident { $($(#[$doc:meta])+ $Name:ident,)+ })+) => {
        pub(super) fn title(opening: &Opening) -> String {
            match opening {
                $($(Opening::$Name(own) => exercise::$Name::title(own),)+)+
            }
        }

        impl Voice {
            pub(super) fn opening(self, opening: &Opening) -> Vec<String> {
                match opening {
                    $($(Opening::$Name(own) => exercise::$Name::say_opening(self, own),)+)+
                }
            }

            pub(super) fn opening_on_paper(self, opening: &Opening) -> Vec<String> {
                match opening {
                    $($(Opening::$Name(own) => exercise::$Name::say_on_paper(self, own),)+)+
                }
            }

            pub(super) fn told(self, told: &Told) -> Vec<String> {
                match told {
                    $($(Told::$Name(own) => exercise::$Name::say_told(self, own),)+)+
                }
            }

            pub(super) fn summary(self, all: &Summary) -> Vec<String> {
                match &all.own {
                    $($(OwnSummary::$Name(own) => exercise::$Name::say_summary(self, own, all),)+)+
                }
            }
        }
    };
}
exercises!(find_words);
