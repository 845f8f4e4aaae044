//! Ids and paths that try to get out: of a book, of the templates folder, of the output that was
//! named.
//!
//! Around every book of these tests lies a secret. Whatever a file of the book or the command line
//! says, the secret shows in no output, and nothing but the output that was named is written.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first fault")]
#![cfg(unix)]

use std::collections::BTreeMap;
use std::fs;
use std::io::Read as _;
use std::os::unix::fs::symlink;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Output, Stdio};
use std::sync::mpsc;
use std::thread;
use std::time::Duration;

use sha2::{Digest, Sha256};
use tempfile::TempDir;

/// The word that stands in every file outside the book and nowhere in it.
const SECRET: &str = "quetzalcandle";
/// The longest that a program may take before it is ended: it waits for something.
const LONGEST: Duration = Duration::from_secs(60);
/// Samples where the numbers do not matter.
const FEW: [&str; 2] = ["--samples", "20"];
/// Ids that are no plain file names.
const STRANGE_IDS: [&str; 14] = [
    "../../outside/recipes/secret",
    "../kitchens/tiny-flat",
    "/etc/hostname",
    "recipes/pear-treacle",
    "a\\b",
    "..",
    ".",
    "",
    ".hidden",
    "con",
    "NUL.x",
    "lpt1",
    "pear treacle\n",
    "c:secret",
];

/// A book in a folder, with secrets beside it.
struct Place {
    folder: TempDir,
}

impl Place {
    fn new() -> Self {
        let folder = tempfile::tempdir().unwrap();
        let place = Self { folder };
        let examples = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/book");
        for shelf in ["recipes", "kitchens", "trials"] {
            place.put(&format!("outside/{shelf}/plain.txt"), &format!("{SECRET} = [\n"));
        }
        let name = |text: &str, key: &str| -> String {
            let title = text.lines().find(|line| line.starts_with(key)).unwrap();
            text.replace(title, &format!("{key} = \"{SECRET}\""))
        };
        for (shelf, id, key) in [
            ("recipes", "pear-treacle", "title"),
            ("recipes", "mint-verjus", "title"),
            ("kitchens", "tiny-flat", "name"),
            ("trials", "t-01", "note"),
        ] {
            let path = format!("{shelf}/{id}.toml");
            let text = fs::read_to_string(examples.join(&path)).unwrap();
            if id != "mint-verjus" {
                place.put(&format!("outside/{shelf}/secret.toml"), &name(&text, key));
            }
            place.put(&format!("book/{path}"), &text);
        }
        let book = fs::read_to_string(examples.join("book.toml")).unwrap();
        place.put("outside/book.toml", &name(&book, "title"));
        place.put("outside/notes.md", &format!("{SECRET}\n"));
        place.put("book/book.toml", &book);
        place
    }

    fn path(&self, relative: &str) -> PathBuf {
        self.folder.path().join(relative)
    }

    fn put(&self, relative: &str, text: &str) {
        let path = self.path(relative);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    }

    /// Adds lines to a file.
    fn add(&self, relative: &str, lines: &str) {
        let text = fs::read_to_string(self.path(relative)).unwrap();
        self.put(relative, &format!("{text}\n{lines}\n"));
    }

    /// Puts a link in the place of what is there.
    fn link(&self, relative: &str, target: impl AsRef<Path>) {
        let path = self.path(relative);
        if path.is_dir() {
            fs::remove_dir_all(&path).unwrap();
        } else if path.exists() {
            fs::remove_file(&path).unwrap();
        }
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        symlink(target, path).unwrap();
    }

    /// Returns every file with a digest of what it holds, and every link with its target.
    fn listing(&self) -> BTreeMap<PathBuf, String> {
        let mut found = BTreeMap::new();
        list(self.folder.path(), &mut found);
        found
    }

