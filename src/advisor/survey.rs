//! A survey of a book: every recipe in every kitchen, and what each kitchen had best buy.

use std::collections::BTreeSet;

use rayon::prelude::*;

use super::check::{Buyer, Checked, Draws, Study};
use super::purchase::{Budget, Choice, Dish, Shop, Wanted, alone, choose};
use super::{AdaptError, Verdict};
use crate::kitchen::Kitchen;
use crate::knowledge::Knowledge;
use crate::quantity::Measures;
use crate::recipe::{Recipe, Task};

/// A recipe as each of the nations reads its cups and spoons.
#[derive(Debug, Clone, PartialEq)]
pub struct Page {
    /// The readings; one will do when no kitchen differs.
    pub readings: Vec<(Measures, Recipe)>,
}

/// What is asked.
#[derive(Debug, Clone, Copy)]
pub struct Inquiry<'a> {
    /// The recipes.
    pub pages: &'a [Page],
    /// The kitchens.
    pub kitchens: &'a [Kitchen],
    /// The knowledge base.
    pub knowledge: &'a Knowledge,
    /// The most samples for one verdict.
    pub samples: usize,
    /// The seed of the samples.
    pub seed: u64,
    /// What the purchases are to bring.
    pub wanted: Wanted,
    /// What limits them.
    pub budget: Budget,
}

/// The survey.
#[derive(Debug, Clone, PartialEq)]
pub struct Survey {
    /// By recipe, then by kitchen.
    pub cells: Vec<Vec<Result<Cell, AdaptError>>>,
    /// By kitchen.
    pub purchases: Vec<Purchases>,
}

/// What becomes of a recipe in a kitchen.
#[derive(Debug, Clone, PartialEq)]
pub struct Cell {
    /// The verdict.
    pub verdict: Verdict,
    /// The worst loss in noticed steps; `None` when a step has no route.
    pub worst: Option<f64>,
    /// The number of samples that the verdict took.
    pub samples: usize,
    /// The professional steps.
    pub steps: Vec<CellStep>,
}

/// What becomes of a professional step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CellStep {
    /// Id of the technique.
    pub technique: String,
    /// Name of the essential goal.
    pub goal: String,
    /// Id of the best route.
    pub route: Option<String>,
    /// Its verdict.
    pub verdict: Verdict,
}

/// What a kitchen had best buy.
#[derive(Debug, Clone, PartialEq)]
pub struct Purchases {
    /// What is on offer.
    pub shop: Shop,
    /// What each thing gains alone, as foreseen.
    pub alone: Vec<u32>,
    /// The best single thing within the budget, with what it brings.
    pub single: Purchase,
    /// The best set within the budget, with what it brings.
    pub set: Purchase,
}

/// Things to buy and what they bring.
#[derive(Debug, Clone, PartialEq)]
pub struct Purchase {
    /// What is chosen.
    pub choice: Choice,
    /// Recipes whose verdict gets better, each run again with the things bought.
    pub gains: Vec<Gain>,
}

/// A recipe that gains by a purchase.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Gain {
    /// Number of the recipe.
    pub recipe: usize,
    /// The verdict as the kitchen is.
    pub before: Verdict,
    /// The verdict with the things bought.
    pub after: Verdict,
}

impl Page {
    /// Returns the reading for a kitchen; the first when none is in its measures.
    pub fn reading(&self, kitchen: &Kitchen) -> Option<&Recipe> {
        self.readings.get(self.place(kitchen)).map(|(_, recipe)| recipe)
    }

    /// The place of the reading for a kitchen.
    fn place(&self, kitchen: &Kitchen) -> usize {
        let own = self.readings.iter().position(|(measures, _)| *measures == kitchen.measures);
        own.unwrap_or(0)
    }

    /// Takes up every reading.
    fn studies<'a>(&'a self, knowledge: &'a Knowledge, draws: &'a Draws) -> Vec<Study<'a>> {
        self.readings.iter().map(|(_, recipe)| Study::new(recipe, knowledge, draws)).collect()
    }
}

/// Surveys a book. `tick` is called after each recipe, from any thread.
///
/// The result does not depend on the number of threads.
pub fn survey(inquiry: &Inquiry<'_>, tick: &(dyn Fn() + Sync)) -> Survey {
    let recipes = inquiry.pages.iter().filter_map(|page| page.readings.first());
    let techniques = techniques(recipes.map(|(_, recipe)| recipe));
    let places: Vec<(Shop, Kitchen)> = inquiry
        .kitchens
        .iter()
        .map(|kitchen| {
            let shop = Shop::of(kitchen, &techniques, inquiry.knowledge);
            let equipped = shop.all_bought(kitchen, inquiry.knowledge);
            (shop, equipped)
        })
        .collect();
    let buyers: Vec<Buyer<'_>> = inquiry
        .kitchens
        .iter()
        .zip(&places)
        .map(|(kitchen, (shop, equipped))| Buyer {
            kitchen,
            shop,
            equipped,
            knowledge: inquiry.knowledge,
        })
        .collect();
    let rows: Vec<Vec<Result<(Cell, Dish), AdaptError>>> = inquiry
        .pages
        .par_iter()
        .map(|page| {
            let row = row(page, &buyers, inquiry);
            tick();
            row
        })
        .collect();
    let choices = buyers.par_iter().enumerate();
    let choices = choices.map(|(column, buyer)| Chosen::of(buyer, column, &rows, inquiry));
    let choices: Vec<Chosen> = choices.collect();
    let gained = inquiry.pages.par_iter().zip(&rows).enumerate();
    let gained: Vec<Vec<Gained>> = gained
        .map(|(recipe, (page, row))| gained_by(recipe, (page, row), (&buyers, &choices), inquiry))
        .collect();
    let purchases = buyers.iter().zip(choices).enumerate();
    let purchases = purchases.map(|(column, (buyer, chosen))| {
        let gains = |of: fn(&Gained) -> Option<Gain>| {
            gained.iter().filter_map(|row| of(row.get(column)?)).collect()
        };
        Purchases {
            shop: buyer.shop.clone(),
            single: Purchase { choice: chosen.single, gains: gains(|gained| gained.single) },
            set: Purchase { choice: chosen.set, gains: gains(|gained| gained.set) },
            alone: chosen.alone,
        }
    });
    let purchases = purchases.collect();
    let cells = rows.into_iter().map(|row| row.into_iter().map(|one| one.map(|x| x.0)).collect());
    Survey { cells: cells.collect(), purchases }
}

