use super::{standin, words};

/// A book made of the examples.
fn book() -> tempfile::TempDir {
    let book = tempfile::tempdir().unwrap();
    std::fs::write(book.path().join("book.toml"), "title = \"A book of two\"\n").unwrap();
    for (shelf, names) in [
        ("recipes", ["pear-treacle", "clear-tomato-water"]),
        ("kitchens", ["keen-cook", "tiny-flat"]),
    ] {
        let folder = book.path().join(shelf);
        std::fs::create_dir(&folder).unwrap();
        for name in names {
            let file = format!("{name}.toml");
            std::fs::copy(format!("examples/{file}"), folder.join(&file)).unwrap();
        }
    }
    book
}

#[test]
fn every_recipe_stands_beside_every_kitchen_in_the_order_of_their_files() {
    let book = book();
    let path = book.path().to_str().unwrap();
    let run = standin(&["survey", path, "--samples", "50", "--csv", "-"]);
    assert_eq!(run.code, Some(0), "{}", run.errors);
    let pairs: Vec<String> = run
        .out
        .lines()
        .skip(1)
        .map(|line| line.split(',').take(2).collect::<Vec<_>>().join("/"))
        .collect();
    assert_eq!(
        pairs,
        [
            "Clear tomato water/Keen cook",
            "Clear tomato water/Tiny flat",
            "Pear treacle/Keen cook",
            "Pear treacle/Tiny flat"
        ]
    );
    assert!(run.errors.is_empty(), "{}", run.errors);
}

#[test]
fn the_same_survey_is_the_same_bytes() {
    let book = book();
    let path = book.path().to_str().unwrap();
    let arguments = ["survey", path, "--samples", "50", "--format", "json"];
    assert_eq!(standin(&arguments).out, standin(&arguments).out);
}

#[test]
fn a_folder_that_is_no_book_is_refused() {
    let run = standin(&words("survey src"));
    assert_eq!(run.code, Some(2));
    assert!(run.errors.contains("src cannot be opened as a book"), "{}", run.errors);
}
