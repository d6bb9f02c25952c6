//! A speech command: how it is called, in which spoken languages, and how what it started is silenced.

use std::collections::VecDeque;
use std::path::Path;
use std::process::Stdio;
use std::thread;

use super::attend::{command, named};
use crate::voice::{SpokenLanguage, spoken_languages};

/// A command that speaks what comes through its standard input.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Speaker {
    /// The program and its arguments.
    words: Vec<String>,
    /// The same with a German voice, where one is known; it is forgotten where it fails.
    german: Option<Vec<String>>,
    /// The command that silences what goes on in another process.
    silence: Option<Vec<String>>,
}

impl Speaker {
    /// Knows the manners of a command by its program's name. What `spd-say` speaks goes on in another
    /// process. (Sources: the manual pages of spd-say 0.11.4, `--language`, `--cancel`, and espeak-ng
    /// 1.51, `-v`.)
    pub(super) fn new(words: Vec<String>) -> Speaker {
        let program = words.first().map(Path::new).and_then(Path::file_stem);
        let with = |more: [&str; 2]| {
            let more = more.map(str::to_owned);
            Some(words.iter().cloned().chain(more).collect())
        };
        let (german, silence) = match program.and_then(|name| name.to_str()) {
            Some("espeak-ng" | "espeak") => (with(["-v", "de"]), None),
            Some("spd-say") => (
                with(["--language", "de"]),
                Some(["spd-say", "--cancel"].map(str::to_owned).into()),
            ),
            Some(_) | None => (None, None),
        };
        Speaker {
            words,
            german,
            silence,
        }
    }

    /// The commands that are tried in turn where the user names none. (Sources: the manual pages of
    /// spd-say 0.11.4, `--wait` and `--pipe-mode`, and espeak-ng 1.51, `--stdin`. `say` comes with a system on
    /// which it was not run.)
    pub(super) fn usual() -> VecDeque<Speaker> {
        [
            &["spd-say", "--wait", "--pipe-mode"][..],
            &["espeak-ng", "--stdin"],
            &["say"],
        ]
        .into_iter()
        .map(|words| Speaker::new(words.iter().map(ToString::to_string).collect()))
        .collect()
    }

    /// Names the program.
    pub(super) fn name(&self) -> String {
        named(&self.words)
    }

    /// Parts a sentence by its spoken languages, where there is a voice for each of them.
    pub(super) fn parts(&self, sentence: &str) -> Vec<(SpokenLanguage, String)> {
        if self.german.is_some() {
            spoken_languages(sentence)
        } else {
            vec![(SpokenLanguage::English, sentence.to_owned())]
        }
    }

    /// The command for words of a spoken language.
    pub(super) fn words(&self, spoken_language: SpokenLanguage) -> &[String] {
        match (spoken_language, &self.german) {
            (SpokenLanguage::German, Some(german)) => german,
            (SpokenLanguage::German, None) | (SpokenLanguage::English, _) => &self.words,
        }
    }

    /// Forgets the German voice, and tells whether there was one.
    pub(super) fn forget_german(&mut self) -> bool {
        self.german.take().is_some()
    }

    /// Silences what the command started, and does not wait for it.
    pub(super) fn silence(&self) {
        let Some(Ok(mut command)) = self.silence.as_deref().map(command) else {
            return;
        };
        command
            .stdin(Stdio::null())
            .stdout(Stdio::null())
            .stderr(Stdio::null());
        if let Ok(mut child) = command.spawn() {
            thread::spawn(move || child.wait());
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn speaker(words: &str) -> Speaker {
        Speaker::new(words.split(' ').map(str::to_owned).collect())
    }

    #[test]
    fn a_known_program_gets_a_german_voice_for_german_words_wherever_it_lies() {
        let table = [
            ("espeak-ng -s 150", "espeak-ng -s 150 -v de"),
            (
                "/usr/bin/espeak-ng --stdin",
                "/usr/bin/espeak-ng --stdin -v de",
            ),
            ("spd-say -e", "spd-say -e --language de"),
        ];
        for (words, german) in table {
            let speaker = speaker(words);
            assert_eq!(speaker.words(SpokenLanguage::German).join(" "), german);
            assert_eq!(speaker.words(SpokenLanguage::English).join(" "), words);
            assert_eq!(speaker.parts("Turm to Anna eins.").len(), 3);
        }
    }

    #[test]
    fn a_command_without_a_known_german_voice_gets_sentences_whole() {
        let mut espeak = speaker("espeak-ng");
        assert!(espeak.forget_german() && !espeak.forget_german());
        for speaker in [espeak, speaker("my-voice"), speaker("say")] {
            let whole = (SpokenLanguage::English, "Turm to Anna eins.".to_owned());
            assert_eq!(speaker.parts("Turm to Anna eins."), [whole]);
        }
    }
}
