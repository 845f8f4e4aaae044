//! Records: reading, doubting, writing and amending.

use std::collections::BTreeMap;

use standin::book::Book;
use standin::finding::{Code, Severity};
use standin::knowledge::written::Spanned;
use standin::trial::written::{Verdict, WrittenAmendment, WrittenTrial};
use standin::trial::{ReadTrial, Reading, Store, StoreError, Trial, fingerprint};

use super::{Scratch, example_book, knowledge};

const RECORD: &str = r#"# kept by hand
id = "T-01"
recipe = "pear-treacle"
kitchen = "tiny-flat"
start = 2026-03-04T10:30:00+01:00 # winter time
tester = "JD"
purpose = "explore"
verdict = "pass"

[[ingredient]]
id = "juice"
actual = "500 g"

[[step]]
makes = "treacle"
route = "wide-pan-boil"
time = "46 min"
mass_in = "500 g"
mass_out = "101 g"
"#;

fn read(text: &str) -> ReadTrial {
    Trial::read(text, "t-01.toml", knowledge()).unwrap_or_else(|f| panic!("{f:#?}"))
}

fn text(words: &str) -> Spanned<String> {
    Spanned::new(0..0, words.to_owned())
}

fn amendment(set: &[(&str, &str)]) -> WrittenAmendment {
    WrittenAmendment {
        at: Spanned::new(0..0, "2026-03-05T09:00:00Z".parse().unwrap()),
        by: text("LD"),
        reason: text("read off \"wrongly\"\nby a line"),
        set: set.iter().map(|(key, value)| (text(key), text(value))).collect::<BTreeMap<_, _>>(),
    }
}

fn book_with(record: &str) -> (Scratch, Book) {
    let scratch = Scratch::book();
    scratch.write("trials/t-01.toml", record);
    let book = Book::open(&scratch.0).unwrap();
    (scratch, book)
}

#[test]
fn the_example_trials_are_read_without_a_question_of_their_own() {
    let book = Book::open(&example_book()).unwrap();
    let loaded = Store::new(&book).load(knowledge());
    assert!(loaded.trials.len() >= 6);
    for (finding, text) in &loaded.findings {
        // The recipes and kitchens of the book may not all be there yet.
        assert_eq!(finding.code, Code::MissingFile, "{}", finding.render(text));
        assert_eq!(finding.severity, Severity::Warning);
    }
    let discarded = loaded.trials.iter().find(|trial| trial.id == "T-06").unwrap();
    assert_eq!(discarded.verdict, Verdict::Discarded);
    assert_eq!(discarded.steps[0].mass_out, Reading::NotApplicable);
    let first = loaded.trials.iter().find(|trial| trial.id == "T-01").unwrap();
    assert_eq!(first.steps[0].measured["soluble-solids"], Reading::NotMeasured);
    assert_eq!(first.steps[0].hands_on, Reading::NotMeasured);
}

#[test]
fn a_record_reads_as_written() {
    let ReadTrial { trial, questions } = read(RECORD);
    assert!(questions.is_empty(), "{questions:?}");
    assert_eq!(trial.start.to_string(), "2026-03-04T10:30:00+01:00");
    assert_eq!(trial.ingredients[0].mass.si(), Some(0.5));
    assert_eq!(trial.steps[0].time.si(), Some(2760.0));
}

