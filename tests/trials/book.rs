//! Books: what is read, and what is refused.

use std::path::Path;

use standin::book::{Book, Entry, PathFault, Shelf};
use standin::finding::{Code, Finding};

use super::{Scratch, example_book};

/// The one finding about a `book.toml`, with its line and column.
fn refused(text: &str) -> (Finding, Option<(usize, usize)>) {
    let scratch = Scratch::new();
    scratch.write("book.toml", text);
    let mut findings = Book::open(&scratch.0).unwrap_err();
    assert_eq!(findings.len(), 1, "{findings:?}");
    let place = findings[0].line_and_column(text);
    (findings.remove(0), place)
}

#[test]
fn the_example_book_opens() {
    let book = Book::open(&example_book()).unwrap();
    assert!(book.title.starts_with("Borrowed Instruments"));
    assert_eq!(book.team.len(), 10);
    assert!(book.list(Shelf::Trials).unwrap().len() >= 6);
}

#[test]
fn every_fault_has_its_place() {
    let cases = [
        ("title = \"x\"\nstyl = 1\n", Code::UnknownKey, (2, 1)),
        ("title = 3\n", Code::Syntax, (1, 9)),
        ("title = \"x\"\n[style]\nspelling = \"au\"\n", Code::Syntax, (3, 12)),
        ("title = \"x\"\n[style]\nranges = \"dash\"\nmark = \"x\"\n", Code::UnknownKey, (4, 1)),
        ("title = \" \"\n", Code::MissingKey, (1, 9)),
        (
            "title = \"x\"\n[[team]]\ncode = \"A\"\n[[team]]\ncode = \"A\"\n",
            Code::DuplicateName,
            (5, 8),
        ),
        ("title = \"x\"\n[templates]\nnotes = \"../a.md\"\n", Code::PathEscape, (3, 9)),
        ("title = \"x\"\n[templates]\nnotes = \"/etc/passwd\"\n", Code::PathEscape, (3, 9)),
        ("title = \"x\"\n[templates]\nnotes = \"none.md\"\n", Code::MissingFile, (3, 9)),
    ];
    for (text, code, place) in cases {
        let (finding, found) = refused(text);
        assert_eq!((finding.code, found), (code, Some(place)), "{text}\n{}", finding.render(text));
        assert!(finding.help.is_some() || code == Code::Syntax, "{text}");
    }
    assert_eq!(refused("team = []\n").0.code, Code::MissingKey);
}

#[test]
fn a_folder_without_a_book_is_named() {
    let scratch = Scratch::new();
    let findings = Book::open(&scratch.0).unwrap_err();
    assert!(findings[0].message.contains("book.toml"), "{}", findings[0].message);
    let findings = Book::open(Path::new("no/such/folder")).unwrap_err();
    assert_eq!(findings[0].code, Code::UnreadableFile);
}

#[test]
fn a_template_inside_the_book_is_found() {
    let scratch = Scratch::book();
    scratch.write("templates/notes.md", "{{ 7 * 7 }}");
    scratch.write("book.toml", "title = \"x\"\n[templates]\nnotes = \"templates/notes.md\"\n");
    let book = Book::open(&scratch.0).unwrap();
    assert_eq!(book.style.templates["notes"], scratch.0.join("templates/notes.md"));
}

#[test]
fn names_that_lead_out_are_refused() {
    let scratch = Scratch::book();
    let book = Book::open(&scratch.0).unwrap();
    for name in ["..", "../book", "a/b", "/etc/passwd", "", ".lock", "a\\..\\b", "x\0y"] {
        let fault = book.find(Shelf::Recipes, name).unwrap_err();
        assert!(matches!(fault, PathFault::NotPlain { .. }), "{name}: {fault}");
    }
    let fault = book.inside(Path::new("recipes/../../x")).unwrap_err();
    assert!(matches!(fault, PathFault::Escapes { .. }));
    let fault = book.find(Shelf::Recipes, "none").unwrap_err();
    assert!(matches!(fault, PathFault::Missing { .. }));
}

#[test]
#[cfg(unix)]
fn links_out_of_the_book_are_refused_and_links_inside_are_followed() {
    use std::os::unix::fs::symlink;
    let (scratch, outside) = (Scratch::book(), Scratch::new());
    outside.write("secret.toml", "title = \"secret\"\n");
    let kept = scratch.write("recipes/kept.toml", "title = \"kept\"\n");
    symlink(&kept, scratch.0.join("recipes/also.toml")).unwrap();
    symlink(outside.0.join("secret.toml"), scratch.0.join("recipes/out.toml")).unwrap();
    symlink(&outside.0, scratch.0.join("kitchens")).unwrap();
    let book = Book::open(&scratch.0).unwrap();
    assert_eq!(book.find(Shelf::Recipes, "also").unwrap(), kept);
    let fault = book.find(Shelf::Recipes, "out").unwrap_err();
    assert!(matches!(fault, PathFault::Escapes { .. }), "{fault}");
    let findings = book.list(Shelf::Recipes).unwrap_err();
    assert_eq!(findings.len(), 1);
    assert_eq!(findings[0].code, Code::PathEscape);
    assert_eq!(book.list(Shelf::Kitchens).unwrap_err()[0].code, Code::PathEscape);
    let text = std::fs::read_to_string(scratch.0.join("book.toml")).unwrap();
    std::fs::remove_file(scratch.0.join("book.toml")).unwrap();
    symlink(outside.write("book.toml", &text), scratch.0.join("book.toml")).unwrap();
    assert_eq!(Book::open(&scratch.0).unwrap_err()[0].code, Code::PathEscape);
}

#[test]
fn hidden_and_foreign_files_are_left_out() {
    let scratch = Scratch::book();
    for name in ["a.toml", ".b.toml", "c.txt", ".lock", ".t-01.toml.7.tmp"] {
        scratch.write(&format!("recipes/{name}"), "");
    }
    let book = Book::open(&scratch.0).unwrap();
    let ids: Vec<String> =
        book.list(Shelf::Recipes).unwrap().into_iter().map(|entry: Entry| entry.id).collect();
    assert_eq!(ids, ["a"]);
    assert!(book.list(Shelf::Trials).unwrap().is_empty());
}
