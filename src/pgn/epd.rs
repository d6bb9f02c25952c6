//! Files of positions, a line each: FEN, or EPD with its opcodes (PGN standard, 16.1 and 16.2).

use shakmaty::fen::Fen;

/// Turns a file of positions into one of games without a move, each on the line of its position. The opcodes become
/// tags of the same names, save `id`, which names the event; empty lines and those that begin with `#` stay empty.
pub fn positions_as_games(text: &str) -> String {
    let games = text.lines().map(|line| match line.trim() {
        "" => String::new(),
        line if line.starts_with('#') => String::new(),
        line => game(line),
    });
    games.map(|game| game + "\n").collect()
}

/// Writes the game of a line. What is no position becomes a FEN all the same, whose fault the reader of games tells.
fn game(line: &str) -> String {
    let mut rest = line;
    let mut word = || {
        let (word, after) = rest.split_once(char::is_whitespace).unwrap_or((rest, ""));
        rest = after.trim_start();
        word
    };
    let mut fields = [word(), word(), word(), word(), "0", "1"].map(str::to_owned);
    let mut tags = Vec::new();
    let mut counts = rest.split_whitespace();
    if let (Some(halves), Some(number)) = (counts.next(), counts.next())
        && let (Ok(_), Ok(_)) = (halves.parse::<u32>(), number.parse::<u32>())
    {
        (fields[4], fields[5]) = (halves.to_owned(), number.to_owned());
        rest = "";
    }
    for operation in operations(rest) {
        let (opcode, operand) = operation
            .split_once(char::is_whitespace)
            .unwrap_or((operation, ""));
        let operand = operand.trim().trim_matches('"');
        match opcode {
            "hmvc" if operand.parse::<u32>().is_ok() => operand.clone_into(&mut fields[4]),
            "fmvn" if operand.parse::<u32>().is_ok() => operand.clone_into(&mut fields[5]),
            "id" => tags.insert(0, tag("Event", operand)),
            _ if opcode
                .chars()
                .all(|c| c.is_ascii_alphanumeric() || c == '_') =>
            {
                tags.push(tag(opcode, operand));
            }
            _ => {}
        }
    }
    let fen = fields.join(" ");
    if fen.parse::<Fen>().is_err() {
        return tag("FEN", line) + " *";
    }
    format!("{}[SetUp \"1\"]{} *", tags.concat(), tag("FEN", &fen))
}

/// Parts the operations of an EPD, each of which ends with a semicolon outside quotes.
fn operations(text: &str) -> impl Iterator<Item = &str> {
    let mut quoted = false;
    let parts = text.split(move |c| {
        quoted ^= c == '"';
        c == ';' && !quoted
    });
    parts
        .map(str::trim)
        .filter(|operation| !operation.is_empty())
}

fn tag(name: &str, value: &str) -> String {
    format!(
        "[{name} \"{}\"]",
        value.replace('\\', r"\\").replace('"', "\\\"")
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pgn::{Collection, read};

    fn games(text: &str) -> Vec<(String, String, bool)> {
        let games = positions_as_games(text);
        assert_eq!(games.lines().count(), text.lines().count());
        let collection = Collection::new(games.as_bytes());
        let read = collection.map(|passage| {
            let reading = read(&passage.unwrap());
            let event = reading
                .game
                .tags
                .get("Event")
                .unwrap_or_default()
                .to_owned();
            (reading.game.start.fen(), event, reading.is_whole())
        });
        read.collect()
    }

    /// The standard's own examples: the positions of its sections 16.1.4 and 16.2.
    #[test]
    fn a_line_is_a_position_with_its_counts_and_its_name() {
        let fens = [
            "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1",
            "rnbqkbnr/pp1ppppp/8/2p5/4P3/8/PPPP1PPP/RNBQKBNR w KQkq - 0 2",
            "rnbqkbnr/pp1ppppp/8/2p5/4P3/5N2/PPPP1PPP/RNBQKB1R b KQkq - 1 2",
        ];
        let found = games(&fens.join("\n"));
        assert_eq!(
            found
                .iter()
                .map(|(fen, ..)| fen.as_str())
                .collect::<Vec<_>>(),
            fens
        );
        let epd = "# mates\n\n8/8/8/8/8/5k2/6q1/7K w - - hmvc 4; fmvn 61; id \"one; two\"; c0 \"x\";\n\
                   6k1/5ppp/8/8/8/8/8/R6K w - - dm 1; bm Ra8#; id \"back rank\";\n";
        let found = games(epd);
        assert_eq!(
            found[0],
            (
                "8/8/8/8/8/5k2/6q1/7K w - - 4 61".to_owned(),
                "one; two".to_owned(),
                true
            )
        );
        assert_eq!(found[1].1, "back rank");
        // What is no position stands alone, in the words of its line.
        let bad = positions_as_games("bad line here");
        assert!(bad.starts_with("[FEN \"bad line here\"] *\n"), "{bad}");
        assert_eq!(
            games("4k3/8/8/8/8/8/4P3/4K3")[0].0,
            "4k3/8/8/8/8/8/4P3/4K3 w - - 0 1"
        );
        let best = positions_as_games("6k1/5ppp/8/8/8/8/8/R6K w - - bm Ra8# Ra9;");
        let passage = Collection::new(best.as_bytes()).next().unwrap().unwrap();
        let said = read(&passage).faults[0].to_string();
        assert!(
            said.contains("bm") && said.contains("name moves of the position"),
            "{said}"
        );
        assert!(
            positions_as_games(epd)
                .lines()
                .nth(3)
                .unwrap()
                .contains("[dm \"1\"][bm \"Ra8#\"]")
        );
    }
}
