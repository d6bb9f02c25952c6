//! Positions are chosen because something happens in the plies that follow.

use sansvoir::exercise::bound::Within;
use sansvoir::exercise::{Hardness, Show};
use sansvoir::game::Line;
use sansvoir::question::{Check, LineQuestion, Scene};

use super::learner::{passes, play, published, settings};

/// Whether a stretch has a capture, a check, or a line that opens or closes.
#[derive(Clone, Copy, Debug, Default)]
struct Counts {
    stretches: f64,
    captures: f64,
    checks: f64,
    either: f64,
    lines: f64,
}

impl Counts {
    fn add(&mut self, line: &Line, from: usize, to: usize) {
        let plies = &line.plies()[from..to];
        let question = LineQuestion::Check(Check {});
        let changed = Hardness::new(question, Scene::new(line, to), to - from);
        let one = |it: bool| f64::from(u8::from(it));
        self.stretches += 1.0;
        let captures = plies.iter().any(|ply| ply.taken_on().is_some());
        let checks = plies.iter().any(|ply| ply.san.suffix.is_some());
        self.captures += one(captures);
        self.checks += one(checks);
        self.either += one(captures || checks);
        self.lines += one(changed.opened + changed.closed > 0);
    }

    fn shares(self) -> [f64; 4] {
        [self.captures, self.checks, self.either, self.lines].map(|count| count / self.stretches)
    }
}

/// Every stretch of both games, as a choice by chance alone would take them.
fn by_chance(plies: usize) -> Counts {
    let mut counts = Counts::default();
    for script in published() {
        let line = script.line(0).unwrap();
        for from in 0..=line.len() - plies {
            counts.add(&line, from, from + plies);
        }
    }
    counts
}

/// The stretches that 60 sessions of two rounds chose.
fn chosen(plies: usize) -> Counts {
    let mut counts = Counts::default();
    let games: Vec<Line> = published()
        .iter()
        .map(|script| script.line(0).unwrap())
        .collect();
    for seed in 1000..1060 {
        let mut settings = settings(seed);
        settings.plies = Some(Within::nearest(plies));
        settings.rounds = Within::nearest(2);
        settings.show = Show::Diagram;
        for shown in play(&settings, passes).shown {
            let line = &games[shown.game.unwrap()];
            let fen = shown.start.fen();
            let from = (0..line.len())
                .find(|at| sansvoir::game::fen_of(line.position(*at)) == fen)
                .expect("the position is from the game");
            counts.add(line, from, from + plies);
        }
    }
    counts
}

// Measured, chosen against every stretch of both games: over 2 plies a capture on .78 (.37), a check on
// .60 (.16), a line that opens or closes on .88 (.79); over 4 plies .93 (.54), .83 (.24), .93 (.82).
#[test]
fn something_happens_on_the_chosen_stretches_more_often_than_by_chance() {
    for plies in [2, 4] {
        let [captures, checks, either, lines] = chosen(plies).shares();
        let [any_captures, any_checks, any_either, any_lines] = by_chance(plies).shares();
        println!(
            "{plies} plies: captures {captures:.2} ({any_captures:.2}), checks {checks:.2} \
             ({any_checks:.2}), either {either:.2} ({any_either:.2}), lines {lines:.2} ({any_lines:.2})"
        );
        assert!(either > 0.97, "either on {either:.2}");
        assert!(
            captures > any_captures * 1.5 || captures > 0.95,
            "{captures:.2}"
        );
        assert!(checks > any_checks * 2.0, "{checks:.2}");
        assert!(lines > any_lines + 0.05, "{lines:.2}");
    }
}
