//! The options of `drill few`.

use std::path::{Path, PathBuf};

use clap::Args;

use super::super::arguments::{AskedKinds, asked_kinds, millis};
use super::super::chosen::Chosen;
use super::super::failure::{Failure, shown};
use super::super::pick::{Numbers, Pick};
use super::super::shared::Shared;
use super::arguments::Course;
use crate::exercise::{FewError, FewSettings, Script, bound, excerpts};

/// What `drill few` adds.
#[derive(Args, Debug)]
pub(super) struct Few {
    /// How many pieces are read out, the kings among them: 3 to 10 [default: 5]
    #[arg(long = "pieces", value_name = "N", help_heading = FEW, value_parser = clap::value_parser!(u8).range(bound::FEW_MEN.range()))]
    pieces: Option<u8>,
    /// How many plies are played on and read aloud [default: 4]
    #[arg(long, value_name = "N", help_heading = FEW, value_parser = clap::value_parser!(u8).range(bound::FEW_PLIES.range()))]
    plies: Option<u8>,
    /// Kinds of question, separated by commas, or all [default: whereabouts, attacks and
    /// legality]
    #[arg(long, value_name = "KINDS", value_delimiter = ',', value_parser = asked_kinds(), help_heading = FEW)]
    ask: Option<Vec<AskedKinds>>,
    /// Questions over each position [default: 2]
    #[arg(long, value_name = "N", help_heading = FEW, value_parser = clap::value_parser!(u8).range(bound::QUESTIONS.range()))]
    questions: Option<u8>,
    /// How many looks at the board are allowed [default: any number, each counted]
    #[arg(long, value_name = "N", help_heading = FEW,
          value_parser = clap::value_parser!(u32).range(bound::LOOKS.range()))]
    looks: Option<u32>,
    /// Take the pieces that are left late in a game of this PGN file, and what was played on
    #[arg(long, value_name = "FILE", help_heading = FEW)]
    from: Option<PathBuf>,
    /// Which game of that file [default: the first that gets down to so few pieces]
    #[arg(long, value_name = "N", help_heading = FEW, requires = "from")]
    game: Option<Numbers>,
}

const FEW: &str = "For few";

impl Few {
    /// Tells whether a game comes through standard input.
    pub(super) fn takes_input(&self) -> bool {
        self.from.as_deref() == Some(Path::new("-"))
    }

    /// Settles a drill of few pieces.
    pub(super) fn settings(
        &self,
        course: &Course,
        shared: &Shared,
    ) -> Result<FewSettings, Failure> {
        if let Some(option) = course.needless_for_few() {
            return Err(Failure::Usage(format!(
                "{option} is for questions on the empty board, not for few: leave it out"
            )));
        }
        let pieces = self.pieces.map_or(5, usize::from);
        let plies = self.plies.map_or(4, usize::from);
        Ok(FewSettings {
            pieces,
            plies,
            count: course.count.map_or(20, usize::from),
            per_round: self.questions.map_or(2, usize::from),
            ask: AskedKinds::all_of(self.ask.as_deref()),
            think_millis: course.think.map(millis),
            looks: self.looks,
            trail: plies,
            seed: shared.seed()?,
            from: self.excerpts(pieces, plies, shared)?,
        })
    }

    /// Names an option that only few has, where one is given.
    pub(super) const fn given(&self) -> Option<&'static str> {
        if self.pieces.is_some() {
            Some("--pieces")
        } else if self.plies.is_some() {
            Some("--plies")
        } else if self.ask.is_some() {
            Some("--ask")
        } else if self.questions.is_some() {
            Some("--questions")
        } else if self.looks.is_some() {
            Some("--looks")
        } else if self.from.is_some() {
            Some("--from")
        } else {
            None
        }
    }

    /// Cuts positions out of the game that was chosen, or of the first that has any.
    fn excerpts(
        &self,
        pieces: usize,
        plies: usize,
        shared: &Shared,
    ) -> Result<Option<Vec<Script>>, Failure> {
        let Some(file) = &self.from else {
            return Ok(None);
        };
        let mut found: Result<Vec<Script>, (usize, FewError)> = Ok(Vec::new());
        let mut last = None;
        Pick::of_file(file, self.game).walk(shared, |picked| {
            let number = picked.passage.number;
            let chosen = last.insert(Chosen::new(picked));
            let line = chosen.reading.game.main_line();
            found = excerpts(&line, pieces, plies).map_err(|error| (number, error));
            Ok(found.is_err())
        })?;
        if let Some(chosen) = last {
            chosen.tell_notes(shared.plain);
        }
        found.map(Some).map_err(|(game, error)| {
            let file = shown(file);
            Failure::Unusable(format!("{file}: game {game}: {error}"))
        })
    }
}
