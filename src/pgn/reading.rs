//! The strict reading of one game.

use shakmaty::Chess;

use super::comment::comment_text;
use super::fault::{Cost, Fault, Faults, Reason};
use super::movetext::Movetext;
use super::passage::Passage;
use super::tag_pair::{self, unescape};
use super::text::{decoded, shown};
use super::token::{Kind, Token, Tokens};
use crate::game::{Game, Start, Tags};
use crate::rules::{LetterSet, Letters};

/// What a passage holds.
#[derive(Clone, Debug)]
pub struct Reading {
    /// The game, up to its first fault that costs moves; [`check`] leaves its moves out.
    pub game: Game,
    /// The position at the end of the main line.
    pub end: Chess,
    /// How many plies the main line has, up to its first fault that costs moves.
    pub plies: usize,
    /// How many sidelines there are, at any depth.
    pub sidelines: usize,
    /// Everything that is not as it should be, in the order of the text. See [`Fault::cost`] for
    /// what is only a remark.
    pub faults: Vec<Fault>,
    /// The piece letters of another language, when the game could be read with these only.
    pub letters: Option<Letters>,
    /// How many words, glyphs and comments were left out behind the faults. Zero unless a fault cost
    /// something.
    pub skipped: usize,
}

impl Reading {
    /// Tells whether the main line is whole: no fault cost a move of it.
    pub fn is_whole(&self) -> bool {
        self.faults.iter().all(|fault| fault.cost < Cost::Moves)
    }

    /// Tells whether there is nothing to remark at all.
    pub fn is_clean(&self) -> bool {
        self.faults.is_empty()
    }
}

/// Reads one game strictly: every token is a move that is played, something known that is no move,
/// or a fault. A fault in a sideline cuts that sideline only; one on the main line ends the game there.
///
/// Piece letters of other languages are tried when the English ones do not make the whole game
/// legal. They are used when every language with which it is legal gives the same moves, and
/// [`Reading::letters`] tells which.
///
/// ```
/// use sansvoir::pgn::{Collection, read};
///
/// let file = "1. e4 e5 2. Sf3 Sc6 *\n\n1. e4 e5\n2. Nf4 Nc6 *\n";
/// let games: Vec<_> = Collection::new(file.as_bytes()).collect::<Result<_, _>>()?;
/// let reading = read(&games[0]);
/// assert_eq!(reading.game.main_line().len(), 4);
/// assert!(reading.letters.is_some_and(|letters| letters.languages.contains(&"German")));
///
/// let reading = read(&games[1]);
/// assert_eq!(reading.game.main_line().len(), 2);
/// assert_eq!(
///     reading.faults[0].to_string(),
///     "4:4: game 2, move 2. \"Nf4\": no knight of White can go to f4: look at the moves before",
/// );
/// # Ok::<_, std::io::Error>(())
/// ```
pub fn read(passage: &Passage) -> Reading {
    reading(passage, true)
}

/// Reads one game as strictly as [`read`] does, in the same pass, and keeps no move and no comment of it.
pub fn check(passage: &Passage) -> Reading {
    reading(passage, false)
}

/// Passes over a game, and `keeps` it; with other letters than the English ones where only these make it
/// legal.
fn reading(passage: &Passage, keeps: bool) -> Reading {
    let mut english = begin(passage, keeps);
    english.run(false);
    let other = if english.faults.concern_moves {
        other_letters(passage)
    } else {
        None
    };
    let (pass, letters) = match other {
        Some((pass, letters)) => (pass, Some(letters)),
        None => (english, None),
    };
    Reading {
        end: pass.lines[0].position().clone(),
        plies: pass.lines[0].ply,
        sidelines: pass.sidelines,
        game: pass.game,
        faults: pass.faults.into_sorted(),
        letters,
        skipped: pass.skipped,
    }
}

/// Reads the tags, and begins to pass over the moves.
fn begin(passage: &Passage, keeps: bool) -> Movetext<'_> {
    let mut tokens = Tokens::new(passage);
    let mut faults = Faults::new(passage);
    let mut head = TagSection::default();
    head.read(passage, &mut tokens, &mut faults);
    let (start, playable) = head.start(&mut faults);
    let mut game = Game::new(head.tags, start);
    game.preface = head.preface;
    Movetext::new(passage, tokens, game, faults, !playable, keeps)
}

/// Looks for the languages that make the whole game legal, if these agree about it.
fn other_letters(passage: &Passage) -> Option<(Movetext<'_>, Letters)> {
    let mut found: Option<(Movetext<'_>, Letters)> = None;
    for set in LetterSet::others() {
        let mut pass = begin(passage, true);
        pass.letters = set;
        pass.run(true);
        if pass.faults.concern_moves {
            continue;
        }
        match &mut found {
            None => {
                let languages = set.languages.to_vec();
                let letters = set.text();
                found = Some((pass, Letters { languages, letters }));
            }
            Some((first, letters)) if first.game.same_moves(&pass.game) => {
                letters.languages.extend(set.languages);
            }
            Some(_) => return None,
        }
    }
    found
}

/// The tag section and what stands around it.
#[derive(Debug, Default)]
struct TagSection {
    tags: Tags,
    /// The token of each tag pair.
    pairs: Vec<Token>,
    preface: Vec<String>,
}

impl TagSection {
    /// Reads on to the first token of the movetext.
    fn read(&mut self, passage: &Passage, tokens: &mut Tokens<'_>, faults: &mut Faults<'_>) {
        while let Some(token) = tokens.next() {
            let text = &passage.text[token.span.clone()];
            match token.kind {
                kind if kind.is_movetext() => return tokens.go_back(&token),
                Kind::Pair => self.pair(text, token, faults),
                Kind::Bracket => faults.add(&token, None, Reason::UnreadableTagPair, Cost::Nothing),
                _ => self.preface.extend(comment_text(text)),
            }
        }
    }

    fn pair(&mut self, text: &[u8], token: Token, faults: &mut Faults<'_>) {
        let Ok(pair) = tag_pair::read(text, true) else {
            return;
        };
        let name = decoded(&text[pair.name]);
        let mut remark = |reason| faults.add(&token, None, reason, Cost::Nothing);
        if let Some(flaw) = pair.flaw {
            remark(flaw.into());
        }
        if !name.bytes().all(|b| b.is_ascii_alphanumeric() || b == b'_') {
            remark(Reason::TagName);
        }
        if self.tags.get(&name).is_some() {
            let name = shown(&name);
            remark(Reason::TagTwice { name });
        }
        self.tags.push(name, unescape(&text[pair.value]));
        self.pairs.push(token);
    }

    /// Finds the start of the game, and tells whether it can be played from there.
    fn start(&self, faults: &mut Faults<'_>) -> (Start, bool) {
        let mut fault = |tag: &str, reason, cost| {
            let mut named = self.tags.iter().zip(&self.pairs);
            if let Some((_, token)) = named.find(|((name, _), _)| name.eq_ignore_ascii_case(tag)) {
                faults.add(token, None, reason, cost);
            }
        };
        match super::setup::start(&self.tags, |tag, reason| fault(tag, reason, Cost::Nothing)) {
            Ok(start) => (start, true),
            Err((tag, reason)) => {
                fault(tag, reason, Cost::Moves);
                (Start::standard(), false)
            }
        }
    }
}
