//! What a journal's lines say: each is one object in JSON, with the version and the type in front.

use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use shakmaty::{Color, Square};

use super::LearnerName;
use super::written::{GameRef, Played, RawJson, Stamp, played, variant};
use crate::exercise::{Answered, Dialogue, GameWord, Hardness, OpenQuestion, Said, Tries};
use crate::game::GameResult;
use crate::question::{
    Illegal, Kind, LineWhy, MoveSaid, Question, Refused, Reply, Verdict, Why, text,
};

/// The version of the records that this build writes and reads.
///
/// It rises only when a field gets another meaning. New fields, new types of record and new kinds of question do not
/// raise it: an older build passes over them and leaves them where they are.
pub const VERSION: u64 = 1;

/// One line of a journal.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "type", rename_all = "lowercase")]
pub enum Record {
    /// A session begins.
    Start(StartRecord),
    /// A question was answered or given up.
    Answer(Box<AnswerRecord>),
    /// A session is over, for now or for good.
    End(EndRecord),
    /// Something was said in a game beside the learner's own moves.
    Said(SaidRecord),
    /// A game against an opponent is over.
    Game(Box<GameRecord>),
    /// The line before this one was cut off by a crash: readers pass over that line without a word. The
    /// stamp tells when it was found, and by which session.
    Seal(Stamp),
}

/// The beginning of a session.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct StartRecord {
    /// When and in which session.
    #[serde(flatten)]
    pub stamp: Stamp,
    /// Whose session it is, by the name as it was typed.
    #[serde(with = "text")]
    pub learner: LearnerName,
    /// The exercise, by its command's name.
    pub exercise: String,
    /// The whole line that the session goes through; `None` for the bare board.
    #[serde(flatten, deserialize_with = "played")]
    pub played: Option<Played>,
    /// The game that the line is from; `None` where there is none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub game: Option<GameRef>,
    /// The seed of every choice that the session makes.
    pub seed: u64,
    /// What is held, in the program's own form, which the journal keeps and does not read.
    pub plan: Value,
}

/// An answered question, complete enough that a stranger can recheck the verdict.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is a field of the journal"
)]
pub struct AnswerRecord {
    /// When and in which session.
    #[serde(flatten)]
    pub stamp: Stamp,
    /// The exercise, by its command's name.
    pub exercise: String,
    /// The kind of the question.
    pub kind: Kind,
    /// The rules, where they are not those of standard chess: `chess960`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub variant: Option<String>,
    /// The FEN that the line starts from; `None` over the bare board.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub start: Option<String>,
    /// The moves from there up to the question, in UCI form; `None` over the bare board.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub moves: Option<RawJson>,
    /// The FEN that the question is about; `None` over the bare board.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub position: Option<String>,
    /// What the kind asks about.
    pub subject: RawJson,
    /// The right answer.
    pub expected: RawJson,
    /// The words of the reply; empty when the question was given up.
    pub reply: String,
    /// What came of it.
    pub verdict: Verdict,
    /// The share that was right, 0 to 1.
    pub score: f64,
    /// Milliseconds from question to reply; `None` where that is not known, as on paper.
    #[serde(deserialize_with = "Option::deserialize")]
    pub millis: Option<u64>,
    /// The think time in milliseconds; `None` where there is none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub think: Option<u64>,
    /// Whether the reply took longer than the think time.
    pub late: bool,
    /// Whether the question came again in a drill, after it was missed or slow: only first tries count.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub repeat: bool,
    /// Whether something helped, moves heard once more or a dialogue after a miss: it counts nowhere.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub helped: bool,
    /// The dialogue that it was given in; `None` for a question of the exercise.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub dialogue: Option<Dialogue>,
    /// How many looks at the board were taken since the last answer.
    pub looks: u32,
    /// What makes the question hard; `None` over the bare board.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hardness: Option<Hardness>,
    /// The tries at a move of a recital; `None` where one reply counts.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub tries: Option<Tries>,
    /// The move, in UCI form, where a move of one's own was legal.
    #[serde(rename = "move", skip_serializing_if = "Option::is_none")]
    pub mv: Option<String>,
    /// Why it was illegal, where one reason is certain, and the square to blame; it stands in the record as
    /// `reason` and `by`.
    #[serde(flatten)]
    pub illegal: Option<Illegal>,
    /// The game; `None` where there is none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub game: Option<GameRef>,
    /// Whether it was given by mouth.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub heard: bool,
    /// How often something that was misheard was taken back before.
    #[serde(default, skip_serializing_if = "is_nought")]
    pub taken_back: u32,
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde hands it over so")]
fn is_nought(number: &u32) -> bool {
    *number == 0
}

/// The end of a session, or of one sitting of a session that is resumed later.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct EndRecord {
    /// When and in which session.
    #[serde(flatten)]
    pub stamp: Stamp,
    /// Whether all was read and asked.
    pub finished: bool,
    /// How many plies were heard in the whole session, earlier sittings included.
    pub plies: usize,
    /// How many looks at the board were taken in the whole session.
    pub looks: u32,
    /// Whether something had helped at the question that stood when it was stopped: its answer counts nowhere.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub helped: bool,
}

