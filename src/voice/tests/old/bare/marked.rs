//! The board with a marked square.

use super::*;

fn board(square: &str, view: &str, plain: bool) -> Vec<String> {
    let subject = format!(r#""square":"{square}","view":"{view}""#);
    marked_board(&ask(asked("name", &subject)), plain)
}

/// FIDE 2.1: the near corner on each player's right is light.
#[test]
fn white_sees_f6_on_the_sixth_file_and_the_sixth_row() {
    assert_eq!(
        board("f6", "white", false),
        [
            "+------------------------+",
            "|   : :   : :   : :   : :|",
            "|: :   : :   : :   : :   |",
            "|   : :   : :   [*]   : :|",
            "|: :   : :   : :   : :   |",
            "|   : :   : :   : :   : :|",
            "|: :   : :   : :   : :   |",
            "|   : :   : :   : :   : :|",
            "|: :   : :   : :   : :   |",
            "+------------------------+",
        ]
    );
}

/// FIDE 2.1: the near corner on each player's right is light.
#[test]
fn black_sees_f6_on_the_third_file_and_the_third_row() {
    assert_eq!(
        board("f6", "black", false),
        [
            "+------------------------+",
            "|   : :   : :   : :   : :|",
            "|: :   : :   : :   : :   |",
            "|   : :   : :   : :   : :|",
            "|: :   : :   : :   : :   |",
            "|   : :   : :   : :   : :|",
            "|: :   [*]   : :   : :   |",
            "|   : :   : :   : :   : :|",
            "|: :   : :   : :   : :   |",
            "+------------------------+",
        ]
    );
}
