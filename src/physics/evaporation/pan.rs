//! The energy balance of a pan: burner in, vapour, warm air and radiation out.

use super::surface::{OpenSurface, Surroundings};
use super::{EFFICIENCY, boiling_temperature};
use crate::physics::solve::root;
use crate::physics::{PhysicsError, Validity, positive, water};
use crate::quantity::{
    Area, HeatTransfer, Length, MassFlow, MassFlux, Power, SpecificEnergy, Temperature,
};

/// Stefan-Boltzmann constant [W/(m² K⁴)], exact: CODATA 2018.
const STEFAN_BOLTZMANN: f64 = 5.670_374_419e-8;
/// Emissivity of a water surface: Incropera & DeWitt, table A.11 (from memory).
const WATER_EMISSIVITY: f64 = 0.96;
/// The balance is sought from just above the freezing point \[K\].
const COLDEST: f64 = 273.16;
/// The balance is sought to this far below the boil \[K\]; from there on the pan boils.
const BELOW_BOIL: f64 = 0.01;
/// Temperatures settle to this \[K\].
const TOLERANCE: f64 = 1e-6;

const DIAMETER: Validity =
    Validity { law: "the balance of a pan", quantity: "diameter", low: 0.01, high: 5.0, unit: "m" };

/// A pan on a burner.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeatedPan {
    /// Diameter of the liquid surface.
    pub diameter: Length,
    /// Power of the burner.
    pub power: Power,
    /// Share of the power that enters the liquid.
    pub efficiency: f64,
    /// Heat lost through the wall per kelvin and area of wall [W/(m² K)].
    pub wall: HeatTransfer,
    /// Height of the liquid at the wall.
    pub depth: Length,
    /// Water activity of the liquid.
    pub activity: f64,
}

/// What a pan settles at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PanState {
    /// Temperature of the liquid.
    pub temperature: Temperature,
    /// Water lost.
    pub rate: MassFlow,
    /// Water lost per area of surface.
    pub flux: MassFlux,
    /// Whether the liquid boils.
    pub boiling: bool,
    /// Share of the heat that enters the liquid and leaves it again as vapour; 1 without a burner.
    pub share_as_vapour: f64,
}

impl HeatedPan {
    /// Returns the area of the liquid surface.
    pub fn surface(&self) -> Area {
        let radius = self.diameter.si() / 2.0;
        Area::from_square_metres(std::f64::consts::PI * radius * radius)
    }

    fn wall_area(&self) -> f64 {
        std::f64::consts::PI * self.diameter.si() * self.depth.si().max(0.0)
    }

    /// Returns the heat that leaves the pan without vapour.
    ///
    /// `A (α (t - t_a) + ε σ (T⁴ - T_a⁴)) + k A_wall (t - t_a)`
    ///
    /// # Units
    /// A \[m²\], α and k [W/(m² K)], t \[K\].
    ///
    /// # Validity
    /// As [`HeatedPan::steady`].
    ///
    /// # Source
    /// Newton's and Stefan-Boltzmann's laws.
    pub fn dry_loss(
        &self,
        liquid: Temperature,
        air: Temperature,
        convection: HeatTransfer,
    ) -> Power {
        let area = self.surface().square_metres();
        let excess = (liquid - air).kelvin();
        let radiated = liquid.kelvin().powi(4) - air.kelvin().powi(4);
        Power::from_watts(
            area * (convection.si() * excess + WATER_EMISSIVITY * STEFAN_BOLTZMANN * radiated)
                + self.wall.si() * self.wall_area() * excess,
        )
    }

