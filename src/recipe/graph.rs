//! Joining steps by the batches that they use and make.
//!
//! A step may use ingredients and the products of earlier steps only, so that the graph has no
//! cycle. What is used adds to the whole: not more, and not less unless the author says `keep`.

use std::collections::BTreeMap;
use std::ops::Range;

use crate::finding::{Code, nearest};
use crate::knowledge::written::{Spanned, Text};
use crate::quantity::{Dimension, Mass, parse_amount, significant};
use crate::reader::{Reader, SHARE};

use super::step::{place, product_name};
use super::written::{WrittenRecipe, WrittenStep};
use super::{Ingredient, Source, Step, Use};

/// Shares of one source that add to the whole within this are taken as the whole: it covers masses
/// rounded to the gram in a kilogram.
const ROUNDING: f64 = 0.005;
/// A product may outweigh its inputs by this share, for rounding on a kitchen scale.
const WEIGHING: f64 = 0.02;
/// Parts that are written as words.
const WORDS: [(&str, f64); 8] = [
    ("all", 1.0),
    ("half", 0.5),
    ("a half", 0.5),
    ("a third", 1.0 / 3.0),
    ("one third", 1.0 / 3.0),
    ("two thirds", 2.0 / 3.0),
    ("a quarter", 0.25),
    ("three quarters", 0.75),
];
/// The word for what no step has used so far.
const REST: &str = "rest";

/// How much of a source a step takes, as written.
enum Part {
    Share(f64),
    Mass(Mass),
    Rest,
    /// Nothing was said: all of it.
    Whole,
}

/// One ingredient or product, and what has been taken of it.
struct Stock {
    name: String,
    source: Source,
    place: Range<usize>,
    mass: Option<Mass>,
    /// Whether the mass is missing because of another finding.
    faulty: bool,
    keep: bool,
    /// Whether a finding about a use of it has been made, so that a leftover says nothing new.
    reported: bool,
    taken: f64,
}

/// Fills in what each step uses; findings when the batches do not join up.
pub(super) fn join(
    written: &WrittenRecipe,
    ingredients: &[Option<Ingredient>],
    steps: &mut [Step],
    reader: &mut Reader<'_>,
) {
    let mut stocks = stocks(written, ingredients, steps);
    let names = names(&stocks, reader);
    for (index, step) in written.step.iter().enumerate() {
        if step.uses.is_empty() {
            let message = format!("step {} uses nothing", index + 1);
            let help = "name ingredients or earlier products in `uses`".to_owned();
            reader.error(Code::RecipeGraph, place(step), message, help);
        }
        let mut joiner = Joiner { index, stocks: &mut stocks, names: &names, reader };
        steps[index].uses = step.uses.iter().filter_map(|text| joiner.one(text)).collect();
        gains_nothing(step, &steps[index], &stocks, reader);
    }
    even_out(&stocks, steps);
    let last = Source::Product(steps.len().saturating_sub(1));
    let owed = |stock: &&Stock| stock.source != last && !stock.keep && !stock.reported;
    stocks.iter().filter(owed).for_each(|stock| leftover(stock, reader));
}

/// Makes shares that add to the whole but for rounding add to it exactly, so that no mass appears or
/// goes missing.
fn even_out(stocks: &[Stock], steps: &mut [Step]) {
    for stock in stocks {
        let is_whole = stock.taken > 1.0 || (!stock.keep && stock.taken >= 1.0 - ROUNDING);
        if !is_whole {
            continue;
        }
        let uses = steps.iter_mut().flat_map(|step| &mut step.uses);
        for used in uses.filter(|used| used.source == stock.source) {
            used.share /= stock.taken;
        }
    }
}

