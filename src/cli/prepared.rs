//! An exercise that is set up: to be held here, to go on, to be put on paper or only to be tried.

use std::collections::BTreeMap;
use std::fmt::Display;
use std::path::PathBuf;

use clap::ArgMatches;
use clap::parser::ValueSource;
use serde::{Deserialize, Serialize};

use super::chosen::agrees_with;
use super::failure::Failure;
use super::pick::Pick;
use super::shared::{Shared, records};
use super::sitting::{Page, Sitting};
use super::telling::{Telling, Wished};
use crate::exercise::{Plan, Session};
use crate::learner::{
    GameRef, Journal, Played, Record, SessionLock, Stamp, StartRecord, Unfinished,
};
use crate::terminal::replies_from_terminal;
use crate::voice::asides;

/// The options that were given to an exercise, by name: those that make it the one it is.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub(super) struct Given(BTreeMap<String, String>);

impl Given {
    /// Reads the options of the exercise that was called, or put on a sheet.
    pub(super) fn of(matches: &ArgMatches) -> Given {
        // What every command takes, what is told apart when a session goes on, and what may change then.
        const OTHERS: [&str; 22] = [
            "files", "game", "player", "event", "opening", "result", "since", "until", "random",
            "resume", "announce", "view", "pace", "learner", "data", "seed", "plain", "color",
            "speak", "speech", "list", "letters",
        ];
        let Some((_, mut matches)) = matches.subcommand() else {
            return Given::default();
        };
        if let Some((_, exercise)) = matches.subcommand() {
            matches = exercise;
        }
        // A group of options has a name too, which begins with a capital letter.
        let is_own = |id: &&str| {
            id.starts_with(char::is_lowercase)
                && !OTHERS.contains(id)
                && matches.value_source(id) == Some(ValueSource::CommandLine)
        };
        let ids: Vec<&str> = matches.ids().map(clap::Id::as_str).collect();
        let given = ids.into_iter().filter(is_own).filter_map(|id| {
            let values = matches.try_get_raw(id).ok()??;
            let values: Vec<_> = values.map(|value| value.to_string_lossy()).collect();
            Some((id.to_owned(), values.join(",")))
        });
        Given(given.collect())
    }

    /// Sees to it that none is given that the session did not begin with.
    fn agrees_with(&self, begun: &Given, exercise: &str) -> Result<(), Failure> {
        let other = self
            .0
            .iter()
            .find(|(id, value)| begun.0.get(*id) != Some(value));
        match other {
            None => Ok(()),
            Some((id, _)) => Err(Failure::not_as_begun(exercise, &named(id))),
        }
    }
}

fn named(id: &str) -> String {
    match id {
        "subjects" => "the kinds".to_owned(),
        id => format!("--{}", id.replace('_', "-")),
    }
}

/// What the journal keeps of how a session goes.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub(super) struct Setup {
    telling: Telling,
    given: Given,
    /// The games, in the order in which the plan numbers them.
    games: Vec<GameRef>,
    plan: Plan,
}

/// An exercise that is set up.
pub(super) struct Prepared {
    pub(super) plan: Plan,
    pub(super) telling: Telling,
    pub(super) games: Vec<GameRef>,
    /// The file of its one game, as it was named.
    pub(super) file: Option<PathBuf>,
    /// Options that say what was decided by the learner's answers, where they were not given.
    pub(super) decided: Vec<String>,
    pub(super) seed: u64,
    pub(super) given: Given,
}

impl Prepared {
    /// The game that it is about, where it is one.
    pub(super) fn game(&self) -> Option<GameRef> {
        only(&self.games)
    }

    /// Prepares the session for paper.
    pub(super) fn on_paper(&self) -> Result<Session, Failure> {
        self.plan.on_paper().map_err(Failure::unusable)
    }

    /// Writes down how the session begins.
    pub(super) fn start(&self, stamp: Stamp, shared: &Shared) -> Result<Record, Failure> {
        let line = self.plan.line().map_err(Failure::unusable)?;
        let setup = Setup {
            telling: self.telling,
            given: self.given.clone(),
            games: self.games.clone(),
            plan: self.plan.clone(),
        };
        Ok(Record::Start(StartRecord {
            stamp,
            learner: shared.learner()?.clone(),
            exercise: self.plan.exercise().to_owned(),
            played: line.as_ref().map(Played::of),
            game: self.game(),
            seed: self.seed,
            setup: serde_json::to_value(&setup).map_err(Failure::unusable)?,
        }))
    }

    /// Holds the session from its beginning.
    pub(super) fn hold(&self, shared: &Shared, journal: &Journal) -> Result<(), Failure> {
        let session = self.plan.session(shared.think_times());
        let session = session.map_err(Failure::unusable)?;
        let held = shared.hold_new(journal)?;
        let mut sitting = self.sitting(shared, held)?;
        let start = self.start(sitting.stamp(), shared)?;
        sitting.keep(start)?;
        sitting.hold(session, None)
    }

