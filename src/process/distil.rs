//! Distilling: vapour is driven off, condensed and kept, from a liquid or from plants in water.
//!
//! Answers how strong the distillate is, how much of the aroma it holds, and how long it takes.
//!
//! Alcohol goes over by Rayleigh's equation at the pressure of the vessel. Aroma sits in the plant
//! and in the water: it is released at first order, `d b/dt = -r b`, and leaves the water by
//! `d ln m = alpha d ln W` (steam distillation). The condenser catches the share of the vapour that
//! is set; the rest is lost to the room.
//!
//! Symbols: b aroma still bound in the plant, r release, alpha relative volatility, W water.

use super::heat::expose;
use super::stripping::{ETHANOL_LATENT_HEAT, Volatilities};
use super::warming::heat_to;
use super::{
    Batch, Component, Contents, EnergyBalance, MAX_MARKERS, Point, ProcessError, Run, Settings,
    Stream, Trace,
};
use crate::physics::distillation::distil_to;
use crate::physics::ethanol_water::{alcoholic_strength, bubble_point, mole_fraction};
use crate::physics::water::{latent_heat_vaporisation, saturation_temperature};
use crate::quantity::{Energy, Power, Pressure, Temperature, Time};

/// The name of the process.
pub const NAME: &str = "distil";
/// Steps into which the distilling is cut.
const STEPS: u32 = 20;
/// The largest share of the feed's water and alcohol that is driven over; beyond it the pot burns.
const MOST_COLLECTED: f64 = 0.9;
/// The weakest pot for which the equilibrium is asked, as a mass share of ethanol.
const WEAKEST: f64 = 1e-6;

/// Runs the model.
///
/// # Errors
/// [`ProcessError::CannotWork`] for a bath that is too cold, or when nothing is to be driven over;
/// missing settings; laws asked outside their range.
pub fn run(feed: &Batch, settings: &Settings<'_>) -> Result<Run, ProcessError> {
    let still = Still::read(feed, settings)?;
    let mut vapour = still.vapour(feed, settings)?;
    let caught = settings.share("condenser_efficiency")?;
    let timing = still.timing(feed, &vapour, settings)?;
    let mut pot = *feed;
    pot.contents -= vapour;
    pot.temperature = still.end;
    let middle = still.start + (still.end - still.start) * 0.5;
    expose(&mut pot.heat, middle, timing.whole, feed.contents.soluble_solids());
    let mut distillate = Batch::raw(vapour * caught, settings.temperature("coolant_temperature")?);
    distillate.heat.warm = Time::ZERO;
    distillate.heat.hottest = still.end;
    let points = aroma(feed, (&mut pot, &mut distillate), (&vapour, middle), &timing, settings)?;
    vapour = vapour * (1.0 - caught);
    let strength = distillate_strength(&distillate)?;
    let mut run = Run::of("distillate", distillate);
    run.energy = energy(feed, &pot, &distillate, &vapour, timing.lost)?;
    run.told = vec![
        ("alcohol_strength", strength),
        ("boiling_point", still.start.kelvin()),
        ("distillate_mass", distillate.mass().kilograms()),
        ("vapour_lost", vapour.total().kilograms()),
        ("aroma_caught", points.last().map_or(0.0, |point| point.measure)),
    ];
    run.streams =
        vec![Stream { name: "distillate", batch: distillate }, Stream { name: "pot", batch: pot }];
    run.vapour = vapour;
    run.time = timing.whole;
    run.attended = timing.whole * settings.share("attended_share")?;
    if settings.trace {
        run.trace = Some(Trace::of("aroma caught (share)", points));
    }
    Ok(run.clocked())
}

/// The two ends of the distilling.
struct Still {
    pressure: Pressure,
    start: Temperature,
    end: Temperature,
    bath: Option<Temperature>,
}

/// How long it takes and what the vessel loses meanwhile.
struct Timing {
    heating: Time,
    whole: Time,
    lost: Energy,
}

impl Still {
    fn read(feed: &Batch, settings: &Settings<'_>) -> Result<Self, ProcessError> {
        let pressure =
            settings.optional("pressure").map_or(settings.place.pressure, Pressure::from_si);
        let raised = feed.boiling_point(pressure)? - saturation_temperature(pressure)?;
        let share = ethanol_share(&feed.contents).max(WEAKEST);
        let start = bubble_point(mole_fraction(share), pressure)?.temperature + raised;
        let bath = settings.optional("bath_temperature").map(Temperature::from_si);
        if let Some(bath) = bath.filter(|bath| *bath <= start) {
            let because = format!(
                "at {:.1} kPa it boils at {:.1} °C, and the bath has {:.1} °C",
                pressure.kilopascals(),
                start.celsius(),
                bath.celsius()
            );
            return Err(ProcessError::CannotWork { process: NAME, because });
        }
        Ok(Self { pressure, start, end: start, bath })
    }

