//! What the program says when it is called without a command.

/// Says in a screenful what this is and what to do first.
#[must_use]
pub const fn first_words() -> &'static [&'static str] {
    &[
        "sansvoir trains chess without sight of the board.",
        "",
        "A game is read to you move by move while the board stays hidden. Now and then it stops and \
         asks: where does this piece stand, which squares does it attack, is this move legal? Every \
         answer is checked by the rules of chess and explained, and kept in your journal.",
        "",
        "Begin with a game that comes along:",
        "  sansvoir replay games-demo/first-steps.pgn",
        "",
        "Then take a game of your own, from any PGN file:",
        "  sansvoir games my-games.pgn               lists the games in it",
        "  sansvoir replay my-games.pgn --game 3     reads one of them to you",
        "  sansvoir replay --resume                  goes on where you stopped",
        "  sansvoir lesson                           chooses what to do today",
        "  sansvoir progress                         tells what you can do now",
        "",
        "At the prompt, Enter goes on, help says what else you can say, and stop ends.",
        "With a screen reader, add --plain.",
        "sansvoir replay --help tells all options.",
    ]
}
