//! Templates that a book brings: rendered without files, without loops that do not end, without
//! output or memory that grows without bound.
//!
//! A template lays out and words what is given to it. It can choose, repeat and include
//! (`if`, `for`, `include`), and nothing that builds new text out of text: that would let a few lines
//! fill the memory, where no limit on output reaches.

use std::collections::BTreeMap;
use std::io::{self, Write};

use minijinja::value::Value;
use minijinja::{AutoEscape, Environment, ErrorKind, UndefinedBehavior, filters, tests};

use crate::finding::{Code, Finding};

/// How many instructions a template may take: a long book takes a few thousand.
const FUEL: u64 = 200_000;
/// The largest output.
const LARGEST_OUTPUT: usize = 8 * 1024 * 1024;
/// How deep templates may include one another.
const DEEPEST: usize = 16;
/// The tags that a template can use.
const TAGS: [&str; 7] = ["if", "elif", "else", "endif", "for", "endfor", "include"];
/// Signs that make text out of text.
const GROWING: [char; 4] = ['~', '*', '+', '%'];

/// Why a template cannot be used.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum TemplateFault {
    /// It is not well formed, or fails on what it is given.
    #[error("{file}, line {line}: {because}")]
    Wrong {
        /// The file.
        file: String,
        /// The line, from 1.
        line: usize,
        /// Why.
        because: String,
    },
    /// It uses what templates cannot use.
    #[error("{file}, line {line}: `{what}` cannot be used in a template")]
    NotAllowed {
        /// The file.
        file: String,
        /// The line, from 1.
        line: usize,
        /// The word or sign.
        what: String,
    },
    /// It includes a file that is not in the templates folder.
    #[error("{file} is not in the templates folder of the book")]
    Missing {
        /// The file.
        file: String,
    },
    /// It takes too many steps.
    #[error("{file} takes more than {FUEL} steps: it repeats itself without an end")]
    TooLong {
        /// The file.
        file: String,
    },
    /// It writes too much.
    #[error("{file} writes more than {LARGEST_OUTPUT} bytes")]
    TooLarge {
        /// The file.
        file: String,
    },
}

impl TemplateFault {
    /// Returns the finding that reports it.
    pub fn finding(&self) -> Finding {
        let (code, file) = match self {
            Self::Wrong { file, .. } | Self::NotAllowed { file, .. } => (Code::Syntax, file),
            Self::Missing { file } => (Code::PathEscape, file),
            Self::TooLong { file } | Self::TooLarge { file } => (Code::ImpossibleValue, file),
        };
        Finding::error(code, file, self.to_string()).help(self.help())
    }

    /// Returns what to do about it.
    pub fn help(&self) -> String {
        match self {
            Self::Wrong { .. } => "correct the template; unknown names are faults".to_owned(),
            Self::NotAllowed { .. } => format!(
                "templates use {{{{ name }}}} and the tags {}; none of {}",
                TAGS.join(", "),
                GROWING.map(|sign| format!("`{sign}`")).join(" ")
            ),
            Self::Missing { .. } => "include files of that folder only, by their names".to_owned(),
            Self::TooLong { .. } | Self::TooLarge { .. } => {
                "look for a template that includes itself, or for loops within loops".to_owned()
            }
        }
    }
}

/// Renders the template of a name, which can include the others; what is given is escaped for a page
/// when that is asked for.
///
/// # Errors
/// [`TemplateFault`].
pub fn render(
    files: &BTreeMap<String, String>,
    main: &str,
    given: Value,
    escapes: bool,
) -> Result<String, TemplateFault> {
    files.iter().try_for_each(|(file, text)| check(file, text))?;
    let mut environment = Environment::empty();
    let held = files.clone();
    environment.set_loader(move |name| Ok(held.get(name).cloned()));
    environment.set_auto_escape_callback(move |_| match escapes {
        true => AutoEscape::Html,
        false => AutoEscape::None,
    });
    environment.set_undefined_behavior(UndefinedBehavior::Strict);
    environment.set_fuel(Some(FUEL));
    environment.set_recursion_limit(DEEPEST);
    environment.add_filter("upper", filters::upper);
    environment.add_filter("lower", filters::lower);
    environment.add_filter("trim", filters::trim);
    environment.add_filter("length", filters::length);
    environment.add_filter("first", filters::first);
    environment.add_filter("last", filters::last);
    environment.add_filter("join", filters::join);
    environment.add_test("defined", tests::is_defined);
    let mut out = Limited { bytes: Vec::new(), is_full: false };
    let done = environment
        .get_template(main)
        .and_then(|template| template.render_captured_to(given, &mut out).map(drop));
    match done {
        Ok(()) => Ok(String::from_utf8_lossy(&out.bytes).into_owned()),
        Err(_) if out.is_full => Err(TemplateFault::TooLarge { file: main.to_owned() }),
        Err(error) => Err(fault(&error, main)),
    }
}

