//! The grammar of all that can be said, for a speech recognizer: JSGF (the Java Speech Grammar Format, W3C Note,
//! 5 June 2000), made of the words by which replies are read.

use strum::VariantArray;

use super::Form;
use super::spoken::{NUMBERS, TABLE, Word};

/// The words of what is no reply. Without them, nine of ten ordinary sentences were taken for replies.
pub(crate) const NOISE_WORDS: [&str; 2] = ["garbage", "neversaid"];
/// The words of every grammar with their pronunciations, in the phones of the CMU Pronouncing Dictionary.
pub(crate) const DICTIONARY: &str = include_str!("pronunciations.dict");

/// What replies are made of, beside the words of the vocabulary.
const PARTS: &str = "\
<square> = <file> <rank>;
<squares> = <square> ([<and>] <square>)*;
<side> = <white> | <black>;
<wing> = <short> | <long> | king side | queen side;
<standing> = <piece> [<on>] <square> | <pieces> [<on>] <square> [<and>] <squares>;
<group> = (<side> | <slash>) <standing>* | <standing> <standing>*;
<taken> = <piece> | <many> <pieces>;
<place> = <file> | <rank> | <square>;
<from-to> = <piece> [<from>] [<place>] [<takes> [<on>] | <to>] | [<file> | <square>] <takes> [<on>] | <square> [<to>];
<promotion> = <file> <edge> [<becomes> [<to>] [a]] <piece>;
<move> = <castles> <wing> | <wing> <castles> | [<from-to>] (<square> | <promotion>) [<end> | en passant];
<word> = again [all | <many>] | question | look | pass | why | help | stop | yes | no | wrong;
<idle> = go on | next | back | lesson | short game | own games;
<turn> = hint | take back | draw | resign;
";

/// What is no reply, a sound at a time, weighed against a word that nobody says. Measured with synthetic voices:
/// with a greater weight replies are taken for noise, with a smaller one sentences for replies.
/// There is no `+` in these grammars: pocketsphinx reads one at the end of a rule as if more than that rule came again.
const NOISE: &str = "\
<sound> = /0.00003/ garbage | /1/ neversaid;
<noise> = <sound> <sound>*;
";

/// How files are called.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Deserialize)]
#[serde(rename_all = "lowercase")]
pub(crate) enum FileNames {
    /// By the names of the FIDE Laws of Chess 2023, Appendix D.
    #[default]
    Laws,
    /// By their letters, of which several sound alike.
    Letters,
}

/// The words of which a grammar is made.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Grammar {
    /// How files are called.
    pub(crate) files: FileNames,
    /// Whether pieces, numbers and castling have the German names that the Laws give.
    pub(crate) german: bool,
}

/// What can be said in a form.
const fn reply(form: Form) -> &'static str {
    match form {
        Form::SquareOrGone => "[<piece>] [<on>] <square> | gone | taken | still there",
        Form::Piece => "[<side>] <piece> | empty | none",
        Form::Squares => "<squares> | none",
        Form::Legal => "legal | illegal | yes | no",
        Form::Placement => "<group> <group>*",
        Form::Moves => "<move> (<and> <move>)* | none",
        Form::MoveOrNone => "<move> | none",
        Form::Move => "<move> | <turn>",
        Form::Points => "[minus | plus] <number> | even",
        Form::Wings => "[<castles>] <wing> | <wing> <castles> | both | none",
        Form::Taken => "<taken> ([<and>] <taken>)* | none",
        Form::Square => "[<on>] <square>",
        Form::Place => "<rank> <rank>",
        Form::Color => "light | dark | <side>",
        Form::Line => "file | rank | diagonal | none",
        Form::Distance => "<number> [moves] | never",
        Form::Route => "<squares> | never",
    }
}

impl Grammar {
    /// Writes the grammar of what can be said while a reply of a form is awaited, or `None` alone; every grammar
    /// has the words of the prompt.
    pub(crate) fn of(self, forms: &[Form]) -> String {
        let mut rules = vec!["#JSGF V1.0;\ngrammar sansvoir;\n".to_owned()];
        let mut rule = |name: &str, words: &[&str]| {
            rules.push(format!("<{name}> = {};\n", words.join(" | ")));
        };
        let numbers = NUMBERS[usize::from(self.german)];
        let numbers: Vec<&str> = numbers.split(' ').collect();
        rule("number", &numbers);
        rule("rank", &numbers[1..9]);
        rule("edge", &[numbers[1], numbers[8]]);
        rule("many", &numbers[2..9]);
        let letters = ["a", "b", "c", "d", "e", "f", "g", "h"];
        for rows in TABLE.chunk_by(|one, next| one.0 == next.0) {
            let said = rows.iter().flat_map(|(_, word, english, german, _)| {
                match word {
                    Word::File(file) if self.files == FileNames::Letters => letters[*file as usize],
                    _ if self.german && !german.is_empty() => german,
                    _ => english,
                }
                .split(' ')
            });
            rule(rows[0].0, &said.collect::<Vec<_>>());
        }
        let mut said: Vec<&str> = forms.iter().map(|form| reply(*form)).collect();
        // What only goes on is not heard in the place of a reply.
        let is_idle = forms.is_empty() || forms.len() == Form::VARIANTS.len();
        said.extend(is_idle.then_some("<idle>"));
        said.extend(["<word>", "<noise>"]);
        let said = said.join("\n  | ");
        rules.concat() + PARTS + NOISE + "public <said> = " + &said + ";\n"
    }

    /// Writes the grammar of all that can be said anywhere.
    pub(crate) fn whole(self) -> String {
        self.of(Form::VARIANTS)
    }
}

#[cfg(test)]
mod tests;
