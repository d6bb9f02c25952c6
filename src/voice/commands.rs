//! What commands say of command lines, files and keys that cannot be used, and what to do.

use serde::de::Unexpected;

use super::clean::clean_name;
use super::naming::{count, either};
use crate::game::MoveNumber;
use crate::pgn::Packing;
use crate::question::Kind;

/// Says that an option or a key cannot have two values at once with another.
pub(crate) fn options_conflict(option: &str, other: &str) -> String {
    format!("--{option} and --{other} do not go together: leave one of them out")
}

/// Said of a text that is no time in seconds.
pub(crate) const NO_SECONDS: &str = "write a number of seconds, as in 5 or 2.5";
/// What is wanted where anything that can be typed will do.
pub(crate) const NUMBER_OR_TEXT: &str = "a number or a text in quotes";
/// Said of a command with a quotation mark that is not closed.
pub(crate) const OPEN_QUOTE: &str = "a quotation mark is not closed";
/// Said of a command without a word.
pub(crate) const NO_PROGRAM: &str = "name a program, as in \"espeak-ng -s 150\"";

/// Asks what is to be drilled, and tells what can be.
pub(crate) fn drill_of_what(kinds: impl Iterator<Item = String>) -> String {
    let name = "name what to drill, as in sansvoir drill color; several kinds stand with commas between them:";
    kinds.fold(name.to_owned(), |all, kind| all + "\n  " + &kind)
}

/// Says that manual pages lie in a folder now.
pub(crate) fn manual_written(pages: usize, folder: &str) -> String {
    format!("{pages} manual pages lie in {folder} now: man -l {folder}/sansvoir.1 shows the first.")
}

/// Said where no config file can be.
pub(crate) const NO_CONFIG_FOLDER: &str =
    "no home folder is known to keep the config file in: name a file in SANSVOIR_CONFIG";

/// Says, as a remark in a config file, where that file is.
pub(crate) fn config_file_at(path: &str) -> String {
    format!(
        "# The config file is {path}.\n# Here all is a remark: leave out the # before what you wish for."
    )
}

/// Says that a word is none of those that there are.
pub(crate) fn unknown_word<'a>(word: &str, known: impl Iterator<Item = &'a str>) -> String {
    let known: Vec<&str> = known.collect();
    format!("\"{word}\" is unknown: {}", one_of(&known))
}

/// Says which words there are.
pub(crate) fn one_of(known: &[&str]) -> String {
    format!("take one of {}", known.join(", "))
}

/// Says that a text is no place for a checkpoint.
pub(crate) fn no_move_to_stop_at(no_number: impl std::fmt::Display) -> String {
    format!("{no_number}; end is the end of the game")
}

/// Says that a checkpoint is asked for after a move that is not read.
pub(crate) fn no_stop_at(key: &str, asked: MoveNumber, last: Option<MoveNumber>) -> String {
    let end = last.map_or_else(String::new, |last| format!(", which end with {last}"));
    format!("{key} {asked}: that move is not among those that are read{end}")
}

/// Says that a game has not so many sidelines.
pub(crate) fn no_sideline(number: usize) -> String {
    format!(
        "the game has no sideline {number}: they are counted in the order in which they begin in the text"
    )
}

/// Said where several learners are named to a command that takes one.
pub(crate) const SEVERAL_LEARNERS: &str =
    "only progress takes several learners: name one with --learner";

/// Says that the system gives no seed.
pub(crate) fn no_random_number(error: &str) -> String {
    format!("the system gives no random number ({error}): name one with --seed")
}

/// Said of a place that is to be forgotten and was not kept.
pub(crate) const NONE_OF_YOUR_GAMES: &str =
    "this is none of your own games: the config file names them under games";
/// Said of a file without a game.
pub(crate) const NO_GAME_IN: &str = "this file holds no game: give a file of PGN games";

