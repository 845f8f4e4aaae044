//! What a cook asks for beside the recipe: preference, time, appliances left out, routes pinned.

use clap::ValueEnum;

use super::context::Context;
use super::failure::Failure;
use crate::advisor::{Have, Pin, Prefer, Size, Wishes};
use crate::finding::nearest;
use crate::kitchen::Kitchen;
use crate::knowledge::{Kind, Knowledge};
use crate::quantity::{Dimension, Mass, Measures, Time, Volume, parse_amount};
use crate::recipe::{Makes, Recipe, Task};

/// What decides once every step reaches its goal.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Preferred {
    Flavour,
    Time,
    Effort,
    Cost,
}

impl From<Preferred> for Prefer {
    fn from(preferred: Preferred) -> Self {
        match preferred {
            Preferred::Flavour => Self::Flavour,
            Preferred::Time => Self::Time,
            Preferred::Effort => Self::Effort,
            Preferred::Cost => Self::Cost,
        }
    }
}

/// Appliances that a kitchen is to do without.
#[derive(Debug, clap::Args)]
pub(crate) struct Less {
    /// Leave out an appliance that the kitchen owns, such as "wide pan"; can be repeated
    #[arg(long, value_name = "APPLIANCE", help_heading = "Wishes")]
    without: Vec<String>,
}

/// Which of the routes are wanted, for commands that rank routes.
#[derive(Debug, clap::Args)]
pub(crate) struct Taste {
    /// What decides among routes of the same verdict: flavour, time, effort or cost
    ///
    /// A goal that is reached, and a better verdict, always come first. Then: flavour takes the least
    /// loss, then the least time; time takes the least time, then the least loss; effort the least
    /// attended time, then the least loss; cost the least money for supplies that are used up, then
    /// the least loss.
    #[arg(long, value_name = "WHAT", value_enum, default_value = "flavour")]
    #[arg(hide_possible_values = true, help_heading = "Wishes")]
    prefer: Preferred,

    #[command(flatten)]
    pub(crate) less: Less,
}

/// What is asked of a whole recipe.
#[derive(Debug, clap::Args)]
pub(crate) struct WishArgs {
    #[command(flatten)]
    pub(crate) taste: Taste,

    /// Longest time from start to end, such as "6 h"
    #[arg(long, value_name = "TIME", help_heading = "Wishes")]
    within: Option<String>,

    /// Take this route for this step, as "treacle=wide-pan-boil"; can be repeated
    ///
    /// The step goes by what it makes, its id or its number; the route by its id or name.
    #[arg(long, value_name = "STEP=ROUTE", help_heading = "Wishes")]
    pin: Vec<String>,

    #[command(flatten)]
    size: SizeArgs,
}

/// How much is made.
#[derive(Debug, clap::Args)]
struct SizeArgs {
    /// Number of people to serve, where the recipe says how many it serves
    #[arg(long, value_name = "NUMBER", help_heading = "Size")]
    #[arg(conflicts_with_all = ["makes", "have"], value_parser = people)]
    serves: Option<f64>,

    /// How much of the dish to make, such as "800 g" or "1.2 L"
    #[arg(long, value_name = "AMOUNT", help_heading = "Size", conflicts_with = "have")]
    makes: Option<String>,

    /// What there is of an ingredient, such as "1.2 kg celeriac"; can be repeated: the scarcest decides
    #[arg(long, value_name = "AMOUNT FOOD", help_heading = "Size")]
    have: Vec<String>,
}

/// Reads a number of people.
fn people(text: &str) -> Result<f64, String> {
    let number: f64 = text.trim().parse().map_err(|_| format!("`{text}` is not a number"))?;
    let sensible = number > 0.0 && number <= MOST_PEOPLE;
    if sensible { Ok(number) } else { Err(format!("write a number up to {MOST_PEOPLE}")) }
}

/// As many people as a recipe file may serve.
const MOST_PEOPLE: f64 = 1e5;

impl Less {
    /// Takes the appliances that are left out from a kitchen.
    ///
    /// # Errors
    /// A [`Failure`] for a word that no appliance goes by.
    pub(crate) fn leave_out(
        &self,
        kitchen: &mut Kitchen,
        knowledge: &Knowledge,
        context: &mut Context<'_>,
    ) -> anyhow::Result<()> {
        for word in &self.without {
            let ids = appliances(word, kitchen, knowledge)?;
            let before = kitchen.appliances.len();
            let is_meant = |label: &str, id: &String| label == word || ids.contains(id);
            kitchen.appliances.retain(|owned| !is_meant(&owned.label, &owned.id));
            if kitchen.appliances.len() == before {
                let name = &kitchen.name;
                context.remark(&format!("the kitchen \"{name}\" has no {word} to leave out"))?;
            }
        }
        Ok(())
    }
}