/// What was said in a game beside the learner's own moves.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct SaidRecord {
    /// When and in which session.
    #[serde(flatten)]
    pub stamp: Stamp,
    /// Who said it: `opponent` or `learner`.
    pub by: String,
    /// What: the opponent's move in UCI form, `resigns`, `accepts`, `declines`, or `reviewed` with the moves that
    /// cost most; the learner's `take back`, `draw`, `draw` with a move in UCI form, or `resign`; the reply to a
    /// question that nobody grades, empty where it was given up.
    pub said: String,
    /// That question, with its answer.
    #[serde(flatten)]
    pub question: Option<OpenQuestion>,
}

/// A game against an opponent that is over.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct GameRecord {
    /// When and in which session.
    #[serde(flatten)]
    pub stamp: Stamp,
    /// The number of the board in that session, counted from 1.
    pub board: usize,
    /// The learner's side.
    #[serde(with = "text")]
    pub side: Color,
    /// The opponent's rating; `None` for an engine at its full strength.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rating: Option<u32>,
    /// The engine's name; `None` for the program's own opponent.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub engine: Option<String>,
    /// The result, as PGN writes it.
    pub result: String,
    /// How it ended, as in `checkmate`.
    pub end: String,
    /// How many pieces stood at its beginning.
    pub pieces: usize,
    /// How many plies were played.
    pub plies: usize,
    /// After how many of these the picture failed first: a slip, or a look; `None` where it held.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub held: Option<usize>,
    /// How many slips there were.
    pub slips: usize,
    /// Whether the board was out of sight all the time.
    pub unseen: bool,
}

impl GameRecord {
    /// Tells whether the learner won it or lost it; `None` where it was drawn.
    pub fn won(&self) -> Option<bool> {
        let side = self.side;
        let won = side.fold_wb(GameResult::WhiteWins, GameResult::BlackWins);
        (self.result != GameResult::Draw.marker()).then(|| self.result == won.marker())
    }
}

impl SaidRecord {
    /// Writes down what was said.
    pub fn new(stamp: Stamp, said: &Said) -> SaidRecord {
        let (by, said, question) = match said {
            Said::Opponent(said) => ("opponent", said.to_string(), None),
            Said::Learner(word) => ("learner", word.to_string(), None),
            Said::Open { question, reply } => ("learner", reply.clone(), Some(question.clone())),
        };
        SaidRecord {
            stamp,
            by: by.to_owned(),
            said,
            question,
        }
    }

    /// Reads what was said; `None` where a hand that knows no chess has been at it.
    pub fn said(&self) -> Option<Said> {
        match (&*self.by, &self.question) {
            (_, Some(question)) => Some(Said::Open {
                question: question.clone(),
                reply: self.said.clone(),
            }),
            ("opponent", _) => self.said.parse().ok().map(Said::Opponent),
            (_, None) => GameWord::read(&self.said, |mv| mv.parse().ok()).map(Said::Learner),
        }
    }
}

impl Record {
    /// Returns how a session begins, where the record tells that.
    pub const fn start(&self) -> Option<&StartRecord> {
        let Record::Start(start) = self else {
            return None;
        };
        Some(start)
    }

    /// Returns the answer, where it is one.
    pub fn answer(&self) -> Option<&AnswerRecord> {
        let Record::Answer(answer) = self else {
            return None;
        };
        Some(answer)
    }

    /// Returns how a session or a sitting ended, where the record tells that.
    pub const fn end(&self) -> Option<&EndRecord> {
        let Record::End(end) = self else { return None };
        Some(end)
    }

