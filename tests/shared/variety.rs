//! What is asked, counted over thousands of questions: each kind alone, over the demo games and made-up ones, at
//! checkpoints, in rounds and in drills.

use std::collections::{BTreeMap, HashMap};
use std::fmt;

use sansvoir::exercise::bound::Within;
use sansvoir::exercise::{
    Ahead, AheadSettings, Answered, Awaits, Dice, DrillSettings, Exercise, Few, FewSettings, Input,
    Output, Script, Session, Show, Staircase, Views, choose, deal,
};
use sansvoir::game::{Line, Start};
use sansvoir::pgn::{Collection, read};
use sansvoir::question::{Exchange, Kind, LineQuestion, Question, Reason, Scene, Truth, worth};
use shakmaty::{CastlingMode, Chess, Move, Position};

#[path = "../../benches/collections/generator.rs"]
mod generator;

/// So many questions of a kind are counted, where the games hold so many.
const ENOUGH: usize = 2_000;

/// The questions of one kind in one place.
pub(crate) struct Row {
    pub(crate) place: &'static str,
    pub(crate) kind: Kind,
    /// How often each truth came.
    pub(crate) truths: BTreeMap<String, usize>,
    /// The truths in the order in which they came.
    pub(crate) in_order: Vec<String>,
    /// How many had another answer before the plies of their round.
    pub(crate) changed: usize,
}

impl Row {
    fn new(place: &'static str, kind: Kind) -> Row {
        Row {
            place,
            kind,
            truths: BTreeMap::new(),
            in_order: Vec::new(),
            changed: 0,
        }
    }

    fn add(&mut self, truth: &Truth) -> bool {
        let told = told(truth);
        self.in_order.push(told.clone());
        *self.truths.entry(told).or_default() += 1;
        self.all() >= ENOUGH
    }

    /// Tells, once an eighth of the `goes` are done, whether all of them would bring fewer questions than `telling`.
    fn is_too_rare(&self, done: u64, goes: u64, telling: usize) -> bool {
        done * 8 >= goes && self.all() as u64 * goes < telling as u64 * done
    }

    pub(crate) fn all(&self) -> usize {
        self.truths.values().sum()
    }

    /// How many in a hundred have this truth.
    fn share(&self, truth: &str) -> f64 {
        percent(self.truths.get(truth).copied().unwrap_or(0), self.all())
    }

    /// How many in a hundred have the answer `none`, `empty` or `even`.
    pub(crate) fn dull(&self) -> f64 {
        ["[]", "null", "0", "\"\""]
            .map(|dull| self.share(dull))
            .iter()
            .sum()
    }
}

impl fmt::Display for Row {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Row { place, kind, .. } = self;
        let (all, dull, changed) = (self.all(), self.dull(), percent(self.changed, self.all()));
        write!(to, "{place:7} {kind:12} {all:5} {dull:5.1} {changed:5.1} ")?;
        let mut truths: Vec<_> = self.truths.iter().collect();
        truths.sort_by_key(|(_, count)| std::cmp::Reverse(**count));
        for (truth, count) in truths.iter().take(3) {
            write!(to, " {:4.1} {truth}", percent(**count, all))?;
        }
        Ok(())
    }
}

pub(crate) fn percent(hits: usize, of: usize) -> f64 {
    let number = |count| f64::from(u32::try_from(count).unwrap());
    100.0 * number(hits) / number(of.max(1))
}

/// What a truth comes to, without what a reply may leave out: its reason, its optional squares.
fn told(truth: &Truth) -> String {
    let mut json = serde_json::to_value(truth).unwrap();
    let fields = json.as_object_mut().unwrap();
    fields.retain(|name, _| !["optional", "reason", "by"].contains(&name.as_str()));
    match fields.values().next() {
        Some(value) if fields.len() == 1 => value.to_string(),
        _ => json.to_string(),
    }
}

