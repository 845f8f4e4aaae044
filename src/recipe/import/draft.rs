//! The recipe file that an import writes: keys for what was understood, comments for the rest.

use std::collections::BTreeSet;
use std::fmt::Write as _;

use super::household;
use super::line::{Line, Lines};
use super::outside::{Outside, OutsideStep};
use super::page::one_line;
use super::technique::{Trade, stems};
use crate::knowledge::Knowledge;
use crate::quantity::{Dimension, Measures, cook_time, parse_amount, parse_iso_duration};
use crate::recipe::Recipe;

/// What begins a comment that asks for a look.
const REVIEW: &str = "# review: ";
/// The amount of an ingredient that has none, which the reader of recipes refuses by name.
const NO_AMOUNT: &str = "?";
/// The name of a recipe that has none.
const NO_NAME: &str = "(no name)";
/// The longest heading of a step that can name its product.
const LONGEST_NAME: usize = 60;
/// Words shorter than this do not tell which ingredient a step means.
const SHORTEST_WORD: usize = 3;

/// A recipe file in the making.
pub(super) struct Draft<'a> {
    knowledge: &'a Knowledge,
    text: String,
    remarks: Vec<String>,
}

/// An ingredient with the name by which steps use it.
struct Stock {
    id: String,
    /// Stems of the words that name it in a sentence.
    stems: BTreeSet<String>,
    line: Line,
    written: String,
    /// Why a recipe file cannot hold it as it is.
    fault: Option<String>,
}

/// A step with what goes into it.
struct Planned {
    step: OutsideStep,
    uses: Vec<String>,
    unnamed: bool,
}

/// Writes a recipe file and says what wants a look.
pub(super) fn write(
    outside: &Outside,
    file: &str,
    knowledge: &Knowledge,
    measures: Option<Measures>,
) -> (String, Vec<String>) {
    let mut draft = Draft { knowledge, text: String::new(), remarks: Vec::new() };
    draft.head(outside, file);
    let mut stocks = draft.stocks(outside);
    draft.household(&mut stocks, measures.or_else(|| household::of_language(outside)));
    for stock in &mut stocks {
        stock.fault = fault(&stock.line, knowledge);
    }
    for stock in &stocks {
        draft.ingredient(stock);
    }
    draft.steps(outside, &stocks);
    (draft.text, draft.remarks)
}

