//! What a pipe, a narrow terminal and a reader that goes away get, from every command.

use rayon::prelude::*;

use super::help::{ASKING, examples, typed};

/// Commands whose result other programs read.
const FOR_PROGRAMS: [&str; 5] = ["schema", "import", "export", "completions", "man"];
/// Words of an example whose result other programs read; a help text has its own width.
const FORMATS: [&str; 5] = ["json", "html", "markdown", "docx", "--help"];

/// Every example that prints, without the file that its result would go to.
fn printing() -> Vec<String> {
    let print = |line: &String| line.split(" > ").next().unwrap_or_default().to_owned();
    let asks = |line: &String| ASKING.contains(&line.as_str());
    examples().iter().filter(|line| !asks(line)).map(print).collect()
}

fn is_for_people(line: &str) -> bool {
    let mut words = line.split(' ');
    let of_a_program = words.nth(1).is_some_and(|command| FOR_PROGRAMS.contains(&command));
    let in_a_format = line.contains("--csv -") || words.any(|word| FORMATS.contains(&word));
    !of_a_program && !in_a_format
}

#[test]
fn no_line_is_wider_than_asked_and_a_pipe_gets_no_escape_codes() {
    let lines = printing();
    let tried = lines.iter().filter(|line| is_for_people(line)).count();
    assert!(tried >= 80, "only {tried} examples print for people");
    let fault = |line: &String| {
        let widths: &[usize] = if is_for_people(line) { &[40, 60, 80] } else { &[80] };
        widths.iter().find_map(|columns| {
            let run = typed(&format!("{line} --columns {columns}"));
            let out = String::from_utf8_lossy(&run.stdout);
            let errors = String::from_utf8_lossy(&run.stderr);
            if out.contains('\u{1b}') || errors.contains('\u{1b}') {
                return Some(format!("{line}: escape codes"));
            }
            let is_wide = |text: &&str| unicode_width::UnicodeWidthStr::width(*text) > *columns;
            let wide = out.lines().find(is_wide).filter(|_| is_for_people(line));
            wide.map(|wide| format!("{line} at {columns}: {wide}"))
        })
    };
    let faults: Vec<String> = lines.par_iter().filter_map(fault).collect();
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn no_color_and_linear_text_keep_to_the_width_too() {
    let lines = printing();
    let people: Vec<&String> = lines.iter().filter(|line| is_for_people(line)).collect();
    let fault = |line: &&String| {
        let run = typed(&format!("NO_COLOR=1 {line} --columns 40 --linear --ascii"));
        let out = String::from_utf8_lossy(&run.stdout);
        let bad = out.lines().find(|text| !text.is_ascii() || text.len() > 40);
        bad.map(|bad| format!("{line}: {bad}"))
    };
    let faults: Vec<String> = people.par_iter().filter_map(fault).collect();
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn a_reader_that_goes_away_is_no_fault() {
    let fault = |line: &String| {
        let run = typed(&format!("( {line}; echo \"ended with $?\" >&2 ) | true"));
        let said = String::from_utf8_lossy(&run.stderr);
        let well = said.contains("ended with 0") || said.contains("ended with 1\n");
        (!well || said.contains("panicked")).then(|| format!("{line}: {said}"))
    };
    let faults: Vec<String> = printing().par_iter().filter_map(fault).collect();
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}