    /// Runs the program in the folder around the book.
    fn run(&self, arguments: &[&str]) -> Output {
        let mut command = Command::new(env!("CARGO_BIN_EXE_standin"));
        command.args(arguments).current_dir(self.folder.path()).stdin(Stdio::null());
        command.env_remove("RUST_BACKTRACE").env("TERM", "dumb");
        in_time(command.stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap())
    }

    /// Runs a command that may say anything but the secret and write nothing; returns what it said.
    fn harmless(&self, arguments: &[&str]) -> (Option<i32>, String) {
        let before = self.listing();
        let run = self.run(arguments);
        let out = String::from_utf8_lossy(&run.stdout).into_owned();
        let said = out + &String::from_utf8_lossy(&run.stderr);
        assert!(!said.contains(SECRET), "{arguments:?} tells the secret:\n{said}");
        assert!(!said.contains("panicked"), "{arguments:?}:\n{said}");
        assert_eq!(changes(&before, &self.listing()), [""; 0], "{arguments:?} wrote:\n{said}");
        (run.status.code(), said)
    }

    /// Runs a command that must refuse with a message that holds the words.
    fn refused(&self, arguments: &[&str], words: &str) {
        let (code, said) = self.harmless(arguments);
        assert!(matches!(code, Some(1 | 2)), "{arguments:?} ended with {code:?}:\n{said}");
        assert!(said.contains(words), "{arguments:?} does not say `{words}`:\n{said}");
    }
}

/// Waits for a program that must end by itself.
fn in_time(mut child: Child) -> Output {
    let id = child.id().to_string();
    let (done, waiting) = mpsc::channel::<()>();
    let guard = thread::spawn(move || {
        if waiting.recv_timeout(LONGEST) == Err(mpsc::RecvTimeoutError::Timeout) {
            Command::new("kill").args(["-9", &id]).status().unwrap();
        }
    });
    let (mut out, mut errors) = (child.stdout.take().unwrap(), child.stderr.take().unwrap());
    let reading = thread::spawn(move || {
        let mut bytes = Vec::new();
        errors.read_to_end(&mut bytes).map(|_| bytes)
    });
    let mut stdout = Vec::new();
    out.read_to_end(&mut stdout).unwrap();
    let stderr = reading.join().unwrap().unwrap();
    let status = child.wait().unwrap();
    drop(done);
    guard.join().unwrap();
    assert!(status.code().is_some(), "the program did not end by itself");
    Output { status, stdout, stderr }
}

fn list(folder: &Path, found: &mut BTreeMap<PathBuf, String>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let kind = fs::symlink_metadata(&path).unwrap().file_type();
        let content = if kind.is_symlink() {
            fs::read_link(&path).unwrap().display().to_string()
        } else if kind.is_dir() {
            list(&path, found);
            "a folder".to_owned()
        } else if kind.is_file() {
            Sha256::digest(fs::read(&path).unwrap()).iter().map(|b| format!("{b:02x}")).collect()
        } else {
            "special".to_owned()
        };
        found.insert(path, content);
    }
}

/// Returns what differs between two listings.
fn changes(before: &BTreeMap<PathBuf, String>, after: &BTreeMap<PathBuf, String>) -> Vec<String> {
    let all = before.keys().chain(after.keys());
    let mut changed: Vec<String> = all
        .filter(|path| before.get(*path) != after.get(*path))
        .map(|path| path.display().to_string())
        .collect();
    changed.dedup();
    changed
}

/// Every command that reads a whole book or one of its folders.
fn readers_of_the_book() -> Vec<Vec<&'static str>> {
    let kitchen = ["--kitchen", "book/kitchens/tiny-flat.toml"];
    vec![
        [&["survey", "book"], &FEW[..]].concat(),
        vec!["trial", "list", "book"],
        [&["trial", "fit", "book"], &FEW[..]].concat(),
        vec!["lint", "book"],
        [&["check", "book/recipes"], &kitchen[..], &FEW[..]].concat(),
        [&["notes", "book/recipes/pear-treacle.toml"], &kitchen[..], &FEW[..]].concat(),
    ]
}

