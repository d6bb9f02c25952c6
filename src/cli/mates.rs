//! The search for mates through the games that were chosen.

use std::collections::HashSet;
use std::io::IsTerminal;
use std::time::{Duration, Instant};

use super::ahead::{Arguments, EXERCISE, Options};
use super::chosen::Chosen;
use super::failure::{Failure, tell};
use super::prepared::Planned;
use super::shared::Shared;
use super::values::{GivenOptions, Seconds};
use crate::exercise::bound::{Looks, MateMoves};
use crate::exercise::{Input, MatesSettings, Plan, Problem, Search, Searched};
use crate::learner::{GameRef, Record};
use crate::question::{Kind, Verdict};
use crate::terminal::{Capabilities, Listener, Said, Way};
use crate::voice::{asides, commands as words, searching};

/// The time between two sentences on how the search goes.
const TELLING: Duration = Duration::from_secs(2);
/// The time that one look at the keyboard takes.
const GLANCE: Duration = Duration::from_millis(1);
/// The time between two looks at the keyboard.
const LISTENING: Duration = Duration::from_millis(50);

/// Searches the games for mates within so many moves until so many are found; `None` where the learner stopped the search.
pub(super) fn prepare(
    arguments: &Arguments,
    shared: &Shared,
    records: &[Record],
    (within, wanted): (MateMoves, usize),
    listener: &mut Listener,
) -> Result<Option<Planned>, Failure> {
    let options = &arguments.options;
    if let Some(other) = GivenOptions::of(options)?.first_of(&["plies", "ask", "questions"]) {
        return Err(Failure::usage(words::options_conflict("mate", other)));
    }
    let within = within.get();
    let mut quest = Quest {
        options,
        within,
        wanted,
        known: solved(records),
        watch: Watch::new(listener, shared.manner()),
        games: Vec::new(),
        problems: Vec::new(),
        searched: 0,
        found: Searched::default(),
    };
    let named = arguments.pick.takes_any();
    let mut with_sidelines = 0;
    arguments.pick.walk(shared, |picked| {
        let chosen = Chosen::new(picked);
        let without = chosen.reading.game.sideline_count() == 0;
        if options.sidelines && without && !named {
            return Ok(true);
        }
        with_sidelines += 1;
        chosen.tell_notes(shared.plain);
        quest.search(&chosen)?;
        Ok(!quest.found.stopped && quest.problems.len() < wanted)
    })?;
    if quest.found.stopped {
        tell(asides::SEARCH_STOPPED);
        return Ok(None);
    }
    if with_sidelines == 0 {
        return Err(Failure::unusable(words::NONE_HAS_SIDELINES));
    }
    if quest.found.given_up > 0 {
        tell(&asides::given_up(quest.found.given_up));
    }
    if quest.problems.is_empty() {
        let found = &quest.found;
        return Err(Failure::Unusable(asides::no_mate(
            within,
            quest.searched,
            found.positions,
            found.known,
        )));
    }
    Ok(Some(Planned {
        plan: Plan::Mates(MatesSettings {
            problems: quest.problems,
            show: options.show(),
            within,
            think_millis: options.think.map(Seconds::millis),
            looks: options.looks.map(Looks::get),
            seed: shared.seed()?,
        }),
        games: quest.games,
        file: None,
    }))
}

/// A search through several games.
struct Quest<'a> {
    options: &'a Options,
    within: u32,
    wanted: usize,
    known: HashSet<String>,
    watch: Watch<'a>,
    games: Vec<GameRef>,
    problems: Vec<Problem>,
    /// How many games were searched.
    searched: usize,
    /// What was found in all games, the problems left out.
    found: Searched,
}

impl Quest<'_> {
    fn search(&mut self, chosen: &Chosen) -> Result<(), Failure> {
        self.searched += 1;
        if chosen.reading.game.main_nodes().next().is_none() {
            return Ok(());
        }
        let script =
            (self.options.script(chosen)).map_err(|failure| failure.about(&chosen.name()))?;
        let search = Search {
            script: &script,
            game: self.games.len(),
            within: self.within,
            show: self.options.show(),
            wanted: self.wanted - self.problems.len(),
            known: &self.known,
        };
        let (within, number) = (self.within, chosen.game_ref().number);
        let watch = &mut self.watch;
        let searched = search.run(|positions| watch.go_on(within, number, positions))?;
        if !searched.problems.is_empty() || self.games.is_empty() {
            self.games.push(chosen.game_ref());
        }
        let kept = self.games.len() - 1;
        let problems = searched.problems.into_iter();
        self.problems.extend(problems.map(|problem| Problem {
            game: kept,
            ..problem
        }));
        self.found.positions += searched.positions;
        self.found.given_up += searched.given_up;
        self.found.known += searched.known;
        self.found.stopped = searched.stopped;
        Ok(())
    }
}

/// The positions from which the learner has found the mate before.
fn solved(records: &[Record]) -> HashSet<String> {
    let mut solved = HashSet::new();
    for record in records {
        let Record::Answer(answer) = record else {
            continue;
        };
        if answer.exercise != EXERCISE
            || answer.kind != Kind::Mate
            || answer.verdict != Verdict::Right
        {
            continue;
        }
        solved.extend(answer.position.clone());
    }
    solved
}

/// Tells how a long search goes, and hears when it is to stop.
struct Watch<'a> {
    listener: &'a mut Listener,
    manner: Capabilities,
    begun: Instant,
    told: Instant,
    listened: Instant,
    tells: bool,
}

impl<'a> Watch<'a> {
    fn new(listener: &'a mut Listener, manner: Capabilities) -> Watch<'a> {
        let now = Instant::now();
        Watch {
            listener,
            manner,
            begun: now,
            told: now,
            listened: now,
            tells: std::io::stderr().is_terminal(),
        }
    }

    fn go_on(&mut self, within: u32, game: usize, positions: usize) -> bool {
        if self.listened.elapsed() < LISTENING {
            return true;
        }
        self.listened = Instant::now();
        if self.tells && self.told.elapsed() >= TELLING {
            self.told = self.listened;
            let seconds = self.begun.elapsed().as_secs();
            tell(&searching(within, game, positions, seconds));
        }
        !self.is_stopped()
    }

    /// The lines of a pipe are replies, and none of them is taken here.
    fn is_stopped(&mut self) -> bool {
        match self.manner.way {
            Way::Piped => self.listener.rest(Duration::ZERO).is_some(),
            Way::Edited | Way::Prompted => match self.listener.pause(GLANCE) {
                Ok(Some(Said::Line(line))) => Input::read(&line.text, 0) == Input::Stop,
                Ok(Some(Said::Interrupt | Said::End)) | Err(_) => true,
                Ok(None) => false,
            },
        }
    }
}
