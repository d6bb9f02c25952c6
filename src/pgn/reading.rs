//! The strict reading of one game.

use encoding_rs::Encoding;
use serde::Serialize;
use shakmaty::Chess;

use super::comment::comment_text;
use super::fault::{Cost, Fault, Faults, Reason};
use super::lost::Lost;
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
    /// What was left out behind the faults.
    pub lost: Vec<Lost>,
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

    /// Tells how far the game can be trusted.
    pub fn trust(&self) -> Trust {
        if !self.is_whole() {
            Trust::Broken
        } else if self.is_clean() && self.letters.is_none() {
            Trust::Clean
        } else {
            Trust::Mended
        }
    }

    /// Tells whether several languages fit, of which none could be taken for certain.
    pub fn is_doubtful(&self) -> bool {
        (self.faults.iter()).any(|fault| matches!(fault.reason, Reason::Doubtful { .. }))
    }
}

/// How far a game can be trusted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Trust {
    /// Every token is of the standard.
    Clean,
    /// Something was understood or dropped, and is told.
    Mended,
    /// Moves of the main line are lost: it is kept up to there.
    Broken,
}

/// Reads one game strictly: every token is a move that is played, something known that is no move,
/// or a fault. A fault in a sideline cuts that sideline only; one on the main line ends the game there.
///
/// Piece letters of other languages are tried when the English ones do not make the whole game
/// legal, or when they may mean another piece in one of them. They are used when every language with which it is
/// legal gives the same moves, and [`Reading::letters`] tells which. Where they do not, that language is taken
/// which [`Passage::letters`] names, else English unless a P stands there, else none.
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

/// Reads a text of moves from the usual array.
pub(super) fn read_text(text: &str) -> Reading {
    let text = text.as_bytes().to_vec();
    check(&Passage {
        number: 1,
        line: 1,
        column: 1,
        text,
        too_long: false,
        letters: None,
    })
}

/// Tells whether a position of the main line is the wanted one, within so many plies.
pub(super) fn passes(passage: &Passage, plies: usize, is_it: impl Fn(&Chess) -> bool) -> bool {
    let mut pass = begin(passage, false);
    let mut ply = usize::MAX;
    loop {
        let line = &pass.lines[0];
        if line.ply != ply && is_it(line.position()) {
            return true;
        }
        ply = line.ply;
        if pass.faults.concern_moves {
            // Other letters may make sense of it.
            let line = read(passage).game.main_line();
            return (0..=line.len().min(plies)).any(|ply| is_it(line.position(ply)));
        }
        match pass.tokens.next() {
            Some(token) if ply < plies => pass.token(&token),
            Some(_) | None => return false,
        }
    }
}

