//! Where organisms grow.

/// The limits of growth of one organism, each with all else at its best.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GrowthLimits {
    /// Name in kebab case.
    pub name: &'static str,
    /// Lowest water activity.
    pub water_activity: f64,
    /// Lowest and highest pH.
    pub ph: (f64, f64),
    /// Highest salt in the water phase \[share\].
    pub salt: f64,
    /// Lowest and highest temperature \[°C\].
    pub celsius: (f64, f64),
}

const fn row(
    name: &'static str,
    water_activity: f64,
    ph: (f64, f64),
    salt: f64,
    celsius: (f64, f64),
) -> GrowthLimits {
    GrowthLimits { name, water_activity, ph, salt, celsius }
}

/// Limits of growth by organism.
///
/// # Source
/// US FDA, Fish and Fishery Products Hazards and Controls Guidance, 4th ed. 2011, appendix 4, table
/// A-1 (from memory), checked against the growth factors of the USDA ARS Pathogen Modeling Program
/// (ICMSF, Microorganisms in Foods 5, 1996), which were read: every limit here agrees with them or is
/// the wider one, but for Clostridium perfringens (their lower temperature is 4 °C) and for
/// C. botulinum (their water activity is 0.005 lower, their upper temperature of the proteolytic kind
/// 50 °C).
pub const GROWTH_LIMITS: &[GrowthLimits] = &[
    row("bacillus-cereus", 0.92, (4.3, 9.3), 0.10, (4.0, 55.0)),
    row("botulinum-proteolytic", 0.935, (4.6, 9.0), 0.10, (10.0, 48.0)),
    row("botulinum-nonproteolytic", 0.97, (5.0, 9.0), 0.05, (3.3, 45.0)),
    row("perfringens", 0.93, (5.0, 9.0), 0.07, (10.0, 52.0)),
    row("e-coli", 0.95, (4.0, 10.0), 0.065, (6.5, 49.4)),
    row("listeria", 0.92, (4.4, 9.4), 0.10, (-0.4, 45.0)),
    row("salmonella", 0.94, (3.7, 9.5), 0.08, (5.2, 46.2)),
    row("staphylococcus", 0.83, (4.0, 10.0), 0.20, (7.0, 50.0)),
    row("staphylococcus-toxin", 0.85, (4.0, 9.8), 0.10, (10.0, 48.0)),
];

/// Finds the limits of an organism.
///
/// # Source
/// [`GROWTH_LIMITS`].
pub fn growth_limits(name: &str) -> Option<&'static GrowthLimits> {
    GROWTH_LIMITS.iter().find(|row| row.name == name)
}

impl GrowthLimits {
    /// Returns whether no single limit given keeps the organism from growing.
    ///
    /// # Units
    /// Water activity, pH and salt share as numbers, temperature \[°C\]; `None` for not known.
    ///
    /// # Validity
    /// Each limit holds with all else at its best; together milder hurdles may suffice, which this
    /// does not count.
    ///
    /// # Source
    /// [`GROWTH_LIMITS`].
    pub fn may_grow(
        &self,
        water_activity: Option<f64>,
        ph: Option<f64>,
        salt: Option<f64>,
        celsius: Option<f64>,
    ) -> bool {
        let within = |value: Option<f64>, (low, high): (f64, f64)| {
            value.is_none_or(|value| value >= low && value <= high)
        };
        within(water_activity, (self.water_activity, f64::INFINITY))
            && within(ph, self.ph)
            && within(salt, (f64::NEG_INFINITY, self.salt))
            && within(celsius, self.celsius)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_hurdle_is_enough_and_none_is_not() {
        let spores = growth_limits("botulinum-proteolytic").unwrap();
        assert!(spores.may_grow(None, None, None, None));
        assert!(spores.may_grow(Some(0.98), Some(6.0), Some(0.01), Some(25.0)));
        assert!(!spores.may_grow(Some(0.98), Some(4.5), None, Some(25.0)));
        assert!(!spores.may_grow(Some(0.93), None, None, None));
        assert!(!spores.may_grow(None, None, Some(0.11), None));
        assert!(!spores.may_grow(None, None, None, Some(5.0)));
        assert!(growth_limits("yeti").is_none());
    }
}
