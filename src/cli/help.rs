//! `help`: the handbook; and what `-h`, `--help` and every error show of it.

use anstyle::Style;
use clap::builder::PossibleValuesParser;
use clap::{ArgAction, Args, Command};

use super::failure::Failure;
use super::request::Request;
use super::shared::Shared;
use crate::terminal::{ScreenError, Way, show_pages};
use crate::voice::handbook::{self, Block, PAGES, Page, Shape};

#[derive(Args, Debug)]
pub(super) struct Arguments {
    /// A command, or a subject of the handbook
    #[arg(value_name = "TOPIC", default_value = "help", hide_default_value = true,
          value_parser = PossibleValuesParser::new(PAGES.iter().map(|page| page.topic)))]
    topic: String,
}

pub(super) fn run(arguments: &Arguments, shared: &Shared) -> Result<(), Failure> {
    let page = Page::of(&arguments.topic);
    let mut blocks = page.blocks();
    if page.topic == "help" {
        let about = |page: &Page| vec![format!("`{}`: {}", page.topic, page.title())];
        let contents = PAGES.iter().map(about);
        blocks.extend(contents.map(|lines| Block::new(Shape::Item, lines)));
    }
    say(&blocks, shared)
}

/// Shows a part of the handbook, or reads it aloud.
pub(super) fn say(blocks: &[Block], shared: &Shared) -> Result<(), Failure> {
    let aloud = shared.aloud();
    // A file is nothing for the ear.
    let heard = blocks.iter().filter(|block| block.shape != Shape::Sample);
    for line in heard.flat_map(|block| &block.lines) {
        aloud.aside(&handbook::bare(line));
    }
    if shared.speaks() && shared.manner().way != Way::Piped {
        // Who types has heard enough.
        shared.listener()?;
    }
    show(&styled(blocks), shared)
}

/// Shows a text that may be longer than the screen.
pub(super) fn show(text: &str, shared: &Shared) -> Result<(), Failure> {
    let manner = shared.manner();
    let paged = manner.way == Way::Edited && !shared.speaks();
    show_pages(text, manner.styled, paged).map_err(|error| ScreenError::from(error).into())
}

/// Sets a part of the handbook with styles.
fn styled(blocks: &[Block]) -> String {
    const STRONG: Style = Style::new().bold();
    const HEADING: Style = Style::new().underline();

    let (mut text, mut last) = (String::new(), None);
    for block in blocks {
        if last.is_some() && (last, block.shape) != (Some(Shape::Item), Shape::Item) {
            text.push('\n');
        }
        last = Some(block.shape);
        for (number, line) in block.lines.iter().enumerate() {
            let strong = |part| format!("{STRONG}{part}{STRONG:#}");
            let line = match block.shape {
                Shape::Heading => format!("{HEADING}{line}{HEADING:#}"),
                Shape::Sample => format!("    {line}").trim_end().to_owned(),
                Shape::Commands => format!("    {}", strong(line.clone())),
                Shape::Text => handbook::marked(line, |part| part, strong).concat(),
                Shape::Item => {
                    let indent = if number == 0 { "  " } else { "      " };
                    indent.to_owned() + &handbook::marked(line, |part| part, strong).concat()
                }
            };
            text += &line;
            text.push('\n');
        }
    }
    text
}

/// Lets the program and its commands say what their pages say, the examples first: in `brief`, as for `-h`, on one
/// screen with the names of the options, else with all that there is to say of each.
pub(super) fn taught(mut program: Command, brief: bool) -> Command {
    let start = Page::of("start");
    // Only now every command has the options that all share.
    program.build();
    // Its commands are more to see than how they are put together.
    let template = TEMPLATE.replace("{usage-heading} {usage}\n\n", "");
    with_page(program, start, brief)
        .help_template(template)
        .mut_subcommands(|command| {
            let page = Page::find(command.get_name()).unwrap_or(start);
            let command = with_page(command.about(page.title()), page, brief);
            command.mut_subcommands(|below| {
                let exercise = Request::EXERCISES.contains(&below.get_name());
                let about = Page::find(below.get_name()).filter(|_| exercise);
                let below = match about {
                    Some(own) => below.about(own.title()),
                    None => below,
                };
                with_page(below, page, brief)
            })
        })
}

/// What stands on a help page, from top to bottom.
const TEMPLATE: &str =
    "{about-with-newline}\n{before-help}{usage-heading} {usage}\n\n{all-args}{after-help}";

fn with_page(command: Command, page: &Page, brief: bool) -> Command {
    let below = if brief {
        at_a_glance(&command, page.topic)
    } else {
        handbook::more(page.topic)
    };
    command
        .help_template(TEMPLATE)
        .before_help(handbook::with_examples(&page.first(Shape::Commands)))
        .after_help(below)
        .mut_args(|arg| match arg.get_id().as_str() {
            // The long form has every option on lines of its own.
            "help" => arg.action(ArgAction::HelpShort).hide_short_help(brief),
            _ => arg.hide_short_help(brief),
        })
}

/// Names the options of a command under their headings, and tells where to read on.
fn at_a_glance(command: &Command, topic: &str) -> String {
    let (mut glance, mut under) = (String::new(), "");
    for option in command.get_arguments().filter(|arg| !arg.is_hide_set()) {
        let name = option.get_long().unwrap_or("help");
        if ["help", "version"].contains(&name) {
            continue;
        }
        let heading = option.get_help_heading().unwrap_or("Options");
        if under != heading {
            glance.extend(["\n", heading, ":"]);
            under = heading;
        }
        glance.extend([" --", name]);
    }
    glance.trim_start().to_owned() + "\n" + &handbook::more_of_options(topic)
}
