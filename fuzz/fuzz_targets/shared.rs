//! What the targets share: the knowledge base, and showing findings.

use std::sync::LazyLock;

use standin::finding::Finding;
use standin::knowledge::Knowledge;

/// The knowledge base as shipped.
#[allow(dead_code, reason = "not every target needs it")]
pub static KNOWLEDGE: LazyLock<Knowledge> =
    LazyLock::new(|| Knowledge::embedded().expect("the tests hold the shipped files free of faults"));

/// Shows findings as the program does.
#[allow(dead_code, reason = "not every target needs it")]
pub fn show(findings: &[Finding], text: &str) {
    for finding in findings {
        assert!(!finding.render(text).is_empty());
        let _ = finding.line_and_column(text);
    }
}
