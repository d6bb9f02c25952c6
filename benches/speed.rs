//! How fast the main job is. Run with `cargo bench`; each figure stands beside its floor, the least
//! that such work costs on the same machine in the same run.

use std::hint::black_box;
use std::io::{BufRead, BufReader, Read};
use std::path::Path;
use std::process::{Command, Stdio};

use divan::Bencher;
use sansvoir::game::{Line, Start};
use sansvoir::notation::{Collection, Passage, read};
use sansvoir::question::{Kind, Scene};
use sansvoir::session::{Dice, choose};
use shakmaty::san::San;

fn main() {
    divan::main();
}

/// Bogoljubov - Alekhine, Hastings 1922: 106 plies (Alekhine, My Best Games of Chess).
const LONG_GAME: &str = "d4 f5 c4 Nf6 g3 e6 Bg2 Bb4+ Bd2 Bxd2+ Nxd2 Nc6 Ngf3 O-O O-O d6 \
    Qb3 Kh8 Qc3 e5 e3 a5 b3 Qe8 a3 Qh5 h4 Ng4 Ng5 Bd7 f3 Nf6 f4 e4 Rfd1 h6 Nh3 d5 Nf1 Ne7 a4 Nc6 \
    Rd2 Nb4 Bh1 Qe8 Rg2 dxc4 bxc4 Bxa4 Nf2 Bd7 Nd2 b5 Nd1 Nd3 Rxa5 b4 Rxa8 bxc3 Rxe8 c2 Rxf8+ Kh7 \
    Nf2 c1=Q+ Nf1 Ne1 Rh2 Qxc4 Rb8 Bb5 Rxb5 Qxb5 g4 Nf3+ Bxf3 exf3 gxf5 Qe2 d5 Kg8 h5 Kh7 e4 Nxe4 \
    Nxe4 Qxe4 d6 cxd6 f6 gxf6 Rd2 Qe2 Rxe2 fxe2 Kf2 exf1=Q+ Kxf1 Kg7 Kf2 Kf7 Ke3 Ke6 Ke4 d5+ 0-1";

fn long_line() -> Line {
    let mut line = Line::new(Start::standard());
    for text in LONG_GAME.split_whitespace() {
        let Ok(san) = text.parse::<San>() else {
            continue;
        };
        line.push(san.to_move(line.end()).expect(text)).expect(text);
    }
    line
}

/// One game of 106 plies: the strict reading, beside the PGN library's own skim of the same text.
mod reading_one_game {
    use super::{Bencher, LONG_GAME, Passage, black_box, read};
    use sansvoir::notation::count_plies;

    #[divan::bench]
    fn strictly(bencher: Bencher<'_, '_>) {
        let passage = Passage::only(LONG_GAME);
        bencher.bench(|| black_box(read(&passage)).game.node_count());
    }

    #[divan::bench]
    fn floor_tokens_of_the_pgn_library(bencher: Bencher<'_, '_>) {
        let passage = Passage::only(LONG_GAME);
        bencher.bench(|| count_plies(black_box(&passage)));
    }
}

/// A checkpoint of three questions of any kind, chosen and solved, beside one round of move generation.
mod checkpoint {
    use super::{Bencher, Dice, Kind, Scene, black_box, choose, long_line};
    use shakmaty::Position;

    #[divan::bench(args = [10, 40, 70])]
    fn choosing_and_solving_three_questions(bencher: Bencher<'_, '_>, plies: usize) {
        let line = long_line();
        bencher.bench(|| {
            let scene = Scene::new(&line, plies);
            let mut dice = Dice::new(1, 1);
            let questions = choose(scene, &Kind::LINE, 3, &mut dice);
            let truths = questions.iter().map(|question| question.truth(scene));
            black_box(truths.collect::<Vec<_>>())
        });
    }

    #[divan::bench(args = [10, 40, 70])]
    fn floor_generating_the_legal_moves(bencher: Bencher<'_, '_>, plies: usize) {
        let line = long_line();
        bencher.bench(|| black_box(line.position(plies)).legal_moves());
    }
}

/// From the start of the program to its first words, beside a program that only says its version.
mod starting {
    use super::{Bencher, BufRead, BufReader, Command, Path, Read, Stdio};

    fn first_line(arguments: &[&str]) -> String {
        let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("games-demo");
        let data = std::env::temp_dir().join("sansvoir-bench");
        let mut program = Command::new(env!("CARGO_BIN_EXE_sansvoir"))
            .args(arguments)
            .current_dir(demo)
            .env("SANSVOIR_DATA", data)
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .spawn()
            .expect("the program starts");
        let mut output = BufReader::new(program.stdout.take().expect("a pipe"));
        let mut line = String::new();
        output.read_line(&mut line).expect("a line");
        std::io::copy(&mut output.take(1 << 20), &mut std::io::sink()).expect("the rest");
        program.wait().expect("the program ends");
        line
    }

    #[divan::bench]
    fn to_the_end_of_a_replay_without_replies(bencher: Bencher<'_, '_>) {
        bencher.bench(|| first_line(&["replay", "club-evening.pgn", "--game", "1"]));
    }

    #[divan::bench]
    fn floor_saying_the_version(bencher: Bencher<'_, '_>) {
        bencher.bench(|| first_line(&["--version"]));
    }
}

/// The demo collection, split and read strictly, beside reading its bytes.
mod demo_collection {
    use super::{Bencher, Collection, Path, black_box, read};

    fn text() -> Vec<u8> {
        let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("games-demo/club-evening.pgn");
        std::fs::read(demo).expect("the demo games")
    }

    #[divan::bench]
    fn split_and_read(bencher: Bencher<'_, '_>) {
        let text = text();
        bencher.bench(|| {
            Collection::new(text.as_slice())
                .map(|passage| read(&passage.expect("readable")).game.node_count())
                .sum::<usize>()
        });
    }

    #[divan::bench]
    fn floor_counting_newlines(bencher: Bencher<'_, '_>) {
        let text = text();
        bencher.bench(|| {
            black_box(&text)
                .iter()
                .fold(0, |lines: usize, byte| lines + usize::from(*byte == b'\n'))
        });
    }
}
