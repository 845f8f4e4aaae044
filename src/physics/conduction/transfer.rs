//! Heat transfer at the surface of food in usual surroundings.

use crate::quantity::HeatTransfer;

/// Heat transfer in one kind of surroundings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UsualTransfer {
    /// Name in kebab case.
    pub name: &'static str,
    /// Low, typical and high.
    pub range: [HeatTransfer; 3],
}

const fn row(name: &'static str, low: f64, typical: f64, high: f64) -> UsualTransfer {
    let h = HeatTransfer::from_si;
    UsualTransfer { name, range: [h(low), h(typical), h(high)] }
}

/// Heat transfer by surroundings \[W/(m² K)\]: low, typical, high.
///
/// # Source
/// Ranges from memory of Earle, Unit Operations in Food Processing, 2nd ed. 1983, chapter 5, and Singh
/// & Heldman, Introduction to Food Engineering, 5th ed. 2014; the low values of bagged food are an
/// estimate: wrinkles of the bag hold air and still water.
pub const USUAL_TRANSFERS: &[UsualTransfer] = &[
    row("still-air", 5.0, 7.0, 10.0),
    row("fan", 15.0, 20.0, 30.0),
    row("blast", 30.0, 40.0, 60.0),
    row("metal-tray", 10.0, 15.0, 30.0),
    row("salt-ice", 100.0, 150.0, 300.0),
    row("stirred-bath", 150.0, 250.0, 400.0),
    row("ice-slurry", 300.0, 500.0, 700.0),
    row("plate", 100.0, 300.0, 500.0),
    row("dry-ice", 40.0, 60.0, 120.0),
];

/// Finds the heat transfer of usual surroundings.
///
/// # Source
/// [`USUAL_TRANSFERS`].
pub fn usual_transfer(name: &str) -> Option<&'static UsualTransfer> {
    USUAL_TRANSFERS.iter().find(|row| row.name == name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_range_is_in_order_and_found_by_name() {
        for entry in USUAL_TRANSFERS {
            let [low, typical, high] = entry.range;
            assert!(low < typical && typical < high, "{}", entry.name);
            assert_eq!(usual_transfer(entry.name), Some(entry));
        }
        assert!(usual_transfer("molten-lead").is_none());
    }
}
