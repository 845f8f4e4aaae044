//! The timeline of an adapted recipe: a chart, a table of what to do when, and what to mind.

use jiff::civil::Date;

use super::document::{Block, Caution, Document, Fact, Signal, Table, Text};
use super::{Axis, Chart, Figure, Lane, Stretch, Timeline as Drawn, shown};
use crate::advisor::timeline::{DAY, Delay, Span, TimedTask, Timeline, WaitsFor};
use crate::quantity::{Time, cook_time};

/// An hour \[s\].
const HOUR: f64 = 3600.0;
/// Clock times are printed to so many minutes: a plan is no more certain than that.
const MINUTES_SHOWN: f64 = 5.0;
/// Steps between the marks of a clock \[h\].
const CLOCK_STEPS: [f64; 8] = [1.0, 2.0, 3.0, 6.0, 12.0, 24.0, 48.0, 168.0];
/// At most so many marks stand on a clock.
const MOST_MARKS: f64 = 6.0;
/// The longest part of an instruction in the table, in characters.
const LONGEST_TEXT: usize = 90;
/// A first sentence no longer than this is followed by the next one, in characters.
const SHORT_TEXT: usize = 40;
/// Food that waits longer than this is told of \[s\].
const WORTH_TELLING: f64 = 600.0;

/// A plan with the date of its first day, when one was given.
#[derive(Debug, Clone, Copy)]
pub struct Planned<'a> {
    /// The plan.
    pub timeline: &'a Timeline,
    /// The date of its first day.
    pub first_day: Option<Date>,
}

impl Planned<'_> {
    /// Writes a moment of the plan \[s after its start\]: `day 2 07:00`, or the time from the start.
    pub fn moment(&self, at: f64) -> String {
        let Some(starts) = self.timeline.starts else { return from_start(at) };
        format!("{} {}", self.day(starts + at), clock(starts + at))
    }

    /// Writes a stretch, its day once.
    fn stretch(&self, from: f64, to: f64) -> String {
        let (first, last) = (self.moment(from), self.moment(to));
        let same_day = self.timeline.starts.is_some_and(|s| day_of(s + from) == day_of(s + to));
        match self.timeline.starts {
            _ if first == last => first,
            Some(starts) if same_day => format!("{first}–{}", clock(starts + to)),
            _ => format!("{first}–{last}"),
        }
    }

    /// Writes the day of a moment after the midnight of the first day.
    fn day(&self, after_midnight: f64) -> String {
        let day = day_of(after_midnight);
        let date =
            self.first_day.and_then(|first| first.checked_add(jiff::Span::new().days(day)).ok());
        date.map_or_else(
            || format!("day {}", day + 1),
            |date| date.strftime("%a %-d %b").to_string(),
        )
    }
}

/// The day of a moment, counted from the first; moments are rounded as they are printed.
#[allow(clippy::cast_possible_truncation, reason = "a plan of days, not of ages")]
fn day_of(after_midnight: f64) -> i64 {
    (rounded(after_midnight) / DAY).floor() as i64
}

fn rounded(seconds: f64) -> f64 {
    (seconds / 60.0 / MINUTES_SHOWN).round() * MINUTES_SHOWN * 60.0
}

/// Writes the time of day.
fn clock(after_midnight: f64) -> String {
    let minutes = rounded(after_midnight.rem_euclid(DAY)).rem_euclid(DAY) / 60.0;
    format!("{:02.0}:{:02.0}", (minutes / 60.0).floor(), minutes.rem_euclid(60.0))
}

/// Writes hours and minutes from the start.
fn from_start(at: f64) -> String {
    let minutes = rounded(at) / 60.0;
    format!("{:.0}:{:02.0}", (minutes / 60.0).floor(), minutes.rem_euclid(60.0))
}

fn length(seconds: f64) -> String {
    cook_time(Time::from_seconds(seconds))
}

/// Adds the plan to a document.
pub fn section(document: &mut Document, planned: &Planned<'_>) {
    let timeline = planned.timeline;
    if timeline.tasks.is_empty() {
        return;
    }
    document.section("When to do what");
    // A plan in which nothing can be done yet has no clock.
    if timeline.total > 0.0 {
        document.facts(facts(planned));
        document.chart(chart(planned));
    }
    document
        .bullets(timeline.tasks.iter().filter_map(|task| missing(task).or_else(|| held_up(task))));
    for warning in &timeline.safety.warnings {
        document.push(Block::Caution(caution(warning)));
    }
    for text in remarks(planned) {
        document.note(text);
    }
}

