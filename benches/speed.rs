//! How fast the main job is. Run with `cargo bench`; each figure stands beside its floor, the least
//! that such work costs on the same machine in the same run.

use std::hint::black_box;
use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Child, Command, Stdio};

use divan::Bencher;
use sansvoir::exercise::{Dice, choose};
use sansvoir::game::{Line, Start};
use sansvoir::pgn::{Collection, read};
use sansvoir::question::{Kind, Scene};
use shakmaty::san::San;

#[path = "../tests/shared/passages.rs"]
mod passages;

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
    use super::passages::{count_plies, only};
    use super::{Bencher, LONG_GAME, black_box, read};

    #[divan::bench]
    fn strictly(bencher: Bencher<'_, '_>) {
        let passage = only(LONG_GAME);
        bencher.bench(|| black_box(read(&passage)).game.ids().count());
    }

    #[divan::bench]
    fn floor_tokens_of_the_pgn_library(bencher: Bencher<'_, '_>) {
        let passage = only(LONG_GAME);
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
        let mut checkpoint = 0;
        bencher.bench_local(|| {
            let scene = Scene::new(&line, plies);
            // Another seed each time, so that every kind has its turn.
            checkpoint += 1;
            let mut dice = Dice::new(1, checkpoint);
            let questions = choose(scene, None, true, &Kind::LINE, 3, &mut dice);
            let truths = questions.iter().map(|question| question.truth(scene));
            black_box(truths.collect::<Vec<_>>())
        });
    }

    /// One question of every kind over a position, all solved.
    #[divan::bench(args = [10, 40, 70])]
    fn solving_a_question_of_every_kind(bencher: Bencher<'_, '_>, plies: usize) {
        let line = long_line();
        let scene = Scene::new(&line, plies);
        let one_of = |kind| {
            let mut seeds = 0..50;
            seeds.find_map(|seed| {
                choose(scene, None, false, &[kind], 1, &mut Dice::new(seed, 1)).pop()
            })
        };
        let questions: Vec<_> = Kind::LINE.into_iter().filter_map(one_of).collect();
        bencher.bench_local(|| {
            let truths = questions
                .iter()
                .map(|question| question.truth(black_box(scene)));
            black_box(truths.collect::<Vec<_>>())
        });
    }

    #[divan::bench(args = [10, 40, 70])]
    fn floor_generating_the_legal_moves(bencher: Bencher<'_, '_>, plies: usize) {
        let line = long_line();
        bencher.bench(|| black_box(line.position(plies)).legal_moves());
    }
}

/// Drills over the bare board.
mod drill {
    use super::{Bencher, Kind, black_box};
    use sansvoir::board::{PieceAt, Travel};
    use sansvoir::exercise::bound::{Blockers, Count};
    use sansvoir::exercise::{Drill, DrillSettings, Exercise, Views};
    use shakmaty::{Bitboard, Square, attacks};

    #[divan::bench]
    fn dealing_a_thousand_questions(bencher: Bencher<'_, '_>) {
        let settings = DrillSettings {
            kinds: Kind::BARE.to_vec(),
            count: Count::nearest(1000),
            view: Views::Both,
            think_millis: None,
            pieces: Vec::new(),
            blockers: Blockers::nearest(3),
            seed: 1,
            weak: Vec::new(),
            chosen: Vec::new(),
            teach: false,
            follow: false,
        };
        bencher.bench(|| Drill::new(black_box(settings.clone())));
    }

    /// A knight from corner to corner past three pieces, the longest way that it has.
    fn long_way() -> Travel {
        let piece: PieceAt = "Na1".parse().expect("a piece");
        let blockers = Bitboard::from(Square::E5).with(Square::D6).with(Square::C4);
        Travel::new(piece, Square::H8, blockers).expect("a way to ask about")
    }

    #[divan::bench]
    fn distance_with_blockers(bencher: Bencher<'_, '_>) {
        bencher.bench(|| black_box(long_way()).fewest());
    }

    #[divan::bench]
    fn floor_one_round_of_knight_jumps_from_every_square(bencher: Bencher<'_, '_>) {
        bencher.bench(|| {
            let all = Square::ALL.into_iter();
            all.fold(Bitboard::EMPTY, |set, square| {
                set | attacks::knight_attacks(black_box(square))
            })
        });
    }
}

/// From the start of the program to its first words, which come when the journal is on the disk, beside
/// a program that only says its version. Its end is not timed.
mod starting {
    use super::{Bencher, BufRead, BufReader, Child, Command, Path, Stdio};
    use std::path::PathBuf;
    use std::sync::atomic::{AtomicUsize, Ordering};

    /// A program that has said its first line; it is ended when it is dropped.
    struct Started(Child, PathBuf);

    static STARTED: AtomicUsize = AtomicUsize::new(0);