/// The demo games, and games made up by chance.
pub(crate) fn collections() -> [(&'static str, Vec<Line>); 2] {
    let demo = include_str!("../../games-demo/club-evening.pgn").to_owned();
    let more = include_str!("../../games-demo/first-steps.pgn").to_owned();
    let lines = |texts: Vec<String>| {
        let games = texts
            .iter()
            .flat_map(|text| Collection::new(text.as_bytes()));
        games
            .map(|passage| read(&passage.unwrap()).game.main_line())
            .collect()
    };
    let made_up = (1..=200).map(generator::game).collect();
    [
        ("demo", lines(vec![demo, more])),
        ("made up", lines(made_up)),
    ]
}

/// Counts the questions at checkpoints after every eighth ply.
fn at_checkpoints(
    place: &'static str,
    lines: &[Line],
    kind: Kind,
    seed: u64,
    telling: usize,
) -> Row {
    let mut row = Row::new(place, kind);
    for go in 0..GOES {
        let is_enough = each_checkpoint(lines, kind, seed, go, &mut |scene, question| {
            row.add(&question.truth(scene))
        });
        if is_enough || row.is_too_rare(go + 1, GOES, telling) {
            break;
        }
    }
    row
}

/// Goes once through the questions at checkpoints after every eighth ply, and tells whether `look` has enough.
pub(crate) fn each_checkpoint(
    lines: &[Line],
    kind: Kind,
    seed: u64,
    go: u64,
    look: &mut impl FnMut(Scene<'_>, LineQuestion) -> bool,
) -> bool {
    // Not after the same plies each time.
    let first = 8 + usize::try_from(go % 8).unwrap();
    lines.iter().enumerate().any(|(number, line)| {
        let mut places = (first..=line.len()).step_by(8);
        places.any(|plies| {
            let scene = Scene::new(line, plies);
            let mut dice = Dice::new(seed + go, (number * 1000 + plies) as u64);
            let asked = choose(scene, None, true, &[kind], 2, &mut dice);
            asked.into_iter().any(|question| look(scene, question))
        })
    })
}

/// Counts the questions of rounds of `ahead`, over two plies, four and so on up to eight.
fn ahead(place: &'static str, games: &[Script], kind: Kind, seed: u64, telling: usize) -> Row {
    let mut row = Row::new(place, kind);
    for go in 0..SESSIONS {
        let mut settings = ahead_settings(games, vec![kind], 1, seed, go);
        if place == LONG {
            // What was refused at first is looked at again.
            settings.rounds = Within::nearest(50);
            settings.games = games.to_vec();
        }
        let is_enough = Ahead::new(settings).is_ok_and(|ahead| row.hold(Session::new(ahead)));
        if is_enough || row.is_too_rare(go + 1, SESSIONS, telling) {
            break;
        }
    }
    row
}

fn ahead_settings(
    games: &[Script],
    ask: Vec<Kind>,
    per_round: usize,
    seed: u64,
    go: u64,
) -> AheadSettings {
    let turn = usize::try_from(go).unwrap();
    AheadSettings {
        games: vec![games[turn % games.len()].clone()],
        show: Show::Diagram,
        plies: Some(Within::nearest(2 + 2 * (turn / 16 % 4))),
        staircase: Staircase::default(),
        rounds: Within::nearest(8),
        per_round: Within::nearest(per_round),
        ask,
        think_millis: None,
        looks: None,
        seed: seed + go,
        follow: false,
    }
}

/// Counts how often each truth of a move to judge comes in rounds of questions of several kinds: why the move is
/// illegal, or nothing where it is legal.
pub(crate) fn judged(ask: &[Kind], seed: u64) -> HashMap<Option<Reason>, usize> {
    let games: Vec<Script> = collections()[0].1.iter().map(Script::of_line).collect();
    let mut judged = HashMap::new();
    for go in 0..SESSIONS {
        let settings = ahead_settings(&games, ask.to_vec(), ask.len() - 1, seed, go);
        each_answer(Session::new(Ahead::new(settings).unwrap()), |answered| {
            let reason = match &answered.truth {
                Truth::Legal(_) => None,
                Truth::Illegal { illegal, .. } => Some(illegal.reason),
                _ => return,
            };
            *judged.entry(reason).or_default() += 1;
        });
    }
    judged
}

/// Counts the questions of a drill over a few pieces, with four plies played on.
fn few(kind: Kind, seed: u64, telling: usize) -> Row {
    let mut row = Row::new("few", kind);
    for go in 0..4 {
        let few = Few::new(few_settings(kind, seed + go));
        let is_enough = few.is_ok_and(|few| row.hold(Session::new(few)));
        if is_enough || row.is_too_rare(go + 1, 4, telling) {
            break;
        }
    }
    row
}

fn few_settings(kind: Kind, seed: u64) -> FewSettings {
    // These are so rare there that to find many takes long.
    let is_rare = [Kind::Check, Kind::Mate].contains(&kind);
    FewSettings {
        pieces: Within::nearest(6),
        plies: Within::nearest(4),
        count: Within::nearest(if is_rare { 50 } else { 500 }),
        per_round: Within::nearest(1),
        ask: vec![kind],
        think_millis: None,
        looks: None,
        seed,
        from: None,
        follow: false,
    }
}

impl Row {
    /// Counts the questions of a session, unless it asks the one that it has for want of a better.
    fn hold(&mut self, session: Session) -> bool {
        let mut all = Vec::new();
        each_answer(session, |answered| {
            all.push((answered.truth.clone(), changed(answered)));
        });
        let counts = if all.len() > 1 { all.len() } else { 0 };
        all.iter().take(counts).any(|(truth, changed)| {
            self.changed += usize::from(*changed);
            self.add(truth)
        })
    }
}

/// Gives every question of a session up.
fn each_answer(mut session: Session, mut look: impl FnMut(&Answered)) {
    session.begin();
    while session.awaits() != Awaits::Nothing {
        let outputs = session.hear(match session.awaits() {
            Awaits::Reply => Input::Pass { millis: 0 },
            _ => Input::GoOn,
        });
        for output in outputs {
            if let Output::Answered(answered) = output {
                look(&answered);
            }
        }
    }
}

/// Tells whether a learner who still looked at the board that was given would be wrong; with the other side to move
/// there, at the board one ply later.
fn changed(answered: &Answered) -> bool {
    let Question::Line(question) = answered.question else {
        return false;
    };
    let line = line(answered);
    question.kind() == Kind::Played
        || question.truth(Scene::new(&line, line.len() % 2)) != answered.truth
}

fn line(answered: &Answered) -> Line {
    let setting = answered.setting.as_ref().unwrap();
    let mode = CastlingMode::from_chess960(setting.chess960);
    let start = Start::from_fen(&setting.start, mode).unwrap();
    let mut line = Line::new(start);
    for uci in &setting.moves {
        line.push(uci.to_move(line.end()).unwrap()).unwrap();
    }
    line
}

/// How many of a hundred plies that `few` plays on give a piece away for nothing: the other side wins a knight's worth
/// or more on one square, what the ply took counted, and a move was there that loses less.
pub(crate) fn given_away(seed: u64) -> f64 {
    let (mut given, mut all) = (0, 0);
    for go in 0..4 {
        let few = Few::new(few_settings(Kind::Rebuild, seed + go)).unwrap();
        each_answer(Session::new(few), |answered| {
            let line = line(answered);
            for (number, ply) in line.plies().iter().enumerate() {
                let before = line.position(number);
                let least = before
                    .legal_moves()
                    .iter()
                    .map(|mv| loss(before, *mv))
                    .min();
                let lost = loss(before, ply.mv);
                all += 1;
                given += usize::from(lost >= 3 && least.unwrap() < lost);
            }
        });
    }
    percent(given, all)
}

/// What the other side wins after a move by taking on one square, less what the move took.
fn loss(before: &Chess, mv: Move) -> i32 {
    let mut line = Line::new(Start::new(before.clone()));
    line.push(mv).unwrap();
    let ply = line.plies()[0];
    let won = ply.taken().map_or(0, |(_, piece)| worth(piece.role));
    let promoted = mv.promotion().map_or(0, |role| worth(role) - 1);
    let scene = Scene::new(&line, 1);
    let squares = scene.position().them().into_iter();
    let squares = squares.filter(|square| Exchange::can_begin(scene, *square));
    let most = squares
        .map(|square| {
            LineQuestion::Exchange(Exchange { square })
                .truth(scene)
                .points()
        })
        .max();
    most.unwrap_or(0).max(0) - won - promoted
}

/// Counts the questions of a drill over the bare board.
fn drilled(kind: Kind, seed: u64) -> Row {
    let mut row = Row::new("drill", kind);
    for question in deal(&drill(kind, seed), ENOUGH) {
        row.add(&question.truth());
    }
    row
}

/// A drill of one kind as it is without a wish.
pub(crate) fn drill(kind: Kind, seed: u64) -> DrillSettings {
    DrillSettings {
        kinds: vec![kind],
        count: Within::nearest(1_000),
        view: Views::Both,
        think_millis: None,
        pieces: Vec::new(),
        blockers: Within::nearest(0),
        seed,
        weak: Vec::new(),
        chosen: Vec::new(),
        teach: false,
        follow: false,
    }
}

/// Goes so often through the games: a kind that is still rare then is so for good.
pub(crate) const GOES: u64 = 50;
/// Rounds of `ahead` over all games, as many as they have.
const LONG: &str = "long";
/// So many sessions of `ahead` are held.
const SESSIONS: u64 = 260;

/// Counts all. A row that would not come to `telling` questions is given up early, and holds those that it has.
pub(crate) fn table(seed: u64, telling: usize) -> Vec<Row> {
    let mut rows: Vec<Row> = Kind::BARE
        .into_iter()
        .map(|kind| drilled(kind, seed))
        .collect();
    let collections = collections();
    let games: Vec<Script> = collections[0].1.iter().map(Script::of_line).collect();
    let of_kind = |kind: &Kind| {
        let mut rows = Vec::new();
        for (place, lines) in &collections {
            rows.push(at_checkpoints(place, lines, *kind, seed, telling));
        }
        rows.push(ahead("ahead", &games, *kind, seed, telling));
        if [Kind::Rights, Kind::Taken].contains(kind) {
            rows.push(ahead(LONG, &games, *kind, seed, telling));
        }
        rows.push(few(*kind, seed, telling));
        rows
    };
    // Neighbors take about as long as each other.
    let count = |first| {
        let kinds = Kind::LINE.iter().skip(first).step_by(2);
        kinds.flat_map(of_kind).collect::<Vec<Row>>()
    };
    std::thread::scope(|scope| {
        let second = scope.spawn(|| count(1));
        rows.extend(count(0));
        rows.extend(second.join().expect("every row is counted"));
    });
    rows
}
