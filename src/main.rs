//! The program `sansvoir`: see the library for everything.

use std::process::ExitCode;

fn main() -> ExitCode {
    sansvoir::cli::run()
}
