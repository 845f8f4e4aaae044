//! Seeded mutations of every kind of file: a result or findings, never a panic, never a long wait.

use std::path::Path;
use std::time::{Duration, Instant};

use rand_core::{Rng, SeedableRng};
use rand_pcg::Pcg64Mcg;
use standin::book::Book;
use standin::finding::Finding;
use standin::kitchen::Kitchen;
use standin::knowledge::load::File;
use standin::knowledge::{Knowledge, Layer};
use standin::quantity::Measures;
use standin::recipe::Recipe;
use standin::recipe::import::import;
use standin::trial::Trial;

use super::standin;

/// How many mutated inputs are read within the process.
const INPUTS: usize = 520;
/// How many go through the program.
const THROUGH_THE_PROGRAM: usize = 24;
/// No input may take longer, on a slow and busy machine.
const LONGEST: Duration = Duration::from_secs(5);

const JSON_LD: &str = r##"{"@context":"https://schema.org","@graph":[{"@type":"Person","@id":"#a",
"name":"A. Cook"},{"@type":["Recipe"],"name":"Pears &amp; syrup","author":{"@id":"#a"},
"recipeYield":["4","4 servings"],"totalTime":"PT1H30M","recipeIngredient":["500 g pear juice",
"2 cups (400 g) sugar","1&frac12; tsp salt, to taste"],"recipeInstructions":[{"@type":"HowToSection",
"name":"Syrup","itemListElement":[{"@type":"HowToStep","text":"Boil the juice with the sugar."}]},
"Serve."]}]}"##;
const KNOWLEDGE: &str = include_str!("../../fuzz/seeds/knowledge/all-kinds.toml");
const WORDS: [&str; 12] = [
    "nan",
    "inf",
    "-1e308",
    "99999999999999999999999",
    "\"-5 g\"",
    "\"1e999 kg\"",
    "\"NaN °C\"",
    "{}",
    "[]",
    "true",
    "\"\u{202e}\u{0}\"",
    "1979-05-27",
];

fn seeds() -> Vec<(&'static str, String)> {
    let read = |path: &str| {
        std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(path)).unwrap()
    };
    vec![
        ("recipe", read("examples/book/recipes/pear-treacle.toml")),
        ("kitchen", read("examples/book/kitchens/high-rural.toml")),
        ("trial", read("examples/book/trials/t-01.toml")),
        ("book", read("examples/book/book.toml")),
        ("knowledge", KNOWLEDGE.to_owned()),
        ("json_ld", JSON_LD.to_owned()),
    ]
}

fn below(random: &mut Pcg64Mcg, end: usize) -> usize {
    usize::try_from(random.next_u64() % u64::try_from(end.max(1)).unwrap()).unwrap()
}

/// Changes a text in one of ten ways; bytes that are no text any more are replaced.
fn mutate(text: &str, random: &mut Pcg64Mcg) -> String {
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    let at = below(random, lines.len());
    match below(random, 10) {
        0 => {
            let mut bytes = text.as_bytes().to_vec();
            for _ in 0..=below(random, 8) {
                let place = below(random, bytes.len());
                bytes[place] ^= 1 << below(random, 8);
            }
            return String::from_utf8_lossy(&bytes).into_owned();
        }
        1 => drop(lines.remove(at)),
        2 => lines.insert(at, lines[at].clone()),
        3 | 4 => {
            let word = WORDS[below(random, WORDS.len())];
            let marks = if text.starts_with('{') { ':' } else { '=' };
            if let Some((key, _)) = lines[at].clone().split_once(marks) {
                lines[at] = format!("{key}{marks} {word}");
            }
        }
        5 => {
            let digits =
                ["-1e300", "0", "1e999", "٣", "½½", "9".repeat(400).as_str()].map(str::to_owned);
            let number = &digits[below(random, digits.len())];
            return text.replacen(|c: char| c.is_ascii_digit(), number, 1 + below(random, 6));
        }
        6 => {
            let depth = 10_usize.pow(1 + u32::try_from(below(random, 4)).unwrap());
            let open = ["[", "{ a = ", "{\"a\":", "[["][below(random, 4)];
            lines[at] = format!("x = {}", open.repeat(depth));
        }
        7 => lines[at].push_str(&"\u{1f35d}\u{301}\u{202e}ß".repeat(1 + below(random, 2000))),
        8 => {
            let end = (0..=below(random, text.len())).rev().find(|end| text.is_char_boundary(*end));
            return text[..end.unwrap()].to_owned();
        }
        _ => {
            let other = below(random, lines.len());
            lines.swap(at, other);
        }
    }
    lines.join("\n")
}

/// Reads an input as its kind; `None` when it is right.
fn read(kind: &str, text: &str, knowledge: &Knowledge, folder: &Path) -> Option<Vec<Finding>> {
    let file = "mutated";
    match kind {
        "recipe" => Recipe::read(text, file, knowledge, Measures::Uk).err(),
        "kitchen" => Kitchen::read(text, file, knowledge).err(),
        "trial" => Trial::read(text, file, knowledge).err(),
        "book" => {
            std::fs::write(folder.join("book.toml"), text).unwrap();
            Book::open(folder).err()
        }
        "knowledge" => {
            let file = File { path: file.to_owned(), text: text.to_owned() };
            let layer = Layer { name: file.path.clone(), files: vec![file] };
            Some(Knowledge::check(&[layer])).filter(|findings| !findings.is_empty())
        }
        _ => import(text, file, knowledge).err().map(|finding| vec![*finding]),
    }
}

#[test]
fn mutated_files_give_a_result_or_findings() {
    let knowledge = Knowledge::embedded().unwrap();
    let folder = tempfile::tempdir().unwrap();
    let mut random = Pcg64Mcg::seed_from_u64(20);
    let seeds = seeds();
    let mut refused = 0;
    for number in 0..INPUTS {
        let (kind, seed) = &seeds[number % seeds.len()];
        let mut text = mutate(seed, &mut random);
        for _ in 0..below(&mut random, 3) {
            text = mutate(&text, &mut random);
        }
        let start = Instant::now();
        let findings = read(kind, &text, &knowledge, folder.path()).unwrap_or_default();
        for finding in &findings {
            assert!(finding.render(&text).contains(finding.code.text()), "{kind} {number}");
        }
        assert!(start.elapsed() < LONGEST, "{kind} {number}: {:?}\n{text}", start.elapsed());
        refused += usize::from(!findings.is_empty());
    }
    assert!(refused > INPUTS / 2, "{refused} of {INPUTS} were refused: the mutations are too mild");
}

#[test]
fn mutated_files_never_break_the_program() {
    let folder = tempfile::tempdir().unwrap();
    let mut random = Pcg64Mcg::seed_from_u64(21);
    let seeds = seeds();
    for number in 0..THROUGH_THE_PROGRAM {
        let (kind, seed) = &seeds[number % seeds.len()];
        let text = mutate(seed, &mut random);
        let name = if *kind == "book" { "book.toml" } else { "mutated.toml" };
        let path = folder.path().join(name);
        std::fs::write(&path, &text).unwrap();
        let command = if *kind == "json_ld" { "import" } else { "lint" };
        let run = standin(&[command, path.to_str().unwrap()]);
        let said = String::from_utf8_lossy(&run.stderr).into_owned();
        assert!(matches!(run.status.code(), Some(0..=2)), "{kind}: {said}\n{text}");
        assert!(!said.contains("panicked"), "{kind}: {said}\n{text}");
        if run.status.code() == Some(2) {
            assert!(said.contains("error["), "{kind}: {said}");
        }
    }
}