/// Passes over a game, and `keeps` it; with other letters than the English ones where only these make it
/// legal.
fn reading(passage: &Passage, keeps: bool) -> Reading {
    let mut pass = begin(passage, keeps);
    pass.run(false);
    let mut letters = None;
    let is_legal = !pass.faults.concern_moves;
    if !is_legal || may_be_other(&pass) {
        let mut found = Vec::new();
        if is_legal {
            // It is read once more, with the moves.
            found.extend(read_with(passage, LetterSet::ENGLISH));
        }
        let at = pass
            .with_p
            .filter(|_| is_legal)
            .or_else(|| pass.faults.first_costly().map(|fault| fault.span.start));
        let with_p = pass.with_p.is_some();
        let others = LetterSet::others().filter(|set| !is_legal || differs(&pass, *set));
        for set in others.collect::<Vec<_>>() {
            let Some((other, letters)) = read_with(passage, set) else {
                continue;
            };
            match found
                .iter_mut()
                .find(|(same, _): &&mut (Movetext<'_>, Letters)| same.game.same_moves(&other.game))
            {
                Some((_, same)) => same.languages.extend(letters.languages),
                None => found.push((other, letters)),
            }
        }
        let languages: Vec<&str> = found
            .iter()
            .flat_map(|(_, letters)| &letters.languages)
            .copied()
            .collect();
        let is_doubtful = found.len() > 1;
        let spoken = found
            .iter()
            .position(|(_, letters)| Some(letters.letters) == passage.letters);
        let taken = match spoken {
            _ if !is_doubtful => found.pop(),
            Some(at) => Some(found.swap_remove(at)),
            // English is the standard's, but for a P.
            None if is_legal && !with_p => Some(found.swap_remove(0)),
            None => None,
        };
        let said = taken.as_ref().map(|(_, letters)| letters.languages[0]);
        let doubt = Reason::Doubtful {
            languages,
            taken: said,
        };
        match taken {
            Some((other, own)) => {
                pass = other;
                letters = (own.letters != LetterSet::ENGLISH.text()).then_some(own);
                if is_doubtful && (letters.is_some() || spoken.is_none()) {
                    pass.remark_at_first_move(doubt);
                }
            }
            None if is_doubtful => {
                pass = begin(passage, keeps);
                pass.doubt = at.map(|at| (at, doubt));
                pass.run(false);
            }
            None if !is_legal => {
                let named = encoding_that_fits(passage)
                    .zip(pass.faults.first_costly().map(|fault| fault.span.clone()));
                if let Some((name, span)) = named {
                    pass.faults.add(
                        &Token {
                            kind: Kind::Word,
                            span,
                        },
                        None,
                        Reason::Encoding(name),
                        Cost::Nothing,
                    );
                }
            }
            None => {}
        }
    }
    Reading {
        end: pass.lines[0].position().clone(),
        plies: pass.lines[0].ply,
        sidelines: pass.sidelines,
        game: pass.game,
        faults: pass.faults.into_sorted(),
        letters,
        lost: pass.lost,
        skipped: pass.skipped,
    }
}

/// Tells whether another language may make other moves of a game that is legal in English.
fn may_be_other(pass: &Movetext<'_>) -> bool {
    // Only English has a Q; other letters stand in every long game.
    let is_short = pass.letters.is_english() && !pass.used.contains('Q');
    is_short && LetterSet::others().any(|set| differs(pass, set))
}

/// Tells whether a language has all the letters of an English game, and one of them names another piece there.
fn differs(pass: &Movetext<'_>, set: LetterSet) -> bool {
    let has_p = pass.with_p.is_none() || set.is_other('P');
    has_p
        && pass
            .used
            .chars()
            .all(|letter| set.english(letter).is_some())
        && (pass.with_p.is_some() || pass.used.chars().any(|letter| set.is_other(letter)))
}

/// Reads a game with the letters of a set, where all of it is legal so.
fn read_with(passage: &Passage, set: LetterSet) -> Option<(Movetext<'_>, Letters)> {
    let mut pass = begin(passage, true);
    pass.letters = set;
    pass.run(true);
    let languages = set.languages.to_vec();
    let letters = Letters {
        languages,
        letters: set.text(),
    };
    (!pass.faults.concern_moves).then_some((pass, letters))
}

/// Finds the encoding in which the whole game is legal with the letters of some language.
fn encoding_that_fits(passage: &Passage) -> Option<&'static str> {
    const OTHERS: [&str; 7] = [
        "windows-1251",
        "koi8-r",
        "ibm866",
        "iso-8859-5",
        "x-mac-cyrillic",
        "windows-1253",
        "windows-1254",
    ];
    /// No game of moves is longer, in bytes.
    const LONGEST: usize = 1 << 16;
    if passage.text.len() > LONGEST || std::str::from_utf8(&passage.text).is_ok() {
        return None;
    }
    OTHERS.into_iter().find(|name| {
        let encoding =
            Encoding::for_label(name.as_bytes()).expect("a label of the Encoding Standard");
        let (text, _) = encoding.decode_without_bom_handling(&passage.text);
        let decoded = Passage {
            text: text.into_owned().into_bytes(),
            ..passage.clone()
        };
        LetterSet::others().any(|set| read_with(&decoded, set).is_some())
    })
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
                Kind::Word if let Some(end) = tokens.prose_line(&token) => {
                    tokens.go_to(end);
                    faults.add(&token, None, Reason::Prose, Cost::Nothing);
                }
                kind if kind.is_movetext() => return tokens.go_to(token.span.start),
                Kind::Pair => self.pair(text, token, faults),
                Kind::Bracket => faults.add(&token, None, Reason::UnreadableTagPair, Cost::Nothing),
                _ => {
                    if let Some(cost) = Lost::said_in(text).filter(|_| token.kind != Kind::Escape) {
                        faults.add(&token, None, Reason::LostBefore, cost);
                    }
                    self.preface.extend(comment_text(text));
                }
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