fn fault(error: &minijinja::Error, main: &str) -> TemplateFault {
    let file = error.name().unwrap_or(main).to_owned();
    match error.kind() {
        ErrorKind::OutOfFuel => TemplateFault::TooLong { file },
        ErrorKind::TemplateNotFound => {
            let named = error.detail().and_then(|detail| detail.split('"').nth(1));
            TemplateFault::Missing { file: named.unwrap_or(main).to_owned() }
        }
        // The fault lies in an included template: it is the source of this one.
        _ => match std::error::Error::source(error)
            .and_then(|source| source.downcast_ref::<minijinja::Error>())
        {
            Some(source) => fault(source, main),
            None => TemplateFault::Wrong {
                file,
                line: error.line().unwrap_or(1),
                because: error.detail().unwrap_or(&error.kind().to_string()).to_owned(),
            },
        },
    }
}

/// Takes so many bytes and no more.
struct Limited {
    bytes: Vec<u8>,
    is_full: bool,
}

impl Write for Limited {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        if self.bytes.len() + bytes.len() > LARGEST_OUTPUT {
            self.is_full = true;
            return Err(io::Error::other("the output is too large"));
        }
        self.bytes.extend_from_slice(bytes);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

/// Refuses tags, signs and words that templates cannot use.
fn check(file: &str, text: &str) -> Result<(), TemplateFault> {
    let mut rest = text;
    let mut line = 1;
    while let Some(at) = rest.find('{') {
        line += rest[..at].matches('\n').count();
        let here = &rest[at..];
        let refuse = |line: usize, what: &str| TemplateFault::NotAllowed {
            file: file.to_owned(),
            line,
            what: what.to_owned(),
        };
        let length = match here.as_bytes().get(1) {
            Some(b'#') => here.find("#}").map_or(here.len(), |end| end + 2),
            Some(b'%') => {
                let (inside, length) = code(&here[2..], "%}");
                let tag = first_word(&inside);
                if !TAGS.contains(&tag.as_str()) {
                    return Err(refuse(line, &tag));
                }
                signs(&inside).map_err(|what| refuse(line, &what))?;
                length + 2
            }
            Some(b'{') => {
                let (inside, length) = code(&here[2..], "}}");
                signs(&inside).map_err(|what| refuse(line, &what))?;
                length + 2
            }
            _ => 1,
        };
        line += here[..length].matches('\n').count();
        rest = &here[length..];
    }
    Ok(())
}

/// Returns the code up to its end with the texts in quotes left out, and the length of both.
fn code(text: &str, end: &str) -> (String, usize) {
    let mut inside = String::new();
    let mut quote: Option<char> = None;
    let mut escaped = false;
    for (at, sign) in text.char_indices() {
        match quote {
            Some(_) if escaped => escaped = false,
            Some(_) if sign == '\\' => escaped = true,
            Some(mark) if sign == mark => quote = None,
            Some(_) => {}
            None if text[at..].starts_with(end) => return (inside, at + end.len()),
            None if matches!(sign, '"' | '\'') => quote = Some(sign),
            None => inside.push(sign),
        }
    }
    (inside, text.len())
}

fn first_word(code: &str) -> String {
    let code = code.trim_start_matches(|sign: char| sign.is_whitespace() || "-+".contains(sign));
    code.chars().take_while(|sign| sign.is_alphanumeric() || *sign == '_').collect()
}

/// Refuses what makes text out of text, and the loops that call themselves.
fn signs(code: &str) -> Result<(), String> {
    // A sign at either end only trims the space around the tag.
    let inside = code.trim_matches(|sign: char| "-+".contains(sign));
    if let Some(sign) = inside.chars().find(|sign| GROWING.contains(sign)) {
        return Err(sign.to_string());
    }
    let mut words = inside.split(|sign: char| !(sign.is_alphanumeric() || sign == '_'));
    let calls = inside.replace(char::is_whitespace, "").contains("loop(");
    match words.find(|word| *word == "recursive") {
        Some(word) => Err(word.to_owned()),
        None if calls => Err("loop()".to_owned()),
        None => Ok(()),
    }
}

#[cfg(test)]
mod template_tests {
    use super::*;