impl Draft<'_> {
    fn key(&mut self, key: &str, value: &str) {
        let value = toml::Value::String(value.to_owned());
        self.line(&format!("{key} = {value}"));
    }

    fn line(&mut self, line: &str) {
        self.text.push_str(line);
        self.text.push('\n');
    }

    /// Writes a comment that asks for a look, and remarks on it.
    fn review(&mut self, about: &str, what: &str) {
        self.line(&format!("{REVIEW}{}", one_line(what)));
        self.remarks.push(format!("{about}: {}", one_line(what)));
    }

    fn head(&mut self, outside: &Outside, file: &str) {
        self.line(&format!("# Imported from {}. Lines with `review` want a look.", one_line(file)));
        if outside.recipes > 1 {
            let what = format!("the file holds {} recipes; this is the first", outside.recipes);
            self.review("recipe", &what);
        }
        if outside.name.is_empty() {
            self.review("title", "the recipe has no name");
        }
        let name = if outside.name.is_empty() { NO_NAME } else { &outside.name };
        self.key("title", name);
        if !outside.author.is_empty() {
            self.key("author", &outside.author);
        }
        self.yields(&outside.yields);
        let times = outside.times.iter().map(|(key, text)| match parse_iso_duration(text) {
            Some(time) => format!("{}: {}.", spoken(key), cook_time(time)),
            None => format!("{}: {text}.", spoken(key)),
        });
        let note: Vec<String> = [outside.description.clone()].into_iter().chain(times).collect();
        let note = note.join("\n");
        if !note.trim().is_empty() {
            self.key("note", note.trim());
        }
        if !outside.others.is_empty() {
            let keys: Vec<&str> = outside.others.iter().map(|(key, _)| key.as_str()).collect();
            self.review("recipe", &format!("kept as comments only: {}", keys.join(", ")));
        }
        for (key, text) in &outside.others {
            self.line(&format!("# {}: {}", one_line(key), one_line(text)));
        }
    }

    /// Writes `makes` or `serves` for the first yield that is understood.
    fn yields(&mut self, yields: &[String]) {
        let mut known = false;
        for text in yields {
            let is = |dimension| parse_amount(text, dimension, Measures::Metric).is_ok();
            let people = people(text);
            match people {
                _ if known => self.line(&format!("# also: {text}")),
                _ if is(Dimension::Mass) || is(Dimension::Volume) => {
                    self.key("makes", text);
                    known = true;
                }
                Some(people) => {
                    self.key("serves", &people);
                    self.line(&format!("# as found: {text}"));
                    known = true;
                }
                None => self.review("yield", &format!("`{text}` is not understood")),
            }
        }
    }

    /// Takes the ingredient lines apart and gives each a name of its own.
    fn stocks(&self, outside: &Outside) -> Vec<Stock> {
        let lines = Lines::new(self.knowledge);
        let mut taken = BTreeSet::new();
        let stock = |written: &String| {
            let line = lines.read(written);
            let id = unique(&slug(&line.words), &mut taken);
            let food = line.food.as_ref().and_then(|id| self.knowledge.foods.get(id));
            let names = food.into_iter().flat_map(|food| {
                food.synonyms.iter().chain([&food.name]).filter_map(|name| stems(name).pop())
            });
            let own = stems(&line.words).pop();
            let long = |stem: &String| stem.chars().count() >= SHORTEST_WORD;
            Stock {
                id,
                stems: names.chain(own).filter(long).collect(),
                line,
                written: written.clone(),
                fault: None,
            }
        };
        outside.ingredients.iter().map(stock).collect()
    }

    /// Says whose cups and spoons are meant, and writes those that are known in millilitres.
    fn household(&mut self, stocks: &mut [Stock], measures: Option<Measures>) {
        let amounts = stocks.iter_mut().filter_map(|stock| stock.line.amount.as_mut());
        let mut amounts: Vec<&mut String> =
            amounts.filter(|amount| household::differs(amount)).collect();
        if amounts.is_empty() {
            return;
        }
        let Some(measures) = measures else {
            return self.review("measures", household::ASSUMED);
        };
        for amount in &mut amounts {
            if let Some(millilitres) = household::in_millilitres(amount, measures) {
                **amount = millilitres;
            }
        }
        self.review("measures", &household::converted(measures));
    }

    fn ingredient(&mut self, stock: &Stock) {
        let Stock { id, line, written, fault, .. } = stock;
        let about = format!("ingredient \"{written}\"");
        self.line("");
        if let Some(fault) = fault {
            let near: Vec<String> = line.near.iter().map(|id| format!("`{id}`")).collect();
            let near = match near.is_empty() {
                true => String::new(),
                false => format!("; near: {}", near.join(", ")),
            };
            let what = format!(
                "left out: {fault}{near}; correct it, take off the `#`, and name it in the `uses` \
                 of its step"
            );
            self.review(&about, &what);
        } else if line.is_assumed {
            let food = line.food.as_ref().and_then(|id| self.knowledge.foods.get(id));
            let name = food.map_or("", |food| food.name.as_str());
            self.review(&about, &format!("`{}` is taken as {name}", line.words));
        }
        let start = self.text.len();
        self.line(&format!("[[ingredient]] # as found: {written}"));
        self.key("id", id);
        self.key("food", line.food.as_ref().unwrap_or(&line.words));
        self.key("amount", line.amount.as_deref().unwrap_or(NO_AMOUNT));
        if !line.aside.is_empty() {
            self.key("note", &line.aside);
        }
        if fault.is_some() {
            let block = self.text.split_off(start);
            block.lines().for_each(|line| self.line(&format!("# {line}")));
        }
    }

    fn steps(&mut self, outside: &Outside, stocks: &[Stock]) {
        let planned = plan(&outside.steps, stocks);
        let trade = Trade::new(self.knowledge);
        let mut taken: BTreeSet<String> = stocks.iter().map(|stock| stock.id.clone()).collect();
        let count = planned.len();
        let mut before: Option<String> = None;
        for (index, planned) in planned.iter().enumerate() {
            let Planned { step, uses, unnamed } = planned;
            let about = format!("step {}", index + 1);
            self.line("\n[[step]]");
            for (name, techniques) in trade.named_in(&step.text) {
                let what = format!(
                    "\"{name}\" is work for {}; to have it replaced at home, write `technique` \
                     instead of `work`, with its settings under [step.laboratory]",
                    techniques.join(" or ")
                );
                self.review(&about, &what);
            }
            if *unnamed {
                self.review(&about, "no step names some of what goes in here; correct `uses`");
            }
            self.key("work", &step.text);
            let all: Vec<toml::Value> =
                before.iter().chain(uses).map(|name| toml::Value::String(name.clone())).collect();
            self.line(&format!("uses = {}", toml::Value::Array(all)));
            let makes = product(step, index, index + 1 == count, outside);
            let makes = unique(&makes, &mut taken);
            self.key("makes", &makes);
            if !step.section.is_empty() {
                self.key("note", &step.section);
            }
            before = Some(makes);
        }
    }
}

