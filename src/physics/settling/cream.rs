//! Creaming of milk: single fat globules, and the clusters of cold raw milk.
//!
//! Cold agglutination gathers the globules of milk that was neither homogenised nor heated hard
//! into clusters that rise in minutes to hours, where single globules would take days.

use super::batch::{Left, Vessel, left_after};
use super::{SizeDistribution, Suspension};
use crate::physics::PhysicsError;
use crate::quantity::{Density, Length, Time};

/// Smallest and largest cluster, 10 µm and 800 µm: P. F. Fox & P. L. H. McSweeney, Dairy Chemistry
/// and Biochemistry, 1998, section 3.9.2.
const CLUSTER_RANGE: (Length, Length) =
    (Length::from_micrometres(10.0), Length::from_micrometres(800.0));
/// Standard deviations between the middle and either end of the range of clusters. Estimate: the
/// published range holds 95 % of the fat.
const CLUSTER_RANGE_STEPS: f64 = 2.0;
/// Volume share of fat in a cluster, the rest is milk serum. Estimate: as in the cream that rises by
/// gravity, about 22 % fat.
pub const CLUSTER_FAT_SHARE: f64 = 0.22;
/// Share of the fat that stays as single globules. Estimate: shallow-pan creaming for a day leaves
/// 0.44 % fat of about 4 % (Purdue Bulletin 116, quoted in dairy bulletins; from memory).
pub const SINGLE_FAT_SHARE: f64 = 0.11;
/// Geometric standard deviation of single globules by volume. Estimate: d₄₃ 4.3 µm to d₃₂ 3.4 µm
/// (from memory: P. Walstra et al., Dairy Science and Technology, 2006), whose ratio is exp(s²).
const GLOBULE_DEVIATION: f64 = 1.62;

/// Returns the sizes of single fat globules around a median diameter by volume.
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a median of zero or less.
pub fn globule_sizes(median: Length) -> Result<SizeDistribution, PhysicsError> {
    SizeDistribution::new(median, GLOBULE_DEVIATION)
}

/// Returns the sizes of the clusters of cold, untreated milk.
///
/// Log-normal around the geometric middle of the published range, 10 µm to 800 µm.
///
/// # Errors
/// None in practice; the published range makes a valid distribution.
pub fn cold_cluster_sizes() -> Result<SizeDistribution, PhysicsError> {
    let (low, high) = CLUSTER_RANGE;
    let middle = Length::from_metres((low.metres() * high.metres()).sqrt());
    SizeDistribution::new(middle, (high / middle).powf(1.0 / CLUSTER_RANGE_STEPS))
}

/// Returns the share of the fat still in the milk below the cream after a time.
///
/// Single globules rise by themselves. With `clusters`, all but [`SINGLE_FAT_SHARE`] of the fat
/// rises in clusters that hold [`CLUSTER_FAT_SHARE`] of fat.
///
/// # Units
/// None.
///
/// # Validity
/// Clusters only for cow's milk below about 20 °C, neither homogenised nor heated above about 72 °C
/// for 15 s; the caller decides. The result with clusters is an estimate within a factor of two.
///
/// # Errors
/// As [`left_after`].
///
/// # Source
/// Stokes' law for both; cluster sizes: Fox & McSweeney 1998, section 3.9.2, who give 20 min to the
/// first cream layer against 50 h for single globules of 4 µm.
pub fn fat_left(
    globules: &SizeDistribution,
    milk: &Suspension,
    vessel: Vessel,
    time: Time,
    clusters: bool,
) -> Result<Left, PhysicsError> {
    let single = left_after(globules, milk, vessel, time)?;
    if !clusters {
        return Ok(single);
    }
    let serum = milk.liquid.density;
    let contrast = milk.density_difference() * CLUSTER_FAT_SHARE;
    let cluster = Suspension { particle_density: serum + contrast, ..*milk };
    let clustered = left_after(&cold_cluster_sizes()?, &cluster, vessel, time)?;
    let share = SINGLE_FAT_SHARE * single.share + (1.0 - SINGLE_FAT_SHARE) * clustered.share;
    Ok(Left { share, sizes: single.sizes })
}

/// Density of milk fat that has set in the cold [kg/m³]. From memory: P. Walstra et al., Dairy
/// Science and Technology, 2006; liquid fat at 40 °C is about 900.
pub const COLD_MILK_FAT: Density = Density::from_kilograms_per_cubic_metre(935.0);

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::settling::Liquid;
    use crate::quantity::{Acceleration, Viscosity};

    fn milk() -> Suspension {
        let serum =
            Liquid { density: Density::from_si(1036.0), viscosity: Viscosity::from_si(2.9e-3) };
        Suspension::dilute(COLD_MILK_FAT, serum)
    }

    fn jar(centimetres: f64) -> Vessel {
        Vessel::Jar {
            depth: Length::from_centimetres(centimetres),
            acceleration: Acceleration::from_standard_gravities(1.0),
        }
    }

    #[test]
    fn cold_raw_milk_creams_within_minutes_and_hours() {
        let globules = globule_sizes(Length::from_micrometres(4.0)).unwrap();
        let left =
            |time, clusters| fat_left(&globules, &milk(), jar(10.0), time, clusters).unwrap().share;
        assert!(left(Time::from_minutes(20.0), true) < 0.9);
        assert!(left(Time::from_minutes(20.0), false) > 0.98);
        let day = left(Time::from_hours(24.0), true);
        assert!((0.05..0.2).contains(&day), "{day}");
    }

    #[test]
    fn homogenised_milk_does_not_cream_in_its_shelf_life() {
        let globules = globule_sizes(Length::from_micrometres(0.5)).unwrap();
        let left = fat_left(&globules, &milk(), jar(10.0), Time::from_days(3.0), false).unwrap();
        assert!(left.share > 0.95);
    }

    #[test]
    fn a_median_of_zero_is_refused() {
        assert!(globule_sizes(Length::ZERO).is_err());
    }
}
