//! What becomes of a recipe in a kitchen, in few words: the verdict, and what each step lacks.

mod bounds;
mod carry;
mod draws;
mod judge;
mod remedy;
mod study;

pub use draws::Draws;
pub use judge::outlook;
pub use remedy::{Buyer, Checked, Remedy};
pub use study::Study;

use super::{RuledOut, Verdict};

/// What becomes of a recipe in a kitchen.
#[derive(Debug, Clone, PartialEq, Default)]
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
    /// The open routes that were run, the best first: the chosen one, or all for a prospect.
    pub routes: Vec<RouteOutlook>,
    /// Routes that are not open.
    pub closed: Vec<RuledOut>,
    /// Whether it is needed: a later product that is bought ready-made makes it superfluous.
    pub is_needed: bool,
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
    /// Puts the steps together.
    fn of(steps: Vec<StepOutlook>) -> Self {
        let needed = steps.iter().filter(|step| step.is_needed);
        let verdict = needed.map(StepOutlook::verdict).max();
        Self { verdict: verdict.unwrap_or(Verdict::AsWritten), steps }
    }

    /// Returns the worst loss of the best routes, in noticed steps; `None` when a step has no route.
    pub fn worst(&self) -> Option<f64> {
        let needed = self.steps.iter().filter(|step| step.is_needed);
        let each = needed.map(|step| step.best().map(|best| best.worst));
        each.collect::<Option<Vec<f64>>>().map(|all| all.into_iter().fold(0.0, f64::max))
    }
}

impl StepOutlook {
    /// Returns the best route.
    pub fn best(&self) -> Option<&RouteOutlook> {
        self.routes.first()
    }

    /// Returns the verdict of the best route.
    pub fn verdict(&self) -> Verdict {
        self.best().map_or(Verdict::No, |best| best.verdict)
    }
}
