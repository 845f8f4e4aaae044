//! What to do ahead and how the dish keeps: in words, and as a plan where charts are drawn.

use super::document::{Block, Document, Item, Text};
use super::notes::{Writing, kitchens};
use super::timeline::{self, Planned};
use super::{Chart, Figure};
use crate::advisor::timeline::DAY;
use crate::notes::Notes;
use crate::notes::ahead::{Ahead, Last, Stand};
use crate::notes::keeping::Kind;
use crate::quantity::{Time, cook_time};

/// A careful end that comes so little later goes without saying \[s\].
const WORTH_TELLING: f64 = 600.0;

/// What becomes of a dish in one kitchen, or in several alike.
type Told<T> = Vec<(T, Vec<usize>)>;

/// Writes what to begin when, and how the dish keeps.
pub(super) fn keeping(notes: &Notes<'_>, writing: &Writing<'_>) -> Vec<Block> {
    let mut document = Document::default();
    let mut told: Told<Vec<String>> = Vec::new();
    for (kitchen, one) in notes.ahead.iter().enumerate() {
        let kept = notes.keeping.iter().flat_map(|keeping| &keeping.kept);
        let kind = kept.filter(|kept| kept.kitchen == kitchen).map(|kept| kept.kind).next();
        tell(&mut told, lines(one, kind, writing), kitchen);
    }
    let mut stored: Told<Vec<String>> = Vec::new();
    if let Some(keeping) = &notes.keeping {
        for kept in &keeping.kept {
            let line = writing.say(format!("The {}: {}", keeping.product, kept.kind.advice()));
            tell(&mut stored, vec![line], kept.kitchen);
        }
    }
    let items = told.into_iter().chain(stored).filter(|(lines, _)| !lines.is_empty());
    document.bullets(items.map(|(lines, indices)| item(lines, &indices, notes)));
    if writing.charts {
        document.blocks.extend(plans(notes, writing));
    }
    document.blocks
}

fn tell<T: PartialEq>(told: &mut Told<T>, line: T, kitchen: usize) {
    match told.iter_mut().find(|(known, _)| *known == line) {
        Some((_, kitchens)) => kitchens.push(kitchen),
        None => told.push((line, vec![kitchen])),
    }
}

/// An entry for some kitchens, which are named unless they are all.
fn item(lines: Vec<String>, indices: &[usize], notes: &Notes<'_>) -> Item {
    let mut lines = lines.into_iter();
    let first = lines.next().unwrap_or_default();
    let lead = match indices.len() == notes.material.adapted.len() {
        true => first,
        false => format!("In {}: {first}", kitchens(notes, indices.iter().copied())),
    };
    lines.fold(Item::new(lead), Item::under)
}

/// What to do ahead in one kitchen.
fn lines(one: &Ahead<'_>, kind: Option<Kind>, writing: &Writing<'_>) -> Vec<String> {
    let mut lines = Vec::new();
    if one.usual > 0.0 && one.missing.is_empty() {
        lines.push(begin(one));
    }
    let planned = one.missing.is_empty();
    lines.extend(by_itself(&one.stands).filter(|_| planned));
    lines.extend(one.last.as_ref().filter(|_| planned).and_then(after_the_night));
    let can_wait = kind.is_some_and(|kind| kind != Kind::Bought);
    if let (None, Some(finished), true) = (&one.last, &one.finished, can_wait) {
        lines.push(the_day_before(finished));
    }
    if !one.missing.is_empty() {
        let missing = one.missing.join(" and the ");
        lines.push(format!("There is no plan: no route to the {missing} is open."));
    }
    lines.into_iter().map(|line| writing.say(line)).collect()
}

fn length(seconds: f64) -> String {
    cook_time(Time::from_seconds(seconds))
}

/// How long before the meal to begin.
fn begin(one: &Ahead<'_>) -> String {
    let (usual, careful) = (length(one.usual), length(one.careful));
    let sure = match one.careful - one.usual > WORTH_TELLING && usual != careful {
        true => format!(", or {careful} to have it ready nine times in ten"),
        false => String::new(),
    };
    let hands = length(one.hands_on);
    let hands = match hands == usual {
        true => "all of it hands-on".to_owned(),
        false => format!("{hands} of it hands-on"),
    };
    format!("Begin {usual} before it is wanted{sure}; {hands}.")
}

/// What runs by itself, and what of it a night is long enough for.
fn by_itself(stands: &[Stand<'_>]) -> Option<String> {
    let mut by_product: Vec<(&str, Vec<String>)> = Vec::new();
    for stand in stands {
        let night = stand.is_overnight() && stand.length < DAY;
        let night = if night { " (overnight)" } else { "" };
        let told = format!("{}{night}", length(stand.length));
        match by_product.last_mut().filter(|(product, _)| *product == stand.product) {
            Some((_, lengths)) => lengths.push(told),
            None => by_product.push((stand.product, vec![told])),
        }
    }
    let each = by_product.iter().map(|(product, lengths)| {
        let lengths = lengths.join(", then for ");
        format!("the {product} for {lengths}")
    });
    let each: Vec<String> = each.collect();
    (!each.is_empty()).then(|| format!("What stands by itself: {}.", each.join("; ")))
}

/// What is left after the last wait that a night is long enough for.
fn after_the_night(last: &Last<'_>) -> Option<String> {
    let (makes, time) = (last.makes.join(", "), length(last.length));
    (!makes.is_empty()).then(|| format!("After the last night {time} are left: {makes}."))
}

/// What can be done the day before.
fn the_day_before(finished: &Last<'_>) -> String {
    let product = finished.product;
    match finished.makes.as_slice() {
        [] => format!("All of it can be done the day before; the {product} keeps as below."),
        makes => format!(
            "The day before: all up to the {product}, which keeps as below. On the day: {}, {}.",
            makes.join(", "),
            length(finished.length)
        ),
    }
}

/// The plan of each kitchen as a chart.
fn plans(notes: &Notes<'_>, writing: &Writing<'_>) -> Vec<Block> {
    let several = notes.material.adapted.len() > 1;
    let drawn = notes.material.adapted.iter().enumerate().filter_map(|(kitchen, adapted)| {
        let planned = Planned { timeline: adapted.timeline, first_day: None };
        let is_whole = adapted.timeline.tasks.iter().all(|task| !task.missing);
        if adapted.timeline.total <= 0.0 || !is_whole {
            return None;
        }
        let mut chart = timeline::chart(&planned);
        if several {
            chart.title = format!("{} in {}", chart.title, kitchens(notes, [kitchen]));
        }
        Some(Block::Chart(styled(chart, writing)))
    });
    drawn.collect()
}

/// A plan with its words and numbers in the style of the book.
fn styled(mut chart: Chart, writing: &Writing<'_>) -> Chart {
    chart.finding = writing.say(&chart.finding);
    if let Figure::Timeline(drawn) = &mut chart.figure {
        for lane in &mut drawn.lanes {
            lane.name = writing.house.authored(&lane.name);
        }
        for cell in drawn.listing.iter_mut().flat_map(|table| &mut table.rows).flatten() {
            *cell = Text::from(writing.say(cell.words()));
        }
    }
    chart
}