    fn rendered(files: &[(&str, &str)]) -> Result<String, TemplateFault> {
        let files = files.iter().map(|(name, text)| ((*name).to_owned(), (*text).to_owned()));
        let given = minijinja::context! { title => "<b>&", list => vec![1, 2, 3] };
        render(&files.collect(), "notes.html", given, true)
    }

    fn refused(text: &str) -> TemplateFault {
        rendered(&[("notes.html", text)]).unwrap_err()
    }

    #[test]
    fn text_is_escaped_in_pages_and_files_can_be_included() {
        let files = [
            ("notes.html", "{% for n in list %}{{ n }}{% include 'x.html' %}{% endfor %}"),
            ("x.html", "{{ title }}{# a note #}"),
        ];
        assert_eq!(rendered(&files).unwrap(), "1&lt;b&gt;&amp;2&lt;b&gt;&amp;3&lt;b&gt;&amp;");
    }

    #[test]
    fn no_path_leads_out() {
        for path in ["../secret", "/etc/passwd", "a/../../b", "..\\\\x", "file:///etc/passwd"] {
            let fault = refused(&format!("{{% include '{path}' %}}"));
            assert!(matches!(fault, TemplateFault::Missing { .. }), "{path}: {fault:?}");
        }
    }

    #[test]
    fn endless_work_ends() {
        let looped = "{% for a in list %}{% for b in list %}{% include 'notes.html' %}{% endfor %}\
                      {% endfor %}";
        let fault = refused(looped);
        assert!(
            matches!(fault, TemplateFault::TooLong { .. } | TemplateFault::Wrong { .. }),
            "{fault:?}"
        );
        let mut nested = String::from("x");
        for level in 0..12 {
            nested = format!("{{% for v{level} in list %}}{nested}{{% endfor %}}");
        }
        assert!(matches!(refused(&nested), TemplateFault::TooLong { .. }));
    }

    #[test]
    fn a_flood_of_output_is_cut_off() {
        let text = "y".repeat(200_000);
        let mut nested = text;
        for level in 0..5 {
            nested = format!("{{% for v{level} in list %}}{nested}{{% endfor %}}");
        }
        assert!(matches!(refused(&nested), TemplateFault::TooLarge { .. }));
    }

    #[test]
    fn nothing_builds_text_out_of_text() {
        for text in [
            "{% set x = 'a' %}",
            "{% macro m() %}{% endmacro %}",
            "{% filter upper %}{% endfilter %}",
            "{% extends 'x.html' %}",
            "{% block a %}{% endblock %}",
            "{{ 'a' * 1000000000 }}",
            "{{ title ~ title }}",
            "{{ title + title }}",
            "{{ '%1000000000d' % 1 }}",
            "{% for x in list recursive %}{% endfor %}",
            "{% for x in list %}{{ loop (x) }}{% endfor %}",
        ] {
            let fault = refused(text);
            assert!(matches!(fault, TemplateFault::NotAllowed { .. }), "{text}: {fault:?}");
        }
        assert!(rendered(&[("notes.html", "{{ '%} ~ *' }}{{- title -}}")]).is_ok());
    }

    #[test]
    fn faults_name_their_file_and_line() {
        let fault = refused("one\n{{ unknown }}");
        assert!(matches!(&fault, TemplateFault::Wrong { line: 2, .. }), "{fault:?}");
        let fault = refused("one\ntwo {% if %}");
        assert!(matches!(&fault, TemplateFault::Wrong { line: 2, .. }), "{fault:?}");
        let fault = refused("{{ range(10) }}");
        assert!(matches!(&fault, TemplateFault::Wrong { .. }), "{fault:?}");
    }
}
