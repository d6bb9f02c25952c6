//! Published games, as lines to train on. Moves are facts; each names its source.

#![allow(dead_code, reason = "each test program uses its own games")]

use sansvoir::game::{Line, Start};
use shakmaty::san::San;

/// Anderssen - Dufresne, Berlin 1852; first printed in Deutsche Schachzeitung, Sept/Oct 1852.
pub(crate) const ANDERSSEN_DUFRESNE: &str = "e4 e5 Nf3 Nc6 Bc4 Bc5 b4 Bxb4 c3 Ba5 d4 exd4 O-O d3 Qb3 Qf6 e5 \
    Qg6 Re1 Nge7 Ba3 b5 Qxb5 Rb8 Qa4 Bb6 Nbd2 Bb7 Ne4 Qf5 Bxd3 Qh5 Nf6+ gxf6 exf6 Rg8 Rad1 Qxf3 \
    Rxe7+ Nxe7 Qxd7+ Kxd7 Bf5+ Ke8 Bd7+ Kf8 Bxe7#";

/// Bogoljubov - Alekhine, Hastings 1922; Alekhine, My Best Games of Chess.
pub(crate) const BOGOLJUBOV_ALEKHINE: &str = "d4 f5 c4 Nf6 g3 e6 Bg2 Bb4+ Bd2 Bxd2+ Nxd2 Nc6 Ngf3 O-O O-O d6 \
    Qb3 Kh8 Qc3 e5 e3 a5 b3 Qe8 a3 Qh5 h4 Ng4 Ng5 Bd7 f3 Nf6 f4 e4 Rfd1 h6 Nh3 d5 Nf1 Ne7 a4 Nc6 \
    Rd2 Nb4 Bh1 Qe8 Rg2 dxc4 bxc4 Bxa4 Nf2 Bd7 Nd2 b5 Nd1 Nd3 Rxa5 b4 Rxa8 bxc3 Rxe8 c2 Rxf8+ Kh7 \
    Nf2 c1=Q+ Nf1 Ne1 Rh2 Qxc4 Rb8 Bb5 Rxb5 Qxb5 g4 Nf3+ Bxf3 exf3 gxf5 Qe2 d5 Kg8 h5 Kh7 e4 Nxe4 \
    Nxe4 Qxe4 d6 cxd6 f6 gxf6 Rd2 Qe2 Rxe2 fxe2 Kf2 exf1=Q+ Kxf1 Kg7 Kf2 Kf7 Ke3 Ke6 Ke4 d5+";

/// Gundersen - Faul, Melbourne 1928/29; cited in Winter, Chess Facts and Fables.
pub(crate) const GUNDERSEN_FAUL: &str = "e4 e6 d4 d5 e5 c5 c3 cxd4 cxd4 Bb4+ Nc3 Nc6 Nf3 Nge7 Bd3 O-O Bxh7+ \
    Kxh7 Ng5+ Kg6 h4 Nxd4 Qg4 f5 h5+ Kh6 Nxe6+ g5 hxg6#";

/// Plays the moves from the usual array.
pub(crate) fn line(moves: &str) -> Line {
    let mut line = Line::new(Start::standard());
    for text in moves.split_whitespace() {
        let san: San = text.parse().expect(text);
        line.push(san.to_move(line.end()).expect(text)).expect(text);
    }
    line
}