/// Every command that reads one recipe or one kitchen, named by path.
fn readers_of(shelf: &str, file: &str) -> Vec<Vec<String>> {
    let path = format!("book/{shelf}/{file}");
    let (recipe, kitchen) = match shelf {
        "recipes" => (path.as_str(), "book/kitchens/tiny-flat.toml"),
        _ => ("book/recipes/pear-treacle.toml", path.as_str()),
    };
    let mut lines: Vec<Vec<&str>> = vec![
        vec!["adapt", recipe, "--kitchen", kitchen, "--samples", "20"],
        vec!["check", recipe, "--kitchen", kitchen, "--samples", "20"],
        vec!["notes", recipe, "--kitchen", kitchen, "--samples", "20"],
        vec!["export", recipe, "--kitchen", kitchen, "--samples", "20"],
        vec!["lint", &path],
    ];
    if shelf == "kitchens" {
        lines.push(vec!["kitchen", "show", kitchen]);
        lines.push(vec!["routes", "vacuum-concentration", "--kitchen", kitchen]);
    }
    lines.iter().map(|line| line.iter().map(|word| (*word).to_owned()).collect()).collect()
}

fn as_words(line: &[String]) -> Vec<&str> {
    line.iter().map(String::as_str).collect()
}

#[test]
fn a_link_in_a_book_that_leads_out_is_refused_whoever_reads_it() {
    for shelf in ["recipes", "kitchens", "trials"] {
        for target in ["secret.toml", "plain.txt"] {
            for absolute in [true, false] {
                let place = Place::new();
                let outside = match absolute {
                    true => place.path(&format!("outside/{shelf}/{target}")),
                    false => PathBuf::from(format!("../../outside/{shelf}/{target}")),
                };
                place.link(&format!("book/{shelf}/evil.toml"), outside);
                for line in readers_of_the_book() {
                    place.harmless(&line);
                }
                if shelf != "trials" {
                    for line in readers_of(shelf, "evil.toml") {
                        place.refused(&as_words(&line), "leads out of the book");
                    }
                }
            }
        }
    }
}

#[test]
fn a_link_to_a_link_and_a_folder_that_is_a_link_are_refused() {
    for shelf in ["recipes", "kitchens"] {
        let place = Place::new();
        place.link("book/step.toml", format!("../outside/{shelf}/secret.toml"));
        place.link(&format!("book/{shelf}/evil.toml"), "../step.toml");
        for line in readers_of(shelf, "evil.toml") {
            place.refused(&as_words(&line), "leads out of the book");
        }
        let place = Place::new();
        place.link(&format!("book/{shelf}/deep"), format!("../../outside/{shelf}"));
        for line in readers_of(shelf, "deep/secret.toml") {
            place.refused(&as_words(&line), "leads out of the book");
        }
    }
    for shelf in ["recipes", "kitchens", "trials"] {
        let place = Place::new();
        place.link(&format!("book/{shelf}"), format!("../outside/{shelf}"));
        for line in readers_of_the_book() {
            place.harmless(&line);
        }
        place.harmless(&[
            "trial",
            "add",
            "pear-treacle",
            "--kitchen",
            "tiny-flat",
            "--book",
            "book",
        ]);
    }
}

#[test]
fn a_link_that_stays_in_the_book_is_followed() {
    let place = Place::new();
    place.link("book/recipes/other.toml", "pear-treacle.toml");
    place.link("treacle.toml", "book/recipes/pear-treacle.toml");
    let kitchen = ["--kitchen", "book/kitchens/tiny-flat.toml", "--samples", "20"];
    for recipe in ["book/recipes/other.toml", "treacle.toml"] {
        let (code, said) = place.harmless(&[&["adapt", recipe], &kitchen[..]].concat());
        assert_eq!(code, Some(0), "{said}");
    }
    let (code, said) = place.harmless(&["lint", "book"]);
    assert_eq!(code, Some(0), "{said}");
}

