//! Grinding: energy, time and the size at which the tongue stops feeling grains.
//!
//! Symbols: E energy per mass, F and P sizes of which 80 % passes, feed and product, Wi work index,
//! x size, t time.

pub mod mouthfeel;

use crate::physics::{PhysicsError, Validity, positive};
use crate::quantity::{Length, SpecificEnergy, Time};

/// The size to which Bond's work index refers: from very coarse to 80 % below 100 µm.
const BOND_SIZE: Length = Length::from_micrometres(100.0);

/// Sizes for which the laws of size reduction were proposed: Bond's from about 25 mm to 50 µm; used
/// here down to food pastes as an estimate.
pub const PRODUCT_SIZE: Validity = Validity {
    law: "the energy laws of grinding",
    quantity: "product size",
    low: 1e-6,
    high: 0.1,
    unit: "m",
};

/// Returns the energy of grinding by Bond's law.
///
/// `E = Wi (sqrt(100 µm / P) - sqrt(100 µm / F))`.
///
/// # Units
/// E and Wi [J/kg] (1 kWh/t = 3600 J/kg), F and P \[m\], sizes of which 80 % passes.
///
/// # Validity
/// [`PRODUCT_SIZE`]; brittle, dry or wet in water. A kitchen machine takes 10 to 100 times more, most
/// of it as heat.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a work index of zero or less; [`PhysicsError::OutsideValidity`]
/// for the product; [`PhysicsError::Impossible`] when the product is coarser than the feed.
///
/// # Source
/// F. C. Bond, The third theory of comminution, Trans. AIME 193:484-494, 1952.
pub fn energy_bond(
    work_index: SpecificEnergy,
    feed: Length,
    product: Length,
) -> Result<SpecificEnergy, PhysicsError> {
    let index = positive("work index", work_index.si(), "J/kg")?;
    finer(feed, product)?;
    let term = (BOND_SIZE / product).sqrt() - (BOND_SIZE / feed).sqrt();
    Ok(SpecificEnergy::from_si(index * term))
}

/// Returns the energy of grinding by Kick's law, for coarse crushing.
///
/// `E = K ln(F / P)`.
///
/// # Units
/// E and K [J/kg], F and P \[m\].
///
/// # Validity
/// [`PRODUCT_SIZE`]; pieces above about 1 cm, or soft food that deforms.
///
/// # Errors
/// As [`energy_bond`], with K for the work index.
///
/// # Source
/// F. Kick, Das Gesetz der proportionalen Widerstände, 1885; as in R. L. Earle, Unit Operations in
/// Food Processing, 1983, chapter 11.
pub fn energy_kick(
    constant: SpecificEnergy,
    feed: Length,
    product: Length,
) -> Result<SpecificEnergy, PhysicsError> {
    let k = positive("Kick's constant", constant.si(), "J/kg")?;
    finer(feed, product)?;
    Ok(SpecificEnergy::from_si(k * (feed / product).ln()))
}

/// Returns the energy of grinding by Rittinger's law, for fine powders.
///
/// `E = K (1/P - 1/F)`.
///
/// # Units
/// E [J/kg], K [J m/kg], F and P \[m\].
///
/// # Validity
/// [`PRODUCT_SIZE`]; powders below about 0.1 mm.
///
/// # Errors
/// As [`energy_bond`], with K for the work index.
///
/// # Source
/// P. R. von Rittinger, Lehrbuch der Aufbereitungskunde, 1867; as in Earle 1983, chapter 11.
pub fn energy_rittinger(
    constant_j_m_per_kg: f64,
    feed: Length,
    product: Length,
) -> Result<SpecificEnergy, PhysicsError> {
    let k = positive("Rittinger's constant", constant_j_m_per_kg, "J m/kg")?;
    finer(feed, product)?;
    Ok(SpecificEnergy::from_si(k * (1.0 / product.metres() - 1.0 / feed.metres())))
}

/// Returns the size to which an energy grinds a feed; inverse of [`energy_bond`].
///
/// `P = 100 µm / (E / Wi + sqrt(100 µm / F))²`.
///
/// # Units
/// As [`energy_bond`].
///
/// # Validity
/// As [`energy_bond`].
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a work index, energy or feed of zero or less;
/// [`PhysicsError::OutsideValidity`] when the product leaves the range.
///
/// # Source
/// As [`energy_bond`].
pub fn product_size_bond(
    work_index: SpecificEnergy,
    feed: Length,
    energy: SpecificEnergy,
) -> Result<Length, PhysicsError> {
    let index = positive("work index", work_index.si(), "J/kg")?;
    let e = positive("energy", energy.si(), "J/kg")?;
    positive("feed size", feed.metres(), "m")?;
    let product = BOND_SIZE / (e / index + (BOND_SIZE / feed).sqrt()).powi(2);
    PRODUCT_SIZE.check(product.metres())?;
    Ok(product)
}

/// A grinder that approaches the finest size it can make.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Grinder {
    /// The size that it cannot pass, by blade, gap or stone.
    pub limit: Length,
    /// The time in which the excess over the limit falls to 1/e.
    pub time_constant: Time,
}

