//! The command line of `sansvoir`.

fn main() {}
