//! Sizes and amounts of grains that the mouth notices.
//!
//! Published thresholds differ by food: hard, sharp, slow-wetting grains in thin liquids are felt at
//! much smaller sizes than soft, round ones in thick food (P. Tyle, Acta Psychologica 84:111, 1993;
//! E. Imai et al., J. Texture Studies 30:59-88, 1999).

use crate::physics::{PhysicsError, Validity, positive};
use crate::quantity::Length;

/// The carriers in which Imai and co-workers measured grittiness.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Carrier {
    /// Water.
    Water,
    /// A thin suspension.
    ThinSuspension,
    /// A soft gel.
    SoftGel,
}

impl Carrier {
    /// Returns size times concentration at which half of the tasters feel grains [m × share].
    ///
    /// Water 6.0 µm·%, thin suspension 19.7, soft gel 30.7, for microcrystalline cellulose.
    ///
    /// # Source
    /// E. Imai, K. Hatae & A. Shimada, Oral perception of grittiness, J. Texture Studies 26:561-576,
    /// 1995 (abstract).
    pub const fn threshold_m_share(self) -> f64 {
        match self {
            Self::Water => 6.0e-8,
            Self::ThinSuspension => 19.7e-8,
            Self::SoftGel => 30.7e-8,
        }
    }
}

/// Grain sizes that Imai and co-workers tried.
pub const GRITTY_SIZE: Validity = Validity {
    law: "the grittiness law of Imai",
    quantity: "grain size",
    low: 6e-6,
    high: 79e-6,
    unit: "m",
};

/// Smallest size recognised as a grain, for the finest of 19 foods (hard cellulose powder): J. Home
/// Economics of Japan 50(12):1233, 1999 (abstract).
pub const HARD_GRAIN: Length = Length::from_micrometres(51.0);
/// As [`HARD_GRAIN`], for the coarsest (soft dried rice flour).
pub const SOFT_GRAIN: Length = Length::from_micrometres(270.0);
/// Size at which chocolate begins to feel gritty. From memory: S. T. Beckett, Industrial Chocolate
/// Manufacture and Use; makers aim at 15 µm to 25 µm.
pub const CHOCOLATE_GRIT: Length = Length::from_micrometres(30.0);
/// Size at which silica makes custard feel roughest: L. Engelen et al., Relating particles and
/// texture perception, Physiology & Behavior 86:111, 2005 (abstract).
pub const ROUGHEST: Length = Length::from_micrometres(80.0);
/// Size ratio that tasters just tell apart: J. Home Economics of Japan 50(12):1233, 1999 (abstract).
pub const JUST_NOTICED_RATIO: f64 = 1.19;

/// Returns the mass share of hard grains of one size at which half of the tasters feel them.
///
/// `c = k / d`, k from [`Carrier::threshold_m_share`].
///
/// # Units
/// d \[m\], c as a share.
///
/// # Validity
/// [`GRITTY_SIZE`]; insoluble, fairly round grains.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] for a size outside it.
///
/// # Source
/// As [`Carrier::threshold_m_share`].
pub fn gritty_share(size: Length, carrier: Carrier) -> Result<f64, PhysicsError> {
    let d = GRITTY_SIZE.check(size.metres())?;
    Ok(carrier.threshold_m_share() / d)
}

/// Returns the size of hard grains at which half of the tasters feel a mass share of them.
///
/// Inverse of [`gritty_share`].
///
/// # Units
/// As [`gritty_share`].
///
/// # Validity
/// As [`gritty_share`].
///
/// # Errors
/// [`PhysicsError::NotPositive`] for a share of zero or less; [`PhysicsError::OutsideValidity`] when
/// the size leaves the range that was tried.
///
/// # Source
/// As [`gritty_share`].
pub fn gritty_size(share: f64, carrier: Carrier) -> Result<Length, PhysicsError> {
    let c = positive("share of grains", share, "")?;
    Ok(Length::from_metres(GRITTY_SIZE.check(carrier.threshold_m_share() / c)?))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn share_and_size_are_inverses() {
        for carrier in [Carrier::Water, Carrier::ThinSuspension, Carrier::SoftGel] {
            let size = Length::from_micrometres(30.0);
            let back = gritty_size(gritty_share(size, carrier).unwrap(), carrier).unwrap();
            assert!((back / size - 1.0).abs() < 1e-12);
        }
    }

    #[test]
    fn thicker_carriers_hide_more() {
        let at = |carrier| gritty_share(Length::from_micrometres(30.0), carrier).unwrap();
        assert!(at(Carrier::SoftGel) > at(Carrier::ThinSuspension));
        assert!(at(Carrier::ThinSuspension) > at(Carrier::Water));
    }

    #[test]
    fn sizes_that_nobody_tried_are_refused() {
        assert!(gritty_share(Length::from_micrometres(500.0), Carrier::Water).is_err());
        assert!(gritty_size(0.0, Carrier::Water).is_err());
        assert!(gritty_size(0.5, Carrier::Water).is_err());
    }
}
