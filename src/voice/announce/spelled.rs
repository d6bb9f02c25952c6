//! Moves in the words of the FIDE Laws' Appendix D, made to be heard without mistake.

use shakmaty::{CastlingSide, File, Rank, Role, Square};

use super::Vocabulary;

/// The words that the appendix suggests for files, ranks and pieces, and prescribes for castling
/// (FIDE Laws of Chess 2023, Appendix D.2.1, in the Laws' own spelling without umlauts).
pub(super) struct AppendixD;

impl Vocabulary for AppendixD {
    fn piece(&self, role: Role) -> &'static str {
        match role {
            Role::Pawn => "Bauer",
            Role::Knight => "Springer",
            Role::Bishop => "Laeufer",
            Role::Rook => "Turm",
            Role::Queen => "Dame",
            Role::King => "Koenig",
        }
    }

    fn square(&self, square: Square) -> String {
        format!("{} {}", file(square.file()), rank(square.rank()))
    }

    fn castling(&self, wing: CastlingSide) -> &'static str {
        match wing {
            CastlingSide::KingSide => "Kurze Rochade",
            CastlingSide::QueenSide => "Lange Rochade",
        }
    }
}

/// Tells whether a word is a file's.
pub(in super::super) fn is_file(word: &str) -> bool {
    File::ALL.into_iter().any(|known| file(known) == word)
}

/// Tells whether a word is a rank's.
pub(in super::super) fn is_rank(word: &str) -> bool {
    Rank::ALL.into_iter().any(|known| rank(known) == word)
}

/// Tells whether a word is a piece's, or one of castling.
pub(in super::super) fn is_of_a_move(word: &str) -> bool {
    let castling = |wing| AppendixD.castling(wing).split(' ').any(|part| part == word);
    Role::ALL
        .into_iter()
        .any(|role| AppendixD.piece(role) == word)
        || CastlingSide::ALL.into_iter().any(castling)
}

/// Every square, piece and castling in these words.
#[cfg(test)]
pub(in super::super) fn all_words() -> Vec<String> {
    let squares = Square::ALL
        .into_iter()
        .map(|square| AppendixD.square(square));
    let pieces = Role::ALL
        .into_iter()
        .map(|role| AppendixD.piece(role).to_owned());
    let wings = CastlingSide::ALL
        .into_iter()
        .map(|wing| AppendixD.castling(wing).to_owned());
    squares.chain(pieces).chain(wings).collect()
}

const fn file(file: File) -> &'static str {
    match file {
        File::A => "Anna",
        File::B => "Bella",
        File::C => "Cesar",
        File::D => "David",
        File::E => "Eva",
        File::F => "Felix",
        File::G => "Gustav",
        File::H => "Hector",
    }
}

const fn rank(rank: Rank) -> &'static str {
    match rank {
        Rank::First => "eins",
        Rank::Second => "zwei",
        Rank::Third => "drei",
        Rank::Fourth => "vier",
        Rank::Fifth => "fuenf",
        Rank::Sixth => "sechs",
        Rank::Seventh => "sieben",
        Rank::Eighth => "acht",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: FIDE Laws of Chess 2023, Appendix D.2.1.
    #[test]
    fn the_words_are_those_of_the_laws() {
        let files: Vec<&str> = File::ALL.into_iter().map(file).collect();
        assert_eq!(
            files,
            [
                "Anna", "Bella", "Cesar", "David", "Eva", "Felix", "Gustav", "Hector"
            ]
        );
        let ranks: Vec<&str> = Rank::ALL.into_iter().map(rank).collect();
        assert_eq!(
            ranks,
            [
                "eins", "zwei", "drei", "vier", "fuenf", "sechs", "sieben", "acht"
            ]
        );
        let pieces: Vec<&str> = ['K', 'Q', 'R', 'B', 'N', 'P']
            .into_iter()
            .map(|letter| AppendixD.piece(Role::from_char(letter).unwrap()))
            .collect();
        assert_eq!(
            pieces,
            ["Koenig", "Dame", "Turm", "Laeufer", "Springer", "Bauer"]
        );
        assert_eq!(AppendixD.castling(CastlingSide::KingSide), "Kurze Rochade");
        assert_eq!(AppendixD.castling(CastlingSide::QueenSide), "Lange Rochade");
    }

    #[test]
    fn a_square_is_spelled_file_first() {
        assert_eq!(AppendixD.square(Square::F3), "Felix drei");
    }
}
