//! `games`: list, find, check and export the games of a collection.

mod json;

use std::cell::{Cell, RefCell};
use std::collections::HashSet;
use std::io::{self, IsTerminal};
use std::mem::{Discriminant, discriminant};
use std::path::{Path, PathBuf};

use clap::Args;
use serde::Deserialize;

use super::archives;
use super::excerpt;
use super::failure::{Failure, shown, tell};
use super::own;
use super::pick::Pick;
use super::shared::Shared;
use super::values::word;
use super::walk::Found;
use crate::game::GameResult;
use crate::pgn::{
    Cost, Finder, Heading, Nearness, Passage, Reading, Reason, Trust, check as strictly,
    export as strictly_written, read_twice,
};
use crate::terminal::{NewFile, Screen, Tone};
use crate::voice::{asides, clean, clean_line, in_words, listed};

/// The options of `games`; its page of the handbook says what it does.
#[derive(Args, Debug)]
pub(super) struct Arguments {
    #[command(flatten)]
    pick: Pick,
    /// Read every game strictly, tell each fault with its place, and count
    #[arg(long, conflicts_with = "format")]
    check: bool,
    /// Write the games that fit as strict PGN to this file; - is standard output
    #[arg(long, value_name = "FILE", conflicts_with = "check")]
    export: Option<PathBuf>,
    /// Keep files or folders as your own games, which are taken where no FILE is named
    #[arg(long, value_name = "PATH", num_args = 1.., conflicts_with_all = ["check", "export"])]
    add: Vec<PathBuf>,
    /// Forget files or folders of your own games
    #[arg(long, value_name = "PATH", num_args = 1.., conflicts_with_all = ["check", "export"])]
    remove: Vec<PathBuf>,
    /// How games are written: text, or json with one object a line
    #[arg(long, value_name = "FORMAT", default_value = "text", hide_possible_values = true,
          value_parser = word::<Format>())]
    format: Format,
}

impl Arguments {
    /// Tells whether the games that the config file names are changed.
    pub(super) const fn changes_own_games(&self) -> bool {
        !self.add.is_empty() || !self.remove.is_empty()
    }
}

/// So many games of a list are read strictly, which takes some milliseconds, to tell how far each can be trusted.
const TRUST_TOLD: usize = 200;

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
enum Format {
    Text,
    Json,
}

pub(super) fn run(arguments: &Arguments, shared: &Shared) -> Result<(), Failure> {
    let mut screen = shared.screen();
    let pick = &arguments.pick;
    if arguments.changes_own_games() {
        let said = own::change(&arguments.add, &arguments.remove, shared)?;
        return Ok(screen.say(Tone::Plain, &said)?);
    }
    if arguments.check {
        return check(pick, shared, &mut screen);
    }
    if let Some(to) = &arguments.export {
        return export(arguments, to, shared, &mut screen);
    }
    let lines = RefCell::new(Lines::new(&mut screen));
    let several = pick.places(shared)?.len() > 1;
    let listed = if shared.plain {
        in_words::listed
    } else {
        listed::listed
    };
    let (mut count, mut score, mut garbled) = (0, Score::default(), None);
    // Whoever was found is whose games are counted, however near the name came.
    let finder = pick.finder(Nearness::Beginning)?;
    let walked = pick.survey(
        shared,
        true,
        &|file, found| match arguments.format {
            Format::Text if several => {
                let game = listed(found.number(), &found.heading());
                Ok(listed::in_file(&shown(file), &game))
            }
            Format::Text => Ok(listed(found.number(), &found.heading())),
            Format::Json => {
                let (passage, reading) = found.read(strictly);
                json::line(&json::Entry::new(file, &passage, &reading))
            }
        },
        &mut |file, found, line| {
            let mut line = line?;
            count += 1;
            score.add(&finder, &found.heading());
            if arguments.format == Format::Text && count <= TRUST_TOLD {
                let reading = found.read(strictly).1;
                let mut faults = reading.faults.iter();
                if let Some(fault) = faults.find(|fault| fault.reason.concerns_encoding()) {
                    garbled.get_or_insert_with(|| excerpt::sentence(file, fault, shared.plain));
                }
                let trust = listed::trust(reading.trust());
                line.extend(trust.map(|trust| listed::with_trust(trust, shared.plain)));
            }
            lines.borrow_mut().say(&line)
        },
        &|| {
            // What cannot be written stays, and is refused again with the next line.
            let _ = lines.borrow_mut().flush();
            0
        },
    );
    lines.into_inner().flush()?;
    walked?;
    if let Some(said) = garbled {
        tell(&said);
    }
    if count > TRUST_TOLD && arguments.format == Format::Text {
        tell(&listed::trust_told(TRUST_TOLD));
    }
    if score.games.iter().sum::<usize>() > 0 && arguments.format == Format::Text {
        tell(&listed::player_counts(score.games, score.ended));
    }
    if let ([file], Format::Text, true) = (
        &pick.files[..],
        arguments.format,
        io::stdout().is_terminal(),
    ) {
        tell(&listed::how_to_hear(&shown(file)));
    }
    Ok(())
}

