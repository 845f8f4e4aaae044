//! The back matter of notes: testing record, queries to the author, sources.

use super::document::{Block, Document, Item, Role, Table, Text};
use super::notes::{Writing, kitchens};
use super::trial_fit::{corrected_table, quantity_name, route_name, value};
use crate::notes::Notes;
use crate::notes::record::{Measured, Record};
use crate::quantity::{Time, range_text, significant};
use crate::trial::calibrate::TIME;
use crate::trial::{Trial, cause};

/// Up to so many trials every measurement is shown, not only its spread.
const EVERY_POINT: usize = 9;
/// From so many trials on a mean says something.
const MEAN_FROM: usize = 3;

/// Writes what the trials of the book found, and what they correct.
pub(super) fn record(notes: &Notes<'_>, writing: &Writing<'_>) -> Vec<Block> {
    let mut document = Document::default();
    match &notes.record {
        Some(record) if record.trials.is_empty() => {
            document.paragraph(
                "No trial of this recipe is in the book: the numbers are computed, \
                                not tested.",
            );
        }
        Some(record) => tested(&mut document, record, notes, writing),
        None => {
            document.paragraph("No book was given: the numbers are computed, not tested.");
        }
    }
    corrected(&mut document, notes, writing);
    document.blocks
}

/// The numbers that trials correct, each beside what was computed.
fn corrected(document: &mut Document, notes: &Notes<'_>, writing: &Writing<'_>) {
    let asked = notes.material.adapted.iter().enumerate();
    let (tried, untried): (Vec<_>, Vec<_>) = asked
        .filter_map(|(index, adapted)| Some((index, adapted.corrected?)))
        .partition(|(_, applied)| !applied.is_empty());
    for (index, applied) in &tried {
        let heading = format!("Corrected by trials: {}", kitchens(notes, [*index]));
        document.push(writing.heading(1, heading));
        document.push(styled(corrected_table(applied, notes.material.knowledge), writing));
    }
    if !tried.is_empty() {
        document.paragraph(
            "The corrected number is what the next trial should find. The rest of these notes has \
             the numbers as computed.",
        );
    }
    if !untried.is_empty() {
        let places = kitchens(notes, untried.iter().map(|(index, _)| *index));
        document.paragraph(format!(
            "No trial of the book went by the routes of {places}: every number is as computed."
        ));
    }
}

/// A table with its numbers in the style of the book.
fn styled(mut table: Table, writing: &Writing<'_>) -> Block {
    for cell in table.rows.iter_mut().flatten() {
        *cell = Text::from(writing.say(cell.words()));
    }
    Block::Table(table)
}

fn tested(document: &mut Document, record: &Record<'_>, notes: &Notes<'_>, writing: &Writing<'_>) {
    let each = record.verdicts.iter().map(|(verdict, n)| format!("{n} {}", verdict.words()));
    let trials = if record.trials.len() == 1 { "trial" } else { "trials" };
    let run = match record.clean_run {
        0 => "The last trial did not pass.".to_owned(),
        run => format!(
            "Clean run of one text: {run}. Such a run supports a success rate of at least {} % (at 95 \
             %): few repeats prove little.",
            significant(100.0 * record.success_at_least, 2)
        ),
    };
    let verdicts = each.collect::<Vec<_>>().join(", ");
    let count = record.trials.len();
    document.paragraph(writing.say(format!("{count} {trials}: {verdicts}. {run}")));
    let mut table = Table::new()
        .words("Trial")
        .words("Date")
        .words("Kitchen")
        .words("Tester")
        .words("Verdict")
        .words("Cause or change");
    record.trials.iter().for_each(|trial| table.push(trial_row(trial)));
    document.table(table);
    measured(document, record, notes, writing);
}

fn trial_row(trial: &Trial) -> [String; 6] {
    let version = match trial.recipe_version.as_str() {
        "" => String::new(),
        version => format!(", text {version}"),
    };
    let cause = trial.cause.and_then(cause::words).unwrap_or_default();
    let parts: Vec<&str> =
        [cause, trial.change.as_str()].into_iter().filter(|part| !part.is_empty()).collect();
    [
        format!("{}{version}", trial.id),
        trial.start.date.map_or_else(|| trial.start.to_string(), |date| date.to_string()),
        trial.kitchen.clone(),
        trial.tester.clone(),
        trial.verdict.words().to_owned(),
        parts.join("; "),
    ]
}

