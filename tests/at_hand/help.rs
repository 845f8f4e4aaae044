//! What the help texts promise, and what a pipe and a narrow terminal get.

use super::{printed, standin};

/// Every command with its help, the questions of `calc` left to their own tests.
fn helps() -> Vec<(String, String)> {
    let mut found = Vec::new();
    collect(&standin::cli::command(), &mut Vec::new(), &mut found);
    found
}

fn collect(command: &clap::Command, path: &mut Vec<String>, found: &mut Vec<(String, String)>) {
    let arguments: Vec<&str> = path.iter().map(String::as_str).chain(["--help"]).collect();
    found.push((path.join(" "), printed(&arguments)));
    if path.first().is_some_and(|name| name == "calc") {
        return;
    }
    for below in command.get_subcommands() {
        path.push(below.get_name().to_owned());
        collect(below, path, found);
        path.pop();
    }
}

/// Cuts a line as a shell does, with double quotes.
fn words(line: &str) -> Vec<String> {
    let mut words = vec![String::new()];
    for (index, part) in line.split('"').enumerate() {
        for (count, piece) in part.split(if index % 2 == 1 { '\0' } else { ' ' }).enumerate() {
            if count > 0 {
                words.push(String::new());
            }
            words.last_mut().unwrap().push_str(piece);
        }
    }
    words.retain(|word| !word.is_empty());
    words
}

/// Words by which an example needs nothing but what is committed.
fn is_committed(words: &[String]) -> bool {
    let made_up = |word: &String| {
        (word.ends_with(".toml") || word.ends_with(".json") || word.ends_with(".html"))
            && !word.starts_with("examples/")
            || word.starts_with("my-")
            || ["schemas", "--output", "--csv", "--plot", "new", "add", "amend", "fit"]
                .contains(&word.as_str())
            || word.contains('~')
            || word == ">"
    };
    !words.iter().any(made_up)
}

#[test]
fn the_examples_of_every_help_text_run() {
    let mut ran = 0;
    for (command, help) in helps() {
        let examples = help.lines().filter_map(|line| line.strip_prefix("  standin "));
        for line in examples.filter(|line| !line.ends_with('\\')) {
            let words = words(line);
            if !is_committed(&words) {
                continue;
            }
            let arguments: Vec<&str> = words.iter().map(String::as_str).collect();
            let run = standin(&arguments);
            let said = String::from_utf8_lossy(&run.stderr);
            assert!(matches!(run.status.code(), Some(0 | 1)), "{command}: {line}\n{said}");
            ran += 1;
        }
    }
    assert!(ran >= 20, "only {ran} examples were run");
}

#[test]
fn a_pipe_gets_no_escape_codes_and_a_narrow_terminal_no_long_lines() {
    let kitchen = "examples/book/kitchens/tiny-flat.toml";
    let recipe = "examples/book/recipes/pear-treacle.toml";
    let commands: [&[&str]; 9] = [
        &["adapt", recipe, "--kitchen", kitchen, "--samples", "20"],
        &["routes", "vacuum-concentration", "--kitchen", kitchen, "--samples", "20"],
        &["check", recipe, "--kitchen", kitchen, "--samples", "20"],
        &["kitchen", "show", kitchen],
        &["trial", "list", "examples/book"],
        &["panel", "triangle", "--tasters", "30", "--correct", "14"],
        &["hazards"],
        &["show", "wide-pan"],
        &["calc", "boil", "--pressure", "60 mbar"],
    ];
    for command in commands {
        for columns in ["40", "80"] {
            let run = standin(&[command, &["--columns", columns]].concat());
            assert!(matches!(run.status.code(), Some(0 | 1)), "{command:?}");
            let text = String::from_utf8(run.stdout).unwrap();
            assert!(!text.contains('\u{1b}'), "{command:?}");
            let width: usize = columns.parse().unwrap();
            for line in text.lines() {
                let wide = unicode_width::UnicodeWidthStr::width(line);
                assert!(wide <= width, "{command:?} at {columns}: {wide} columns: {line}");
            }
        }
    }
}