fn stocks(
    written: &WrittenRecipe,
    ingredients: &[Option<Ingredient>],
    steps: &[Step],
) -> Vec<Stock> {
    let bought = written.ingredient.iter().zip(ingredients).enumerate();
    let bought = bought.map(|(index, (one, linked))| Stock {
        name: one.id.get_ref().clone(),
        source: Source::Ingredient(index),
        place: one.id.span(),
        mass: linked.as_ref().map(|linked| linked.mass),
        faulty: linked.is_none(),
        keep: one.keep,
        reported: false,
        taken: 0.0,
    });
    let made = written.step.iter().zip(steps).enumerate().map(|(index, (one, linked))| Stock {
        name: product_name(index, one),
        source: Source::Product(index),
        place: place(one),
        mass: linked.yields,
        faulty: one.yields.is_some() && linked.yields.is_none(),
        keep: one.keep,
        reported: false,
        taken: 0.0,
    });
    bought.chain(made).collect()
}

/// Indexes the stocks by name; findings for names that are taken or cannot be used.
fn names(stocks: &[Stock], reader: &mut Reader<'_>) -> BTreeMap<String, usize> {
    let mut names = BTreeMap::new();
    for (index, stock) in stocks.iter().enumerate() {
        let place = stock.place.clone();
        if stock.name.trim().is_empty() || stock.name.contains(':') {
            let message = format!("`{}` cannot be used as a name", stock.name);
            let help = "a name is not empty and has no colon".to_owned();
            reader.error(Code::RecipeGraph, place, message, help);
        } else if names.insert(stock.name.clone(), index).is_some() {
            let message = format!("two ingredients or products go by `{}`", stock.name);
            reader.error(Code::DuplicateName, place, message, "rename one of them".to_owned());
        }
    }
    names
}

/// Joins the inputs of one step.
struct Joiner<'a, 'k> {
    index: usize,
    stocks: &'a mut [Stock],
    names: &'a BTreeMap<String, usize>,
    reader: &'a mut Reader<'k>,
}

impl Joiner<'_, '_> {
    fn error(&mut self, text: &Text, message: String, help: &str) {
        self.reader.error(Code::RecipeGraph, text.span(), message, help.to_owned());
    }

    /// Reads one use; `None` after a finding.
    fn one(&mut self, text: &Text) -> Option<Use> {
        let (name, part) = match text.get_ref().split_once(':') {
            Some((name, part)) => (name.trim(), Some(part.trim())),
            None => (text.get_ref().trim(), None),
        };
        let at = self.find(text, name)?;
        let part = self.part(text, part);
        let Some(share) = part.and_then(|part| self.share(text, at, part)) else {
            self.stocks[at].reported = true;
            return None;
        };
        let stock = &mut self.stocks[at];
        stock.taken += share;
        let (taken, source) = (stock.taken, stock.source);
        if share <= 0.0 || taken > 1.0 + ROUNDING {
            let message = format!("{} % of `{name}` is used", significant(100.0 * taken, 3));
            self.error(text, message, "take less here or in an earlier step");
            return None;
        }
        Some(Use { source, share: share.min(1.0) })
    }

    /// Finds an ingredient or an earlier product.
    fn find(&mut self, text: &Text, name: &str) -> Option<usize> {
        let Some(&at) = self.names.get(name) else {
            let known = self.names.keys().map(String::as_str);
            let help = nearest(name, known).map_or("add it as an [[ingredient]]".to_owned(), |n| {
                format!("did you mean `{n}`?")
            });
            let message = format!("no ingredient or product goes by `{name}`");
            self.error(text, message, &help);
            return None;
        };
        match self.stocks[at].source {
            Source::Product(made) if made == self.index => {
                self.stocks[at].reported = true;
                let message = format!("step {} uses `{name}`, which it makes itself", made + 1);
                self.error(text, message, "use what goes into it");
                None
            }
            Source::Product(made) if made > self.index => {
                self.stocks[at].reported = true;
                let message = format!("`{name}` is made later, in step {}", made + 1);
                self.error(text, message, "put the step that makes it first");
                None
            }
            _ => Some(at),
        }
    }

