//! Sheets to be heard: what is said, how long the silences are, and what is left after a failure.

use std::fs;
use std::os::unix::fs::PermissionsExt;
use std::path::Path;
use std::process::Command;

use crate::program::{CLUB, Desk, Said};
use hound::{SampleFormat, WavReader, WavSpec, WavWriter};

const RATE: u32 = 16_000;
/// Each sentence of the command below takes so many samples: 1.2345 seconds.
const SENTENCE: u64 = 19_752;

/// Puts a command on the desk that "speaks" every sentence as the same sound.
fn voice(desk: &Desk, spec: WavSpec, frames: u32) -> String {
    let sound = desk.path("one.wav");
    let mut writer = WavWriter::create(&sound, spec).unwrap();
    for _ in 0..frames * u32::from(spec.channels) {
        match spec.sample_format {
            SampleFormat::Int => writer.write_sample(1000_i16).unwrap(),
            SampleFormat::Float => writer.write_sample(0.25_f32).unwrap(),
        }
    }
    writer.finalize().unwrap();
    let script = format!(
        "#!/bin/sh\ncat > /dev/null\ncp '{}' \"$1\"\n",
        sound.display()
    );
    let path = desk.file("voice.sh", script);
    fs::set_permissions(&path, fs::Permissions::from_mode(0o755)).unwrap();
    format!("{path} FILE")
}

fn usual() -> WavSpec {
    WavSpec {
        channels: 1,
        sample_rate: RATE,
        bits_per_sample: 16,
        sample_format: SampleFormat::Int,
    }
}

/// The script's sentences and its silences in milliseconds.
fn script(desk: &Desk, exercise: &[&str]) -> (u64, Vec<u64>) {
    let said = desk.run(&[&["sheet", "--format", "script"], exercise].concat(), "");
    said.ends(0, &[]);
    let mut sentences = 0;
    let mut silences = Vec::new();
    for line in said.out.lines().filter(|line| !line.is_empty()) {
        match line.strip_prefix("[silence of ") {
            Some(rest) => {
                let seconds = rest.split(' ').next().unwrap();
                let (whole, part) = seconds.split_once('.').unwrap_or((seconds, ""));
                silences.push(format!("{whole}{part:0<3}").parse().unwrap());
            }
            None => sentences += 1,
        }
    }
    (sentences, silences)
}

fn make(desk: &Desk, voice: &str, exercise: &[&str]) -> Said {
    let out = desk.path("drill.wav");
    let words: Vec<&str> = voice.split(' ').collect();
    desk.wishes(&format!("speech_file = {words:?}"));
    let sheet = ["sheet", "--format", "wav", "--out", out.to_str().unwrap()];
    desk.run(&[&sheet[..], exercise].concat(), "")
}

fn samples(path: &Path) -> Vec<i16> {
    let reader = WavReader::open(path).unwrap();
    let spec = reader.spec();
    assert_eq!((spec.channels, spec.bits_per_sample), (1, 16));
    reader.into_samples::<i16>().map(Result::unwrap).collect()
}

#[test]
fn a_sound_is_as_long_as_its_sentences_and_its_silences() {
    let desk = Desk::new();
    let exercise = [
        "drill",
        "color,name",
        "--count",
        "4",
        "--seed",
        "7",
        "--think",
        "2.34",
    ];
    let (sentences, silences) = script(&desk, &exercise);
    assert_eq!(
        silences.iter().filter(|silence| **silence == 2_340).count(),
        4
    );
    let voice = voice(&desk, usual(), u32::try_from(SENTENCE).unwrap());
    make(&desk, &voice, &exercise).ends(0, &["4 questions in a sound of"]);
    let heard = samples(&desk.path("drill.wav"));
    let silent: u64 = silences
        .iter()
        .map(|millis| millis * u64::from(RATE) / 1000)
        .sum();
    assert_eq!(heard.len() as u64, sentences * SENTENCE + silent);
    assert_eq!(
        heard.iter().filter(|sample| **sample == 0).count() as u64,
        silent
    );
}