#[test]
fn doubtful_values_are_kept_and_asked_about() {
    let cases = [
        ("time = \"46 min\"", "time = \"46 d\"", "took 46 d"),
        ("time = \"46 min\"", "time = \"0 min\"", "took no time"),
        ("mass_out = \"101 g\"", "mass_out = \"900 g\"", "heavier than it went in"),
        ("mass_out = \"101 g\"", "mass_out = \"-1 g\"", "lies outside"),
        ("mass_out = \"101 g\"", "mass_out = \"101 t\"", ""),
        ("time = \"46 min\"", "time = \"46 min\"\nhands_on = \"2 h\"", "attended to for longer"),
        ("\"wide-pan-boil\"", "\"wide-pan-biol\"", "no route goes by"),
        ("verdict = \"pass\"", "verdict = \"fail\"", "without a cause"),
        ("verdict = \"pass\"", "verdict = \"fail\"\ncause = 99", "no cause 99"),
        (
            "[[ingredient]]",
            "[sensory]\ntasted = true\nscores = { colour = 11 }\n[[ingredient]]",
            "scored 11",
        ),
        ("actual = \"500 g\"", "actual = \"500 g\"\nbrix = \"118 °Brix\"", "hard to believe"),
    ];
    for (before, after, part) in cases {
        let changed = RECORD.replace(before, after);
        assert_ne!(changed, RECORD);
        if part.is_empty() {
            assert!(Trial::read(&changed, "t-01.toml", knowledge()).is_err());
            continue;
        }
        let ReadTrial { questions, .. } = read(&changed);
        let found = questions.iter().any(|q| {
            q.message.contains(part) && q.severity == Severity::Warning && q.label.is_some()
        });
        assert!(found, "{after}: {questions:#?}");
    }
    let tasted = RECORD.replace(
        "verdict = \"pass\"",
        "verdict = \"discarded\"\ncause = 18\nsensory = { tasted = true }",
    );
    assert!(read(&tasted).questions.iter().any(|q| q.message.contains("yet tasted")));
}

#[test]
fn faults_are_all_reported_in_order() {
    let changed = RECORD.replace("\"500 g\"", "\"500 min\"").replace("\"46 min\"", "\"soon\"");
    let findings = Trial::read(&changed, "t-01.toml", knowledge()).unwrap_err();
    assert_eq!(findings.len(), 3, "{findings:#?}");
    let lines: Vec<usize> =
        findings.iter().map(|f| f.line_and_column(&changed).unwrap().0).collect();
    assert!(lines.is_sorted());
}

#[test]
fn a_new_record_is_given_the_next_name_and_reads_back() {
    let (scratch, book) = book_with(RECORD);
    let record: WrittenTrial = toml::from_str(RECORD).unwrap();
    let (id, path) = Store::new(&book).add(record).unwrap();
    assert_eq!(id, "T-02");
    assert_eq!(path, scratch.0.join("trials/t-02.toml"));
    let written = std::fs::read_to_string(&path).unwrap();
    let mut expected = read(RECORD).trial;
    expected.id = "T-02".into();
    assert_eq!(read(&written).trial, expected, "{written}");
    let kept = std::fs::read_to_string(scratch.0.join("trials/t-01.toml")).unwrap();
    assert_eq!(kept, RECORD);
}

#[test]
fn an_amendment_appends_and_changes_nothing_above_it() {
    for (original, ends) in [(RECORD.to_owned(), "\n"), (RECORD.replace('\n', "\r\n"), "\r\n")] {
        let (scratch, book) = book_with(&original);
        let changes =
            [("verdict", "fail"), ("cause", "3"), ("step.treacle.time", "48 min"), ("note", "x")];
        let store = Store::new(&book);
        store.amend("T-01", &amendment(&changes), knowledge()).unwrap();
        store.amend("t-01", &amendment(&[("cause", "2")]), knowledge()).unwrap();
        let after = std::fs::read_to_string(scratch.0.join("trials/t-01.toml")).unwrap();
        assert!(after.starts_with(&original));
        assert_eq!(after.matches('\n').count(), after.matches(ends).count());
        let trial = read(&after).trial;
        assert_eq!(trial.verdict, Verdict::Fail);
        assert_eq!((trial.cause, trial.amendments), (Some(2), 2));
        assert_eq!(trial.steps[0].time.si(), Some(2880.0));
    }
}