impl Grinder {
    /// Returns the size after a time.
    ///
    /// `x = x_limit + (x_feed - x_limit) exp(-t / t_c)`; a feed finer than the limit stays as it is.
    ///
    /// # Units
    /// x \[m\], t \[s\].
    ///
    /// # Validity
    /// Batch of even motion; fat films and stickiness lengthen t_c.
    ///
    /// # Errors
    /// [`PhysicsError::NotPositive`] for a size or time constant of zero or less, or a time below
    /// zero.
    ///
    /// # Source
    /// First-order breakage: L. G. Austin, R. R. Klimpel & P. T. Luckie, Process Engineering of Size
    /// Reduction, 1984 (from memory); the limit is the machine's.
    pub fn size_after(&self, feed: Length, time: Time) -> Result<Length, PhysicsError> {
        let (limit, constant) = self.checked(feed)?;
        let value = time.seconds();
        if value.is_nan() || value < 0.0 {
            return Err(PhysicsError::NotPositive { quantity: "time", value, unit: "s" });
        }
        let excess = (feed.metres() - limit).max(0.0);
        let left = excess * (-time.seconds() / constant).exp();
        Ok(Length::from_metres(feed.metres().min(limit) + left))
    }

    /// Returns the time to grind a feed to a size; inverse of [`Grinder::size_after`].
    ///
    /// `t = t_c ln((x_feed - x_limit) / (x - x_limit))`.
    ///
    /// # Units
    /// As [`Grinder::size_after`].
    ///
    /// # Validity
    /// As [`Grinder::size_after`].
    ///
    /// # Errors
    /// As [`Grinder::size_after`]; [`PhysicsError::Impossible`] for a size at or below the limit.
    ///
    /// # Source
    /// As [`Grinder::size_after`].
    pub fn time_to(&self, feed: Length, size: Length) -> Result<Time, PhysicsError> {
        let (limit, constant) = self.checked(feed)?;
        if size >= feed {
            return Ok(Time::ZERO);
        }
        let rest = size.metres() - limit;
        if rest > 0.0 {
            Ok(Time::from_seconds(constant * ((feed.metres() - limit) / rest).ln()))
        } else {
            let because = format!(
                "this grinder stops at {:.0} µm, {:.0} µm was asked for",
                self.limit.micrometres(),
                size.micrometres()
            );
            Err(PhysicsError::Impossible { what: "grinding time", because })
        }
    }

    fn checked(&self, feed: Length) -> Result<(f64, f64), PhysicsError> {
        positive("feed size", feed.metres(), "m")?;
        Ok((
            positive("limit size", self.limit.metres(), "m")?,
            positive("time constant", self.time_constant.seconds(), "s")?,
        ))
    }
}

fn finer(feed: Length, product: Length) -> Result<(), PhysicsError> {
    PRODUCT_SIZE.check(product.metres())?;
    if feed >= product {
        Ok(())
    } else {
        let because = format!(
            "the product, {:.3} mm, is coarser than the feed, {:.3} mm",
            product.millimetres(),
            feed.millimetres()
        );
        Err(PhysicsError::Impossible { what: "grinding", because })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const INDEX: SpecificEnergy = SpecificEnergy::from_si(10.0 * 3600.0);

    fn micrometres(value: f64) -> Length {
        Length::from_micrometres(value)
    }

    #[test]
    fn the_work_index_is_the_energy_from_coarse_to_a_tenth_of_a_millimetre() {
        let energy = energy_bond(INDEX, Length::from_metres(1e9), micrometres(100.0)).unwrap();
        assert!((energy / INDEX - 1.0).abs() < 1e-6);
    }

    #[test]
    fn size_and_energy_are_inverses() {
        let (feed, product) = (Length::from_millimetres(5.0), micrometres(40.0));
        let energy = energy_bond(INDEX, feed, product).unwrap();
        let back = product_size_bond(INDEX, feed, energy).unwrap();
        assert!((back / product - 1.0).abs() < 1e-9);
    }

    #[test]
    fn no_grinding_takes_no_energy() {
        let d = micrometres(500.0);
        assert!(energy_bond(INDEX, d, d).unwrap().si().abs() < 1e-9);
        assert!(energy_kick(INDEX, d, d).unwrap().si().abs() < 1e-9);
        assert!(energy_rittinger(1.0, d, d).unwrap().si().abs() < 1e-9);
    }

    #[test]
    fn impossible_grinding_is_refused() {
        let (fine, coarse) = (micrometres(50.0), micrometres(500.0));
        assert!(energy_bond(INDEX, fine, coarse).is_err());
        assert!(energy_bond(SpecificEnergy::ZERO, coarse, fine).is_err());
        assert!(energy_kick(SpecificEnergy::ZERO, coarse, fine).is_err());
        assert!(energy_rittinger(0.0, coarse, fine).is_err());
        assert!(energy_kick(INDEX, coarse, Length::ZERO).is_err());
        assert!(product_size_bond(INDEX, coarse, SpecificEnergy::ZERO).is_err());
        assert!(product_size_bond(INDEX, coarse, SpecificEnergy::from_si(1e9)).is_err());
    }

    #[test]
    fn a_grinder_approaches_its_limit_and_never_passes_it() {
        let grinder = Grinder { limit: micrometres(40.0), time_constant: Time::from_minutes(1.0) };
        let feed = micrometres(2000.0);
        let after = grinder.size_after(feed, Time::from_minutes(3.0)).unwrap();
        let time = grinder.time_to(feed, after).unwrap();
        assert!((time.minutes() - 3.0).abs() < 1e-9);
        assert!(grinder.size_after(feed, Time::from_hours(9.0)).unwrap() >= micrometres(40.0));
        assert_eq!(grinder.time_to(feed, feed), Ok(Time::ZERO));
        assert!(grinder.time_to(feed, micrometres(30.0)).is_err());
        assert!(grinder.size_after(feed, Time::from_seconds(-1.0)).is_err());
        let fine = micrometres(10.0);
        assert_eq!(grinder.size_after(fine, Time::from_minutes(1.0)), Ok(fine));
        let broken = Grinder { limit: Length::ZERO, ..grinder };
        assert!(broken.size_after(feed, Time::from_minutes(1.0)).is_err());
    }
}