#[test]
fn chapters_tell_where_each_question_begins() {
    let desk = Desk::new();
    let voice = voice(&desk, usual(), RATE);
    let exercise = [
        "drill", "color", "--count", "2", "--seed", "7", "--think", "3",
    ];
    make(&desk, &voice, &exercise).ends(0, &[]);
    // Two sentences of a second with half a second behind each; then the question, three seconds, its
    // answer and two seconds more.
    let chapters = fs::read_to_string(desk.path("drill.txt")).unwrap();
    assert_eq!(
        chapters,
        "00:00:03.000 Question 1\n00:00:10.000 Question 2\n"
    );
}

#[test]
fn another_rate_and_more_channels_become_the_sound_of_the_first_sentence() {
    let desk = Desk::new();
    let spec = WavSpec {
        channels: 2,
        sample_rate: 8_000,
        bits_per_sample: 32,
        sample_format: SampleFormat::Float,
    };
    let voice = voice(&desk, spec, 8_000);
    make(
        &desk,
        &voice,
        &["drill", "color", "--count", "1", "--seed", "7"],
    )
    .ends(0, &[]);
    let heard = samples(&desk.path("drill.wav"));
    assert_eq!(heard[100], 8_192, "a quarter of the full swing");
    assert_eq!(heard.len(), 4 * 8_000 + 8_000 + 5 * 8_000 + 2 * 8_000);
}

#[test]
fn a_full_disk_leaves_a_whole_sound_up_to_there_and_that_is_said() {
    let desk = Desk::new();
    let voice = voice(&desk, usual(), RATE);
    let out = desk.path("drill.wav");
    // The shell's limit is counted in blocks of 512 bytes: 800 of them are 12.8 seconds.
    desk.wishes(&format!(
        "speech_file = {:?}",
        voice.split(' ').collect::<Vec<_>>()
    ));
    let limited = format!(
        "trap '' XFSZ; ulimit -f 800; exec '{}' sheet --format wav --out '{}' drill color --count 20 --seed 7",
        env!("CARGO_BIN_EXE_sansvoir"),
        out.display()
    );
    let mut shell = Command::new("sh");
    shell.args(["-c", &limited]);
    desk.place(&mut shell);
    let said = Said::of(shell, b"");
    said.ends(
        1,
        &["see whether the disk is full", "is a whole sound file"],
    );
    let heard = samples(&out);
    let whole = fs::metadata(&out).unwrap().len();
    assert_eq!(whole, 44 + 2 * heard.len() as u64);
    assert!(heard.len() > 100_000, "{}", heard.len());
}

#[test]
fn a_command_that_fails_or_leaves_no_sound_leaves_no_file() {
    let desk = Desk::new();
    let exercise = ["drill", "color", "--count", "1"];
    for (voice, words) in [
        ("false FILE", "false failed"),
        ("true FILE", "wrote no sound that can be read"),
        ("no-such-command FILE", "cannot be run"),
    ] {
        make(&desk, voice, &exercise).ends(1, &[words]);
        assert!(!desk.path("drill.wav").exists() && !desk.path("drill.txt").exists());
    }
    make(&desk, "espeak-ng -w", &exercise).ends(1, &["write FILE"]);
}

#[test]
fn files_that_are_there_are_never_overwritten() {
    let desk = Desk::new();
    let voice = voice(&desk, usual(), RATE);
    desk.file("drill.txt", "mine");
    make(&desk, &voice, &["drill", "color", "--count", "1"])
        .ends(1, &["there already", "delete it"]);
    assert!(!desk.path("drill.wav").exists());
    assert_eq!(fs::read_to_string(desk.path("drill.txt")).unwrap(), "mine");
    fs::remove_file(desk.path("drill.txt")).unwrap();
    make(&desk, &voice, &["drill", "color", "--count", "1"]).ends(0, &[]);
}

#[test]
fn a_script_says_moves_in_words_and_its_reasons_only_where_they_are_wished_for() {
    let desk = Desk::new();
    let exercise = ["replay", CLUB, "--seed", "208"];
    let said = |wishes: &str| {
        desk.wishes(&format!("announce = \"san\"\n{wishes}"));
        let sheet = ["sheet", "--format", "script"];
        desk.run(&[&sheet[..], &exercise].concat(), "").out
    };
    let (short, long) = (said(""), said("sheet_why = true"));
    assert!(
        short.contains("Move 1, White: pawn to e4. Black: pawn to e5.\n"),
        "{short}"
    );
    assert!(!short.contains("Its way is free to "), "{short}");
    assert!(long.contains("Its way is free to "), "{long}");
}