#[test]
fn a_book_file_that_leads_out_is_refused() {
    let place = Place::new();
    place.link("book/book.toml", "../outside/book.toml");
    for line in [&["survey", "book"][..], &["trial", "list", "book"], &["lint", "book"]] {
        place.refused(line, "leads out of the");
    }
    for (key, value) in [
        ("recipes", "../outside/recipes"),
        ("kitchens", "/etc"),
        ("trials", "../outside/trials"),
        ("include", "../outside/book.toml"),
    ] {
        let place = Place::new();
        let text = fs::read_to_string(place.path("book/book.toml")).unwrap();
        place.put("book/book.toml", &format!("{key} = \"{value}\"\n{text}"));
        for line in [&["survey", "book"][..], &["trial", "list", "book"], &["lint", "book"]] {
            place.refused(line, "book.toml:1:1");
        }
    }
}

const NOTES: [&str; 10] = [
    "notes",
    "pear-treacle",
    "--book",
    "book",
    "--kitchen",
    "tiny-flat",
    "--samples",
    "20",
    "--format",
    "markdown",
];

#[test]
fn a_template_reads_nothing_outside_its_folder() {
    let outside = ["../outside/notes.md", "/etc/hostname", "book.toml", "templates/../book.toml"];
    for path in outside {
        let place = Place::new();
        place.add("book/book.toml", &format!("[templates]\nnotes = \"{path}\""));
        place.refused(&NOTES, "out of the");
    }
    for include in ["../outside/notes.md", "../book.toml", "/etc/hostname", "..", ""] {
        let place = Place::new();
        place.add("book/book.toml", "[templates]\nnotes = \"templates/notes.md\"");
        place.put("book/templates/notes.md", &format!("{{% include \"{include}\" %}}"));
        place.refused(&NOTES, "templates folder");
    }
    let place = Place::new();
    place.add("book/book.toml", "[templates]\nnotes = \"templates/notes.md\"");
    place.put("book/templates/notes.md", "{% include \"more.md\" %}");
    place.link("book/templates/more.md", "../../outside/notes.md");
    place.refused(&NOTES, "leads out of the book");
    place.link("book/templates/notes.md", "../../outside/notes.md");
    place.refused(&NOTES, "leads out of the book");
    place.link("book/templates", "../outside");
    place.refused(&NOTES, "leads out of the book");
}

#[test]
fn a_trial_names_files_of_its_own_book_only() {
    for key in ["recipe", "kitchen"] {
        for id in STRANGE_IDS.into_iter().filter(|id| !id.is_empty()) {
            let place = Place::new();
            let text = fs::read_to_string(place.path("book/trials/t-01.toml")).unwrap();
            let line = text.lines().find(|line| line.starts_with(&format!("{key} = "))).unwrap();
            let quoted = toml::Value::String(id.to_owned()).to_string();
            place.put("book/trials/t-01.toml", &text.replace(line, &format!("{key} = {quoted}")));
            let (_, said) = place.harmless(&["trial", "list", "book"]);
            assert!(said.contains("plain file name"), "{id:?}: {said}");
            let (_, said) = place.harmless(&[&["trial", "fit", "book"], &FEW[..]].concat());
            assert!(said.contains("plain file name"), "{id:?}: {said}");
        }
    }
}

#[test]
fn an_id_on_the_command_line_leads_nowhere_else() {
    let place = Place::new();
    let long = "x".repeat(5000);
    for id in STRANGE_IDS.into_iter().chain([long.as_str()]) {
        let common = ["--book", "book", "--tester", "JD", "--verdict", "pass", "--step"];
        let rest = [&common[..], &["treacle; time=20 min", "--yes"]].concat();
        for line in [
            [&["trial", "add", id, "--kitchen", "tiny-flat"], &rest[..]].concat(),
            [&["trial", "add", "pear-treacle", "--kitchen", id], &rest[..]].concat(),
            vec![
                "trial", "amend", id, "--book", "book", "--by", "LD", "--reason", "x", "--set",
                "note=x",
            ],
            [&["notes", id, "--book", "book", "--kitchen", "tiny-flat"], &FEW[..]].concat(),
            [&["notes", "pear-treacle", "--book", "book", "--kitchen", id], &FEW[..]].concat(),
        ] {
            let (code, said) = place.harmless(&line);
            assert!(matches!(code, Some(1 | 2)), "{line:?}: {said}");
        }
    }
}