/// Said of a file that is not there.
pub(crate) const NO_SUCH_FILE: &str = "there is no such file: check the name and the folder";
/// Said of a file that may not be read.
pub(crate) const UNREADABLE: &str = "you may not read this file: change its permissions or copy it";
/// Said of a text that is none in UTF-8.
pub(crate) const NO_UTF8: &str = "this is no text in UTF-8: save it as UTF-8";
/// Said of a pipe or a device where a file of games should be.
pub(crate) const NO_FILE: &str = "this is a pipe or a device and no file: name a PGN file";
/// Said of a folder without a file of games.
pub(crate) const EMPTY_FOLDER: &str = "no PGN file lies in this folder, nor in one in it: put one there, or name another folder or a file";
/// Said of a file whose name a lesson cannot keep.
pub(crate) const NAME_IS_NO_TEXT: &str =
    "this name cannot be kept, since it is no text in UTF-8: rename the file";
/// Said of a file of answers that is too long.
pub(crate) const TOO_MANY_ANSWERS: &str =
    "this is far too long for a file of answers: name another one";

/// Says that a folder stands where a file is wanted.
pub(crate) fn folder(wanted: &str) -> String {
    format!("this is a folder: name {wanted}")
}

/// Says that a packed file could not be read to its end.
pub(crate) fn damaged(packing: Packing, games: usize, error: &str) -> String {
    format!(
        "this {packing} file is damaged or breaks off after game {games} ({error}): get it again \
         from where it came; all games up to there have been read"
    )
}

/// Names a game in its file.
pub(crate) fn game_at(file: &str, line: usize, number: usize) -> String {
    format!("{file}:{line}: game {number}")
}

/// Said where no game was chosen.
pub(crate) const NO_GAME_CHOSEN: &str = "no game was chosen";

/// Says that a text names no numbers of games or plies.
pub(crate) fn no_game_number(text: &str) -> String {
    format!(
        "{text:?} is no number from 1 on, and no two with a hyphen: write 3, 3-7 or all; 3:2 is its second sideline"
    )
}

/// Says that two numbers are the wrong way round.
pub(crate) fn games_backwards(first: usize, last: usize) -> String {
    format!("{first}-{last} runs backwards: write {last}-{first}")
}

/// Says that a file holds fewer games.
pub(crate) fn no_such_game(number: usize, games: usize) -> String {
    let games = count(games, "game", "games");
    format!("there is no game {number}: the file holds {games}; sansvoir games FILE lists them")
}

/// Says that no game fits, and which names are near to the one that was looked for.
pub(crate) fn nothing_fits(games: usize, near: impl IntoIterator<Item = String>) -> String {
    let games = count(games, "game", "games");
    let near: Vec<String> = near.into_iter().map(|name| clean_name(&name)).collect();
    match near.as_slice() {
        [] => format!("none of the {games} fits: sansvoir games FILE lists them"),
        near => format!(
            "none of the {games} fits; near to that name are {}",
            near.join("; ")
        ),
    }
}

/// Said where games are looked for that somebody won or lost, and nobody is named.
pub(crate) const WON_BY_WHOM: &str = "won and lost are for a player: name one with --player";

/// Says that a text that is looked for is none.
pub(crate) fn nothing_to_find(text: &str) -> String {
    format!("{text:?} has neither a letter nor a digit: write a part of the name")
}

/// Says why first moves are no opening.
pub(crate) fn no_opening(reason: &str) -> String {
    format!("--opening takes a code, a name, or first moves from the usual array; {reason}")
}

/// Says what is wrong with a game.
pub(crate) fn about_game(file: &str, game: usize, reason: &str) -> String {
    format!("{file}: game {game}: {reason}")
}

/// Says that another game is named than the one that goes on.
pub(crate) fn another_game(number: usize, file: &str) -> String {
    format!(
        "--resume goes on with game {number} of {file}: name that one or none, or leave out --resume to \
         start over"
    )
}

/// Says why a session cannot go on as it stands in the journal.
pub(crate) fn cannot_go_on(place: &str, reason: &str) -> String {
    format!(
        "{place}: the session that begins here cannot go on ({reason}): leave out --resume to begin a new \
         one"
    )
}

/// Said where sidelines are asked for in a game that has none.
pub(crate) const NO_SIDELINES: &str =
    "there are no sidelines here: leave out --sidelines, or choose another game";
/// Said where sidelines are asked for and the game is read up to each position.
pub(crate) const HEARD_WITHOUT_SIDELINES: &str = "a game that is read up to each position is read without its \
     sidelines: leave out --sidelines, or give --show diagram or list";
/// Said where a game is asked for on paper.
pub(crate) const NOT_ON_PAPER: &str =
    "a game needs an answer at once, and paper does not answer: choose another exercise";
