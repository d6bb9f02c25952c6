//! Replies by mouth: what was heard is said back, and counts once it is confirmed.

use super::hearing::HINT;
use super::input::Input;
use super::said::GameWord;
use crate::question::Form;
use crate::reply::{Unread, in_digits};

/// What was heard and is not confirmed yet.
#[derive(Debug, Default)]
pub(crate) struct Mouth {
    said: Said,
    /// Whether what the learner said last came by mouth.
    heard: bool,
    /// How many times something was taken back since the last answer.
    taken_back: u32,
}

#[derive(Debug, Default, PartialEq, Eq)]
enum Said {
    #[default]
    Nothing,
    /// A reply, utterance by utterance.
    Reply(Vec<String>),
    /// A word of the prompt that does more than say something again.
    Word(String),
}

/// What becomes of an utterance.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Uttered {
    /// Nothing: it is passed over.
    Nothing,
    /// It is as if this had been typed.
    Line(String),
    /// It is asked whether this was said.
    SaidBack(String),
    /// What was said last is taken back, and nothing is left of it.
    TakenBack,
    /// It is no reply here.
    Unread(Unread),
}

impl Mouth {
    /// Takes an utterance while a reply of a form is awaited, if any; `read` brings a reply into writing.
    pub(crate) fn hear(
        &mut self,
        text: &str,
        form: Option<Form>,
        read: impl Fn(&str) -> Result<String, Unread>,
    ) -> Uttered {
        let text = in_digits(&text.to_lowercase()).unwrap_or_default();
        let is_open = self.said != Said::Nothing;
        match text.as_str() {
            "yes" if is_open => {
                let said = match std::mem::take(&mut self.said) {
                    Said::Reply(said) => said.join(" "),
                    Said::Word(word) => word,
                    Said::Nothing => String::new(),
                };
                return self.line(said);
            }
            "no" | "wrong" if is_open => return self.take_back(),
            "go on" | "next" if form.is_none() => return self.line(String::new()),
            "" | "wrong" | "go on" | "next" => return Uttered::Nothing,
            _ => {}
        }
        let is_word = match Input::read(&text, 0) {
            Input::Again | Input::Question | Input::Why | Input::Help => {
                return self.line(text);
            }
            Input::Reply { .. } => text == HINT || GameWord::read(&text, |_| None).is_some(),
            _ => true,
        };
        if is_word {
            self.said = Said::Word(text.clone());
            return Uttered::SaidBack(text);
        }
        let mut said = match &self.said {
            Said::Reply(said) if form.is_some_and(Form::adds_up) => said.clone(),
            _ => Vec::new(),
        };
        match read(&[&said[..], std::slice::from_ref(&text)].concat().join(" ")) {
            Ok(whole) => {
                // What was said back before, and is replaced, was not right.
                let replaced = said.is_empty() && matches!(self.said, Said::Reply(_));
                self.taken_back += u32::from(replaced);
                let before = said.join(" ");
                let added = whole.strip_prefix(&before).unwrap_or(&whole).trim();
                said.push(added.to_owned());
                self.said = Said::Reply(said);
                Uttered::SaidBack(whole)
            }
            // A yes too many is no reply.
            Err(_) if form.is_none() || matches!(&*text, "yes" | "no") => Uttered::Nothing,
            Err(unread) => Uttered::Unread(unread),
        }
    }

    fn line(&mut self, line: String) -> Uttered {
        self.heard = true;
        Uttered::Line(line)
    }

    fn take_back(&mut self) -> Uttered {
        let Said::Reply(said) = &mut self.said else {
            self.said = Said::Nothing;
            return Uttered::TakenBack;
        };
        self.taken_back += 1;
        said.pop();
        if said.is_empty() {
            self.said = Said::Nothing;
            return Uttered::TakenBack;
        }
        Uttered::SaidBack(said.join(" "))
    }

    /// Tells whether a line that was typed says yes or no to what was said back.
    pub(crate) fn confirms(&self, line: &str) -> bool {
        self.said != Said::Nothing && matches!(line.trim(), "yes" | "no" | "wrong")
    }

