//! Writers at once, and writers killed at work: nothing is lost and no record is half there.
//!
//! The full figures run with `cargo test --test trial_stress -- --ignored --nocapture`.

#![cfg(unix)]
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a test stops at the first fault and says how long it took"
)]

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use standin::book::{Book, Shelf};
use standin::knowledge::Knowledge;
use standin::knowledge::written::Spanned;
use standin::trial::written::{WrittenAmendment, WrittenTrial};
use standin::trial::{Store, Trial};

/// The folder for a writer that this test starts as a process of its own.
const FOLDER: &str = "STANDIN_STRESS_BOOK";
/// How many records such a writer adds; without it, it goes on until it is killed.
const COUNT: &str = "STANDIN_STRESS_COUNT";
/// Processes or threads that write at once.
const WRITERS: usize = 8;

const RECORD: &str = r#"
id = "T-00"
recipe = "pear-treacle"
kitchen = "tiny-flat"
start = 2026-03-04T10:30:00+01:00
tester = "JD"
purpose = "explore"
verdict = "pass"
note = "the last word of a whole record is here: end"
"#;

struct Scratch(PathBuf);

impl Scratch {
    fn new(name: &str) -> Self {
        let folder = std::env::temp_dir().join(format!("standin-{name}-{}", std::process::id()));
        std::fs::create_dir_all(&folder).unwrap();
        std::fs::write(folder.join("book.toml"), "title = \"Stress\"\n").unwrap();
        Self(folder)
    }
}

impl Drop for Scratch {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

fn record(tester: &str) -> WrittenTrial {
    let mut record: WrittenTrial = toml::from_str(RECORD).unwrap();
    record.tester = Spanned::new(0..0, tester.to_owned());
    record
}

fn amendment() -> WrittenAmendment {
    let text = |words: &str| Spanned::new(0..0, words.to_owned());
    WrittenAmendment {
        at: Spanned::new(0..0, "2026-03-05T09:00:00Z".parse().unwrap()),
        by: text("LD"),
        reason: text("again"),
        set: [(text("verdict"), text("retest"))].into(),
    }
}

/// Starts this test's own program as a writer.
fn writer(book: &Path, count: Option<usize>) -> Child {
    let mut command = Command::new(std::env::current_exe().unwrap());
    command.args(["--exact", "a_writer", "--ignored"]).env(FOLDER, book);
    if let Some(count) = count {
        command.env(COUNT, count.to_string());
    }
    command.stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap()
}

#[test]
#[ignore = "is started by the other tests as a process of its own"]
fn a_writer() {
    let Some(folder) = std::env::var_os(FOLDER) else { return };
    let book = Book::open(Path::new(&folder)).unwrap();
    let store = Store::new(&book);
    let tester = std::process::id().to_string();
    match std::env::var(COUNT).ok() {
        Some(count) => {
            for _ in 0..count.parse::<usize>().unwrap() {
                store.add(record(&tester)).unwrap();
            }
        }
        None => loop {
            let (id, _) = store.add(record(&tester)).unwrap();
            store.amend(&id, &amendment(), &Knowledge::default()).unwrap();
        },
    }
}

/// Reads every record, each whole, and returns their ids.
fn whole_records(folder: &Path) -> BTreeSet<String> {
    let book = Book::open(folder).unwrap();
    let entries = book.list(Shelf::Trials).unwrap();
    let each = entries.into_iter().map(|entry| {
        let text = std::fs::read_to_string(&entry.path).unwrap();
        assert!(text.contains("is here: end"), "{}: {text}", entry.path.display());
        let read = Trial::read(&text, &entry.id, &Knowledge::default());
        let trial = read.unwrap_or_else(|f| panic!("{}: {f:?}", entry.path.display())).trial;
        assert_eq!(trial.id.to_lowercase(), entry.id);
        trial.id
    });
    each.collect()
}

fn processes_lose_nothing(each: usize) {
    let scratch = Scratch::new("processes");
    let began = Instant::now();
    let writers: Vec<Child> = (0..WRITERS).map(|_| writer(&scratch.0, Some(each))).collect();
    for mut writer in writers {
        assert!(writer.wait().unwrap().success());
    }
    assert_eq!(whole_records(&scratch.0).len(), WRITERS * each);
    println!("{WRITERS} processes × {each}: all there after {:.1?}", began.elapsed());
}

fn threads_lose_nothing(each: usize) {
    let scratch = Scratch::new("threads");
    let book = Book::open(&scratch.0).unwrap();
    let began = Instant::now();
    let ids: Vec<String> = std::thread::scope(|scope| {
        let add = |number: usize| {
            let book = &book;
            scope.spawn(move || {
                let one = |_| Store::new(book).add(record(&number.to_string())).unwrap().0;
                (0..each).map(one).collect::<Vec<String>>()
            })
        };
        let handles: Vec<_> = (0..WRITERS).map(add).collect();
        handles.into_iter().flat_map(|handle| handle.join().unwrap()).collect()
    });
    let given: BTreeSet<String> = ids.iter().cloned().collect();
    assert_eq!(given.len(), WRITERS * each, "two writers were given one name");
    assert_eq!(whole_records(&scratch.0), given);
    println!("{WRITERS} threads × {each}: all there after {:.1?}", began.elapsed());
}

/// Kills writers at work, after a delay that runs through the time a write takes.
fn kills_leave_whole_files(kills: u32) {
    let scratch = Scratch::new("kills");
    let began = Instant::now();
    let (mut highest, mut unfinished) = (0, 0);
    for kill in 0..kills {
        let mut victim = writer(&scratch.0, None);
        // Until it writes, then a little longer each time.
        let before = count_files(&scratch.0);
        let waited = Instant::now();
        while count_files(&scratch.0) == before && waited.elapsed() < Duration::from_secs(20) {
            std::thread::sleep(Duration::from_micros(200));
        }
        std::thread::sleep(Duration::from_micros(u64::from(kill * 37 % 5000)));
        victim.kill().unwrap();
        victim.wait().unwrap();
        unfinished += usize::from(has_unfinished(&scratch.0));
        let ids = whole_records(&scratch.0);
        assert!(ids.len() >= highest, "a record was lost");
        highest = ids.len();
    }
    // The next writer takes the lock of the dead and clears up after them.
    let book = Book::open(&scratch.0).unwrap();
    Store::new(&book).add(record("last")).unwrap();
    assert!(!has_unfinished(&scratch.0));
    println!(
        "{kills} kills: {highest} records, each whole; {unfinished} kills fell into a write; {:.1?}",
        began.elapsed()
    );
    assert!(highest > 0);
}

fn names(folder: &Path) -> Vec<String> {
    let Ok(entries) = std::fs::read_dir(folder.join("trials")) else { return Vec::new() };
    entries.map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect()
}

fn count_files(folder: &Path) -> usize {
    names(folder).iter().filter(|name| !name.starts_with('.')).count()
}

fn has_unfinished(folder: &Path) -> bool {
    names(folder).iter().any(|name| name.ends_with(".tmp"))
}

#[test]
fn eight_processes_lose_nothing() {
    processes_lose_nothing(60);
}

#[test]
fn eight_threads_lose_nothing() {
    threads_lose_nothing(60);
}

#[test]
fn sixty_kills_leave_whole_files() {
    kills_leave_whole_files(60);
}

#[test]
#[ignore = "takes minutes: the full figures"]
fn full_eight_writers_of_five_hundred() {
    processes_lose_nothing(500);
    threads_lose_nothing(500);
}

#[test]
#[ignore = "takes minutes: the full figures"]
fn full_thousand_kills() {
    kills_leave_whole_files(1000);
}