/// The games of the player who is looked for.
#[derive(Default)]
struct Score {
    /// With White, and with Black.
    games: [usize; 2],
    /// Won, drawn and lost.
    ended: [usize; 3],
}

impl Score {
    fn add(&mut self, finder: &Finder, heading: &Heading<'_>) {
        let Some(side) = finder.side(heading) else {
            return;
        };
        self.games[usize::from(side.is_black())] += 1;
        let ended = match heading.result() {
            Some(GameResult::WhiteWins) => usize::from(side.is_black()) * 2,
            Some(GameResult::BlackWins) => usize::from(side.is_white()) * 2,
            Some(GameResult::Draw) => 1,
            Some(GameResult::Unknown) | None => return,
        };
        self.ended[ended] += 1;
    }
}

/// What is said of a game; what is said of a whole file, as of its prose, has its sort.
type Said = (Option<Discriminant<Reason>>, String);

/// Reads a game strictly, and says what is at fault with it; where all is plain in words alone.
fn report(file: &Path, found: Found<'_>, plain: bool) -> (Reading, Vec<Said>) {
    let (passage, reading) = found.read(strictly);
    let mut said = Vec::new();
    for fault in &reading.faults {
        let is_of_file = fault.reason == Reason::Prose || fault.reason.concerns_encoding();
        let sort = is_of_file.then(|| discriminant(&fault.reason));
        said.push((sort, excerpt::sentence(file, fault, plain)));
        // A file of positions holds no text of a game.
        if !plain && !archives::is_named_as_positions(file) {
            let (_, sentence) = said.last_mut().expect("it was just said");
            sentence.extend(["\n", &excerpt::excerpt(&passage, fault)]);
        }
    }
    if let Some(letters) = &reading.letters {
        let letters = asides::letters(letters);
        said.push((
            None,
            if plain {
                in_words::at_line(&shown(file), passage.line, &letters)
            } else {
                format!("{}:{}: {letters}", shown(file), passage.line)
            },
        ));
    }
    (reading, said)
}

/// Reads every game strictly, tells every fault and closes with the counts.
fn check(pick: &Pick, shared: &Shared, screen: &mut Screen) -> Result<(), Failure> {
    let (mut games, mut plies, mut mended, mut broken) = (0, 0, 0, 0);
    let mut of_file = (PathBuf::new(), HashSet::new());
    let faults = Cell::new(0);
    let plain = shared.plain;
    let walked = pick.survey(
        shared,
        true,
        &|file, found| report(file, found, plain),
        &mut |file, _, (reading, said)| {
            games += 1;
            plies += reading.plies;
            faults.set(faults.get() + reading.faults.len());
            mended += usize::from(reading.trust() == Trust::Mended);
            broken += usize::from(reading.trust() == Trust::Broken);
            if of_file.0 != file {
                of_file = (file.to_owned(), HashSet::new());
            }
            for (sort, said) in said {
                if sort.is_none_or(|sort| of_file.1.insert(sort)) {
                    screen.say(Tone::Plain, &said)?;
                }
            }
            Ok(true)
        },
        &|| faults.get(),
    );
    if games > 0 {
        let said = listed::checked(games, plies, faults.get(), [mended, broken]);
        screen.say(Tone::Plain, &said)?;
    }
    walked?;
    all_whole(broken)
}

