//! How tightly a batch holds its water.
//!
//! Dissolved matter holds water by the law of solutions, starch, fibre and protein by their sorption
//! isotherm; at one water activity the two amounts add up.
//!
//! Sources: addition by E. Lang & M. P. Steinberg, J. Food Sci. 46:670, 1981 (from memory); isotherm
//! of potato for what does not dissolve, Kiranoudis and others 1993 in [`crate::physics::sorption`].

use super::{Batch, Component};
use crate::physics::PhysicsError;
use crate::physics::solve::root;
use crate::physics::sorption::{SorptionLaw, isotherm_of};
use crate::quantity::{Mass, Temperature};

/// The isotherm that stands for starch, fibre and protein.
const MATRIX: &str = "potato";
/// The isotherm is measured between these temperatures [°C]; outside it counts as at the nearer end.
const MATRIX_RANGE: (f64, f64) = (30.0, 60.0);
/// The law of solutions is asked between these temperatures [°C].
const SOLUTION_RANGE: (f64, f64) = (0.0, 100.0);
/// The highest activity at which the isotherm is asked.
const MOST_ACTIVITY: f64 = 0.98;
/// The strongest solution of the law: dissolved mass per mass of water.
const STRONGEST: f64 = 18.9;
/// Water is sought to this share of itself.
const TOLERANCE: f64 = 1e-6;

impl Batch {
    /// Returns the water activity at a temperature, from fresh to dry.
    ///
    /// # Errors
    /// [`PhysicsError`] when more is dissolved than the law of solutions covers.
    pub fn water_activity(&self, at: Temperature) -> Result<f64, PhysicsError> {
        let water = self.contents[Component::Water];
        if water <= 0.0 {
            return Ok(0.0);
        }
        let matrix = self.matrix();
        let solutes = self.contents.solutes().kilograms();
        if solutes <= 0.0 {
            return matrix_activity(water, matrix, at);
        }
        let least = solutes / STRONGEST;
        let split = |in_solution: f64| {
            let activity = self.activity_of(in_solution, at)?;
            let bound = matrix * matrix_moisture(activity, at)?;
            Ok::<f64, PhysicsError>(in_solution + bound - water)
        };
        if water <= least || split(least)? >= 0.0 {
            return Ok(
                matrix_activity(water, matrix + solutes, at)?.min(self.activity_of(least, at)?)
            );
        }
        let gap = |in_solution: f64| split(in_solution).unwrap_or(f64::NAN);
        let free = root("a water activity", least, water, TOLERANCE * water, gap)?;
        self.activity_of(free, at)
    }

    /// Returns the water that the batch holds at a water activity.
    ///
    /// # Errors
    /// As [`Batch::water_activity`].
    pub fn water_at_activity(&self, activity: f64, at: Temperature) -> Result<Mass, PhysicsError> {
        let bound = self.matrix() * matrix_moisture(activity, at)?;
        let solutes = self.contents.solutes().kilograms();
        if solutes <= 0.0 {
            return Ok(Mass::from_kilograms(bound));
        }
        let least = solutes / STRONGEST;
        let free = if activity <= self.activity_of(least, at)? {
            // Drier than the law of solutions goes: in proportion, as of a thin film.
            least * activity / self.activity_of(least, at)?
        } else {
            let most = Temperature::from_celsius(solution_celsius(at));
            let reference = Mass::from_kilograms(solutes);
            let factor = self.solution_in(reference)?.factor_at_water_activity(activity, most)?;
            solutes / factor
        };
        Ok(Mass::from_kilograms(bound + free))
    }

    /// Dry matter that does not dissolve and takes up water \[kg\].
    fn matrix(&self) -> f64 {
        use Component::{Fibre, Protein, Starch};
        self.contents[Starch] + self.contents[Fibre] + self.contents[Protein]
    }

    /// Water activity if only a part of the water were in the solution.
    fn activity_of(&self, water: f64, at: Temperature) -> Result<f64, PhysicsError> {
        let at = Temperature::from_celsius(solution_celsius(at));
        // Reckoned from a middling strength, so that a batch that is nearly dry has an answer too.
        let solutes = self.contents.solutes();
        let factor = solutes.kilograms() / water;
        self.solution_in(solutes)?.concentrated(factor).water_activity(at)
    }
}

fn solution_celsius(at: Temperature) -> f64 {
    at.celsius().clamp(SOLUTION_RANGE.0, SOLUTION_RANGE.1)
}

fn matrix_law() -> Result<SorptionLaw, PhysicsError> {
    let because = || format!("no isotherm of {MATRIX}");
    let none = || PhysicsError::Impossible { what: "sorption", because: because() };
    isotherm_of(MATRIX).map(|isotherm| isotherm.law).ok_or_else(none)
}

fn within_measured(at: Temperature) -> Temperature {
    Temperature::from_celsius(at.celsius().clamp(MATRIX_RANGE.0, MATRIX_RANGE.1))
}

fn matrix_moisture(activity: f64, at: Temperature) -> Result<f64, PhysicsError> {
    matrix_law()?.moisture(activity.clamp(0.0, MOST_ACTIVITY), within_measured(at))
}

fn matrix_activity(water: f64, matrix: f64, at: Temperature) -> Result<f64, PhysicsError> {
    if matrix <= 0.0 || water >= matrix * matrix_moisture(MOST_ACTIVITY, at)? {
        return Ok(1.0);
    }
    matrix_law()?.activity(water / matrix, within_measured(at))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::process::Contents;

    fn apple(water: f64) -> Batch {
        let mut contents = Contents::NONE;
        contents[Component::Water] = water;
        contents[Component::Sugars] = 0.104;
        contents[Component::Fibre] = 0.024;
        contents[Component::Acid] = 0.005;
        Batch::raw(contents, Temperature::from_celsius(20.0))
    }

    #[test]
    fn drier_food_holds_its_water_tighter() {
        let at = Temperature::from_celsius(25.0);
        let mut before = 0.0;
        for water in [0.001, 0.005, 0.01, 0.02, 0.04, 0.1, 0.3, 0.856] {
            let activity = apple(water).water_activity(at).unwrap();
            assert!(activity > before && activity <= 1.0, "{water}: {activity}");
            before = activity;
        }
        assert!(before > 0.97);
    }

    #[test]
    fn the_two_ways_agree() {
        let at = Temperature::from_celsius(25.0);
        for activity in [0.5, 0.65, 0.8, 0.95] {
            let fresh = apple(0.856);
            let water = fresh.water_at_activity(activity, at).unwrap();
            let mut dried = fresh;
            dried.contents[Component::Water] = water.kilograms();
            let back = dried.water_activity(at).unwrap();
            assert!((back - activity).abs() < 1e-3, "{activity}: {back}");
        }
    }
}