/// What was measured: n, every point while they are few, mean and spread.
fn measured(
    document: &mut Document,
    record: &Record<'_>,
    notes: &Notes<'_>,
    writing: &Writing<'_>,
) {
    if record.measured.is_empty() {
        return;
    }
    let mut table = Table::new()
        .caption("What was measured")
        .words("Step and route")
        .words("What")
        .numbers("n")
        .numbers("Mean")
        .numbers("Least to greatest")
        .words("Each");
    for one in &record.measured {
        table.push(measured_row(one, notes).map(|cell| Text::from(writing.say(cell))));
    }
    document.table(table);
}

fn measured_row(one: &Measured<'_>, notes: &Notes<'_>) -> [String; 6] {
    let knowledge = notes.material.knowledge;
    let show = |si: f64| match one.quantity {
        TIME => measured_time(si),
        attribute => value(attribute, si, knowledge),
    };
    let (low, mean, high) = one.spread();
    let route = one.route.map_or(String::new(), |id| format!(": {}", route_name(id, knowledge)));
    let few = one.points.len() <= EVERY_POINT;
    let each = one.points.iter().filter(|_| few).map(|(id, si)| format!("{id} {}", show(*si)));
    [
        format!("{}{route}", one.product),
        quantity_name(one.quantity, knowledge),
        one.points.len().to_string(),
        if one.points.len() >= MEAN_FROM { show(mean) } else { "–".to_owned() },
        range_text(&show(low), &show(high)),
        each.collect::<Vec<_>>().join("; "),
    ]
}

/// Writes a measured time to the minute: a record is not rounded like a recipe.
fn measured_time(seconds: f64) -> String {
    /// Above this, hours and minutes are written.
    const LONG: f64 = 120.0;
    let minutes = Time::from_seconds(seconds).minutes().round();
    match minutes < LONG {
        true => format!("{minutes:.0} min"),
        false => format!("{:.0} h {:.0} min", (minutes / 60.0).floor(), minutes % 60.0),
    }
}

/// Writes what is asked of the author, numbered.
pub(super) fn queries(notes: &Notes<'_>, writing: &Writing<'_>) -> Vec<Block> {
    let mut document = Document::default();
    let items = notes.queries.iter().enumerate().map(|(index, query)| {
        let about = match query.about.as_str() {
            "" => String::new(),
            about => format!(", {}", writing.house.authored(about)),
        };
        let mark = format!("AQ{}{about}:", index + 1);
        Item::new(Text::new().strong(mark).plain(format!(" {}", writing.say(&query.text))))
    });
    document.entries(Role::Query, items.collect::<Vec<Item>>());
    document.blocks
}

/// Writes where the numbers come from, as a bibliography; citations stay as they are.
pub(super) fn sources(notes: &Notes<'_>) -> Vec<Block> {
    let mut document = Document::default();
    let sources = &notes.sources;
    document.bullets(sources.published.keys().map(String::as_str));
    let works = sources.works_recalled();
    if !works.is_empty() {
        document.paragraph("Recalled, to be checked against the publication before print:");
        document.bullets(works);
    }
    let counted = [
        (sources.common_practice, "are common practice of the trade"),
        (sources.estimates.len(), "are estimates, with their reasoning in the JSON form"),
    ];
    let counted = counted.iter().filter(|(n, _)| *n > 0).map(|(n, what)| format!("{n} {what}"));
    let counted = counted.collect::<Vec<_>>().join(", and ");
    if !counted.is_empty() {
        document.paragraph(format!("Of the other numbers, {counted}."));
    }
    document.blocks
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_measured_time_keeps_its_minutes() {
        assert_eq!(measured_time(46.0 * 60.0), "46 min");
        assert_eq!(measured_time(725.0 * 60.0), "12 h 5 min");
    }
}
