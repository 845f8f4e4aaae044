//! How tightly a sediment packs, and how much clear liquid that leaves.

use crate::physics::{PhysicsError, Validity, positive};
use crate::quantity::Acceleration;

/// How a sediment packs under load: its solids share at 1 g, and how it grows with the force.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Packing {
    /// Volume share of solids with their bound water at 1 g.
    pub share_at_one_g: f64,
    /// Exponent of the force in multiples of g.
    pub exponent: f64,
}

/// Fruit and vegetable pulp.
///
/// Estimate: a power law through the ranges of common practice, 0.10–0.15 for drained pulp at 1 g,
/// 0.15–0.20 at 100 g and 0.25–0.40 at 4000 g.
pub const PULP_PACKING: Packing = Packing { share_at_one_g: 0.11, exponent: 0.125 };

/// Random close packing of equal spheres; no loose sediment packs tighter
/// (G. D. Scott & D. M. Kilgour, J. Phys. D 2:863, 1969: 0.6366).
pub const CLOSE_PACKING: f64 = 0.64;

/// Forces for which the packing law is used.
pub const PACKING_FORCE: Validity = Validity {
    law: "the packing of pulp under load",
    quantity: "force",
    low: 1.0,
    high: 40_000.0,
    unit: "g",
};

/// Returns the volume share of solids in a sediment after long settling at a force.
///
/// `phi_c = phi_1 G^n`, at most [`CLOSE_PACKING`].
///
/// # Units
/// G in multiples of standard gravity; shares have none.
///
/// # Validity
/// [`PACKING_FORCE`]; compressible pulp at rest, after the sediment has stopped shrinking.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] for a force outside it; [`PhysicsError::NotPositive`] for a
/// packing with no solids.
///
/// # Source
/// Estimate: power laws describe compressive yield of flocculated suspensions (R. Buscall & L. R.
/// White, J. Chem. Soc. Faraday Trans. 1 83:873, 1987, from memory); constants see
/// [`PULP_PACKING`].
pub fn cake_solids_share(packing: Packing, force: Acceleration) -> Result<f64, PhysicsError> {
    let g = PACKING_FORCE.check(force.standard_gravities())?;
    let first = positive("solids share of the sediment at 1 g", packing.share_at_one_g, "")?;
    Ok((first * g.powf(packing.exponent)).min(CLOSE_PACKING))
}

/// Returns the volume of clear liquid over the volume of feed.
///
/// `yield = 1 - phi_feed / phi_c`.
///
/// # Units
/// None; phi with the water bound in the particles.
///
/// # Validity
/// phi_feed below phi_c; otherwise the feed is itself a network that does not settle.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a sediment without solids; [`PhysicsError::Impossible`] when the
/// feed is as thick as the sediment, or has a share below zero.
///
/// # Source
/// Volume balance of the solids.
pub fn clear_liquid_share(feed_solids: f64, cake_solids: f64) -> Result<f64, PhysicsError> {
    let cake = positive("solids share of the sediment", cake_solids, "")?;
    if (0.0..cake).contains(&feed_solids) {
        Ok(1.0 - feed_solids / cake)
    } else {
        let because = format!(
            "a feed with a solids share of {feed_solids} is no thinner than its sediment, {cake}: \
             it holds together and must be pressed"
        );
        Err(PhysicsError::Impossible { what: "clear liquid", because })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn force(g: f64) -> Acceleration {
        Acceleration::from_standard_gravities(g)
    }

    #[test]
    fn pulp_packs_within_the_ranges_of_practice() {
        for (g, low, high) in [(1.0, 0.10, 0.15), (100.0, 0.15, 0.20), (4000.0, 0.25, 0.40)] {
            let share = cake_solids_share(PULP_PACKING, force(g)).unwrap();
            assert!((low..=high).contains(&share), "{g} g: {share}");
        }
        let hard = Packing { share_at_one_g: 0.5, exponent: 0.2 };
        assert!(cake_solids_share(hard, force(4000.0)).unwrap() <= CLOSE_PACKING);
    }

    #[test]
    fn forces_out_of_range_are_refused() {
        assert!(cake_solids_share(PULP_PACKING, force(0.5)).is_err());
        assert!(cake_solids_share(PULP_PACKING, force(1e6)).is_err());
        let empty = Packing { share_at_one_g: 0.0, exponent: 0.1 };
        assert!(cake_solids_share(empty, force(10.0)).is_err());
    }

    #[test]
    fn a_network_gives_no_clear_liquid() {
        assert!((clear_liquid_share(0.05, 0.25).unwrap() - 0.8).abs() < 1e-12);
        assert!(clear_liquid_share(0.3, 0.25).is_err());
        assert!(clear_liquid_share(-0.1, 0.25).is_err());
        assert!(clear_liquid_share(0.1, 0.0).is_err());
    }
}