#[test]
fn an_amendment_that_cannot_be_read_is_refused_and_the_record_stays() {
    let wrong = [
        [("verdict", "great")],
        [("step.treacle.time", "soon")],
        [("step.nothing.time", "1 h")],
        [("start", "2026-01-01")],
        [("ingredient.juice.colour", "red")],
        [("cause", "two")],
    ];
    for changes in wrong {
        let (scratch, book) = book_with(RECORD);
        let refused = Store::new(&book).amend("T-01", &amendment(&changes), knowledge());
        assert!(matches!(refused, Err(StoreError::Refused { .. })), "{changes:?}");
        let after = std::fs::read_to_string(scratch.0.join("trials/t-01.toml")).unwrap();
        assert_eq!(after, RECORD);
    }
    let (_scratch, book) = book_with(RECORD);
    for id in ["T-99", "../book", ""] {
        let refused = Store::new(&book).amend(id, &amendment(&[]), knowledge());
        assert!(matches!(refused, Err(StoreError::Path(_))), "{id}");
    }
}

#[test]
#[cfg(unix)]
fn permissions_stay_when_a_record_is_amended() {
    use std::os::unix::fs::PermissionsExt;
    for mode in [0o644, 0o640, 0o666] {
        let (scratch, book) = book_with(RECORD);
        let path = scratch.0.join("trials/t-01.toml");
        std::fs::set_permissions(&path, std::fs::Permissions::from_mode(mode)).unwrap();
        Store::new(&book).amend("T-01", &amendment(&[("note", "x")]), knowledge()).unwrap();
        let after = std::fs::metadata(&path).unwrap().permissions().mode();
        assert_eq!(after & 0o777, mode);
    }
}

#[test]
#[cfg(unix)]
fn a_trials_folder_or_a_lock_that_leads_out_is_refused() {
    use std::os::unix::fs::symlink;
    let record = || -> WrittenTrial { toml::from_str(RECORD).unwrap() };
    let (scratch, outside) = (Scratch::book(), Scratch::new());
    symlink(&outside.0, scratch.0.join("trials")).unwrap();
    let book = Book::open(&scratch.0).unwrap();
    assert!(matches!(Store::new(&book).add(record()), Err(StoreError::Path(_))));
    assert_eq!(std::fs::read_dir(&outside.0).unwrap().count(), 0);

    let scratch = Scratch::book();
    std::fs::create_dir(scratch.0.join("trials")).unwrap();
    symlink(outside.0.join("made"), scratch.0.join("trials/.lock")).unwrap();
    let book = Book::open(&scratch.0).unwrap();
    assert!(matches!(Store::new(&book).add(record()), Err(StoreError::Path(_))));
    assert_eq!(std::fs::read_dir(&outside.0).unwrap().count(), 0);
}

#[test]
fn hostile_words_are_words() {
    let (scratch, book) = book_with(RECORD);
    let hostile = "\"\"\"\n[[step]]\nid = 1 \t ../../etc $(rm -rf) {{ 7*7 }} '''";
    let mut record: WrittenTrial = toml::from_str(RECORD).unwrap();
    record.note = Some(hostile.to_owned());
    record.tester = text(hostile);
    record.recipe = text("../../../etc/passwd");
    record.kitchen = text("/etc/passwd");
    let (_, path) = Store::new(&book).add(record).unwrap();
    let trial = read(&std::fs::read_to_string(&path).unwrap()).trial;
    assert_eq!((trial.note.as_str(), trial.tester.as_str()), (hostile, hostile));
    let loaded = Store::new(&book).load(knowledge());
    assert_eq!(loaded.trials.len(), 2);
    let refused =
        loaded.findings.iter().filter(|(f, _)| f.message.contains("not a plain file name"));
    assert_eq!(refused.count(), 2);
    assert_eq!(std::fs::read_dir(&scratch.0).unwrap().count(), 2);
}

