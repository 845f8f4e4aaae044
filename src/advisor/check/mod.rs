//! What becomes of a recipe in a kitchen, in few words: the verdict, and what each step lacks.

mod bounds;
mod remedy;
mod sampled;

pub use remedy::{Buyer, Checked, Remedy};
pub use sampled::{Draws, outlook};

use super::{Adaptation, Advice, Method, RuledOut, StepAdvice, Verdict};

/// What becomes of a recipe in a kitchen.
#[derive(Debug, Clone, PartialEq)]
pub struct Outlook {
    /// The verdict on the whole: the worst of the steps.
    pub verdict: Verdict,
    /// The steps for which the recipe has a laboratory.
    pub steps: Vec<StepOutlook>,
}

/// What becomes of one professional step.
#[derive(Debug, Clone, PartialEq)]
pub struct StepOutlook {
    /// What it makes.
    pub product: String,
    /// Id of the technique.
    pub technique: String,
    /// Name of the essential goal; empty when the technique has none.
    pub goal: String,
    /// The open routes, the best first.
    pub routes: Vec<RouteOutlook>,
    /// Routes that are not open.
    pub closed: Vec<RuledOut>,
}

/// What an open route makes of a step.
#[derive(Debug, Clone, PartialEq)]
pub struct RouteOutlook {
    /// Id of the route.
    pub route: String,
    /// Its verdict.
    pub verdict: Verdict,
    /// The worst loss among the attributes that count, in noticed steps.
    pub worst: f64,
    /// Short of the essential goal, in noticed steps.
    pub short: f64,
}

impl Outlook {
    /// Takes the outlook out of an adaptation.
    pub fn of(adaptation: &Adaptation) -> Self {
        let professional = adaptation.steps.iter().filter_map(|step| match &step.advice {
            Advice::Professional(advice) => Some(StepOutlook::of(&step.product, advice)),
            Advice::Plain(_) => None,
        });
        Self { verdict: adaptation.verdict, steps: professional.collect() }
    }

    /// Returns the worst loss of the best routes, in noticed steps; `None` when a step has no route.
    pub fn worst(&self) -> Option<f64> {
        let each = self.steps.iter().map(|step| step.best().map(|best| best.worst));
        each.collect::<Option<Vec<f64>>>().map(|all| all.into_iter().fold(0.0, f64::max))
    }
}

impl StepOutlook {
    fn of(product: &str, advice: &StepAdvice) -> Self {
        let goal = advice.laboratory.score.goals.first();
        Self {
            product: product.to_owned(),
            technique: advice.technique.clone(),
            goal: goal.map_or_else(String::new, |term| term.goal.clone()),
            routes: advice.routes.iter().map(RouteOutlook::of).collect(),
            closed: advice.ruled_out.clone(),
        }
    }

    /// Returns the best route.
    pub fn best(&self) -> Option<&RouteOutlook> {
        self.routes.first()
    }

    /// Returns the verdict of the best route.
    pub fn verdict(&self) -> Verdict {
        self.best().map_or(Verdict::No, |best| best.verdict)
    }
}

impl RouteOutlook {
    fn of(method: &Method) -> Self {
        Self {
            route: method.id.clone(),
            verdict: method.score.verdict,
            worst: method.score.worst,
            short: method.score.goals.first().map_or(0.0, |term| term.short),
        }
    }
}