    /// Returns the steady temperature and rate of the pan.
    ///
    /// `η q = A (j h + α (t - t_a) + ε σ (T⁴ - T_a⁴)) + k A_wall (t - t_a)`, solved for t; when
    /// heat is left over at the boiling point the liquid boils and the rest is `m' h`.
    ///
    /// # Units
    /// q \[W\], A \[m²\], j from [`OpenSurface::flux`] [kg/(m² s)], h [J/kg], α [W/(m² K)].
    ///
    /// # Validity
    /// Diameter 1 cm to 5 m, an open pan that has come to rest, well mixed.
    ///
    /// # Errors
    /// [`PhysicsError::OutsideValidity`] for a diameter, efficiency, activity or air outside its
    /// range; [`PhysicsError::Impossible`] when the liquid would freeze.
    ///
    /// # Source
    /// Energy balance; the terms from [`OpenSurface::flux`].
    pub fn steady(&self, surroundings: &Surroundings) -> Result<PanState, PhysicsError> {
        DIAMETER.check(self.diameter.si())?;
        let heat = self.power.watts().max(0.0) * EFFICIENCY.check(self.efficiency)?;
        let surface = OpenSurface { length: self.diameter, activity: self.activity };
        let vapour = surroundings.vapour_pressure()?.pascals();
        let boil = boiling_temperature(surroundings.pressure, self.activity)?;
        let terms = |t: Temperature| {
            let (flux, convection) = surface.flux_into(t, surroundings, vapour)?;
            let latent = water::latent_heat_vaporisation(t)?;
            let dry = self.dry_loss(t, surroundings.air, convection).watts();
            Ok::<_, PhysicsError>((flux, latent, dry))
        };
        let area = self.surface();
        let excess = |kelvin: f64| {
            let parts = terms(Temperature::from_kelvin(kelvin));
            parts.map_or(f64::NAN, |(flux, latent, dry)| heat - dry - wet(flux, area, latent))
        };
        let hottest = boil.kelvin() - BELOW_BOIL;
        if excess(hottest) >= 0.0 {
            let (_, latent, dry) = terms(Temperature::from_kelvin(hottest))?;
            return Ok(self.boiling(boil, heat, dry, latent));
        }
        let found = root("temperature of the pan", COLDEST, hottest, TOLERANCE, excess)?;
        let temperature = Temperature::from_kelvin(found);
        let (flux, latent, _) = terms(temperature)?;
        let share = if heat > 0.0 { wet(flux, area, latent) / heat } else { 1.0 };
        Ok(PanState {
            temperature,
            rate: flux * area,
            flux,
            boiling: false,
            share_as_vapour: share,
        })
    }

    fn boiling(&self, boil: Temperature, heat: f64, dry: f64, latent: SpecificEnergy) -> PanState {
        let rate = Power::from_watts(heat - dry) / latent;
        PanState {
            temperature: boil,
            rate,
            flux: rate / self.surface(),
            boiling: true,
            share_as_vapour: (heat - dry) / heat,
        }
    }
}

fn wet(flux: MassFlux, area: Area, latent: SpecificEnergy) -> f64 {
    (flux * area * latent).watts()
}

/// Returns the state of a tray of liquid without a burner: it cools itself towards the wet bulb.
///
/// [`HeatedPan::steady`] with no power.
///
/// # Units
/// As for [`HeatedPan::steady`].
///
/// # Validity
/// As for [`HeatedPan::steady`]; the bottom of the tray does not draw heat from a table.
///
/// # Errors
/// As for [`HeatedPan::steady`].
///
/// # Source
/// As for [`HeatedPan::steady`].
pub fn pan_at_rest(
    diameter: Length,
    activity: f64,
    surroundings: &Surroundings,
) -> Result<PanState, PhysicsError> {
    let (power, depth, wall) = (Power::ZERO, Length::ZERO, HeatTransfer::ZERO);
    HeatedPan { diameter, power, efficiency: 1.0, wall, depth, activity }.steady(surroundings)
}