/// Said of a lesson all of whose parts are left out of its sheet.
pub(crate) const NOTHING_ON_PAPER: &str =
    "nothing of this lesson can stand on paper: hold it here, or write other parts";
/// Said where few pieces and the empty board are asked for at once.
pub(crate) const FEW_ALONE: &str = "few stands alone: drill the empty board in a run of its own";
/// Said where a game is named and no file.
pub(crate) const GAME_WITHOUT_FROM: &str =
    "--game is the number of a game in a file: name that with --from";
/// Said where pawns alone are to travel.
pub(crate) const PAWNS_DO_NOT_TRAVEL: &str =
    "a pawn does not travel: name another piece with --piece, or drill span";

/// Says that an option is for few pieces alone.
pub(crate) fn option_of_few(option: &str) -> String {
    format!("--{option} is for few, which is not asked here: leave it out, or drill few")
}

/// Says that an option is for the empty board alone.
pub(crate) fn option_of_the_empty_board(option: &str) -> String {
    format!("--{option} is for questions on the empty board, not for few: leave it out")
}

/// Says that an option is for kinds that are not asked.
pub(crate) fn option_of_kinds(option: &str, kinds: &[Kind]) -> String {
    let kinds = either(kinds);
    format!("--{option} is for {kinds}, which is not asked here: leave it out")
}

/// Says that the program's own opponent does not play at a rating.
pub(crate) fn no_rating(wished: u32, least: u32, most: u32) -> String {
    format!(
        "--rating {wished}: your opponent plays from {least} to {most}; --opponent names an engine that may play otherwise"
    )
}

/// Said where a sheet is to go on.
pub(crate) const SHEET_STARTS_OVER: &str = "a sheet always starts over: leave out --resume";
/// Where an option of the sheet belongs.
pub(crate) const BEFORE_THE_EXERCISE: &str =
    "as an option of the sheet it stands before the exercise";
/// Said where a sheet to be heard or in JSON is to have a key.
pub(crate) const KEY_IS_IN_IT: &str =
    "a sheet of this format tells its answers already: leave out --key";
/// Said where a sheet and its key would be one file.
pub(crate) const KEY_IS_THE_SHEET: &str = "the sheet and its key would be one file: give --out and --key two \
     names, or leave out --key to have the key behind the questions";
/// Said where a sound is to go to the screen.
pub(crate) const SOUND_NEEDS_A_FILE: &str =
    "a sound needs a file: name one with --out, as in --out drill.wav";
/// Said where a sound would have the name of its text.
pub(crate) const SOUND_IS_NO_TEXT: &str = "the text file of that name is for where each question begins: name \
     the sound as in --out drill.wav";
/// Said where a text of `progress` is to go to a file.
pub(crate) const OUT_IS_NO_TEXT: &str =
    "--out is for html, report, csv and json: choose one of them with --format, or leave it out";
/// Said where a lesson is to be reported to parents.
pub(crate) const REPORT_IS_OF_LEARNERS: &str = "a report for parents is of a pupil, not of a lesson: leave out --lesson, or choose html, csv or json";

/// Says that the line of a file is no command of a sheet, and why.
pub(crate) fn no_command_of_a_sheet(reason: &str) -> String {
    format!("this is no command of a sheet ({reason}): copy the one that stands on the sheet")
}

/// Why a line is no command of a sheet: it begins otherwise.
pub(crate) const NO_SHEET: &str = "it begins with sansvoir sheet";
/// Why a line is no command of a sheet: it has no seed.
pub(crate) const NO_SEED: &str = "--seed is missing";
/// Why a line is no command of a sheet: it has no exercise.
pub(crate) const NO_EXERCISE: &str = "it names no exercise";
/// Why a line is no command of a sheet that can be made again.
pub(crate) const GAME_FROM_INPUT: &str = "its game came through standard input";

/// Says that a command makes another sheet than the one that it stood on.
pub(crate) fn another_sheet(made: &str, wanted: &str) -> String {
    format!(
        "this would be sheet {made}, not {wanted}: the file of games, an option or the program has changed \
         since; leave out what stands behind # to enter the answers all the same"
    )
}

/// Says what is wrong with the answer to a question.
pub(crate) fn about_question(number: usize, said: &str) -> String {
    format!("question {number}: {said}")
}