/// Fails where games lost moves.
fn all_whole(cut: usize) -> Result<(), Failure> {
    match cut {
        0 => Ok(()),
        _ => Err(Failure::GamesAtFault),
    }
}

/// Writes the games that fit, one after the other: a file whole or not at all. What is left out
/// behind a fault is told, and makes the exit code 1.
fn export(
    arguments: &Arguments,
    to: &Path,
    shared: &Shared,
    screen: &mut Screen,
) -> Result<(), Failure> {
    let mut lines = Lines::new(screen);
    let mut file = match to.to_str() {
        Some("-") => None,
        _ => Some(NewFile::begin(to)?),
    };
    // A text could steer a terminal.
    let cleans = io::stdout().is_terminal();
    let (mut games, mut cut) = (0, 0);
    let plain = shared.plain;
    let walked = arguments.pick.survey(
        shared,
        true,
        &|file, found| {
            let (passage, mut reading) = found.read(read_twice);
            let costly = reading
                .faults
                .iter()
                .filter(|fault| fault.cost > Cost::Nothing);
            let costly = costly.map(|fault| excerpt::sentence(file, fault, plain));
            let mut told: Vec<String> = costly.collect();
            for repair in reading.repairs(&passage) {
                told.push(match arguments.format {
                    Format::Text => listed::repaired(&shown(file), passage.number, &repair),
                    Format::Json => json::repair(file, passage.number, &repair)?,
                });
            }
            note_losses(&passage, &mut reading);
            Ok::<_, serde_json::Error>((strictly_written(&reading.game), told, reading.is_whole()))
        },
        &mut |_, _, done| {
            let (text, told, is_whole) = done?;
            games += 1;
            cut += usize::from(!is_whole);
            for fault in &told {
                tell(fault);
            }
            if let Some(file) = &mut file {
                file.write(&text)?;
                return Ok(true);
            }
            // A line brings its own end along.
            let text = &text[..text.len() - 1];
            if cleans {
                lines.say(&clean(text))
            } else {
                lines.say(text)
            }
        },
        &|| 0,
    );
    // Where the walk broke off, what came before is told of by the failure, and no file is made.
    walked?;
    lines.flush()?;
    file.map_or(Ok(()), NewFile::finish)?;
    tell(&listed::exported(games, cut));
    all_whole(cut)
}

/// Puts a comment where moves of a game were lost, with what stood there.
fn note_losses(passage: &Passage, reading: &mut Reading) {
    let costly = (reading.faults.iter()).filter(|fault| fault.cost > Cost::Nothing);
    for fault in costly.filter(|fault| fault.reason != Reason::LostBefore) {
        let mut all = reading.lost.iter();
        let found = all.find(|lost| lost.text.start == fault.span.start);
        let text = found.map(|lost| passage.decoded(lost.text.clone()));
        let text = clean_line(text.as_deref().unwrap_or_default());
        let text = text.replace('{', "(").replace('}', ")");
        let comment = listed::lost_moves(fault, &text);
        let game = &mut reading.game;
        match found.map_or_else(|| game.main_nodes().last(), |lost| lost.after) {
            Some(node) => game.node_mut(node).comments.push(comment),
            None => game.preface.push(comment),
        }
    }
}

/// Lines that go to the screen many at a time.
struct Lines<'a> {
    screen: &'a mut Screen,
    held: String,
}

impl<'a> Lines<'a> {
    /// How much is held back, in bytes.
    const MOST: usize = 1 << 15;

    const fn new(screen: &'a mut Screen) -> Lines<'a> {
        Lines {
            screen,
            held: String::new(),
        }
    }

    /// Says a line, soon.
    fn say(&mut self, line: &str) -> Result<bool, Failure> {
        self.held.push_str(line);
        self.held.push('\n');
        if self.held.len() > Lines::MOST {
            self.flush()?;
        }
        Ok(true)
    }

    fn flush(&mut self) -> Result<(), Failure> {
        if !self.held.is_empty() {
            self.screen.say(Tone::Plain, &self.held)?;
            self.held.clear();
        }
        Ok(())
    }
}