    impl Drop for Started {
        fn drop(&mut self) {
            // It may have ended by itself.
            let _ = self.0.kill();
            self.0.wait().expect("the program ends");
            // The program that only says its version made none.
            let _ = std::fs::remove_dir_all(&self.1);
        }
    }

    fn first_line(arguments: &[&str]) -> Started {
        let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("games-demo");
        // A journal of its own, as a newcomer has it: none yet.
        let number = STARTED.fetch_add(1, Ordering::Relaxed);
        let data =
            std::env::temp_dir().join(format!("sansvoir-bench-{}-{number}", std::process::id()));
        let mut program = Command::new(env!("CARGO_BIN_EXE_sansvoir"))
            .args(arguments)
            .current_dir(demo)
            .env("SANSVOIR_DATA", &data)
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .expect("the program starts");
        let mut line = String::new();
        BufReader::new(program.stdout.as_mut().expect("a pipe"))
            .read_line(&mut line)
            .expect("a line");
        assert!(!line.is_empty());
        Started(program, data)
    }

    #[divan::bench(sample_size = 1)]
    fn replay_to_its_first_line(bencher: Bencher<'_, '_>) {
        bencher.bench(|| first_line(&["replay", "club-evening.pgn", "--game", "1"]));
    }

    #[divan::bench(sample_size = 1)]
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
                .map(|passage| read(&passage.expect("readable")).game.ids().count())
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

/// Mates in three: the published problems of `tests/truths/mating.rs`, all in one go, beside generating the
/// moves and the replies of their first positions. The aim is less than a second.
mod mating {
    use super::{Bencher, Start, black_box};
    use sansvoir::question::mating::{Mating, search};
    use shakmaty::{CastlingMode, Chess, Position};

    /// S. Loyd: New York Albion, January 1857; Chess Monthly 1857; 'Charles XII at Bender' 1859.
    const IN_THREE: [&str; 3] = [
        "8/8/8/8/8/6P1/6k1/4KR1R w K - 0 1",
        "6R1/2K5/8/8/5p2/6p1/2Q2Nk1/8 w - - 0 1",
        "8/6R1/7p/5K1k/8/6p1/5bPP/4N3 w - - 0 1",
    ];

    /// S. Loyd, New York Clipper, 11 October 1856.
    const IN_FOUR: [&str; 1] = ["n7/3p1p2/NpkNp1p1/1p2P3/3Q4/6B1/b7/4K3 w - - 0 1"];

    fn positions(fens: &[&str]) -> Vec<Chess> {
        let start = |fen: &&str| Start::from_fen(fen, CastlingMode::Standard).expect("a position");
        let starts = fens.iter().map(start);
        starts.map(|start| start.position().clone()).collect()
    }

    fn solve(positions: &[Chess], moves: u32) -> usize {
        let solved = |position: &&Chess| {
            let mating = search(black_box(position), moves, &mut || true);
            matches!(mating, Mating::Mates { .. })
        };
        positions.iter().filter(solved).count()
    }

    #[divan::bench]
    fn three_mates_in_three(bencher: Bencher<'_, '_>) {
        let positions = positions(&IN_THREE);
        bencher.bench(|| assert_eq!(solve(&positions, 3), 3));
    }

    #[divan::bench(sample_count = 10)]
    fn a_mate_in_four(bencher: Bencher<'_, '_>) {
        let positions = positions(&IN_FOUR);
        bencher.bench(|| assert_eq!(solve(&positions, 4), 1));
    }

    #[divan::bench]
    fn floor_generating_moves_and_replies(bencher: Bencher<'_, '_>) {
        let positions = positions(&IN_THREE);
        bencher.bench(|| {
            let mut replies = 0;
            for position in black_box(&positions) {
                for mv in position.legal_moves() {
                    let mut after = position.clone();
                    after.play_unchecked(mv);
                    replies += after.legal_moves().len();
                }
            }
            replies
        });
    }
}

/// How far a learner sees, by ten thousand answers at every level from 1 to 40 plies, beside one look at each.
mod reach {
    use super::{Bencher, Dice, black_box};
    use sansvoir::learner::pace::{Answer, Reach};

    fn answers() -> Vec<Answer> {
        let mut dice = Dice::new(1, 1);
        let plies = (1..=40).cycle().take(10_000);
        plies
            .map(|plies| Answer {
                plies,
                right: dice.chance(if plies < 8 { 9 } else { 3 }, 10),
                guess: [0.0, 0.5, 1.0 / 64.0][dice.below(3)],
            })
            .collect()
    }

    #[divan::bench]
    fn measuring_it(bencher: Bencher<'_, '_>) {
        let answers = answers();
        bencher.bench(|| Reach::of(black_box(&answers)));
    }