    fn sitting(&self, shared: &Shared, held: SessionLock) -> Result<Sitting, Failure> {
        Ok(Sitting {
            screen: shared.screen(),
            listener: shared.listener()?,
            manner: shared.manner(),
            aloud: shared.aloud(),
            voice: self.telling.voice(shared),
            held,
            exercise: self.plan.exercise(),
            game: self.game(),
            games: self.games.clone(),
            pace: self.telling.pace(),
            trail: self.plan.trail(),
            before_eyes: None,
            leaving: false,
            interrupted: false,
            page: Page::default(),
        })
    }
}

fn only(games: &[GameRef]) -> Option<GameRef> {
    match games {
        [game] => Some(game.clone()),
        _ => None,
    }
}

/// Sees to it that replies come from the terminal where games come through standard input.
pub(super) fn leave_input_to(pick: &Pick) -> Result<(), Failure> {
    if pick.takes_input() && !replies_from_terminal().map_err(Failure::unusable)? {
        super::tell(asides::NO_TERMINAL);
    }
    Ok(())
}

/// Goes on with the session of an exercise that was left unfinished last; `pick` and the options given must
/// be those that it began with, `wished` may be others. Returns what was held.
pub(super) fn resume(
    exercise: &str,
    pick: Option<&Pick>,
    wished: Wished,
    shared: &Shared,
) -> Result<Plan, Failure> {
    let journal = shared.journal()?;
    let resumed = shared
        .take_up(&journal, exercise)?
        .ok_or_else(|| Failure::Unusable(asides::nothing_unfinished(exercise)))?;
    let earlier = resumed.earlier(shared, exercise)?;
    let setup: Setup = resumed.setup(&earlier)?;
    if let Some(pick) = pick {
        agrees_with(earlier.start.game.as_ref(), pick)?;
        leave_input_to(pick)?;
    }
    let session = setup.plan.session(shared.think_times());
    let session = session.map_err(|error| resumed.cannot_go_on(error))?;
    shared.given.agrees_with(&setup.given, exercise)?;
    if shared.seed.is_some_and(|seed| seed != earlier.start.seed) {
        return Err(Failure::not_as_begun(exercise, "--seed"));
    }
    let prepared = Prepared {
        telling: Telling::new(wished, Some(setup.telling), shared),
        games: setup.games,
        plan: setup.plan,
        file: None,
        decided: Vec::new(),
        seed: earlier.start.seed,
        given: setup.given,
    };
    let before = earlier.earlier;
    let sitting = prepared.sitting(shared, resumed.held)?;
    sitting.hold(session, Some(before))?;
    Ok(prepared.plan)
}

/// A session that goes on in this process and in no other.
pub(super) struct Resumed {
    pub(super) held: SessionLock,
    /// The journal as it was once the session was held.
    pub(super) records: Vec<Record>,
}

impl Shared {
    /// Takes hold of a new session.
    pub(super) fn hold_new(&self, journal: &Journal) -> Result<SessionLock, Failure> {
        let session = self.session_name()?;
        journal.lock_session(&session).map_err(Failure::unusable)
    }

    /// Takes hold of the session to go on with; `None` where there is none.
    pub(super) fn take_up(
        &self,
        journal: &Journal,
        exercise: &str,
    ) -> Result<Option<Resumed>, Failure> {
        let mut before = records(journal)?;
        while let Some(left) = self.unfinished(&before, exercise) {
            let session = left.start.stamp.session.clone();
            let mut held = journal.lock_session(&session).map_err(Failure::unusable)?;
            // Until it was held, another process may have gone on with it.
            before = journal.read().map_err(Failure::unusable)?.records;
            let left = self.unfinished(&before, exercise);
            if left.is_some_and(|left| left.start.stamp.session == session) {
                held.remember(&before);
                return Ok(Some(Resumed {
                    held,
                    records: before,
                }));
            }
        }
        Ok(None)
    }
}

impl Resumed {
    /// Returns what the journal says of the session.
    pub(super) fn earlier(
        &self,
        shared: &Shared,
        exercise: &str,
    ) -> Result<Unfinished<'_>, Failure> {
        let earlier = shared.unfinished(&self.records, exercise);
        earlier.ok_or_else(|| self.cannot_go_on("it is not there"))
    }

    /// Reads what the journal keeps of how the session goes.
    pub(super) fn setup<T: serde::de::DeserializeOwned>(
        &self,
        earlier: &Unfinished<'_>,
    ) -> Result<T, Failure> {
        T::deserialize(&earlier.start.setup).map_err(|error| self.cannot_go_on(error))
    }

    /// Says why the session cannot go on as it stands in the journal, and on which line it begins there.
    pub(super) fn cannot_go_on(&self, reason: impl Display) -> Failure {
        let journal = self.held.journal();
        let line = journal.line_of_start(self.held.session());
        let line = line.map_or_else(String::new, |line| format!(":{line}"));
        Failure::Unusable(format!(
            "{}{line}: the session that begins here cannot go on ({reason}): leave out --resume to begin \
             a new one",
            journal.path().display()
        ))
    }
}
