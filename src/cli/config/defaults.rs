//! How the config file's values become the defaults of options.

use clap::Command;

use super::Config;
use crate::terminal::environment_speaks_of_color;

impl Config {
    /// Gives every option that has a default the config file's value in its place, in every command.
    ///
    /// A word on the command line comes before a default, and so does the environment: what it says of
    /// color is heard where the wish is `auto`.
    pub(in super::super) fn in_place_of_defaults(&self, command: Command) -> Command {
        let wished = |name: &str| {
            let is_color = name == "color" && environment_speaks_of_color();
            let found = self.defaults.iter().find(|(key, _)| *key == name);
            found.filter(|_| !is_color).map(|(_, value)| value.clone())
        };
        with_defaults(command, &wished)
    }
}

fn with_defaults(command: Command, wished: &impl Fn(&str) -> Option<String>) -> Command {
    let command = command.mut_args(|option| {
        let has_default = !option.get_default_values().is_empty();
        match option.get_long().and_then(wished) {
            Some(value) if has_default => option.default_value(value),
            Some(_) | None => option,
        }
    });
    let names: Vec<String> = command
        .get_subcommands()
        .map(|command| command.get_name().to_owned())
        .collect();
    names.into_iter().fold(command, |command, name| {
        command.mut_subcommand(name, |command| with_defaults(command, wished))
    })
}