#[test]
fn what_a_terminal_would_obey_is_not_written() {
    for sign in ["\u{0}", "\u{1b}[31m", "\r", "\u{202e}"] {
        let (_scratch, book) = book_with(RECORD);
        let mut record: WrittenTrial = toml::from_str(RECORD).unwrap();
        record.note = Some(format!("red {sign} sign"));
        let refused = Store::new(&book).add(record);
        assert!(matches!(refused, Err(StoreError::Refused { .. })), "{sign:?}: {refused:?}");
        assert_eq!(Store::new(&book).load(knowledge()).trials.len(), 1);
    }
}

#[test]
fn what_the_rest_of_the_book_says_is_a_warning() {
    let stale = RECORD.replace(
        "kitchen =",
        &format!("recipe_sha256 = \"{}\"\nkitchen =", fingerprint("other text")),
    );
    let (scratch, _) = book_with(&stale);
    scratch.write("recipes/pear-treacle.toml", "title = \"x\"\n");
    scratch.write("trials/t-02.toml", RECORD);
    scratch.write("trials/t-03.toml", "id = 3");
    scratch.write("book.toml", "title = \"x\"\nteam = [{ code = \"LD\" }]\n");
    let book = Book::open(&scratch.0).unwrap();
    let loaded = Store::new(&book).load(knowledge());
    assert_eq!(loaded.trials.len(), 2);
    let codes: Vec<(Code, Severity)> =
        loaded.findings.iter().map(|(f, _)| (f.code, f.severity)).collect();
    for code in [Code::StaleRecord, Code::MissingFile, Code::UnknownName, Code::DuplicateName] {
        assert!(codes.contains(&(code, Severity::Warning)), "{code:?} in {codes:?}");
    }
    assert!(codes.contains(&(Code::Syntax, Severity::Error)));
}

/// NIST, Secure hash standard, FIPS 180-4, example of the message "abc".
#[test]
fn fingerprints_are_sha_256() {
    let expected = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
    assert_eq!(fingerprint("abc"), expected);
}

/// Cuts, doubles, swaps and overwrites parts of good files: each result is read, or refused with
/// findings; nothing panics.
#[test]
fn three_hundred_mutated_files_give_clean_errors() {
    let folder = example_book().join("trials");
    let originals: Vec<String> = (1..=6)
        .map(|number| std::fs::read_to_string(folder.join(format!("t-0{number}.toml"))).unwrap())
        .collect();
    let mut state = 1u64;
    let mut draw = |below: usize| {
        // Knuth's linear congruential generator (The Art of Computer Programming 2, 3.3.4).
        state =
            state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(state >> 33).unwrap() % below
    };
    let inserts =
        ["\"", "[[", "= ", "\u{0}", "-", "9e999", "nan", "°", "\n", "'''", "[step]", "💥"];
    let (mut refused, mut clean) = (0, 0);
    for round in 0..300 {
        let mut mutated: Vec<char> = originals[round % originals.len()].chars().collect();
        for _ in 0..=draw(3) {
            let at = draw(mutated.len());
            match draw(4) {
                0 => mutated.truncate(at),
                1 => drop(mutated.drain(at..(at + draw(30)).min(mutated.len()))),
                2 => drop(mutated.splice(at..at, inserts[draw(inserts.len())].chars())),
                _ => mutated[at] = char::from(u8::try_from(32 + draw(95)).unwrap()),
            }
            if mutated.is_empty() {
                mutated.push(' ');
            }
        }
        let mutated: String = mutated.into_iter().collect();
        match Trial::read(&mutated, "mutated.toml", knowledge()) {
            Ok(read) => {
                clean += 1;
                read.questions.iter().for_each(|f| assert!(!f.render(&mutated).is_empty()));
            }
            Err(findings) => {
                refused += 1;
                assert!(!findings.is_empty());
                findings.iter().for_each(|f| assert!(!f.render(&mutated).is_empty()));
            }
        }
    }
    assert_eq!(refused + clean, 300);
    assert!(refused > 100, "{refused} of 300 refused");
}