    /// Tells whether silence can stand for the yes: not where a word would do what cannot be undone.
    pub(crate) fn takes_silence(&self) -> bool {
        matches!(self.said, Said::Reply(_))
    }

    /// Forgets what was not confirmed: something was typed instead.
    pub(crate) fn forget(&mut self) {
        self.said = Said::Nothing;
        self.heard = false;
    }

    /// Tells whether the last answer came by mouth, and how often something was taken back before, which is counted
    /// from nought again.
    pub(crate) fn account(&mut self) -> (bool, u32) {
        (self.heard, std::mem::take(&mut self.taken_back))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Hears utterances one after the other and says what becomes of each.
    fn heard(form: Option<Form>, texts: &[&str]) -> (Vec<String>, Mouth) {
        let mut mouth = Mouth::default();
        let read = |text: &str| {
            let form = form.ok_or(Unread::Nothing)?;
            let said = form.in_writing(text, &shakmaty::Chess::default());
            form.read(&said).map(|_| said)
        };
        let told = texts.iter().map(|text| match mouth.hear(text, form, read) {
            Uttered::Nothing => "-".to_owned(),
            Uttered::Line(line) => format!("={line}"),
            Uttered::SaidBack(said) => format!("{said}?"),
            Uttered::TakenBack => "taken back".to_owned(),
            Uttered::Unread(unread) => format!("{unread:?}"),
        });
        (told.collect(), mouth)
    }

    #[test]
    fn a_reply_counts_once_it_was_said_back_and_confirmed() {
        let (told, mut mouth) = heard(Some(Form::Square), &["eva four", "yes"]);
        assert_eq!(told, ["e4?", "=e4"]);
        assert_eq!(mouth.account(), (true, 0));
        let (told, mut mouth) = heard(
            Some(Form::Square),
            &["eva four", "no", "yes", "eva five", "eva six", "yes"],
        );
        assert_eq!(told, ["e4?", "taken back", "-", "e5?", "e6?", "=e6"]);
        assert_eq!(mouth.account(), (true, 2));
        mouth.forget();
        assert_eq!(mouth.account(), (false, 0), "each is counted once");
    }

    #[test]
    fn utterances_of_a_list_add_up_and_the_last_one_is_taken_back() {
        let said = [
            "anna one",
            "bella two cesar three",
            "wrong",
            "hector eight",
            "yes",
        ];
        let (told, _) = heard(Some(Form::Squares), &said);
        assert_eq!(told, ["a1?", "a1 b2 c3?", "a1?", "a1 h8?", "=a1 h8"]);
    }

    #[test]
    fn yes_and_no_are_replies_where_nothing_waits_for_them() {
        let (told, _) = heard(Some(Form::Legal), &["no", "yes", "yes", "no", "yes"]);
        assert_eq!(
            told,
            ["illegal?", "=illegal", "legal?", "taken back", "legal?"]
        );
    }

    #[test]
    fn words_that_only_say_something_again_act_at_once_and_all_others_want_a_yes() {
        let (told, mouth) = heard(Some(Form::Square), &["again", "question", "why", "help"]);
        assert_eq!(told, ["=again", "=question", "=why", "=help"]);
        assert!(!mouth.confirms("yes"));
        for word in [
            "look",
            "pass",
            "back",
            "stop",
            "resign",
            "draw",
            "take back",
            "hint",
            "again all",
            "again 6",
        ] {
            let (told, mouth) = heard(Some(Form::Move), &[word]);
            assert_eq!(told, [format!("{word}?")]);
            assert!(mouth.confirms("yes") && !mouth.takes_silence(), "{word}");
            assert_eq!(
                heard(Some(Form::Move), &[word, "yes"]).0[1],
                format!("={word}")
            );
            assert_eq!(heard(Some(Form::Move), &[word, "no"]).0[1], "taken back");
        }
    }

    #[test]
    fn where_nothing_is_asked_only_words_are_heard() {
        let (told, _) = heard(
            None,
            &["go on", "next", "eva four", "yes", "no", "stop", "yes"],
        );
        assert_eq!(told, ["=", "=", "-", "-", "-", "stop?", "=stop"]);
    }
}
