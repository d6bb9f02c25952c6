//! What a verdict was given on: the question, where it stood, and its right answer.

use std::borrow::Cow;

use serde::{Deserialize, Serialize};
use serde_json::value::RawValue;
use shakmaty::uci::UciMove;

use super::fault::reason;
use crate::exercise::Setting;
use crate::question::{Question, Truth};

/// All that a stranger needs to recheck a verdict, the reply apart.
#[derive(Clone, Debug, PartialEq)]
pub struct Case {
    /// The question.
    pub question: Question,
    /// Where the question stood; `None` for the bare board.
    pub setting: Option<Setting>,
    /// The right answer.
    pub expected: Truth,
}

/// A [`Case`] in the journal's own words, read only when somebody asks for it: a journal of many
/// years is looked through at every start, and hardly ever rechecked.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct CaseText(Box<str>);

/// A case that is well written and yet makes no sense.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("the answer cannot be rechecked ({0}): see the journal's own line")]
pub struct CaseError(String);

/// How a journal names the variant whose castling is written as king takes rook.
const CHESS960: &str = "chess960";

/// The fields of a case as they stand in a record.
#[derive(Clone, Copy, Deserialize)]
pub(super) struct CaseFields<'a> {
    pub(super) kind: &'a str,
    #[serde(borrow)]
    pub(super) subject: &'a RawValue,
    #[serde(borrow)]
    pub(super) expected: &'a RawValue,
    #[serde(borrow)]
    pub(super) variant: Option<&'a RawValue>,
    #[serde(borrow)]
    pub(super) start: Option<&'a RawValue>,
    #[serde(borrow)]
    pub(super) moves: Option<&'a RawValue>,
    #[serde(borrow)]
    pub(super) position: Option<&'a RawValue>,
}

/// The same fields with their values, the question's own two left to the question.
#[derive(Serialize, Deserialize)]
struct Values<'a> {
    expected: Cow<'a, Truth>,
    /// [`CHESS960`]; standard chess goes without saying.
    #[serde(skip_serializing_if = "Option::is_none")]
    variant: Option<Cow<'a, str>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    start: Option<Cow<'a, str>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    moves: Option<Cow<'a, [UciMove]>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    position: Option<Cow<'a, str>>,
}

#[derive(Serialize)]
struct Whole<'a> {
    #[serde(flatten)]
    question: &'a Question,
    #[serde(flatten)]
    values: Values<'a>,
}

impl From<&Case> for CaseText {
    fn from(case: &Case) -> CaseText {
        let setting = case.setting.as_ref();
        let whole = Whole {
            question: &case.question,
            values: Values {
                expected: Cow::Borrowed(&case.expected),
                variant: setting
                    .filter(|setting| setting.chess960)
                    .map(|_| Cow::Borrowed(CHESS960)),
                start: setting.map(|setting| Cow::Borrowed(setting.start.as_str())),
                moves: setting.map(|setting| Cow::Borrowed(setting.moves.as_slice())),
                position: setting.map(|setting| Cow::Borrowed(setting.position.as_str())),
            },
        };
        let text = serde_json::to_string(&whole);
        CaseText(text.expect("every field has a form in JSON").into())
    }
}

impl CaseText {
    /// Reads the case.
    ///
    /// # Errors
    ///
    /// [`CaseError`] when a hand that knows no chess has been at it.
    pub fn read(&self) -> Result<Case, CaseError> {
        let no_case = |error| CaseError(reason(&error));
        let values: Values<'_> = serde_json::from_str(&self.0).map_err(no_case)?;
        let setting = match (values.start, values.moves, values.position) {
            (Some(start), Some(moves), Some(position)) => Some(Setting {
                chess960: values.variant.as_deref() == Some(CHESS960),
                start: start.into_owned(),
                moves: moves.into_owned(),
                position: position.into_owned(),
            }),
            (None, None, None) => None,
            _ => {
                let reason = "start, moves and position belong together";
                return Err(CaseError(reason.to_owned()));
            }
        };
        Ok(Case {
            question: serde_json::from_str(&self.0).map_err(no_case)?,
            setting,
            expected: values.expected.into_owned(),
        })
    }

    /// Returns the subject of the question, as JSON.
    #[must_use]
    pub fn subject(&self) -> &str {
        self.fields().subject.get()
    }

    pub(super) fn of(fields: CaseFields<'_>) -> CaseText {
        let named = [
            (r#","subject":"#, Some(fields.subject)),
            (r#","expected":"#, Some(fields.expected)),
            (r#","variant":"#, fields.variant),
            (r#","start":"#, fields.start),
            (r#","moves":"#, fields.moves),
            (r#","position":"#, fields.position),
        ];
        let present = named
            .into_iter()
            .filter_map(|(name, value)| Some((name, value?.get())));
        let kind = [r#"{"kind":""#, fields.kind, "\""];
        let parts = kind
            .into_iter()
            .chain(present.flat_map(|(name, value)| [name, value]))
            .chain(["}"]);
        // Measured: the length first and the text second is faster than a text that grows.
        let mut text = String::with_capacity(parts.clone().map(str::len).sum());
        text.extend(parts);
        CaseText(text.into())
    }

    pub(super) fn fields(&self) -> CaseFields<'_> {
        serde_json::from_str(&self.0).expect("a case is written with all its fields")
    }
}
