//! The options of `lesson`.

use std::path::PathBuf;

use clap::Args;

/// Today's lesson: what is due, your next step and a game; or the parts that a coach wrote
#[derive(Args, Debug)]
#[command(after_help = HELP)]
pub(crate) struct Arguments {
    /// A lesson file [default: a lesson chosen from your journal]
    #[arg(value_name = "FILE.toml")]
    pub(super) file: Option<PathBuf>,
    /// About how many minutes a chosen lesson takes [default: 10]
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=180),
          conflicts_with = "file")]
    pub(super) minutes: Option<u32>,
    /// Only check the lesson file: every key, every game, every pass mark
    #[arg(long, requires = "file")]
    pub(super) check: bool,
    /// Go on with the lesson that was left unfinished last
    #[arg(long, conflicts_with_all = ["file", "minutes", "check"])]
    pub(super) resume: bool,
}

const HELP: &str = "\
A chosen lesson has questions that you are about to forget, the first step of the course that you have \
not passed, and a game: one of your own where the config file names your games, else a demo game.
A step is passed with 18 of the last 20 right, half of them within a time that each step states.

A lesson file is a text in TOML. Each [[part]] names an exercise (replay, ahead, recite or drill), for \
drill its kinds, for the others their files, and any option of that exercise as a key: every = 10 stands \
for --every 10. heading and notes are read out before the part, pass is the number of right replies that \
it asks for. A part without files takes the learner's own games, or else a demo game.

Examples:
  sansvoir lesson --minutes 5
  sansvoir lesson games-demo/first-lesson.toml --check
  sansvoir lesson games-demo/first-lesson.toml";
