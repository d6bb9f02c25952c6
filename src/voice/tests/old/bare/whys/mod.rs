//! Why each truth is true, after a reply or a pass.

mod journeys;
mod sight;
mod squares;

use super::explained;

/// A kind, the inside of its subject, a reply, and the reasons that follow.
type Row = (
    &'static str,
    &'static str,
    &'static str,
    &'static [&'static str],
);

fn hold(table: &[Row]) {
    for (kind, subject, reply, reasons) in table {
        assert_eq!(
            explained(kind, subject, reply),
            *reasons,
            "{kind} {subject} {reply}"
        );
    }
}
