//! What is asked, counted with a seed that nobody chose: of each kind, in each place, how many questions were found, how
//! many in a hundred have the answer `none`, `empty` or `even`, how many had another answer before the plies of their
//! round, and the commonest answers with their shares. Run with `cargo bench --bench questions`, or with `-- SEED` after it.

#[path = "../tests/shared/variety.rs"]
mod variety;

use sansvoir::question::Kind;
use std::time::{SystemTime, UNIX_EPOCH};

fn main() {
    let given = std::env::args().skip(1).find_map(|text| text.parse().ok());
    let now = SystemTime::now()
        .duration_since(UNIX_EPOCH)
        .expect("after 1970");
    let seed = given.unwrap_or(now.as_secs());
    println!("seed {seed}");
    for row in variety::table(seed, 0) {
        println!("{row}");
    }
    let judged = variety::judged(&Kind::LINE, seed);
    println!("moves to judge in `ahead`, by why they are illegal: {judged:?}");
    let given = variety::given_away(seed);
    println!("{given:.2} of a hundred plies of `few` give a piece away");
}
