//! The strict reading of one game.

use serde::Serialize;
use shakmaty::Chess;

use super::comment::comment_text;
use super::encoding;
use super::export::export;
use super::fault::{Fault, Reason};
use super::faults::Faults;
use super::lost::{Cost, Lost};
use super::movetext::Movetext;
use super::passage::Passage;
use super::tag_pair::{self, unescape};
use super::text::{decoded, shown};
use super::token::{Kind, Token};
use super::tokens::Tokens;
use crate::game::{Game, Start, Tags};
use crate::rules::{LetterSet, Letters, resolve_move};

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
    /// The piece letters of another language, when the game could be read with these only, or further than with the
    /// English ones.
    pub letters: Option<Letters>,
    /// Whether several languages fit, with other moves: other games of the file may tell which.
    pub doubtful: bool,
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
/// legal, or else which reads clearly further than English, gives the same moves, and [`Reading::letters`] tells which.
/// Where they do not, that language is taken which [`Passage::letters`] names, else English unless a P stands there,
/// else none; and that is told, unless it is English and the game stands in export format, which has English letters.
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
    let is_legal = !pass.faults.concern_moves;
    let mut ways = if is_legal && pass.used.are_surely_english() {
        Vec::new()
    } else {
        ways(passage, &pass)
    };
    let doubtful = ways.len() > 1;
    let spoken = ways
        .iter()
        .position(|(way, _)| Some(way.letters.text()) == passage.letters);
    // English is the standard's, but for a P.
    let fits = ways
        .first()
        .is_some_and(|(way, _)| way.letters.is_english());
    let english = (fits && !pass.used.have(b'P')).then_some(0);
    let taken = match ways.len() {
        0 => None,
        1 => Some(0),
        _ => spoken.or(english),
    };
    let mut letters = None;
    if let Some(at) = taken {
        let told = doubtful.then(|| doubt(&ways, Some(at)).1);
        let (other, languages) = ways.swap_remove(at);
        pass = other;
        pass.run(false);
        letters = (!pass.letters.is_english()).then_some(Letters {
            languages,
            letters: pass.letters.text(),
        });
        // The standard's export format knows English letters only.
        let is_sure = letters.is_none()
            && export(&pass.game).trim_end().as_bytes() == passage.text.trim_ascii();
        if let Some(doubt) = told.filter(|_| !is_sure) {
            pass.remark_at_first_move(doubt);
        }
    } else if doubtful {
        pass = begin(passage, keeps);
        pass.doubt = Some(doubt(&ways, None));
        pass.run(false);
    }
    if !is_legal
        && letters.is_none()
        && let Some(reason) = encoding::that_fits(passage, is_legal_throughout)
    {
        pass.remark_at_first_loss(reason);
    }
    Reading {
        end: pass.lines[0].position().clone(),
        plies: pass.lines[0].ply,
        sidelines: pass.sidelines,
        game: pass.game,
        faults: pass.faults.into_sorted(),
        letters,
        doubtful,
        lost: pass.lost,
        skipped: pass.skipped,
    }
}

/// A game as it is with some letters, and the languages that have these, or others with which it is the same.
type Way<'a> = (Movetext<'a>, Vec<&'static str>);

/// Finds the ways in which a game is legal furthest, each with the languages that lead to it. Where English is one, it
/// comes first, and where all is legal so, those are tried alone that have all its letters. Short of the end one word
/// in letters that are not English may be a slip: such a way stands beside the English one.
fn ways<'a>(passage: &'a Passage, english: &Movetext<'_>) -> Vec<Way<'a>> {
    let is_legal = !english.faults.concern_moves;
    let has_all = |set: &LetterSet| {
        let mut used = "PNBRQK".bytes().filter(|letter| english.used.have(*letter));
        used.all(|letter| set.english(letter.into()).is_some())
    };
    let mut furthest = english.reach();
    let mut ways: Vec<Way<'_>> = Vec::new();
    for set in LetterSet::all().filter(|set| !is_legal || has_all(set)) {
        let way = read_with(passage, set);
        let reach = match (way.reach(), way.foreign) {
            (reach, 0) if !set.is_english() && reach != Movetext::ALL => continue,
            (reach, 1) if reach != Movetext::ALL => reach.min(english.reach()),
            (reach, _) => reach,
        };
        if reach < furthest {
            continue;
        }
        if reach > furthest {
            furthest = reach;
            ways.clear();
        }
        let same = |(known, _): &&mut Way<'_>| known.game.same_moves(&way.game);
        match ways.iter_mut().find(same) {
            Some((_, known)) => known.extend(set.languages),
            None => ways.push((way, set.languages.to_vec())),
        }
    }
    ways
}

/// Says which languages fit, after how many moves they part, and whose way is taken.
fn doubt(ways: &[Way<'_>], taken: Option<usize>) -> (usize, Reason) {
    let steps = |way: &Movetext<'_>| {
        let ids = way.game.ids();
        ids.map(|id| way.game.node(id).step).collect::<Vec<_>>()
    };
    let all: Vec<_> = ways.iter().map(|(way, _)| steps(way)).collect();
    let is_same = |at: &usize| all.iter().all(|steps| steps.get(*at) == all[0].get(*at));
    let part = (0..all[0].len()).take_while(is_same).count();
    let names = ways.iter().flat_map(|(_, languages)| languages);
    let languages = names.copied().collect();
    let taken = taken.map(|at| ways[at].1[0]);
    (part, Reason::Doubtful { languages, taken })
}

/// Reads a game with the letters of a set, no further than the main line is legal so.
fn read_with(passage: &Passage, set: LetterSet) -> Movetext<'_> {
    let mut pass = begin(passage, true);
    pass.letters = set;
    pass.run(true);
    pass
}

/// Tells whether the whole game is legal with the letters of some language.
fn is_legal_throughout(passage: &Passage) -> bool {
    LetterSet::all().any(|set| read_with(passage, set).reach() == Movetext::ALL)
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
                Kind::Prose => faults.add(&token, None, Reason::Prose, Cost::Nothing),
                kind if kind.is_movetext() => return tokens.go_to(token.span.start),
                Kind::Pair => self.pair(text, token, faults),
                Kind::Bracket => faults.add(&token, None, Reason::UnreadableTagPair, Cost::Nothing),
                Kind::Markup if faults.are_without(&Reason::Markup) => {
                    faults.add(&token, None, Reason::Markup, Cost::Nothing);
                }
                Kind::Markup => {}
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
        if let Some(reason) = encoding::garbled(&text[pair.value.clone()])
            && faults.are_without(&reason)
        {
            faults.add(&token, None, reason, Cost::Nothing);
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
            Ok(start) => {
                // What is best, or to be avoided, in a position (PGN standard, 16.2.5).
                for tag in ["bm", "am"] {
                    let mut moves = self.tags.get(tag).unwrap_or_default().split_whitespace();
                    let is_none = |text| resolve_move(text, start.position()).err();
                    if let Some(error) = moves.find_map(is_none) {
                        fault(tag, Reason::MoveOfPosition(error), Cost::Nothing);
                    }
                }
                (start, true)
            }
            Err((tag, reason)) => {
                fault(tag, reason, Cost::Moves);
                (Start::standard(), false)
            }
        }
    }
}