    /// What is driven over, by Rayleigh's equation for the alcohol.
    fn vapour(&self, feed: &Batch, settings: &Settings<'_>) -> Result<Contents, ProcessError> {
        let water = feed.contents[Component::Water];
        let ethanol = feed.contents[Component::Ethanol];
        let liquid = water + ethanol;
        let wanted = settings.share("target_collected")? * feed.mass().kilograms();
        let over = wanted.min(MOST_COLLECTED * liquid);
        if over <= 0.0 {
            let because = "nothing is to be driven over: the share to collect is 0".to_owned();
            return Err(ProcessError::CannotWork { process: NAME, because });
        }
        let share = ethanol_share(&feed.contents);
        let mut vapour = Contents::NONE;
        if share > WEAKEST {
            let left = left_in_pot(share, over / liquid, self.pressure)?;
            vapour[Component::Ethanol] =
                (ethanol - left * (liquid - over)).clamp(0.0, ethanol.min(over));
        }
        vapour[Component::Water] = over - vapour[Component::Ethanol];
        Ok(vapour)
    }

    fn timing(
        &self,
        feed: &Batch,
        vapour: &Contents,
        settings: &Settings<'_>,
    ) -> Result<Timing, ProcessError> {
        let latent = vapour_heat(vapour, self.start)?;
        let warming = heat_to(feed, self.start)?.max(Energy::ZERO);
        let (power, share) = match self.bath {
            Some(bath) => {
                let drive = bath - self.start;
                let conductance = settings.heat_transfer("bath_coefficient")?.si()
                    * settings.area("heated_area")?.si();
                (Power::from_watts(conductance * drive.kelvin()), 1.0)
            }
            None => (settings.power("power")?, settings.share("transfer_efficiency")?),
        };
        let useful = power * share;
        if useful <= Power::ZERO {
            let because = "no heat reaches the pot: 0 W".to_owned();
            return Err(ProcessError::CannotWork { process: NAME, because });
        }
        let heating = warming / useful;
        let whole = heating + latent / useful;
        Ok(Timing { heating, whole, lost: power * whole * (1.0 - share) })
    }
}

fn ethanol_share(contents: &Contents) -> f64 {
    let (ethanol, water) = (contents[Component::Ethanol], contents[Component::Water]);
    if ethanol + water > 0.0 { ethanol / (ethanol + water) } else { 0.0 }
}

/// Finds the share of ethanol at which the pot has lost the share `over` of its liquid.
///
/// Halving on the logarithm of the share, since the pot falls by powers of ten.
fn left_in_pot(start: f64, over: f64, pressure: Pressure) -> Result<f64, ProcessError> {
    const HALVINGS: u32 = 12;
    let (mut low, mut high) = (WEAKEST.min(start * 0.5).ln(), start.ln());
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        let gone = distil_to(start, middle.exp(), pressure).map_or(1.0, |done| done.evaporated);
        if gone > over {
            low = middle;
        } else {
            high = middle;
        }
    }
    Ok((0.5 * (low + high)).exp())
}

fn vapour_heat(vapour: &Contents, at: Temperature) -> Result<Energy, ProcessError> {
    let water = vapour.mass(Component::Water) * latent_heat_vaporisation(at)?;
    Ok(water + vapour.mass(Component::Ethanol) * ETHANOL_LATENT_HEAT)
}

fn distillate_strength(distillate: &Batch) -> Result<f64, ProcessError> {
    Ok(alcoholic_strength(ethanol_share(&distillate.contents))?)
}