/// Says that there is no such key, with the ones that are known.
pub(crate) fn no_such_key(key: &str, known: &[&str]) -> String {
    let known = known.join(", ");
    format!("there is no key \"{key}\" here: take one of {known}, or leave it out")
}

/// Says how many faults of a file are not told one by one.
pub(crate) fn more_faults(file: &str, more: usize) -> String {
    let is = if more == 1 { "is" } else { "are" };
    let faults = count(more, "more fault", "more faults");
    format!("{file}: there {is} {faults}: correct these first")
}

/// Says where tables of a file in TOML are written.
pub(crate) fn below_a_line(key: &str, line: &str) -> String {
    format!("write each {key} below a line [[{line}]]")
}

/// Says that there are too many tables of a kind.
pub(crate) fn too_many_tables(key: &str, tables: usize, most: usize) -> String {
    let tables = count(tables, key, &format!("{key}s"));
    format!("this file has {tables}, and {most} are the most: write several files")
}

/// What the game of a line is called that stands in a lesson file itself.
pub(crate) const WRITTEN_HERE: &str = "the lesson's own line";

/// Said of a pupil without a name.
pub(crate) const PUPIL_WITHOUT_NAME: &str =
    "this pupil has no name: write it, as in name = \"Ana\"";
/// Said of a class file without a pupil.
pub(crate) const NO_PUPIL: &str =
    "this class has no pupil: write [[pupil]], and below it name = \"Ana\"";
/// Said where a class is named and no pupil of it.
pub(crate) const WHICH_PUPIL: &str = "a class has several pupils: name one with --learner";

/// Says that two pupils of a class have one name.
pub(crate) fn named_twice(name: &str) -> String {
    format!(
        "two pupils are called {name} and would have one journal: give one of them another name, and write with \
         shown how it stands on pages"
    )
}

/// Says that nobody in a class has a name, and whose names are near.
pub(crate) fn not_in_the_class(name: &str, near: &[String]) -> String {
    let near = match near {
        [] => "name one of its pupils, or add this one to the class file".to_owned(),
        near => format!("is {} meant?", near.join(" or ")),
    };
    format!("nobody in this class is called {name}: {near}")
}

/// Says that a value is of another type than it should be.
pub(crate) fn wrong_type(found: Unexpected<'_>, wanted: &str) -> String {
    let found = match found {
        Unexpected::Bool(_) => "true or false",
        Unexpected::Unsigned(_) | Unexpected::Signed(_) | Unexpected::Float(_) => "a number",
        Unexpected::Seq => "a list",
        Unexpected::Map => "a table",
        _ => "a text",
    };
    let wanted = match wanted {
        "a boolean" => "true or false",
        "a string" | "path string" => "a text in quotes",
        "a sequence" => "texts in brackets, as in [\"one\", \"two\"]",
        "u64" => "a whole number from 0 to 18446744073709551615",
        wanted => wanted,
    };
    format!("this is {found}: write {wanted}")
}

/// Says why a key cannot have its value.
pub(crate) fn unfit_value(key: &str, reason: &str) -> String {
    format!("{key}: {reason}")
}

/// Said of a list without anything in it.
pub(crate) const EMPTY_LIST: &str =
    "this list is empty: write what stands in it, or leave the key out";
/// Said where no list of texts is.
pub(crate) const NO_TEXTS: &str = "write texts in brackets, as in [\"one\", \"two\"]";
/// Said where a command names no program.
pub(crate) const NO_COMMAND: &str =
    "name the program first, then its arguments, each in quotes of its own";
/// Said where a command that writes a sound file does not name it.
pub(crate) const NO_FILE_IN_COMMAND: &str =
    "write FILE where the command takes the name of its sound file";
/// Said where think times are no table.
pub(crate) const THINK_IS_A_TABLE: &str =
    "write think times as a table, as in [think] and below it color = 4";

/// Says that there is no such encoding.
pub(crate) fn no_encoding(name: &str) -> String {
    format!("{name:?} is no encoding known here: write its name as in windows-1251 or shift_jis")
}

/// Says how to hear a game of a file that was named in the place of a command.
pub(crate) fn to_hear_a_game(file: &str) -> String {
    let file = clean_name(file);
    format!("to hear a game of this file: sansvoir replay {file}")
}