/// Returns why a recipe file cannot hold an ingredient, by trying it in the smallest one.
fn fault(line: &Line, knowledge: &Knowledge) -> Option<String> {
    if line.food.is_none() {
        return Some(format!("no food goes by `{}`", line.words));
    }
    let Some(amount) = &line.amount else {
        return Some("it has no amount that can be weighed".to_owned());
    };
    let quoted = |text: &str| toml::Value::String(text.to_owned());
    let food = line.food.as_deref().unwrap_or_default();
    let text = format!(
        "title = \"one\"\n[[ingredient]]\nid = \"one\"\nfood = {}\namount = {}\n\
         [[step]]\nwork = \"Weigh it.\"\nuses = [\"one\"]\n",
        quoted(food),
        quoted(amount),
    );
    let findings = Recipe::read(&text, "one", knowledge, Measures::default()).err()?;
    findings.first().map(|finding| finding.message.clone())
}

/// Returns what a step makes: its heading, the dish at the end, or its number.
fn product(step: &OutsideStep, index: usize, last: bool, outside: &Outside) -> String {
    let usable = |name: &str| {
        !name.trim().is_empty() && !name.contains(':') && name.chars().count() <= LONGEST_NAME
    };
    if usable(&step.name) && !step.text.starts_with(&step.name) {
        step.name.clone()
    } else if last && usable(&outside.name) {
        outside.name.clone()
    } else {
        format!("step {}", index + 1)
    }
}

/// Hands each ingredient to the first step that names it; steps before the first are joined to it.
fn plan(steps: &[OutsideStep], stocks: &[Stock]) -> Vec<Planned> {
    let mut free: Vec<&Stock> = stocks.iter().filter(|stock| stock.fault.is_none()).collect();
    let mut planned: Vec<Planned> = Vec::new();
    let mut waiting = String::new();
    for step in steps.iter().filter(|step| !step.text.is_empty()) {
        let words: BTreeSet<String> = stems(&step.text).into_iter().collect();
        let (named, rest): (Vec<&Stock>, Vec<&Stock>) =
            free.into_iter().partition(|stock| !stock.stems.is_disjoint(&words));
        free = rest;
        if planned.is_empty() && named.is_empty() {
            let _ = write!(waiting, "{} ", step.text);
            continue;
        }
        let text = format!("{}{}", std::mem::take(&mut waiting), step.text);
        let uses = named.iter().map(|stock| stock.id.clone()).collect();
        planned.push(Planned { step: OutsideStep { text, ..step.clone() }, uses, unnamed: false });
    }
    if !waiting.is_empty() {
        let step = OutsideStep { text: waiting.trim_end().to_owned(), ..OutsideStep::default() };
        planned.push(Planned { step, uses: Vec::new(), unnamed: false });
    }
    if let Some(first) = planned.first_mut() {
        first.unnamed = !free.is_empty();
        first.uses.extend(free.iter().map(|stock| stock.id.clone()));
    }
    planned
}

/// Returns the number of people of "4 servings" or "Serves 4".
fn people(text: &str) -> Option<String> {
    let start = text.find(|c: char| c.is_ascii_digit())?;
    let number: String = text[start..].chars().take_while(char::is_ascii_digit).collect();
    (number.parse::<u32>().ok()? > 0).then_some(number)
}

/// Writes "totalTime" as "Total time".
fn spoken(key: &str) -> String {
    let words = key.trim_end_matches("Time");
    let mut letters = words.chars();
    let first: String = letters.next().map(|c| c.to_uppercase().collect()).unwrap_or_default();
    format!("{first}{} time", letters.as_str())
}

/// Returns words as an id: letters and digits, joined by hyphens.
fn slug(words: &str) -> String {
    let parts = words.split(|c: char| !c.is_alphanumeric()).filter(|part| !part.is_empty());
    let id = parts.map(str::to_lowercase).collect::<Vec<_>>().join("-");
    if id.is_empty() { "ingredient".to_owned() } else { id }
}

/// Returns a name that is not taken yet, with a number after it if need be.
fn unique(name: &str, taken: &mut BTreeSet<String>) -> String {
    let mut free = name.to_owned();
    let mut number = 2;
    while !taken.insert(free.clone()) {
        free = format!("{name} {number}");
        number += 1;
    }
    free
}