impl Taste {
    /// Returns what decides among routes of the same verdict.
    pub(crate) fn prefer(&self) -> Prefer {
        self.prefer.into()
    }

    /// Says what is asked for, in words.
    fn words(&self) -> Vec<String> {
        let preferred = match self.prefer {
            Preferred::Flavour => None,
            Preferred::Time => Some("the least time"),
            Preferred::Effort => Some("the least attended time"),
            Preferred::Cost => Some("the least used up"),
        };
        let without = self.less.without.iter().map(|word| format!("without {word}"));
        preferred.map(str::to_owned).into_iter().chain(without).collect()
    }
}

/// Returns the ids of the appliances that go by a word or fill a role of that name; none for the name
/// that a kitchen gives one of its own.
fn appliances(word: &str, kitchen: &Kitchen, knowledge: &Knowledge) -> anyhow::Result<Vec<String>> {
    let found = knowledge.find(word);
    let named = found.iter().filter(|entry| entry.kind == Kind::Appliance);
    let mut ids: Vec<String> = named.map(|entry| entry.id.to_owned()).collect();
    ids.extend(knowledge.appliances_serving(word).map(|appliance| appliance.id.clone()));
    if !ids.is_empty() || kitchen.appliances.iter().any(|owned| owned.label == word) {
        return Ok(ids);
    }
    let own = kitchen.appliances.iter().map(|owned| owned.label.as_str());
    let known = knowledge.appliances.values().flat_map(|appliance| {
        let names = [appliance.id.as_str(), appliance.name.as_str()].into_iter();
        names.chain(appliance.synonyms.iter().map(String::as_str))
    });
    let failure = Failure::wrong_use(format!("no appliance goes by `{word}`"));
    Err(match nearest(word, own.chain(known)) {
        Some(near) => failure.hint(format!("did you mean `{near}`?")),
        None => failure.hint("the kitchen file lists the appliances"),
    }
    .into())
}

impl WishArgs {
    /// Resolves what is asked for.
    ///
    /// # Errors
    /// A [`Failure`] for a time that cannot be read, or a step or route that is not known.
    pub(crate) fn wishes(
        &self,
        recipe: &Recipe,
        kitchen: &Kitchen,
        knowledge: &Knowledge,
    ) -> anyhow::Result<Wishes> {
        let within = self.within.as_deref().map(time).transpose()?;
        let pins = self.pin.iter().map(|text| pin(text, recipe, knowledge));
        let pins = pins.collect::<anyhow::Result<Vec<Pin>>>()?;
        let size = self.size.size(recipe, kitchen.measures, knowledge)?;
        Ok(Wishes { prefer: self.taste.prefer(), within, pins, size })
    }

    /// Says what is asked for, in words.
    pub(crate) fn words(&self) -> Vec<String> {
        let mut words = self.taste.words();
        words.extend(self.within.iter().map(|time| format!("within {time}")));
        words.extend(self.pin.iter().map(|pin| pin.replacen('=', " by ", 1)));
        words.extend(self.size.serves.iter().map(|people| format!("for {people}")));
        words.extend(self.size.makes.iter().map(|amount| format!("{amount} of the dish")));
        words.extend(self.size.have.iter().map(|amount| format!("from {amount}")));
        words
    }
}

impl SizeArgs {
    fn size(
        &self,
        recipe: &Recipe,
        measures: Measures,
        knowledge: &Knowledge,
    ) -> anyhow::Result<Size> {
        if let Some(people) = self.serves {
            let Some(written) = recipe.serves else {
                let failure = Failure::wrong_use("the recipe does not say how many it serves");
                return Err(failure.hint("use `--makes` with an amount of the dish").into());
            };
            return Ok(Size::Times(people / written));
        }
        if let Some(amount) = &self.makes {
            return Ok(Size::Makes(makes(amount, measures)?));
        }
        if self.have.is_empty() {
            return Ok(Size::AsWritten);
        }
        let each = self.have.iter().map(|text| have(text, recipe, measures, knowledge));
        Ok(Size::Have(each.collect::<anyhow::Result<Vec<Have>>>()?))
    }
}

