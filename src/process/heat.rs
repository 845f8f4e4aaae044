//! What time at a temperature does to a batch.

use super::HeatHistory;
use crate::physics::constants::GAS_CONSTANT;
use crate::quantity::{Temperature, Time};

/// Cooked flavour: z \[K\] and reference [°C]; T. Mansfield, Proc. 1st Int. Congress Food Sci. 4:311,
/// 1962, from memory.
const COOKED: (f64, f64) = (33.0, 100.0);
/// Cooked flavour is counted from here up [°C]: the law was fitted on cooking, not on storage.
/// Common practice.
const COOKED_FROM: f64 = 45.0;
/// Pasteurisation: z \[K\] and reference [°C]; the P70 of the chilled-food trade (ACMSF report on
/// vacuum packaging, 1992, from memory).
const PASTEURISED: (f64, f64) = (7.5, 70.0);
/// Pasteurisation is counted from here up [°C]; below it germs may grow instead. Common practice.
const PASTEURISED_FROM: f64 = 52.0;
/// Sterilisation: z \[K\] and reference [°C]; C. R. Stumbo, Thermobacteriology in Food Processing,
/// 1973, from memory.
const STERILISED: (f64, f64) = (10.0, 121.1);
/// Sterilisation is counted from here up [°C]; below 90 °C the sum is nothing.
const STERILISED_FROM: f64 = 90.0;
/// Vitamin C: activation energy [J/mol], rate [1/s] at a reference \[K\]; M. C. Vieira, A. A.
/// Teixeira & C. L. M. Silva, J. Food Eng. 43:1, 2000 (cupuaçu nectar): 74 kJ/mol, 0.032 /min at
/// 80 °C.
const VITAMIN_C: (f64, f64, f64) = (73_900.0, 0.032 / 60.0, 353.15);
/// Pigment: activation energy [J/mol], rate [1/s] at a reference \[K\]; B. Cemeroğlu, S. Velioğlu &
/// S. Işık, J. Food Sci. 59:1216, 1994 (sour cherry juice at 15 °Brix: half-life 8.1 h at 80 °C,
/// 67 kJ/mol), from memory.
const PIGMENT: (f64, f64, f64) = (67_000.0, std::f64::consts::LN_2 / (8.1 * 3600.0), 353.15);
/// Pigment goes faster in a concentrate: rate grows with the share of dissolved solids over 15 °Brix
/// to this power; from the half-lives 8.1, 4.3 and 2.8 h at 15, 45 and 71 °Brix of the same source.
const PIGMENT_STRENGTH_POWER: f64 = 0.65;
const PIGMENT_STRENGTH: f64 = 0.15;
/// Browning: activation energy [J/mol] at 100 °C; apple and pear juice concentrates lie at
/// 80-130 kJ/mol (G. D. Toribio & J. E. Lozano, J. Food Sci. 49:889, 1984, from memory).
const BROWNING: (f64, f64) = (105_000.0, 373.15);
/// The range in which food-borne germs grow [°C]: above 5 °C (FDA Food Code 2022, 3-501.16) and up to
/// 54.4 °C (USDA FSIS Appendix B, 1999).
const WARM: std::ops::Range<f64> = 5.0..54.4;

/// Puts a span of time at one temperature on the record of a batch.
///
/// `dissolved` is the share of dissolved solids in the liquid.
pub fn expose(heat: &mut HeatHistory, temperature: Temperature, time: Time, dissolved: f64) {
    let t = temperature.celsius();
    heat.hottest = heat.hottest.max(temperature);
    if WARM.contains(&t) {
        heat.warm += time;
    }
    if t >= COOKED_FROM {
        heat.cooked += time * decadic(COOKED, t);
    }
    if t >= PASTEURISED_FROM {
        heat.pasteurised += time * decadic(PASTEURISED, t);
    }
    if t >= STERILISED_FROM {
        heat.sterilised += time * decadic(STERILISED, t);
    }
    heat.kills.expose(heat.carrier, temperature, time);
    let kelvin = temperature.kelvin();
    let seconds = time.seconds();
    let (energy, rate, reference) = VITAMIN_C;
    heat.vitamin_c *= (-rate * arrhenius(energy, kelvin, reference) * seconds).exp();
    let strength =
        (dissolved.max(PIGMENT_STRENGTH) / PIGMENT_STRENGTH).powf(PIGMENT_STRENGTH_POWER);
    let (energy, rate, reference) = PIGMENT;
    heat.colour *= (-rate * strength * arrhenius(energy, kelvin, reference) * seconds).exp();
    let (energy, reference) = BROWNING;
    heat.browning += time * (strength * arrhenius(energy, kelvin, reference));
}

fn decadic((z, reference): (f64, f64), celsius: f64) -> f64 {
    ((celsius - reference) * (std::f64::consts::LN_10 / z)).exp()
}

fn arrhenius(energy: f64, kelvin: f64, reference: f64) -> f64 {
    (-energy / GAS_CONSTANT * (1.0 / kelvin - 1.0 / reference)).exp()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_hour_at_70_degrees_counts_seven_cooked_minutes() {
        // 60 min × 10^(-30/33) = 7.4 min.
        let mut heat = HeatHistory::raw(Temperature::from_celsius(20.0));
        expose(&mut heat, Temperature::from_celsius(70.0), Time::from_hours(1.0), 0.1);
        assert!((heat.cooked.minutes() - 7.397).abs() < 0.01);
        assert!((heat.pasteurised.minutes() - 60.0).abs() < 1e-9);
    }

    #[test]
    fn cold_time_does_not_cook() {
        let mut heat = HeatHistory::raw(Temperature::from_celsius(4.0));
        expose(&mut heat, Temperature::from_celsius(4.0), Time::from_days(2.0), 0.1);
        assert!(heat.cooked.seconds() < 1e-12 && heat.warm.seconds() < 1e-12);
        assert!(heat.vitamin_c > 0.9);
    }

    #[test]
    fn pigment_goes_faster_in_a_concentrate() {
        let left = |dissolved| {
            let mut heat = HeatHistory::raw(Temperature::from_celsius(80.0));
            expose(&mut heat, Temperature::from_celsius(80.0), Time::from_hours(8.1), dissolved);
            heat.colour
        };
        assert!((left(0.15) - 0.5).abs() < 1e-9);
        assert!(left(0.6) < left(0.15));
    }
}