fn facts(planned: &Planned<'_>) -> Vec<Fact> {
    let timeline = planned.timeline;
    let mut whole = length(timeline.total);
    if let Some(range) = &timeline.range {
        let range = shown::time(range);
        if range != whole {
            whole = format!("{whole} ({range})");
        }
    }
    let mut facts = vec![
        Fact::new("From start to end", whole),
        Fact::new("Hands-on", length(timeline.hands_on())),
    ];
    if timeline.starts.is_some() {
        facts.push(Fact::new("Begin", Text::new().strong(planned.moment(0.0))));
        facts.push(Fact::new("Ready", Text::new().strong(planned.moment(timeline.total))));
    }
    facts.push(Fact::new("What settles the end", critical(timeline)));
    facts
}

/// The products on the critical path, each named once in a row.
fn critical(timeline: &Timeline) -> String {
    let tasks = timeline.critical.iter().filter_map(|place| timeline.tasks.get(*place));
    let mut names: Vec<&str> = tasks.map(|task| task.product.as_str()).collect();
    names.dedup();
    names.join(" → ")
}

/// The chart: the cook, then every product; the table beside it in the order of time.
pub fn chart(planned: &Planned<'_>) -> Chart {
    let timeline = planned.timeline;
    let stretch = |span: &Span, mark: &str| Stretch {
        from: span.from / HOUR,
        to: span.to / HOUR,
        label: mark.to_owned(),
        active: span.hands,
    };
    let mut cook: Vec<(f64, Stretch)> = Vec::new();
    let mut lanes: Vec<Lane> = Vec::new();
    for (index, task) in timeline.tasks.iter().enumerate() {
        let mark = (index + 1).to_string();
        let hands = task.spans.iter().filter(|span| span.hands);
        cook.extend(hands.map(|span| (span.from, stretch(span, &mark))));
        let spans = task.spans.iter().map(|span| stretch(span, &mark));
        match lanes.iter_mut().find(|lane| lane.name == task.product) {
            Some(lane) => lane.stretches.extend(spans),
            None => lanes.push(Lane { name: task.product.clone(), stretches: spans.collect() }),
        }
    }
    cook.sort_by(|a, b| a.0.total_cmp(&b.0));
    let cook = cook.into_iter().map(|(_, stretch)| stretch).collect();
    lanes.insert(0, Lane { name: "the cook".to_owned(), stretches: cook });
    let figure = Drawn {
        axis: match timeline.starts {
            Some(_) => Axis::new("time of day", ""),
            None => Axis::new("hours from the start", ""),
        },
        lanes,
        marks: marks(planned),
        listing: Some(listing(planned)),
    };
    Chart::new("The plan", finding(planned), Figure::Timeline(figure))
}

fn finding(planned: &Planned<'_>) -> String {
    let timeline = planned.timeline;
    let (hands, whole) = (length(timeline.hands_on()), length(timeline.total));
    format!("One cook is needed for {hands} of {whole}; the durations are medians.")
}

/// Marks of the clock along the axis, in hours from the start.
fn marks(planned: &Planned<'_>) -> Vec<(f64, String)> {
    let Some(starts) = planned.timeline.starts else { return Vec::new() };
    let hours = planned.timeline.total / HOUR;
    let step = CLOCK_STEPS.iter().find(|step| hours / **step < MOST_MARKS);
    let step = step.copied().unwrap_or(CLOCK_STEPS[CLOCK_STEPS.len() - 1]);
    let first = (starts / HOUR / step).ceil() * step;
    let mut marks = Vec::new();
    let mut at = first;
    while at <= starts / HOUR + hours {
        let of_day = (at * HOUR).rem_euclid(DAY);
        let text = if of_day < 1.0 { planned.day(at * HOUR) } else { clock(at * HOUR) };
        marks.push((at - starts / HOUR, text));
        at += step;
    }
    marks
}

/// What to do when, in the order of time.
fn listing(planned: &Planned<'_>) -> Table {
    let when = if planned.timeline.starts.is_some() { "When" } else { "From start (h:min)" };
    let mut table =
        Table::new().words("No.").words(when).words("For").words("What to do").words("Hands-on");
    for (index, task) in planned.timeline.tasks.iter().enumerate() {
        let hands: f64 = task.spans.iter().filter(|s| s.hands).map(|s| s.to - s.from).sum();
        let (time, hands) = match (task.missing, task.spans.is_empty()) {
            (true, _) => ("not planned".to_owned(), "–".to_owned()),
            (false, true) => (planned.moment(task.at), "–".to_owned()),
            _ => (planned.stretch(task.at, task.end()), length(hands)),
        };
        let text = shortened(&task.text);
        table.push([(index + 1).to_string(), time, task.product.clone(), text, hands]);
    }
    table
}