/// Returns the temperature and flux of a wet piece in warm air, before its surface runs dry.
///
/// The surface takes its heat from the air alone: `j h = α (t_a - t)`.
///
/// # Units
/// length along the air stream \[m\], j [kg/(m² s)].
///
/// # Validity
/// A piece whose faces all see the same air; radiation is left out.
///
/// # Errors
/// [`PhysicsError::OutsideValidity`] for air outside its range; [`PhysicsError::NotPositive`] for
/// a length of zero or less; [`PhysicsError::Impossible`] when the surface would freeze.
///
/// # Source
/// Energy balance of a wet bulb; the terms from [`OpenSurface::flux`].
pub fn drying_surface(
    length: Length,
    activity: f64,
    surroundings: &Surroundings,
) -> Result<(Temperature, MassFlux), PhysicsError> {
    positive("length of the piece", length.si(), "m")?;
    let surface = OpenSurface { length, activity };
    let vapour = surroundings.vapour_pressure()?.pascals();
    let boil = boiling_temperature(surroundings.pressure, activity)?.kelvin() - BELOW_BOIL;
    let excess = |kelvin: f64| {
        let t = Temperature::from_kelvin(kelvin);
        let parts = surface.flux_into(t, surroundings, vapour).and_then(|(flux, heat)| {
            Ok((flux.si() * water::latent_heat_vaporisation(t)?.si(), heat.si()))
        });
        parts.map_or(f64::NAN, |(taken, heat)| heat * (surroundings.air - t).kelvin() - taken)
    };
    let high = surroundings.air.kelvin().min(boil);
    let found = root("temperature of the wet surface", COLDEST, high, TOLERANCE, excess)?;
    let t = Temperature::from_kelvin(found);
    Ok((t, surface.flux_into(t, surroundings, vapour)?.0))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::atmosphere::HumidAir;
    use crate::physics::constants::STANDARD_ATMOSPHERE;
    use crate::quantity::{Pressure, Speed};

    fn room() -> Surroundings {
        Surroundings {
            air: Temperature::from_celsius(22.0),
            relative_humidity: 0.5,
            pressure: Pressure::from_pascals(STANDARD_ATMOSPHERE),
            speed: Speed::from_metres_per_second(0.1),
        }
    }

    fn pan(watts: f64) -> HeatedPan {
        HeatedPan {
            diameter: Length::from_centimetres(28.0),
            power: Power::from_watts(watts),
            efficiency: 0.7,
            wall: HeatTransfer::from_si(10.0),
            depth: Length::from_centimetres(5.0),
            activity: 1.0,
        }
    }

    #[test]
    fn more_power_makes_it_hotter_and_faster_without_a_jump() {
        let mut before = pan(1.0).steady(&room()).unwrap();
        for watts in [50.0, 100.0, 200.0, 400.0, 600.0, 800.0, 1200.0, 2000.0] {
            let state = pan(watts).steady(&room()).unwrap();
            assert!(state.temperature >= before.temperature && state.rate > before.rate);
            assert!((0.0..=1.0).contains(&state.share_as_vapour));
            before = state;
        }
        assert!(before.boiling);
    }

    #[test]
    fn energy_balances_below_the_boil() {
        let pan = pan(300.0);
        let state = pan.steady(&room()).unwrap();
        let surface = OpenSurface { length: pan.diameter, activity: 1.0 };
        let (_, heat) = surface.flux(state.temperature, &room()).unwrap();
        let latent = water::latent_heat_vaporisation(state.temperature).unwrap();
        let out = pan.dry_loss(state.temperature, room().air, heat) + state.rate * latent;
        assert!(!state.boiling && (out.watts() / 210.0 - 1.0).abs() < 1e-6);
    }

    #[test]
    fn an_unheated_tray_rests_between_wet_bulb_and_air() {
        let state = pan_at_rest(Length::from_centimetres(30.0), 1.0, &room()).unwrap();
        let air = HumidAir::from_relative_humidity(room().air, 0.5, room().pressure).unwrap();
        let bulb = air.wet_bulb().unwrap();
        assert!(state.temperature > bulb && state.temperature < room().air);
    }

    #[test]
    fn a_piece_in_warm_air_sits_near_the_wet_bulb() {
        let warm = Surroundings {
            air: Temperature::from_celsius(60.0),
            relative_humidity: 0.08,
            speed: Speed::from_metres_per_second(1.0),
            ..room()
        };
        let (t, flux) = drying_surface(Length::from_centimetres(4.0), 1.0, &warm).unwrap();
        let air = HumidAir::from_relative_humidity(warm.air, 0.08, warm.pressure).unwrap();
        let bulb = air.wet_bulb().unwrap();
        assert!((t - bulb).kelvin().abs() < 2.5, "{} {}", t.celsius(), bulb.celsius());
        assert!(flux.si() > 1e-4);
        assert!(drying_surface(Length::ZERO, 1.0, &warm).is_err());
    }

    #[test]
    fn nonsense_is_refused() {
        assert!(HeatedPan { diameter: Length::ZERO, ..pan(1.0) }.steady(&room()).is_err());
        assert!(HeatedPan { efficiency: 2.0, ..pan(1.0) }.steady(&room()).is_err());
        assert!(HeatedPan { activity: 0.0, ..pan(1.0) }.steady(&room()).is_err());
        let frost = Surroundings { air: Temperature::from_celsius(-20.0), ..room() };
        assert!(matches!(pan(1.0).steady(&frost), Err(PhysicsError::Impossible { .. })));
    }
}