    #[divan::bench]
    fn floor_counting_the_right_answers(bencher: Bencher<'_, '_>) {
        let answers = answers();
        bencher.bench(|| {
            let answers = black_box(&answers);
            answers.iter().filter(|answer| answer.right).count()
        });
    }
}

/// What a journal of many answers comes to, beside a look at every byte of it.
mod progress {
    use std::fs::{self, File};
    use std::io::{BufWriter, Write};
    use std::path::PathBuf;

    use super::{Bencher, Dice, black_box};
    use sansvoir::learner::account::Account;
    use sansvoir::learner::{Journal, LearnerName};

    /// A journal of so many answers of several exercises over three years, in the system's temporary folder.
    pub(super) fn journal(answers: usize) -> Journal {
        let folder: PathBuf = std::env::temp_dir().join("sansvoir-bench-journals");
        fs::create_dir_all(&folder).expect("a folder");
        let name: LearnerName = format!("bench {answers}").parse().expect("a name");
        let journal = Journal::open(&folder, &name).expect("a journal");
        if !journal.path().exists() {
            let mut file = BufWriter::new(File::create(journal.path()).expect("a file"));
            let mut dice = Dice::new(1, 2);
            for n in 0..answers {
                writeln!(file, "{}", answer(n, answers, &mut dice)).expect("space");
            }
            file.flush().expect("space");
        }
        journal
    }

    fn answer(n: usize, answers: usize, dice: &mut Dice) -> String {
        let days = n * 1_095 / answers;
        let time = format!(
            "{}-{:02}-{:02}T18:00:00Z",
            2024 + days / 365,
            days % 365 / 31 + 1,
            days % 28 + 1
        );
        let right = dice.chance(3, 4);
        let square = shakmaty::Square::ALL[dice.below(64)];
        let view = ["white", "black"][dice.below(2)];
        let rest = match dice.below(3) {
            0 => format!(
                r#""exercise":"drill","kind":"name","subject":{{"square":"{square}","view":"{view}"}},"expected":{{"square":"{square}"}}"#
            ),
            1 => format!(
                r#""exercise":"drill","kind":"color","subject":{{"square":"{square}"}},"expected":{{"color":"light"}}"#
            ),
            _ => format!(
                r#""exercise":"ahead","kind":"attacks","start":"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1","moves":["e2e4","e7e5","g1f3","b8c6","f1c4","g8f6"],"position":"r1bqkb1r/pppp1ppp/2n2n2/4p3/2B1P3/5N2/PPPP1PPP/RNBQK2R w KQkq - 4 4","subject":{{"square":"{square}"}},"expected":{{"squares":["d5","e6"],"optional":["b3"]}},"hardness":{{"plies":{},"men":32,"captures":0,"moved":2,"opened":1,"closed":0}}"#,
                dice.below(12) + 1
            ),
        };
        format!(
            r#"{{"v":1,"type":"answer","time":"{time}","session":"s{}",{rest},"reply":"d5 e6","verdict":"{}","score":{},"millis":{},"late":false,"looks":0}}"#,
            n / 20,
            if right { "right" } else { "wrong" },
            f64::from(u8::from(right)),
            dice.below(9_000) + 300,
        )
    }

    #[divan::bench(args = [100_000, 1_000_000], sample_count = 5, sample_size = 1)]
    fn gathering_the_account(bencher: Bencher<'_, '_>, answers: usize) {
        let journal = journal(answers);
        bencher.bench_local(|| {
            let (account, _) = Account::of(&journal).expect("a journal");
            assert_eq!(account.answers, answers as u64);
            black_box(account.reach())
        });
    }

    #[divan::bench(args = [100_000, 1_000_000], sample_count = 5, sample_size = 1)]
    fn floor_reading_and_counting_lines(bencher: Bencher<'_, '_>, answers: usize) {
        let journal = journal(answers);
        bencher.bench_local(|| {
            let bytes = fs::read(journal.path()).expect("a journal");
            memchr::memchr_iter(b'\n', &bytes).count()
        });
    }
}

/// A lesson planned from a journal of so many answers; its floor is that of `progress`.
mod lesson {
    use super::progress::journal;
    use super::{Bencher, black_box};
    use sansvoir::learner::LearnerState;
    use sansvoir::learner::lesson::{LessonRequest, plan};

    #[divan::bench(args = [10_000, 100_000])]
    fn planning_it(bencher: Bencher<'_, '_>, answers: usize) {
        let journal = journal(answers);
        let wish = LessonRequest {
            now: "2027-01-01T18:00:00Z".parse().unwrap(),
            minutes: 10,
            seed: 1,
            step: None,
        };
        bencher.bench_local(|| {
            let (learner, _) = LearnerState::of(&journal).expect("a journal");
            plan(&learner.course, &learner.memory, black_box(wish))
        });
    }
}