/// Reads a mass or a volume of the dish.
fn makes(text: &str, measures: Measures) -> anyhow::Result<Makes> {
    let volume = parse_amount(text, Dimension::Volume, measures);
    let mass = parse_amount(text, Dimension::Mass, measures);
    match (mass, volume) {
        (Ok(amount), _) if amount.low > 0.0 => Ok(Makes::Mass(Mass::from_si(amount.middle()))),
        (_, Ok(amount)) if amount.low > 0.0 => Ok(Makes::Volume(Volume::from_si(amount.middle()))),
        _ => {
            let failure = Failure::wrong_use(format!("`--makes {text}` is no mass or volume"));
            Err(failure.hint("write \"800 g\" or \"1.2 L\"").into())
        }
    }
}

/// Reads "1.2 kg celeriac" as what there is of an ingredient.
fn have(
    text: &str,
    recipe: &Recipe,
    measures: Measures,
    knowledge: &Knowledge,
) -> anyhow::Result<Have> {
    let (amount, food) = super::routes::split_feed(text)?;
    let found = knowledge.find(&food);
    let goes_by = |one: &crate::recipe::Ingredient| {
        let is_food = |id: &str| found.iter().any(|x| x.kind == Kind::Food && x.id == id);
        one.id == food || is_food(&one.food)
    };
    let Some(ingredient) = recipe.ingredients.iter().position(goes_by) else {
        let known = recipe.ingredients.iter().flat_map(|one| [one.id.as_str(), one.food.as_str()]);
        let failure = Failure::wrong_use(format!("the recipe takes no {food}"));
        let ids: Vec<&str> = recipe.ingredients.iter().map(|one| one.id.as_str()).collect();
        return Err(failure
            .hint(match nearest(&food, known) {
                Some(near) => format!("did you mean `{near}`?"),
                None => format!("it takes: {}", ids.join(", ")),
            })
            .into());
    };
    let mass =
        super::routes::bought(&amount, &recipe.ingredients[ingredient].food, measures, knowledge)?;
    Ok(Have { ingredient, mass })
}

fn time(text: &str) -> anyhow::Result<Time> {
    let read = parse_amount(text, Dimension::Time, Measures::default());
    let amount = read
        .map_err(|error| Failure::wrong_use(format!("`--within`: {error}")).hint(error.help()))?;
    if amount.high <= 0.0 {
        let failure = Failure::wrong_use(format!("`--within {text}` leaves no time"));
        return Err(failure.hint("write a time such as \"6 h\"").into());
    }
    Ok(Time::from_si(amount.high))
}

/// Reads "treacle=wide-pan-boil".
fn pin(text: &str, recipe: &Recipe, knowledge: &Knowledge) -> anyhow::Result<Pin> {
    let Some((step, route)) = text.split_once('=') else {
        let failure = Failure::wrong_use(format!("`--pin {text}` names no route"));
        return Err(failure.hint("write STEP=ROUTE, such as \"treacle=wide-pan-boil\"").into());
    };
    let (step, route) = (step.trim(), route.trim());
    let index = step_index(step, recipe)?;
    let Task::Professional(task) = &recipe.steps[index].task else {
        let failure = Failure::wrong_use(format!("step `{step}` is plain work and takes no route"));
        return Err(failure.into());
    };
    let found = knowledge.find(route);
    if let Some(entry) = found.iter().find(|entry| entry.kind == Kind::Route) {
        return Ok(Pin { step: index, route: entry.id.to_owned() });
    }
    let routes: Vec<_> = knowledge.routes_for(&task.technique).collect();
    let names = routes.iter().flat_map(|route| [route.id.as_str(), route.name.as_str()]);
    let ids: Vec<&str> = routes.iter().map(|route| route.id.as_str()).collect();
    let hint = match nearest(route, names) {
        Some(near) => format!("did you mean `{near}`?"),
        None => format!("routes to `{step}`: {}", ids.join(", ")),
    };
    Err(Failure::wrong_use(format!("no route goes by `{route}`")).hint(hint).into())
}

/// Finds a step by what it makes, its id or its number.
fn step_index(word: &str, recipe: &Recipe) -> anyhow::Result<usize> {
    let goes_by = |index: usize| {
        let step = &recipe.steps[index];
        step.product == word || step.id == word || (index + 1).to_string() == word
    };
    if let Some(index) = (0..recipe.steps.len()).find(|index| goes_by(*index)) {
        return Ok(index);
    }
    let names = recipe.steps.iter().flat_map(|step| [step.product.as_str(), step.id.as_str()]);
    let products: Vec<&str> = recipe.steps.iter().map(|step| step.product.as_str()).collect();
    let hint = match nearest(word, names) {
        Some(near) => format!("did you mean `{near}`?"),
        None => format!("steps make: {}", products.join(", ")),
    };
    Err(Failure::wrong_use(format!("no step goes by `{word}`")).hint(hint).into())
}
