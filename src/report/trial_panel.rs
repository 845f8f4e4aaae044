//! A panel of tasters as a document, in the words that its result allows.

use serde::Serialize;

use super::document::{Document, Fact, Text};
use super::{Axis, Chart, Figure, Lines, Series, Spread};
use crate::quantity::significant;
use crate::trial::judgement::{Conclusion, Judgement, Question, Reach};
use crate::trial::panel::{Design, Needed};

/// Digits of a chance.
const CHANCE_DIGITS: u32 = 2;
/// Points of the curve of power.
const POINTS: u32 = 20;
/// Panels below this show only large differences (common practice; see the power in the report).
const SMALL_PANEL: u32 = 24;

/// A question to a panel with everything that is known of its answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Panelled {
    /// The question.
    pub question: Question,
    /// What the panel can show, when its size is given.
    pub reach: Option<Reach>,
    /// What it showed, when it has tasted.
    pub judgement: Option<Judgement>,
    /// The smallest panel that answers the question.
    pub needed: Option<Needed>,
}

/// A panel in JSON.
#[derive(Debug, Serialize)]
pub struct PanelJson<'a> {
    /// How the samples are put.
    pub design: Design,
    /// The risk of claiming a difference that is not there.
    pub alpha_fraction: f64,
    /// The risk of missing a difference.
    pub beta_fraction: f64,
    /// The share of tasters who notice a difference that matters.
    pub noticed_by_fraction: f64,
    /// What the panel can show.
    pub reach: Option<&'a Reach>,
    /// What it showed.
    pub judgement: Option<&'a Judgement>,
    /// The result in the words that it allows.
    pub words: Option<String>,
    /// The smallest panel that answers the question.
    pub needed: Option<&'a Needed>,
}

/// Makes the JSON of a panel.
pub fn json(panel: &Panelled) -> PanelJson<'_> {
    PanelJson {
        design: panel.question.design,
        alpha_fraction: panel.question.alpha,
        beta_fraction: panel.question.beta,
        noticed_by_fraction: panel.question.share,
        reach: panel.reach.as_ref(),
        judgement: panel.judgement.as_ref(),
        words: words(panel),
        needed: panel.needed.as_ref(),
    }
}

fn percent(fraction: f64) -> String {
    format!("{} %", significant(100.0 * fraction, CHANCE_DIGITS))
}

/// Writes what a panel showed in the words that the result allows; nothing before it has tasted.
pub fn words(panel: &Panelled) -> Option<String> {
    let (reach, judged) = (panel.reach.as_ref()?, panel.judgement.as_ref()?);
    let (tasters, count) = (reach.tasters, judged.judged);
    let p = significant(judged.p_value, CHANCE_DIGITS);
    let told = format!("a panel of {tasters} told them apart ({count} of {tasters}, p = {p})");
    let missed = format!(
        "this panel did not tell them apart ({count} of {tasters}, p = {p}); the test could miss a \
         difference noticed by up to {}",
        percent(judged.could_miss_fraction)
    );
    let share = percent(panel.question.share);
    let test = match panel.question.design {
        Design::Triangle => "triangle test",
        Design::PairedOneSided | Design::PairedTwoSided => "paired test",
    };
    let similar =
        format!("{test} for similarity, n = {tasters}, pd = {share}, β = {}", panel.question.beta);
    Some(match judged.conclusion {
        Conclusion::Different => told,
        Conclusion::DifferentForFew => format!("{told}; fewer than {share} can ({similar})"),
        Conclusion::Similar => format!("{missed}; fewer than {share} notice one ({similar})"),
        Conclusion::Inconclusive => missed,
    })
}

/// Writes a panel.
pub fn document(panel: &Panelled) -> Document {
    let question = &panel.question;
    let mut document = Document::new(match question.design {
        Design::Triangle => "Triangle test",
        Design::PairedOneSided => "Paired comparison, one direction expected",
        Design::PairedTwoSided => "Paired comparison, either direction",
    });
    if let Some(words) = words(panel) {
        document.paragraph(Text::new().strong(format!("In print: {words}.")));
    }
    if panel.judgement.is_some_and(|judged| judged.conclusion == Conclusion::Inconclusive) {
        document.paragraph(
            "Neither a difference nor similarity was shown. Not telling them apart is no proof that \
             they are alike.",
        );
    }
    document.facts(facts(panel));
    if let Some(reach) = &panel.reach {
        document.chart(power_chart(question, reach));
    }
    if panel.reach.is_some_and(|reach| reach.tasters < SMALL_PANEL) {
        document.note("A panel of this size finds large differences only.");
    }
    document.note(
        "Exact binomial; methods of ISO 4120:2021 (triangle) and ISO 5495:2005 (paired), numbers \
         computed. Alike in one attribute is not alike in all.",
    );
    document
}

fn facts(panel: &Panelled) -> Vec<Fact> {
    let question = &panel.question;
    let mut facts = vec![
        Fact::new("Risk of claiming a difference that is not there (α)", percent(question.alpha)),
        Fact::new("Risk of missing a difference (β)", percent(question.beta)),
        Fact::new("A difference matters when it is noticed by", percent(question.share)),
    ];
    if let Some(reach) = &panel.reach {
        let of = |count: u32| format!("{count} of {}", reach.tasters);
        let least = reach.least_for_difference.map_or("no count of this panel".to_owned(), of);
        let most = reach.most_for_similarity.map_or("no count of this panel".to_owned(), of);
        facts.push(Fact::new("Difference from", least));
        facts.push(Fact::new("Similarity up to", most));
        facts.push(Fact::new("Chance to find it", percent(reach.power_fraction)));
    }
    facts.push(Fact::new(
        "Smallest panel for both risks",
        match &panel.needed {
            Some(needed) => {
                format!("{} tasters, difference from {}", needed.tasters, needed.correct)
            }
            None => "beyond what can be seated".to_owned(),
        },
    ));
    facts
}

/// The chance to find a difference, by how many notice it.
fn power_chart(question: &Question, reach: &Reach) -> Chart {
    let point = |step: u32| {
        let share = f64::from(step) / f64::from(POINTS);
        let power = Question { share, ..*question }.reach(reach.tasters).map(|r| r.power_fraction);
        (100.0 * share, Spread::exact(power.map_or(f64::NAN, |power| (100.0 * power).round())))
    };
    let series = Series::new("found", (1..=POINTS).map(point).collect());
    let finding = format!(
        "A difference that {} notice is found in {} of such panels.",
        percent(question.share),
        percent(reach.power_fraction)
    );
    let lines = Lines {
        x: Axis::new("noticed by", "%"),
        y: Axis::new("chance to find it", "%"),
        series: vec![series],
        ..Lines::default()
    };
    Chart::new("What this panel can find", finding, Figure::Lines(lines))
}