/// Returns the ids of the techniques that recipes name.
pub fn techniques<'a>(recipes: impl IntoIterator<Item = &'a Recipe>) -> BTreeSet<&'a str> {
    let steps = recipes.into_iter().flat_map(|recipe| &recipe.steps);
    let named = steps.filter_map(|step| match &step.task {
        Task::Professional(task) => Some(task.technique.as_str()),
        Task::Plain(_) => None,
    });
    named.collect()
}

fn row(
    page: &Page,
    buyers: &[Buyer<'_>],
    inquiry: &Inquiry<'_>,
) -> Vec<Result<(Cell, Dish), AdaptError>> {
    let draws = Draws::up_to(inquiry.samples, inquiry.seed);
    let studies = page.studies(inquiry.knowledge, &draws);
    let each =
        buyers.iter().filter_map(|buyer| Some((buyer, studies.get(page.place(buyer.kitchen))?)));
    each.map(|(buyer, study)| {
        let checked = buyer.check(study)?;
        Ok((Cell::of(&checked), buyer.dish(&checked, inquiry.wanted)))
    })
    .collect()
}

impl Cell {
    fn of(checked: &Checked) -> Self {
        let steps = checked.now.steps.iter().map(|step| CellStep {
            technique: step.technique.clone(),
            goal: step.goal.clone(),
            route: step.best().map(|best| best.route.clone()),
            verdict: step.verdict(),
        });
        Self {
            verdict: checked.now.verdict,
            worst: checked.now.worst(),
            samples: checked.samples,
            steps: steps.collect(),
        }
    }
}

/// What a kitchen is to buy, before it is run again with that.
struct Chosen {
    alone: Vec<u32>,
    single: Choice,
    set: Choice,
}

impl Chosen {
    fn of(
        buyer: &Buyer<'_>,
        column: usize,
        rows: &[Vec<Result<(Cell, Dish), AdaptError>>],
        inquiry: &Inquiry<'_>,
    ) -> Self {
        let cells = rows.iter().filter_map(|row| row.get(column)?.as_ref().ok());
        let dishes: Vec<Dish> = cells.map(|(_, dish)| dish.clone()).collect();
        let (costs, budget) = buyer.shop.costs(inquiry.budget);
        let alone = alone(&dishes, costs.len());
        let affordable =
            (0..costs.len()).filter(|thing| costs[*thing] <= budget && alone[*thing] > 0);
        let single = affordable.max_by_key(|thing| {
            (alone[*thing], std::cmp::Reverse(costs[*thing]), std::cmp::Reverse(*thing))
        });
        let single = Choice {
            things: single.into_iter().collect(),
            gain: single.map_or(0, |thing| alone[thing]),
            cost: single.map_or(0, |thing| costs[thing]),
        };
        let set = choose(&dishes, &costs, budget);
        Self { alone, single, set }
    }
}

/// What a recipe gains in a kitchen.
struct Gained {
    single: Option<Gain>,
    set: Option<Gain>,
}

/// One cell with what it takes to judge purchases, or why there is none.
type Judged = Result<(Cell, Dish), AdaptError>;

/// What a purchase brings is told from at most so many samples: it is advice for the shop, and the
/// verdict on the kitchen with the thing bought is drawn in full once it is there.
const SAMPLES_OF_GAIN: usize = 256;

/// Runs a recipe again in every kitchen in which it should gain, with the things bought.
fn gained_by(
    recipe: usize,
    (page, row): (&Page, &[Judged]),
    (buyers, choices): (&[Buyer<'_>], &[Chosen]),
    inquiry: &Inquiry<'_>,
) -> Vec<Gained> {
    let draws = Draws::up_to(inquiry.samples.min(SAMPLES_OF_GAIN), inquiry.seed);
    let studies = page.studies(inquiry.knowledge, &draws);
    let again = |buyer: &Buyer<'_>, things: &[usize], (cell, dish): &(Cell, Dish)| {
        if !Buyer::gains(dish, things) {
            return None;
        }
        let study = studies.get(page.place(buyer.kitchen))?;
        let after = buyer.after(study, things).ok()?;
        (after < cell.verdict).then_some(Gain { recipe, before: cell.verdict, after })
    };
    let each = buyers.iter().zip(choices).zip(row);
    each.map(|((buyer, chosen), cell)| {
        let Ok(cell) = cell else { return Gained { single: None, set: None } };
        let single = again(buyer, &chosen.single.things, cell);
        let same = chosen.set.things == chosen.single.things;
        let set = if same { single } else { again(buyer, &chosen.set.things, cell) };
        Gained { single, set }
    })
    .collect()
}
