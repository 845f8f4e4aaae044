//! Why a route was chosen, or not, in a line.

use super::{Choice, Combination};
use crate::advisor::rank::{Criterion, Mark, Prefer};
use crate::advisor::{Method, Verdict};
use crate::knowledge::Knowledge;
use crate::quantity::{Time, cook_time, significant};

/// What is said of a product that is bought.
const BOUGHT: &str = "bought ready-made; its quality is stated, not computed";

/// Says why a route came after the best of its step, from the step alone.
pub(in crate::advisor) fn why_alone(
    best: &Method,
    other: &Method,
    prefer: Prefer,
    knowledge: &Knowledge,
) -> String {
    let (ours, theirs) = (Mark::of_method("", best), Mark::of_method("", other));
    let (_, decided) = ours.compare(&theirs, prefer);
    let Some(criterion) = decided else {
        return "as good; the first by name is shown".to_owned();
    };
    match criterion {
        Criterion::Reached | Criterion::Short => {
            let goal = other.score.goals.first().map_or("the goal", |term| term.goal.as_str());
            let verdict = other.score.verdict;
            let says = if verdict == Verdict::No { "does not reach" } else { "reaches less of" };
            format!("{says}: {goal}")
        }
        Criterion::Verdict => missed_goal(other, best).map_or_else(
            || format!("loses more: {}", lost(&theirs, knowledge)),
            |goal| format!("falls short of: {goal}"),
        ),
        Criterion::Loss => format!("loses more: {}", lost(&theirs, knowledge)),
        Criterion::Time => "takes longer for the same result".to_owned(),
        Criterion::Made => format!("is {BOUGHT}"),
        other => in_the_dish(other, &ours, &theirs, knowledge),
    }
}

/// A goal after the first that a route misses and the best does not.
fn missed_goal<'m>(other: &'m Method, best: &Method) -> Option<&'m str> {
    let reached =
        |goal: &str| best.score.goals.iter().any(|term| term.goal == goal && term.is_reached());
    let missed = other.score.goals.iter().find(|term| !term.is_reached() && reached(&term.goal));
    missed.map(|term| term.goal.as_str())
}

/// Says why the dish goes without a route that is better in its step alone.
pub(in crate::advisor) fn why_not(
    choice: &Choice,
    step: usize,
    route: &str,
    knowledge: &Knowledge,
) -> String {
    let with = |one: &&Combination| one.routes[step].as_deref() == Some(route);
    let Some(other) = choice.others.iter().find(with) else {
        let because = if choice.exact {
            "it works only just: with other draws it fails or is refused"
        } else {
            "left out early: the dish so far was worse with it"
        };
        return format!("better in this step alone, but {because}");
    };
    let (_, decided) = choice.best.mark.compare(&other.mark, choice.prefer);
    match decided {
        None => "as good for the dish; the first by name is shown".to_owned(),
        Some(criterion) => {
            let because = in_the_dish(criterion, &choice.best.mark, &other.mark, knowledge);
            format!("better in this step alone, but with it {because}")
        }
    }
}

/// Says what is worse about a dish, by the criterion that decided.
pub(in crate::advisor) fn in_the_dish(
    criterion: Criterion,
    best: &Mark,
    other: &Mark,
    knowledge: &Knowledge,
) -> String {
    let product = |of: &dyn Fn(&crate::advisor::rank::StepMark) -> bool| {
        let step = other.steps.iter().find(|step| of(step));
        step.map_or_else(String::new, |step| step.product.clone())
    };
    let time = |seconds| cook_time(Time::from_seconds(seconds));
    match criterion {
        Criterion::Served => {
            format!("no route works for {}", other.unserved.join(" and "))
        }
        Criterion::Reached => {
            format!("{} misses its goal", product(&|step| step.verdict == Verdict::No))
        }
        Criterion::Short => "the goal is missed by more".to_owned(),
        Criterion::Within => format!("it takes {} longer than asked for", time(other.over)),
        Criterion::Made => format!("{} is {BOUGHT}", product(&|step| step.bought)),
        Criterion::Verdict | Criterion::Loss => {
            let worse = more_lost(best, other);
            let step = worse.map_or("", |step| step.product.as_str());
            let of = worse.and_then(|step| step.attribute.as_deref());
            let name = of.map_or("", |id| named(id, knowledge));
            format!("{step} loses more: {name}")
        }
        Criterion::Time => {
            format!("the whole takes {} instead of {}", time(other.time), time(best.time))
        }
        Criterion::Effort => {
            format!("{} are hands-on instead of {}", time(other.effort), time(best.effort))
        }
        Criterion::Cost => {
            let money = |mark: &Mark| significant(mark.cost.money.typical(), 2);
            format!("{} of money are used up instead of {}", money(other), money(best))
        }
    }
}

/// The step in which a dish loses most beyond what the best one loses there.
fn more_lost<'m>(best: &Mark, other: &'m Mark) -> Option<&'m crate::advisor::rank::StepMark> {
    let pairs = other.steps.iter().zip(&best.steps);
    let worse = pairs.filter(|(theirs, ours)| theirs.worst > ours.worst).map(|(theirs, _)| theirs);
    worse.max_by(|a, b| a.worst.total_cmp(&b.worst)).or_else(|| other.worst_step())
}

fn lost(mark: &Mark, knowledge: &Knowledge) -> String {
    let attribute = mark.worst_step().and_then(|step| step.attribute.as_deref());
    attribute.map_or_else(String::new, |id| named(id, knowledge).to_owned())
}

fn named<'k>(id: &'k str, knowledge: &'k Knowledge) -> &'k str {
    knowledge.attributes.get(id).map_or(id, |attribute| attribute.name.as_str())
}