#[test]
fn a_record_goes_into_the_trials_of_the_book_and_nowhere_else() {
    let add = [
        "trial",
        "add",
        "pear-treacle",
        "--kitchen",
        "tiny-flat",
        "--book",
        "book",
        "--tester",
        "JD",
        "--verdict",
        "pass",
        "--step",
        "treacle; time=20 min",
        "--yes",
    ];
    let place = Place::new();
    let before = place.listing();
    assert_eq!(place.run(&add).status.code(), Some(0));
    let wrote = changes(&before, &place.listing());
    let expected = ["book/trials/.lock", "book/trials/t-02.toml"];
    for path in &wrote {
        assert!(expected.iter().any(|end| path.ends_with(end)), "{path}");
    }
    // What lies in the way of the next record is left as it is.
    place.link("book/trials/t-03.toml", "../../outside/new.toml");
    place.link("book/trials/.lock", "../../outside/notes.md");
    place.refused(&add, "leads out of the book");
    fs::remove_file(place.path("book/trials/.lock")).unwrap();
    let before = place.listing();
    place.run(&add);
    let wrote = changes(&before, &place.listing());
    assert!(wrote.iter().all(|path| path.contains("/book/trials/")), "{wrote:?}");
    assert!(place.path("book/trials/t-03.toml").is_symlink());
    place.link("book/trials/t-09.toml", "../../outside/trials/secret.toml");
    let amend = ["trial", "amend", "T-09", "--book", "book", "--by", "LD", "--reason", "x"];
    place.refused(&[&amend[..], &["--set", "note=x"]].concat(), "leads out of the book");
}

/// Every command that writes to a file, without its name, and what it takes to replace one.
fn writers() -> Vec<Vec<&'static str>> {
    let recipe = "book/recipes/pear-treacle.toml";
    let kitchen = ["--kitchen", "book/kitchens/tiny-flat.toml", "--samples", "20"];
    vec![
        [&["notes", recipe], &kitchen[..], &["--output"]].concat(),
        [&["export", recipe], &kitchen[..], &["--output"]].concat(),
        vec!["import", "page.json", "--output"],
        [&["survey", "book"], &FEW[..], &["--csv"]].concat(),
        vec!["calc", "boil", "--altitude", "0..2000 step 500 m", "--plot"],
        vec!["kitchen", "new", "--name", "Mine", "--own", "wide-pan"],
    ]
}

const PAGE: &str = r#"{"@type": "Recipe", "name": "Syrup",
    "recipeIngredient": ["1 kg pear juice"], "recipeInstructions": "Boil the pear juice."}"#;

#[test]
fn an_output_is_written_where_it_is_named_and_nowhere_else() {
    for line in writers() {
        let place = Place::new();
        place.put("page.json", PAGE);
        place.put("there.out", "kept");
        place.link("link.out", "outside/notes.md");
        place.link("dangling.out", "outside/new.md");
        place.link("to-folder.out", "outside");
        let onto = |name: &'static str| [&line[..], &[name]].concat();
        let force = if line[0] == "calc" { "--plot-force" } else { "--force" };
        let over = |name: &'static str| [&line[..], &[name, force]].concat();
        for name in ["there.out", "link.out", "dangling.out"] {
            place.refused(&onto(name), "exists already");
        }
        for name in ["book", "to-folder.out"] {
            place.refused(&onto(name), "is a folder");
            place.refused(&over(name), "is a folder");
        }
        place.refused(&onto("missing/new.out"), "there is no folder missing");
        for name in ["new.out", "there.out", "link.out", "dangling.out"] {
            let before = place.listing();
            let run = place.run(&over(name));
            let said = String::from_utf8_lossy(&run.stderr);
            assert_eq!(run.status.code(), Some(0), "{:?}: {said}", over(name));
            let changed = changes(&before, &place.listing());
            assert_eq!(changed, [place.path(name).display().to_string()], "{:?}", over(name));
            assert!(!place.path(name).is_symlink(), "{:?} follows the link", over(name));
        }
    }
}

