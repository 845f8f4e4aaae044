//! Completions and manual pages.

use std::process::Command;

use super::{printed, standin};

#[test]
#[cfg(unix)]
fn a_shell_reads_its_completions_and_completes_commands() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("completions");
    std::fs::write(&file, printed(&["completions", "bash"])).unwrap();
    let script = "set -e; . \"$1\"; COMP_WORDS=(standin ad); COMP_CWORD=1; \
                  _standin standin ad standin; echo \"${COMPREPLY[@]}\"";
    let output = Command::new("bash")
        .args(["--norc", "--noprofile", "-c", script, "bash"])
        .arg(&file)
        .output()
        .unwrap();
    assert!(output.stderr.is_empty(), "{}", String::from_utf8_lossy(&output.stderr));
    assert_eq!(String::from_utf8(output.stdout).unwrap(), "adapt\n");
}

#[test]
fn every_shell_is_told_of_every_command() {
    for shell in ["bash", "elvish", "fish", "powershell", "zsh"] {
        let text = printed(&["completions", shell]);
        for command in ["adapt", "survey", "calc", "lint", "schema"] {
            assert!(text.contains(command), "{shell}: {command}");
        }
    }
    assert_eq!(standin(&["completions", "abacus"]).status.code(), Some(2));
}

/// Requests of the man macros that the pages may use; any other is a slip of the generator.
const REQUESTS: [&str; 11] = ["ie", "el", "TH", "SH", "PP", "TP", "IP", "RS", "RE", "br", "sp"];

fn assert_is_a_page(name: &str, text: &str) {
    let mut headings = Vec::new();
    for line in text.lines() {
        if let Some(request) = line.strip_prefix('.') {
            let word = request.split_whitespace().next().unwrap_or_default();
            assert!(REQUESTS.contains(&word), "{name}: {line}");
            headings.extend(request.strip_prefix("SH "));
        }
    }
    assert!(headings.starts_with(&["NAME", "SYNOPSIS", "DESCRIPTION"]), "{name}: {headings:?}");
    let title = text.lines().find(|line| line.starts_with(".TH ")).unwrap();
    assert!(title.contains(" 1 \"\" \"standin "), "{name}: {title}");
    assert!(text.is_char_boundary(text.len()) && text.ends_with('\n'), "{name}");
}

#[test]
fn every_command_has_a_manual_page() {
    let folder = tempfile::tempdir().unwrap();
    let place = folder.path().join("man1");
    printed(&["man", "--output", place.to_str().unwrap()]);
    let mut names = Vec::new();
    for entry in std::fs::read_dir(&place).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_str().unwrap().to_owned();
        assert_is_a_page(&name, &std::fs::read_to_string(&path).unwrap());
        names.push(name);
    }
    for name in ["standin.1", "standin-adapt.1", "standin-trial-add.1", "standin-calc-boil.1"] {
        assert!(names.iter().any(|other| other == name), "{name}");
    }
}

#[test]
fn one_page_goes_to_standard_output() {
    let page = printed(&["man", "kitchen", "new"]);
    assert_is_a_page("kitchen new", &page);
    assert!(page.contains("\n.SH EXAMPLES\n"), "{page}");
    let wrong = standin(&["man", "adpat"]);
    let said = String::from_utf8(wrong.stderr).unwrap();
    assert_eq!(wrong.status.code(), Some(2));
    assert!(said.contains("did you mean `adapt`?"), "{said}");
}
