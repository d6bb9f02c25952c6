//! The quick way from a move's text to the move.

use shakmaty::{Bitboard, Chess, Move, Position, Rank, Role, Square, attacks};

use super::wording::Said;

/// Finds the move quickly where one piece alone reaches the square at all; `None` where there is more to
/// look at, as with en passant.
#[inline]
pub(super) fn find(said: Said, role: Role, position: &Chess) -> Option<Move> {
    let (to, color) = (said.to, position.turn());
    let board = position.board();
    if board.by_color(color).contains(to) {
        return None;
    }
    let reach = if role == Role::Pawn {
        pawns_that_reach(to, position)?
    } else {
        // These pieces reach a square from wherever they would be reached standing there.
        attacks::attacks(to, role.of(color), board.occupied()) & board.by_piece(role.of(color))
    };
    let is_promotion = role == Role::Pawn && to.rank() == color.fold_wb(Rank::Eighth, Rank::First);
    if let Some(Role::Pawn | Role::King) = said.promotion {
        return None;
    }
    let mut from = reach.into_iter().filter(|from| said.fits(role, *from));
    let (from, None) = (from.next()?, from.next()) else {
        return None;
    };
    let king = board.king_of(color)?;
    let is_sound =
        is_promotion == said.promotion.is_some() && leaves_king_safe(from, to, king, position);
    is_sound.then_some(Move::Normal {
        role,
        from,
        capture: board.role_at(to),
        to,
        promotion: said.promotion,
    })
}

/// Returns the pawns of the side to move that could go to a square, if their king were safe; `None` where
/// one could come there en passant.
fn pawns_that_reach(to: Square, position: &Chess) -> Option<Bitboard> {
    let (color, board) = (position.turn(), position.board());
    let pawns = position.our(Role::Pawn);
    if board.occupied().contains(to) {
        return Some(attacks::pawn_attacks(!color, to) & pawns);
    }
    if position.maybe_ep_square() == Some(to) {
        return None;
    }
    let back = |squares: Bitboard| squares.shift(color.fold_wb(-8, 8));
    let one = back(Bitboard::from(to));
    let two = back(one & !board.occupied()) & color.fold_wb(Rank::Second, Rank::Seventh);
    Some((one | two) & pawns)
}

/// Tells whether the king of the side to move stands safe after a piece has gone from one square to the other.
fn leaves_king_safe(from: Square, to: Square, king: Square, position: &Chess) -> bool {
    let (color, board) = (position.turn(), position.board());
    let occupied = board.occupied().without(from).with(to);
    let king = if from == king { to } else { king };
    let attackers = board.attacks_to(king, !color, occupied);
    // Who stands there is captured.
    attackers.without(to).is_empty()
}

#[cfg(test)]
mod tests {
    use shakmaty::File;

    use super::*;

    /// A walk of legal moves that depends on `seed` alone, and every square asked for every role on it, and
    /// for pawns from every file.
    #[test]
    fn the_quick_way_finds_the_only_legal_move_or_leaves_it_to_the_rules() {
        let (mut quick, mut left) = (0, 0);
        for seed in 1..40_u64 {
            let mut position = Chess::default();
            let mut chance = seed.wrapping_mul(0x9e37_79b9_7f4a_7c15);
            for _ in 0..120 {
                for (said, role) in every_wording() {
                    let candidates = position.san_candidates(role, said.to);
                    let mut legal = candidates.into_iter().filter(|mv| {
                        mv.promotion() == said.promotion
                            && mv.from().is_some_and(|from| said.fits(role, from))
                    });
                    let only = legal.next().filter(|_| legal.next().is_none());
                    match find(said, role, &position) {
                        Some(mv) => {
                            quick += 1;
                            assert_eq!(only, Some(mv), "{position:?} {said:?}");
                        }
                        None => left += usize::from(only.is_some()),
                    }
                }
                let moves = position.legal_moves();
                if moves.is_empty() {
                    break;
                }
                chance ^= chance << 13;
                chance ^= chance >> 7;
                chance ^= chance << 17;
                let pick = usize::try_from(chance % moves.len() as u64).unwrap();
                position.play_unchecked(moves[pick]);
            }
        }
        // Left to the rules are those where a pinned piece reaches the square too, and en passant.
        assert!(quick > 50_000 && left * 20 < quick, "{quick} {left}");
    }

    fn every_wording() -> impl Iterator<Item = (Said, Role)> {
        let of_role = |role| {
            let files = if role == Role::Pawn {
                &File::ALL[..]
            } else {
                &[]
            };
            let files = files.iter().map(|file| Some(*file)).chain([None]);
            let promotions = [None, Some(Role::Queen), Some(Role::Knight)];
            let promotions = if role == Role::Pawn {
                &promotions[..]
            } else {
                &promotions[..1]
            };
            files
                .flat_map(move |file| {
                    promotions.iter().flat_map(move |promotion| {
                        Square::ALL.into_iter().map(move |to| Said {
                            role: Some(role),
                            file,
                            rank: None,
                            to,
                            capture: file.is_some_and(|file| file != to.file()),
                            promotion: *promotion,
                        })
                    })
                })
                .map(move |said| (said, role))
                .collect::<Vec<_>>()
        };
        Role::ALL.into_iter().flat_map(of_role)
    }
}
