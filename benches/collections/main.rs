//! How fast a large collection is listed, searched and checked. Run with `cargo bench --bench
//! collections`; `SANSVOIR_BENCH_MB` sets the size in megabytes (500). Each figure stands beside its
//! bound, measured in the same run, and beside the floor: reading the bytes and counting newlines.
//! `cargo test --bench collections -- --write FILE MEGABYTES` makes such a collection and measures nothing.

mod generator;

use std::fs::File;
use std::io::{self, BufWriter, Read, Write};
use std::ops::ControlFlow;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use pgn_reader::{RawTag, Reader, SanPlus, Skip, Visitor};
use shakmaty::{Chess, Position};

fn main() {
    let mut arguments = std::env::args().skip(1);
    if arguments.next().as_deref() == Some("--write") {
        let file = arguments.next().expect("--write FILE MEGABYTES");
        let megabytes = arguments.next().and_then(|text| text.parse::<u64>().ok());
        let bytes = megabytes.expect("--write FILE MEGABYTES") * 1_000_000;
        return write(Path::new(&file), bytes).expect("a collection");
    }
    let megabytes = std::env::var("SANSVOIR_BENCH_MB")
        .ok()
        .and_then(|text| text.parse().ok())
        .unwrap_or(500);
    let folder = std::env::temp_dir().join(format!("sansvoir-collection-{megabytes}"));
    std::fs::create_dir_all(&folder).expect("a folder");
    let file = folder.join("made-up.pgn");
    if !file.exists() {
        let unfinished = folder.join("unfinished");
        write(&unfinished, megabytes * 1_000_000).expect("a collection");
        std::fs::rename(unfinished, &file).expect("a collection");
    }
    measure(&file);
}

/// Writes about `bytes` bytes of games to `path`, the same for every run.
fn write(path: &Path, bytes: u64) -> io::Result<()> {
    let mut file = BufWriter::with_capacity(1 << 20, File::create(path)?);
    let mut written = 0;
    let mut number = 0;
    while written < bytes {
        number += 1;
        let game = generator::game(number);
        file.write_all(game.as_bytes())?;
        written += game.len() as u64;
    }
    file.flush()
}

fn measure(file: &Path) {
    let floor = best(|| newlines(file).expect("readable"));
    let tags = best(|| games(file, Players::default));
    let replay = best(|| games(file, || Replay));
    let (games, plies) = (tags.1, replay.1);
    println!("{games} games, {plies} plies of main lines");
    println!(
        "floor, reading and counting newlines   {:>8.1} ms",
        millis(floor.0)
    );
    println!(
        "bare PGN library, tags only            {:>8.1} ms",
        millis(tags.0)
    );
    println!(
        "bare PGN and rules libraries, replay   {:>8.1} ms",
        millis(replay.0)
    );
    let player = generator::player(7_654);
    let run = |name: &str, bound: Duration, arguments: &[&str]| {
        let done = (0..3)
            .map(|_| program(file, arguments))
            .min()
            .expect("three runs");
        println!(
            "{name:<38} {:>8.1} ms  {:>5.1} x the floor  {:>4} MB  {:>5.2} x its bound",
            millis(done.0),
            done.0.as_secs_f64() / floor.0.as_secs_f64(),
            done.1 / 1000,
            done.0.as_secs_f64() / bound.as_secs_f64()
        );
        done.0
    };
    let find = ["--player", player.as_str()];
    let last = games.to_string();
    run("listing all", tags.0, &[]);
    run("finding a player", tags.0, &find);
    run("the last game", tags.0, &["--game", &last]);
    let check = run("checking every game", replay.0, &["--check"]);
    let json = ["--format", "json"];
    run("all as JSON", check.mul_f64(1.6), &json);
}

fn millis(time: Duration) -> f64 {
    time.as_secs_f64() * 1000.0
}

/// Runs three times and returns the shortest time with the result.
fn best<T>(mut run: impl FnMut() -> T) -> (Duration, T) {
    let timed = |_| {
        let begin = Instant::now();
        let result = run();
        (begin.elapsed(), result)
    };
    let runs: Vec<_> = (0..3).map(timed).collect();
    runs.into_iter()
        .min_by_key(|(time, _)| *time)
        .expect("three runs")
}

