//! A slip of the pen in the name of a file, and what is offered for it.

use super::standin;

#[test]
fn a_name_with_a_slip_is_answered_with_the_nearest_that_exists() {
    let (recipe, kitchen) = ("examples/pear-treacle.toml", "examples/tiny-flat.toml");
    let book = "examples/book";
    let lines: [(&[&str], &str); 12] = [
        (&["adapt", "examples/pear-treackle.toml", "--kitchen", kitchen], recipe),
        (&["adapt", recipe, "--kitchen", "examples/tinyflat.toml"], kitchen),
        (&["adapt", "exampels/pear-treacle.toml", "--kitchen", kitchen], recipe),
        (&["adapt", "examples/pear-treacle", "--kitchen", kitchen], recipe),
        (&["check", "examples/book/recipe", "--kitchen", kitchen], "examples/book/recipes"),
        (&["export", "examples/pear-treacle.tml", "--kitchen", kitchen], recipe),
        (&["kitchen", "show", "examples/tiny-flats.toml"], kitchen),
        (&["survey", "examples/boook"], book),
        (&["lint", "examples/pear-treakle.toml"], recipe),
        (&["import", "examples/rhubarb-fol.json"], "examples/rhubarb-fool.json"),
        (&["notes", "pear-treackle", "--book", book, "--kitchen", "tiny-flat"], "pear-treacle"),
        (&["trial", "add", "pear-treacle", "--kitchen", "tinyflat", "--book", book], "tiny-flat"),
    ];
    for (line, wanted) in lines {
        let run = standin(line);
        let said = String::from_utf8_lossy(&run.stderr);
        assert_eq!(run.status.code(), Some(2), "{line:?}: {said}");
        assert!(said.contains("there is no"), "{line:?}: {said}");
        assert!(said.contains(&format!("did you mean `{wanted}`?")), "{line:?}: {said}");
    }
}
