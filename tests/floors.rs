//! The shape of the source: which room may use which, who may print, how long things may be.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first fault")]

use std::fs;
use std::path::{Path, PathBuf};

/// Each room with its step. A room uses itself and rooms on lower steps, never its neighbours.
const STEPS: [(&str, u32); 17] = [
    ("quantity", 0),
    ("finding", 0),
    ("estimate", 1),
    ("physics", 2),
    ("knowledge", 2),
    ("reader", 3),
    ("kitchen", 4),
    ("recipe", 5),
    ("book", 6),
    ("process", 7),
    ("calc", 8),
    ("advisor", 8),
    ("trial", 9),
    ("notes", 10),
    ("report", 11),
    ("cli", 12),
    ("main", 13),
];
/// The bench answers physics: it knows nothing of what users write nor of processes.
const HIGHEST_STEP_OF_CALC: u32 = 2;
/// Files of `report` that turn a document into text: no food and no physics in them.
const FORMATS: [&str; 9] = [
    "table.rs",
    "markdown.rs",
    "html.rs",
    "json.rs",
    "document.rs",
    "docx/mod.rs",
    "docx/body.rs",
    "docx/styles.rs",
    "docx/xml.rs",
];
/// What only the room `cli` may write.
const PRINTING: [&str; 6] =
    ["println!", "eprintln!", "print!(", "process::exit", "io::stdout", "io::stderr"];
const MOST_LINES_OF_A_FUNCTION: usize = 60;
const MOST_LINES_OF_A_FILE: usize = 400;

/// One source file without its tests: text, comments and characters blanked, line by line.
struct Source {
    name: String,
    lines: Vec<String>,
}

impl Source {
    fn room(&self) -> &str {
        let first = self.name.split('/').next().unwrap();
        first.strip_suffix(".rs").unwrap_or(first)
    }

    /// The rooms it names after `crate::`, with the line; braces after `use crate::` are opened.
    fn rooms_used(&self) -> Vec<(usize, String)> {
        let mut used = Vec::new();
        for (number, line) in self.lines.iter().enumerate() {
            for (at, _) in line.match_indices("crate::") {
                if line[..at].ends_with('$') || line[..at].ends_with(is_word) {
                    continue;
                }
                let rest = &line[at + "crate::".len()..];
                let names: Vec<&str> = match rest.strip_prefix('{') {
                    Some(list) => list.trim_end_matches(['}', ';']).split(',').collect(),
                    None => vec![rest],
                };
                let words = names.into_iter().map(first_word).filter(|word| !word.is_empty());
                used.extend(words.map(|word| (number + 1, word)));
            }
        }
        used
    }

    /// First line and length of each function.
    fn functions(&self) -> Vec<(usize, usize)> {
        let starts = self.lines.iter().enumerate().filter(|(_, line)| starts_function(line));
        starts.map(|(start, _)| (start + 1, self.length_from(start))).collect()
    }

    /// Lines from the first to the one that closes the first brace; a declaration is one line.
    fn length_from(&self, start: usize) -> usize {
        let (mut depth, mut round) = (0_i32, 0_i32);
        for (count, line) in self.lines[start..].iter().enumerate() {
            for letter in line.chars() {
                match letter {
                    '(' | '[' => round += 1,
                    ')' | ']' => round -= 1,
                    '{' => depth += 1,
                    '}' => depth -= 1,
                    ';' if depth == 0 && round == 0 => return count + 1,
                    _ => continue,
                }
                if letter == '}' && depth == 0 {
                    return count + 1;
                }
            }
        }
        panic!("{}: a function from line {start} is not closed", self.name)
    }
}

fn is_word(letter: char) -> bool {
    letter.is_alphanumeric() || letter == '_'
}

fn first_word(text: &str) -> String {
    text.trim().chars().take_while(|letter| is_word(*letter)).collect()
}

fn starts_function(line: &str) -> bool {
    let mut words = line
        .split_whitespace()
        .skip_while(|word| word.starts_with("pub") || ["super)", "const", "async"].contains(word));
    words.next() == Some("fn")
}

fn sources() -> Vec<Source> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut paths = Vec::new();
    collect(&root, &mut paths);
    paths.sort();
    let read = |path: &PathBuf| {
        let name = path.strip_prefix(&root).unwrap().to_string_lossy().replace('\\', "/");
        let text = blank(&fs::read_to_string(path).unwrap());
        let is_test = name.ends_with("tests.rs");
        let lines = text.lines().take_while(|line| !is_test && line.trim() != "#[cfg(test)]");
        Source { name, lines: lines.map(str::to_owned).collect() }
    };
    paths.iter().map(read).collect()
}

fn collect(folder: &Path, paths: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            collect(&path, paths);
        } else if path.extension().is_some_and(|extension| extension == "rs") {
            paths.push(path);
        }
    }
}