/// The first sentences, cut at a word where they are long; a short one alone may not say what is done.
fn shortened(text: &str) -> String {
    let first = match text.split_once(". ") {
        Some((first, _)) if first.chars().count() > SHORT_TEXT => first,
        _ => text,
    };
    let first = first.trim_end_matches('.');
    if first.chars().count() <= LONGEST_TEXT {
        return first.to_owned();
    }
    let mut short = String::new();
    for word in first.split(' ') {
        if short.chars().count() + word.chars().count() >= LONGEST_TEXT {
            break;
        }
        short.push_str(word);
        short.push(' ');
    }
    format!("{}…", short.trim_end_matches([' ', ',', ';']))
}

fn missing(task: &TimedTask) -> Option<String> {
    task.missing.then(|| {
        format!("{}: this kitchen has no route; its time is not in the plan.", task.product)
    })
}

fn held_up(task: &TimedTask) -> Option<String> {
    let Delay { by, for_what } = task.delay.as_ref()?;
    let (by, product) = (length(*by), &task.product);
    Some(match for_what {
        WaitsFor::Cook(other) if other == product => {
            format!("{product} waits {by} for the cook, who is still at it.")
        }
        WaitsFor::Cook(other) => {
            format!("{product} waits {by} for the cook, who is at work on {other}.")
        }
        WaitsFor::Appliance(label, other) => {
            format!("{product} waits {by} for the {}, in use for {other}.", label.replace('-', " "))
        }
        WaitsFor::Morning => format!("{product} waits {by} for the morning."),
    })
}

fn caution(warning: &crate::advisor::timeline::Warning) -> Caution {
    let signal = if warning.refuses { Signal::Danger } else { Signal::Warning };
    let numbers = format!(
        "{}: up to {} between 5 °C and 54.4 °C, of which {} waiting in this plan.",
        warning.product,
        length(warning.warm),
        length(warning.waiting)
    );
    let advice = "Cool it in ice water before it waits, keep it hot, or begin at another hour.";
    Caution {
        signal,
        hazard: "the plan lets food stand warm".to_owned(),
        lines: vec![Text::new().strong(numbers), warning.says.clone().into(), advice.into()],
    }
}

/// What to mind about the plan.
fn remarks(planned: &Planned<'_>) -> Vec<String> {
    let timeline = planned.timeline;
    let mut remarks = Vec::new();
    if let Some(range) = &timeline.range {
        let slack = range.high() - timeline.total;
        let early = match timeline.wanted {
            Some(_) => format!("; to be as sure of the hour, begin {} earlier", length(slack)),
            None => String::new(),
        };
        if slack > WORTH_TELLING {
            let careful = length(range.high());
            remarks.push(format!("Nine times in ten it takes no more than {careful}{early}."));
        }
    }
    if timeline.safety.waits.iter().any(|wait| wait.length > WORTH_TELLING) {
        remarks.push(match timeline.safety.cold {
            true => {
                "Food that waits is taken to stand in the refrigerator, covered, in a layer of at \
                     most 5 cm."
                    .to_owned()
            }
            false => "This kitchen has no refrigerator: food that waits is taken to stand warm."
                .to_owned(),
        });
    }
    if timeline.starts.is_some() && timeline.at_night >= WORTH_TELLING {
        let night = length(timeline.at_night);
        remarks.push(format!("{night} of the work cannot be kept out of the night (22:00–07:00)."));
    }
    remarks
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn clocks_are_printed_to_five_minutes() {
        assert_eq!(clock(9.0 * HOUR + 123.0), "09:00");
        assert_eq!(clock(23.0 * HOUR + 59.0 * 60.0), "00:00");
        assert_eq!(from_start(26.0 * HOUR + 8.0 * 60.0), "26:10");
        assert_eq!(day_of(23.0 * HOUR + 59.0 * 60.0), 1);
    }

    #[test]
    fn instructions_are_cut_at_a_word() {
        assert_eq!(shortened("Blend it. Then strain it."), "Blend it. Then strain it");
        let two = format!("{} to the brim. Boil it.", "Fill it ".repeat(5));
        assert!(shortened(&two).ends_with("to the brim"));
        let long = "word ".repeat(40);
        let short = shortened(&long);
        assert!(short.ends_with("word…") && short.chars().count() <= LONGEST_TEXT + 1, "{short}");
    }
}