fn newlines(file: &Path) -> io::Result<usize> {
    let mut file = File::open(file)?;
    let mut buffer = vec![0; 1 << 18];
    let mut count = 0;
    loop {
        match file.read(&mut buffer)? {
            0 => return Ok(count),
            read => count += memchr::memchr_iter(b'\n', &buffer[..read]).count(),
        }
    }
}

/// Runs `games` on the file and returns how long it took and the most memory that was resident, in
/// kilobytes, as `/proc` shows it (0 where there is none).
fn program(file: &Path, arguments: &[&str]) -> (Duration, usize) {
    let begin = Instant::now();
    let mut program = Command::new(env!("CARGO_BIN_EXE_sansvoir"))
        .arg("games")
        .arg(file)
        .args(arguments)
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .expect("the program starts");
    let status = PathBuf::from(format!("/proc/{}/status", program.id()));
    let (done, end) = std::sync::mpsc::channel();
    let peak = std::thread::spawn(move || {
        let mut peak = 0;
        while end.recv_timeout(Duration::from_millis(5)).is_err() {
            let text = std::fs::read_to_string(&status).unwrap_or_default();
            let line = text.lines().find_map(|line| line.strip_prefix("VmHWM:"));
            let number = line.and_then(|line| line.trim().trim_end_matches(" kB").parse().ok());
            peak = peak.max(number.unwrap_or(0));
        }
        peak
    });
    program.wait().expect("the program ends");
    let time = begin.elapsed();
    done.send(()).expect("somebody waits");
    (time, peak.join().expect("a number"))
}

/// Reads a file with the bare PGN library and sums what the visitor says of each game.
fn games<V: Visitor<Output = usize>>(file: &Path, visitor: impl Fn() -> V) -> usize {
    let mut reader = Reader::new(File::open(file).expect("readable"));
    let mut visitor = visitor();
    let mut sum = 0;
    while let Some(more) = reader.read_game(&mut visitor).expect("readable") {
        sum += more;
    }
    sum
}

/// Looks for a player among the tags, and passes over the moves.
#[derive(Default)]
struct Players {
    found: usize,
}

impl Visitor for Players {
    type Tags = ();
    type Movetext = ();
    type Output = usize;

    fn begin_tags(&mut self) -> ControlFlow<usize, ()> {
        ControlFlow::Continue(())
    }

    fn tag(&mut self, (): &mut (), name: &[u8], value: RawTag<'_>) -> ControlFlow<usize> {
        if matches!(name, b"White" | b"Black") && value.as_bytes() == b"Nobody, Nob" {
            self.found += 1;
        }
        ControlFlow::Continue(())
    }

    fn begin_movetext(&mut self, (): ()) -> ControlFlow<usize, ()> {
        ControlFlow::Break(1)
    }

    fn end_game(&mut self, (): ()) -> usize {
        1
    }
}

/// Plays the main line and counts its plies.
struct Replay;

impl Visitor for Replay {
    type Tags = ();
    type Movetext = (Chess, usize);
    type Output = usize;

    fn begin_tags(&mut self) -> ControlFlow<usize, ()> {
        ControlFlow::Continue(())
    }

    fn begin_movetext(&mut self, (): ()) -> ControlFlow<usize, (Chess, usize)> {
        ControlFlow::Continue((Chess::default(), 0))
    }

    fn san(&mut self, (position, plies): &mut (Chess, usize), san: SanPlus) -> ControlFlow<usize> {
        let mv = san.san.to_move(position).expect("legal");
        position.play_unchecked(mv);
        *plies += 1;
        ControlFlow::Continue(())
    }

    fn begin_variation(&mut self, _: &mut (Chess, usize)) -> ControlFlow<usize, Skip> {
        ControlFlow::Continue(Skip(true))
    }

    fn end_game(&mut self, (_, plies): (Chess, usize)) -> usize {
        plies
    }
}
