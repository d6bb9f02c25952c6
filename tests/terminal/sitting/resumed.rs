//! What a session that goes on takes from the journal: how it was told, and numbers within bounds.

use serde_json::Value;

use super::{GO_ON, Learner};
use crate::program::{CLUB, Desk, Said};

/// Every exercise that moves or boards are told in, by a command that begins it.
const TOLD: [&[&str]; 4] = [
    &["replay", CLUB, "--seed", "208"],
    &["recite", CLUB, "--side", "black"],
    &["ahead", CLUB, "--seed", "1", "--plies", "3"],
    &[
        "ahead", CLUB, "--game", "all", "--mate", "1", "--show", "none", "--seed", "1",
    ],
];
/// The files as Black sees them.
const BLACK: &str = "h  g  f  e  d  c  b  a";
const FEW: [&str; 4] = ["drill", "few", "--seed", "1"];

#[test]
fn a_session_goes_on_as_it_was_told_unless_an_option_says_otherwise() {
    for begin in TOLD {
        // In mid-session, and then what shows how moves and the board are told.
        let resumed = |given: &[&str]| {
            let desk = Desk::new();
            desk.wishes("announce = \"san\"\nview = \"black\"\n");
            desk.run(begin, "pass\n").ends(0, &[]);
            desk.wishes("announce = \"long\"\n");
            let resume = [&[begin[0], "--resume"], given].concat();
            let said = desk.run(&resume, "look\nagain\nstop\n");
            said.ends(0, &[]);
            said.out
        };
        let as_begun = resumed(&[]);
        assert!(as_begun.contains(BLACK), "{as_begun}");
        assert!(!as_begun.contains("-e"), "{as_begun}");
        // The side of a recital is what it is about, and cannot change.
        if begin[0] != "recite" {
            assert_eq!(as_begun, resumed(&["--side", "black"]), "{begin:?}");
            assert_ne!(as_begun, resumed(&["--side", "white"]), "{begin:?}");
        }
    }
}

#[test]
fn what_the_config_file_said_at_the_beginning_holds_for_the_session() {
    let begun = |desk: &Desk| {
        let mut command = desk.program(&FEW);
        let wishes = desk.file("wishes.toml", "announce = \"san\"\nview = \"black\"\n");
        command.env("SANSVOIR_CONFIG", &wishes);
        Said::of(command, b"pass\n").ends(0, &[]);
    };
    let desk = Desk::new();
    begun(&desk);
    let said = desk.run(&["drill", "--resume"], "look\nagain\nstop\n");
    assert!(said.out.contains(BLACK), "{said:?}");
    assert!(said.out.contains("Qxg5+"), "{said:?}");
}

#[test]
fn a_part_of_a_lesson_goes_on_as_its_file_says() {
    let desk = Desk::new();
    let club = std::path::absolute(CLUB).unwrap();
    let part = "exercise = \"replay\"\nannounce = \"san\"\nview = \"black\"\nseed = 24\n";
    let text = format!("[[part]]\nfiles = [{:?}]\n{part}", club.to_str().unwrap());
    let file = desk.file("lesson.toml", text);
    desk.run(&["lesson", &file], "pass\n").ends(0, &[]);
    let said = desk.run(&["lesson", "--resume"], "look\nagain\nstop\n");
    assert!(said.out.contains(BLACK), "{said:?}");
    assert!(said.out.contains("4. Nf3 Nxe4"), "{said:?}");
}

#[test]
fn a_pace_goes_on_too() {
    for begin in [&TOLD[0], &TOLD[2]] {
        let desk = Desk::new();
        desk.wishes("pace = 0.01\n");
        desk.run(begin, "pass\n".repeat(3)).ends(0, &[]);
        desk.wishes("");
        let mut learner = Learner::sits(desk.program(&[begin[0], "--resume", "--plain"]));
        learner.types("pass").sees("Passed.");
        learner.types("stop").sees("Stopped.");
        let seen = learner.leaves();
        assert!(!seen.contains(GO_ON), "{seen}");
    }
}

/// The places of all numbers in a value, as JSON pointers; of long lists the first ones are enough.
fn numbers(value: &Value, place: &str, found: &mut Vec<String>) {
    match value {
        Value::Number(_) => found.push(place.to_owned()),
        Value::Array(values) => {
            for (at, value) in values.iter().enumerate().take(2) {
                numbers(value, &format!("{place}/{at}"), found);
            }
        }
        Value::Object(fields) => {
            for (name, value) in fields {
                numbers(value, &format!("{place}/{name}"), found);
            }
        }
        Value::Null | Value::Bool(_) | Value::String(_) => {}
    }
}

#[test]
#[cfg(target_os = "linux")]
fn no_number_in_a_start_record_takes_memory_or_time_or_the_program_down() {
    let limits = ["--think", "9", "--questions", "2"];
    let begins: [&[&str]; 6] = [
        &[TOLD[0], &limits, &["--sidelines"]].concat(),
        &[TOLD[1], &["--think", "9", "--every", "6"]].concat(),
        &[TOLD[2], &limits].concat(),
        &[TOLD[3], &limits[..2]].concat(),
        &["drill", "color,route", "--think", "9"],
        &[&FEW[..], &limits[..2]].concat(),
    ];
    // Most of the time is waited: for many processes, one after the other.
    std::thread::scope(|scope| {
        for begin in begins {
            scope.spawn(move || numbers_do_no_harm(begin));
        }
    });
}

/// Goes on with a session that begins so, with numbers in the journal that nobody wrote.
#[cfg(target_os = "linux")]
fn numbers_do_no_harm(begin: &[&str]) {
    let desk = Desk::new();
    desk.wishes("pace = 0.01\n");
    desk.run(begin, "").ends(0, &[]);
    let mut start = desk.records().swap_remove(0);
    // A part of a lesson may allow so many looks.
    for plan in start["plan"]["plan"].as_object_mut().unwrap().values_mut() {
        for place in ["/looks", "/settings/looks"] {
            if let Some(looks) = plan.pointer_mut(place) {
                *looks = 3.into();
            }
        }
    }
    let mut places = Vec::new();
    numbers(&start["plan"], "/plan", &mut places);
    assert!(places.len() > 2, "{start}");
    let mut refused = 0;
    for place in places.iter().map(String::as_str).chain(["/seed"]) {
        for number in ["18446744073709551615", "4294967296", "-1", "0", "1e300"] {
            let mut hostile = start.clone();
            if !place.ends_with("/pace") {
                // Whoever reads at a pace takes a time for it.
                hostile["plan"]["telling"]["pace"] = Value::Null;
            }
            *hostile.pointer_mut(place).unwrap() = serde_json::from_str(number).unwrap();
            std::fs::write(desk.journal(), format!("{hostile}\n")).unwrap();
            let mut command = std::process::Command::new("sh");
            command
                .args(["-c", "ulimit -v 1000000; exec timeout 60 \"$@\"", "sh"])
                .arg(env!("CARGO_BIN_EXE_sansvoir"))
                .args([begin[0], "--resume"]);
            desk.place(&mut command);
            let said = Said::of(command, b"pass\npass\nlook\n");
            if said.code == Some(1) {
                let line = if place == "/seed" {
                    "learner.jsonl:line 1 "
                } else {
                    "learner.jsonl:1: "
                };
                said.ends(1, &[line]);
                refused += 1;
            } else {
                let is_bound = place.ends_with("/looks") || place.ends_with("/think_millis");
                assert!(!is_bound || number == "0", "{place} {number}");
                said.ends(0, &[]);
            }
        }
    }
    assert!(refused > 0, "{begin:?}");
}
