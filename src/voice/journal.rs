//! What is said of the file that keeps a learner's answers.

use super::clean_line;
use super::naming::count;

/// Says where the journal is, or will be.
pub(crate) fn place(path: &str, is_there: bool) -> String {
    let path = clean_line(path);
    if is_there {
        format!("The journal is {path}.")
    } else {
        format!("The journal will be {path}; there is no answer yet.")
    }
}

/// Says that there is nothing to copy.
pub(crate) fn nothing_to_copy(learner: &impl ToString) -> String {
    let learner = clean_line(&learner.to_string());
    format!(
        "{learner} has no journal yet: answer a question first, or name another one with --learner"
    )
}

/// Says how much was copied.
pub(crate) fn copied(records: usize) -> String {
    format!("{} copied.", count(records, "record", "records"))
}

/// Says that a file that was to be merged is no journal.
pub(crate) fn no_journal(path: &str) -> String {
    format!(
        "{}: this is no journal, for none of its lines is a record: name a copy that sansvoir journal copy \
         made",
        clean_line(path)
    )
}

/// Says what a merge brought from a file, whose last line may have been cut off.
pub(crate) fn merged(path: &str, added: usize, known: usize, cut: bool) -> String {
    let cut = if cut {
        " Its last line is cut off and left out: if there was more, copy the file again."
    } else {
        ""
    };
    format!(
        "{}: {} brought in, {known} here already.{cut}",
        clean_line(path),
        count(added, "record", "records")
    )
}