/// Moves the aroma: bound in the plant, free in the water, over with the steam.
fn aroma(
    feed: &Batch,
    (pot, distillate): (&mut Batch, &mut Batch),
    (vapour, at): (&Contents, Temperature),
    timing: &Timing,
    settings: &Settings<'_>,
) -> Result<Vec<Point>, ProcessError> {
    let caught = settings.share("condenser_efficiency")?;
    let release = settings.rate("release_rate")?.per_second();
    let bound_share = settings.share("bound_share")?;
    let alpha = Volatilities::of(feed, at)?;
    let mut bound = [0.0; MAX_MARKERS];
    let mut free = [0.0; MAX_MARKERS];
    for (index, marker) in feed.aroma.iter().enumerate() {
        // While it heats up the plant gives off at the mean of the rates cold and hot.
        let kept = (-0.5 * release * timing.heating.seconds()).exp();
        bound[index] = marker.left * bound_share * kept;
        free[index] = marker.left - bound[index];
    }
    let water = feed.contents[Component::Water];
    let step = (timing.whole - timing.heating) / f64::from(STEPS);
    let gone = vapour[Component::Water] / f64::from(STEPS);
    let kept = (-release * step.seconds()).exp();
    let mut over = [0.0; MAX_MARKERS];
    let mut points = Vec::new();
    for index in 1..=STEPS {
        let done = f64::from(index);
        let ratio = (water - gone * done) / (water - gone * (done - 1.0));
        for marker in 0..feed.aroma.iter().count() {
            let given = bound[marker] * (1.0 - kept);
            bound[marker] -= given;
            let stays = ratio.powf(alpha.0[marker]);
            // What is given off during the step leaves with half of the step's vapour.
            let stays_half = ratio.powf(0.5 * alpha.0[marker]);
            over[marker] += free[marker] * (1.0 - stays) + given * (1.0 - stays_half);
            free[marker] = free[marker] * stays + given * stays_half;
        }
        if settings.trace || index == STEPS {
            let sum: f64 = over.iter().sum();
            let all: f64 = feed.aroma.iter().map(|marker| marker.left).sum();
            points.push(Point {
                time: timing.heating + step * done,
                mass: vapour.total() * (caught * done / f64::from(STEPS)),
                temperature: at,
                measure: if all > 0.0 { caught * sum / all } else { 0.0 },
                aroma: if all > 0.0 { caught * sum / all } else { 0.0 },
            });
        }
    }
    distillate.aroma = feed.aroma;
    for (index, marker) in distillate.aroma.iter_mut().enumerate() {
        marker.left = over[index] * caught;
    }
    for (index, marker) in pot.aroma.iter_mut().enumerate() {
        marker.left = bound[index] + free[index];
    }
    Ok(points)
}

/// Heat of the burner: into the food that is left warm, into lost vapour, and to coolant and room.
fn energy(
    feed: &Batch,
    pot: &Batch,
    distillate: &Batch,
    escaped: &Contents,
    lost: Energy,
) -> Result<EnergyBalance, ProcessError> {
    let warmed = feed.heat_capacity()? * (pot.temperature - feed.temperature);
    let food = feed.mass() * warmed;
    let into_vapour = vapour_heat(escaped, pot.temperature)?;
    let coolant = vapour_heat(&distillate.contents, pot.temperature)?;
    let lost = lost + coolant;
    Ok(EnergyBalance { supplied: food + into_vapour + lost, into_food: food, into_vapour, lost })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::knowledge::NoteClass;
    use crate::process::Marker;
    use crate::process::testing::{Bench, food};

    fn still() -> Bench {
        Bench::of(NAME)
            .with("power", 1500.0)
            .with("transfer_efficiency", 0.6)
            .with("target_collected", 0.2)
    }

    fn herbs() -> Batch {
        let mut batch = food(&[(Component::Water, 1900.0), (Component::Fibre, 100.0)]);
        batch.aroma.push(Marker {
            class: NoteClass::Top,
            partition: 3e-3,
            slope_kelvin: 5000.0,
            log_p: 3.0,
            left: 1.0,
        });
        batch
    }

    #[test]
    fn wine_gives_a_spirit_three_to_five_times_as_strong() {
        // A pot still takes wine of 12 % to a first run of about 28-35 % by volume over a third of
        // the mass: common practice of brandy distilling.
        let wine = food(&[(Component::Water, 895.0), (Component::Ethanol, 97.0)]);
        let run = still().with("target_collected", 0.3).run(&wine).unwrap();
        let strength = run.told("alcohol_strength").unwrap();
        assert!((0.25..0.45).contains(&strength), "{strength}");
    }

    #[test]
    fn more_water_driven_over_catches_more_aroma() {
        let caught = |share| {
            let run = still().with("target_collected", share).run(&herbs()).unwrap();
            run.told("aroma_caught").unwrap()
        };
        assert!(caught(0.1) < caught(0.3));
        assert!(caught(0.3) <= 1.0);
    }

    #[test]
    fn a_better_condenser_loses_less() {
        let lost = |share| {
            let run = still().with("condenser_efficiency", share).run(&herbs()).unwrap();
            run.told("vapour_lost").unwrap()
        };
        assert!(lost(0.7) > lost(0.95));
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let none = still().with("target_collected", 0.0).run(&herbs());
        assert!(matches!(none, Err(ProcessError::CannotWork { .. })));
        let cold = still().with("bath_temperature", 330.0).run(&herbs());
        assert!(matches!(cold, Err(ProcessError::CannotWork { .. })));
        let off = still().with("power", 0.0).run(&herbs());
        assert!(matches!(off, Err(ProcessError::CannotWork { .. })));
        assert!(matches!(
            Bench::of(NAME).with("target_collected", 0.2).run(&herbs()),
            Err(ProcessError::MissingSetting { .. })
        ));
    }
}