/// Blanks comments, strings and character literals; line breaks stay.
fn blank(text: &str) -> String {
    let letters: Vec<char> = text.chars().collect();
    let mut blanked = String::with_capacity(text.len());
    let mut at = 0;
    while at < letters.len() {
        let end = end_of_blank(&letters, at);
        if end == at {
            blanked.push(letters[at]);
            at += 1;
        } else {
            blanked.extend(letters[at..end].iter().map(|l| if *l == '\n' { '\n' } else { ' ' }));
            at = end;
        }
    }
    blanked
}

/// The end of the comment or literal that starts here; the same place when none does.
fn end_of_blank(letters: &[char], at: usize) -> usize {
    let next = letters.get(at + 1).copied();
    match letters[at] {
        '/' if next == Some('/') => find_end(letters, at, |i| letters[i] == '\n'),
        '/' if next == Some('*') => {
            find_end(letters, at + 2, |i| letters[i] == '/' && letters[i - 1] == '*') + 1
        }
        'r' if matches!(next, Some('"' | '#')) && !(at > 0 && is_word(letters[at - 1])) => {
            raw_end(letters, at)
        }
        '"' => quoted_end(letters, at, '"'),
        '\'' if next == Some('\\') || letters.get(at + 2) == Some(&'\'') => {
            quoted_end(letters, at, '\'')
        }
        _ => at,
    }
}

fn find_end(letters: &[char], from: usize, ends: impl Fn(usize) -> bool) -> usize {
    (from..letters.len()).find(|i| ends(*i)).unwrap_or(letters.len())
}

fn quoted_end(letters: &[char], at: usize, quote: char) -> usize {
    let mut i = at + 1;
    while i < letters.len() && letters[i] != quote {
        i += if letters[i] == '\\' { 2 } else { 1 };
    }
    (i + 1).min(letters.len())
}

fn raw_end(letters: &[char], at: usize) -> usize {
    let marks = letters[at + 1..].iter().take_while(|letter| **letter == '#').count();
    if letters.get(at + 1 + marks) != Some(&'"') {
        return at;
    }
    let closed = |i: usize| {
        letters[i] == '"'
            && letters[i + 1..].iter().take(marks).filter(|l| **l == '#').count() == marks
    };
    (find_end(letters, at + 2 + marks, closed) + 1 + marks).min(letters.len())
}

fn step(room: &str) -> Option<u32> {
    STEPS.iter().find(|(name, _)| *name == room).map(|(_, step)| *step)
}

fn assert_none(faults: &[String]) {
    assert!(faults.is_empty(), "{} faults:\n{}", faults.len(), faults.join("\n"));
}

#[test]
fn every_room_uses_only_rooms_below() {
    let mut faults = Vec::new();
    for source in sources().iter().filter(|source| source.name != "lib.rs") {
        let room = source.room();
        let own = step(room).unwrap_or_else(|| panic!("{}: no step for this room", source.name));
        let highest = if room == "calc" { HIGHEST_STEP_OF_CALC } else { own.saturating_sub(1) };
        for (line, used) in source.rooms_used() {
            let low_enough = own > 0 && step(&used).is_some_and(|step| step <= highest);
            if used != room && !low_enough {
                faults.push(format!("src/{}:{line} uses `{used}`", source.name));
            }
        }
    }
    assert_none(&faults);
}

#[test]
fn formats_know_documents_only() {
    let mut faults = Vec::new();
    for source in sources() {
        let format = source.name.strip_prefix("report/").is_some_and(|f| FORMATS.contains(&f));
        let above = |room: &str| !["report", "quantity", "estimate"].contains(&room);
        for (line, used) in source.rooms_used() {
            if format && above(&used) {
                faults.push(format!("src/{}:{line} uses `{used}`", source.name));
            }
        }
    }
    assert_none(&faults);
}

#[test]
fn only_the_command_line_prints_or_exits() {
    let mut faults = Vec::new();
    for source in sources().iter().filter(|source| !["cli", "main"].contains(&source.room())) {
        for (number, line) in source.lines.iter().enumerate() {
            if PRINTING.iter().any(|word| line.contains(word)) {
                faults.push(format!("src/{}:{}", source.name, number + 1));
            }
        }
    }
    assert_none(&faults);
}

#[test]
fn files_and_functions_stay_short() {
    let mut faults = Vec::new();
    for source in sources() {
        if source.lines.len() > MOST_LINES_OF_A_FILE {
            faults.push(format!("src/{} has {} lines", source.name, source.lines.len()));
        }
        for (line, length) in source.functions() {
            if length > MOST_LINES_OF_A_FUNCTION {
                faults.push(format!("src/{}:{line} has {length} lines", source.name));
            }
        }
    }
    assert_none(&faults);
}

#[test]
fn the_reader_of_sources_sees_code_only() {
    let text =
        "fn a() { \"{ println!\" } // crate::cli\nlet c = '{'; use crate::{physics::x, cli};";
    let lines: Vec<String> = blank(text).lines().map(str::to_owned).collect();
    let source = Source { name: "a.rs".into(), lines };
    assert_eq!(source.functions(), [(1, 1)]);
    assert_eq!(source.rooms_used(), [(2, "physics".into()), (2, "cli".into())]);
}