    fn part(&mut self, text: &Text, part: Option<&str>) -> Option<Part> {
        let Some(part) = part else { return Some(Part::Whole) };
        if part == REST {
            return Some(Part::Rest);
        }
        if let Some((_, share)) = WORDS.iter().find(|(word, _)| *word == part) {
            return Some(Part::Share(*share));
        }
        let written = Spanned::new(text.span(), part.to_owned());
        let measures = self.reader.measures();
        if parse_amount(part, Dimension::Fraction, measures).is_ok() {
            let share = self.reader.within("the part", &written, &SHARE)?;
            return Some(Part::Share(share.middle()));
        }
        if parse_amount(part, Dimension::Mass, measures).is_ok() {
            let mass = self.reader.amount("the part", &written, Dimension::Mass)?;
            return Some(Part::Mass(Mass::from_si(mass.middle())));
        }
        let message = format!("`{part}` is not a part");
        let help = "write a mass, a share such as \"30 %\", \"half\" or \"rest\"".to_owned();
        self.reader.error(Code::Amount, text.span(), message, help);
        None
    }

    /// Turns a part into a share of its source.
    fn share(&mut self, text: &Text, at: usize, part: Part) -> Option<f64> {
        let (taken, mass) = (self.stocks[at].taken, self.stocks[at].mass);
        match part {
            Part::Share(share) => Some(share),
            Part::Rest if taken >= 1.0 - ROUNDING => {
                let message = format!("nothing is left of `{}`", self.stocks[at].name);
                self.error(text, message, "take less in an earlier step");
                None
            }
            Part::Rest => Some(1.0 - taken),
            Part::Whole if taken > 0.0 => {
                let message = format!("`{}` is used again", self.stocks[at].name);
                let help = "say how much each step takes, such as \"half\" and \"rest\"";
                self.error(text, message, help);
                None
            }
            Part::Whole => Some(1.0),
            Part::Mass(part) => match mass {
                Some(mass) => Some(part / mass),
                None if self.stocks[at].faulty => None,
                None => {
                    let message =
                        format!("how much `{}` there is is not known", self.stocks[at].name);
                    self.error(text, message, "state `yields` where it is made, or take a share");
                    None
                }
            },
        }
    }
}

/// Reports a product that outweighs what goes into it.
fn gains_nothing(written: &WrittenStep, step: &Step, stocks: &[Stock], reader: &mut Reader<'_>) {
    let (Some(text), Some(yields)) = (&written.yields, step.yields) else { return };
    let of = |used: &Use| {
        let stock = stocks.iter().find(|stock| stock.source == used.source)?;
        stock.mass.map(|mass| mass * used.share)
    };
    let whole = step.uses.len() == written.uses.len();
    let Some(inputs) = step.uses.iter().map(of).collect::<Option<Vec<Mass>>>() else { return };
    let inputs: Mass = inputs.into_iter().sum();
    if whole && yields > inputs * (1.0 + WEIGHING) {
        let message = format!(
            "`yields` of {} outweighs the {} g that go in",
            text.get_ref(),
            significant(inputs.grams(), 4)
        );
        let help = "add what is missing from `uses`, or correct the mass".to_owned();
        reader.error(Code::ImpossibleValue, text.span(), message, help);
    }
}

/// Reports what no step uses.
fn leftover(stock: &Stock, reader: &mut Reader<'_>) {
    let name = &stock.name;
    let message = if stock.taken <= 0.0 {
        format!("no step uses `{name}`")
    } else if stock.taken < 1.0 - ROUNDING {
        format!("only {} % of `{name}` is used", significant(100.0 * stock.taken, 3))
    } else {
        return;
    };
    let help = "use it, remove it, or write `keep = true` when it is served as it is".to_owned();
    reader.error(Code::RecipeGraph, stock.place.clone(), message, help);
}