#[test]
fn what_is_no_ordinary_file_is_refused_and_not_waited_for() {
    for shelf in ["recipes", "kitchens", "trials"] {
        let place = Place::new();
        let pipe = place.path(&format!("book/{shelf}/pipe.toml"));
        assert!(Command::new("mkfifo").arg(&pipe).status().unwrap().success());
        for line in readers_of_the_book() {
            place.harmless(&line);
        }
        place.refused(&["lint", "book"], "no ordinary file");
        let place = Place::new();
        fs::create_dir(place.path(&format!("book/{shelf}/folder.toml"))).unwrap();
        place.link(&format!("book/{shelf}/round.toml"), "round.toml");
        place.link(&format!("book/{shelf}/round"), "..");
        for line in readers_of_the_book() {
            place.harmless(&line);
        }
    }
}

#[test]
fn a_file_without_an_end_is_given_up() {
    let place = Place::new();
    let kitchen = ["--kitchen", "book/kitchens/tiny-flat.toml"];
    place.refused(&[&["adapt", "/dev/zero"], &kitchen[..]].concat(), "larger than");
    place.refused(&["import", "/dev/zero"], "larger than");
    place.refused(&["lint", "/dev/zero"], "larger than");
}

#[test]
fn a_terminal_is_told_nothing_by_a_file() {
    let files = [
        ("book/recipes/pear-treacle.toml", "title"),
        ("book/recipes/pear-treacle.toml", "author"),
        ("book/kitchens/tiny-flat.toml", "name"),
        ("book/trials/t-01.toml", "note"),
        ("book/book.toml", "title"),
    ];
    for (file, key) in files {
        for sign in ["\\u001B[31m", "\\u0007", "\u{9b}31m", "\u{202e}", "\\u0000", "\\r"] {
            let place = Place::new();
            let text = fs::read_to_string(place.path(file)).unwrap();
            let line = text.lines().find(|line| line.starts_with(key)).unwrap();
            place.put(file, &text.replace(line, &format!("{key} = \"red {sign} sign\"")));
            // Every reader meets the first sign; the others are refused where it was.
            let is_first = sign.contains("[31m") && sign.is_ascii();
            let mut lines = if is_first { readers_of_the_book() } else { Vec::new() };
            lines.push(vec!["kitchen", "show", "book/kitchens/tiny-flat.toml"]);
            for line in lines {
                let (_, said) = place.harmless(&line);
                let obeyed = |c: char| (c.is_control() && c != '\n') || c == '\u{202e}';
                assert!(!said.contains(obeyed), "{file}, {key}, {sign:?}, {line:?}: {said:?}");
            }
            let (code, said) = place.harmless(&["lint", "book"]);
            assert_eq!(code, Some(1), "{said}");
            assert!(said.contains("control character"), "{said}");
        }
    }
}

#[test]
fn a_terminal_is_told_nothing_by_the_name_of_a_file() {
    let name = "red \u{1b}[31m\u{9b}1m.toml";
    for shelf in ["recipes", "kitchens", "trials"] {
        for content in ["title = 3\n", "["] {
            let place = Place::new();
            place.put(&format!("book/{shelf}/{name}"), content);
            for line in readers_of_the_book() {
                let (_, said) = place.harmless(&line);
                assert!(!said.contains(['\u{1b}', '\u{9b}']), "{line:?}: {said:?}");
            }
        }
    }
}