    /// Returns when the record was made and in which session.
    pub fn stamp(&self) -> &Stamp {
        match self {
            Record::Start(start) => &start.stamp,
            Record::Answer(answer) => &answer.stamp,
            Record::End(end) => &end.stamp,
            Record::Said(said) => &said.stamp,
            Record::Game(game) => &game.stamp,
            Record::Seal(stamp) => stamp,
        }
    }

    /// Writes the record as one line of JSON, the newline left out.
    pub(super) fn to_line(&self) -> String {
        #[derive(Serialize)]
        struct Versioned<'a> {
            v: u64,
            #[serde(flatten)]
            record: &'a Record,
        }
        let line = serde_json::to_string(&Versioned {
            v: VERSION,
            record: self,
        });
        line.expect("every field has a form in JSON")
    }
}

impl AnswerRecord {
    /// Keeps an answer over a line of play.
    pub fn new(
        stamp: Stamp,
        exercise: impl Into<String>,
        game: Option<GameRef>,
        answered: &Answered,
    ) -> AnswerRecord {
        let setting = answered.setting.as_ref();
        let (mv, illegal) = turn(answered);
        AnswerRecord {
            stamp,
            exercise: exercise.into(),
            kind: answered.question.kind(),
            variant: variant(setting.is_some_and(|setting| setting.chess960)),
            start: setting.map(|setting| setting.start.clone()),
            moves: setting.map(|setting| RawJson::of(&setting.moves)),
            position: setting.map(|setting| setting.position.clone()),
            subject: subject(&answered.question),
            expected: RawJson::of(&answered.truth),
            reply: answered.text.clone(),
            verdict: answered.mark.verdict,
            score: answered.mark.score,
            millis: answered.millis,
            think: answered.think,
            late: answered.late,
            repeat: answered.repeat,
            helped: answered.helped,
            dialogue: answered.dialogue,
            looks: answered.looks,
            hardness: answered.hardness,
            tries: answered.tries.clone(),
            mv,
            illegal,
            game,
            heard: false,
            taken_back: 0,
        }
    }

    /// Tells whether it was a first try, without help: only such answers count.
    pub const fn counts(&self) -> bool {
        !self.repeat && !self.helped
    }

    /// Reads the question; `None` where a hand that knows no chess has been at it.
    pub fn question(&self) -> Option<Question> {
        question(self.kind, self.subject.get())
    }

    /// Reads the one square that a question over the bare board is about, and the side from which it is
    /// seen, where that matters; `None` for other kinds.
    pub(super) fn square(&self) -> Option<(Square, Option<Color>)> {
        #[derive(Deserialize)]
        struct Subject<'a> {
            square: &'a str,
            view: Option<&'a str>,
        }
        if !matches!(self.kind, Kind::Name | Kind::Place | Kind::Color) {
            return None;
        }
        let subject: Subject<'_> = serde_json::from_str(self.subject.get()).ok()?;
        let view = subject.view.and_then(|view| view.parse().ok());
        Some((subject.square.parse().ok()?, view))
    }
}

/// Returns the legal move of one's own, or why it is illegal.
fn turn(answered: &Answered) -> (Option<String>, Option<Illegal>) {
    match (&answered.why, &answered.reply) {
        (Why::Line(LineWhy::Turn(why)), Some(Reply::Move(said))) => match (&why.refused, said) {
            (Some(Refused::Illegal(why)), _) => {
                (None, why.blame.as_ref().map(|blame| blame.illegal))
            }
            (None, MoveSaid::Named(attempt)) => (Some(attempt.to_string()), None),
            _ => (None, None),
        },
        _ => (None, None),
    }
}

/// Reads a question of a kind and a subject, as JSON; `None` where the subject makes no sense, or the kind is not among those
/// of `T`.
pub(super) fn question<T: DeserializeOwned>(kind: Kind, subject: &str) -> Option<T> {
    serde_json::from_str(&format!(r#"{{"kind":"{kind}","subject":{subject}}}"#)).ok()
}

/// Returns the subject of a question, which stands in its JSON beside its kind.
fn subject(question: &Question) -> RawJson {
    #[derive(Deserialize)]
    struct Asked {
        subject: RawJson,
    }
    let asked: Result<Asked, _> = serde_json::from_str(RawJson::of(question).get());
    asked.expect("every question has a subject").subject
}
