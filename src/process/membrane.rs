//! Pressing water out of a liquid through a membrane that holds back what is dissolved.
//!
//! Answers how strong the liquid gets, how long it takes, and where osmotic pressure ends it.
//!
//! Flow per area `J = (dP - b pi) / (mu R_m)`, with the osmotic pressure `pi = -(R T / V_w) ln a_w` of
//! the liquid and b for the strength at the membrane over that of the liquid. A substance that the
//! membrane holds back by the share r keeps `(W / W_0)^(1 - r)` of itself while the water falls from
//! W_0 to W. Ethanol passes with the water; what is suspended stays.
//!
//! Symbols: J volume flow per area, mu viscosity of water, R_m resistance of the membrane, V_w molar
//! volume of water, a_w water activity.
//!
//! Sources: M. Cheryan, Ultrafiltration and Microfiltration Handbook, 1998 (from memory); the resistance
//! of the membrane in the process entry after S. Álvarez et al., Ind. Eng. Chem. Res. 41:6156, 2002.

use super::heat::expose;
use super::{
    Batch, Component, Contents, EnergyBalance, Point, ProcessError, Run, Settings, Stream, Trace,
};
use crate::knowledge::NoteClass;
use crate::physics::constants::{GAS_CONSTANT, WATER_MOLAR_MASS};
use crate::physics::water::{saturated_liquid_density, viscosity};
use crate::quantity::{Mass, Pressure, Temperature, Time};

/// The name of the process.
pub const NAME: &str = "press-through-membrane";
/// Steps into which the pressing is cut; doubling them moves no time by more than 1 %.
const STEPS: u32 = 60;
/// The most water that is pressed out, as a share; beyond it the loop runs dry.
const MOST_OUT: f64 = 0.95;
/// Density by which the volume of the permeate is counted [kg/m³]; it is nearly pure water.
const WATER_DENSITY: f64 = 997.0;
/// Pump and hoses keep at most this share of the concentrate.
const MOST_HOLD_UP: f64 = 0.3;
/// What is dissolved and held back.
const HELD: [Component; 4] =
    [Component::Sugars, Component::Acid, Component::Salt, Component::Other];

/// Runs the model.
///
/// # Errors
/// [`ProcessError::CannotWork`] when the osmotic pressure is above the pressure of the pump; missing
/// settings; laws asked outside their range.
pub fn run(feed: &Batch, settings: &Settings<'_>) -> Result<Run, ProcessError> {
    let membrane = Membrane::read(settings)?;
    let mut circuit = Circuit::new(feed, &membrane);
    let wanted = water_left(feed, settings);
    let water = feed.contents[Component::Water];
    let ratio = (wanted / water.max(f64::MIN_POSITIVE)).powf(1.0 / f64::from(STEPS));
    let first = membrane.flow(&circuit.batch)?;
    if first <= 0.0 {
        return Err(too_strong(&membrane, feed)?);
    }
    for _ in 0..STEPS {
        let flow = membrane.flow(&circuit.batch)?;
        if flow < first * settings.share("least_flow")? {
            break;
        }
        circuit.step(ratio, flow, &membrane);
    }
    circuit.finish(feed, settings)
}

/// Returns the mass of water at which to stop, from whichever target is set.
fn water_left(feed: &Batch, settings: &Settings<'_>) -> f64 {
    let water = feed.contents[Component::Water];
    let solutes = feed.contents.solutes().kilograms();
    let wanted = if let Some(share) = settings.optional("target_soluble_solids") {
        solutes / share.clamp(1e-6, 1.0) - solutes
    } else if let Some(share) = settings.optional("target_water_removed") {
        water - share.clamp(0.0, 1.0) * feed.mass().kilograms()
    } else {
        water
    };
    wanted.clamp(water * (1.0 - MOST_OUT), water)
}

/// The membrane and its pump.
struct Membrane {
    pressure: Pressure,
    temperature: Temperature,
    area: f64,
    resistance: f64,
    polarisation: f64,
    held: f64,
    aroma_held: f64,
}

impl Membrane {
    fn read(settings: &Settings<'_>) -> Result<Self, ProcessError> {
        let temperature = settings.temperature("working_temperature")?;
        let viscosity = viscosity(temperature, saturated_liquid_density(temperature)?)?.si();
        Ok(Self {
            pressure: settings.pressure("pressure_difference")?,
            temperature,
            area: settings.area("membrane_area")?.si(),
            resistance: settings.number("membrane_resistance")? * viscosity,
            polarisation: settings.number("polarisation")?.max(1.0),
            held: settings.share("solutes_held")?,
            aroma_held: settings.share("aroma_held")?,
        })
    }

    /// The osmotic pressure of a liquid \[Pa\].
    fn osmotic(&self, batch: &Batch) -> Result<f64, ProcessError> {
        if batch.contents.solutes() <= Mass::ZERO {
            return Ok(0.0);
        }
        let activity = batch.water_activity_of_solution(self.temperature)?;
        let molar_volume = WATER_MOLAR_MASS / saturated_liquid_density(self.temperature)?.si();
        Ok(-GAS_CONSTANT * self.temperature.kelvin() / molar_volume * activity.ln())
    }

    /// The flow through the whole membrane [m³/s].
    fn flow(&self, batch: &Batch) -> Result<f64, ProcessError> {
        let drive = self.pressure.pascals() - self.polarisation * self.osmotic(batch)?;
        Ok(self.area * drive / self.resistance)
    }
}

fn too_strong(membrane: &Membrane, feed: &Batch) -> Result<ProcessError, ProcessError> {
    let because = format!(
        "the liquid's osmotic pressure of {:.1} MPa stops a pump of {:.1} MPa",
        membrane.osmotic(feed)? * 1e-6,
        membrane.pressure.pascals() * 1e-6
    );
    Ok(ProcessError::CannotWork { process: NAME, because })
}

/// The liquid that goes round past the membrane.
struct Circuit {
    batch: Batch,
    out: Contents,
    time: Time,
    points: Vec<Point>,
}

impl Circuit {
    fn new(feed: &Batch, membrane: &Membrane) -> Self {
        let batch = Batch { temperature: membrane.temperature, ..*feed };
        Self { batch, out: Contents::NONE, time: Time::ZERO, points: Vec::new() }
    }

    /// Takes water off until a share of it is left.
    fn step(&mut self, ratio: f64, flow: f64, membrane: &Membrane) {
        let contents = &mut self.batch.contents;
        let before = *contents;
        contents[Component::Water] *= ratio;
        contents[Component::Ethanol] *= ratio;
        let leak = ratio.powf(1.0 - membrane.held);
        for component in HELD {
            contents[component] *= leak;
        }
        let gone = before - *contents;
        self.out += gone;
        let kept = ratio.powf(1.0 - membrane.aroma_held);
        self.batch.aroma.scale(kept);
        let volume = gone.total().kilograms() / WATER_DENSITY;
        let time = Time::from_seconds(volume / flow);
        self.time += time;
        let dissolved = self.batch.contents.soluble_solids();
        expose(&mut self.batch.heat, membrane.temperature, time, dissolved);
        self.points.push(Point {
            time: self.time,
            mass: self.batch.mass(),
            temperature: membrane.temperature,
            measure: dissolved,
            aroma: self.batch.aroma.left(NoteClass::Middle).unwrap_or(1.0),
        });
    }

    /// Leaves the hold-up of pump and hoses, and closes the balances.
    fn finish(self, feed: &Batch, settings: &Settings<'_>) -> Result<Run, ProcessError> {
        let batch = self.batch;
        let hold_up = settings.mass("hold_up")?.min(batch.mass() * MOST_HOLD_UP);
        let share = if batch.mass() > Mass::ZERO { hold_up / batch.mass() } else { 0.0 };
        let mut permeate = Batch::raw(self.out, batch.temperature);
        permeate.heat = batch.heat;
        let mut run = Run::of("concentrate", batch.part(1.0 - share));
        run.streams.push(Stream { name: "permeate", batch: permeate });
        run.left_behind = batch.contents * share;
        run.attended = settings.time("handling_time")?;
        run.time = self.time + run.attended;
        let warmed = feed.mass() * (feed.heat_capacity()? * (batch.temperature - feed.temperature));
        run.energy =
            EnergyBalance { supplied: warmed, into_food: warmed, ..EnergyBalance::default() };
        run.told = vec![("pressing_time", self.time.si())];
        if settings.trace {
            run.trace = Some(Trace::of("dissolved solids (share)", self.points));
        }
        Ok(run.clocked())
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use super::*;
    use crate::kitchen::Place;

    fn juice() -> Batch {
        let mut contents = Contents::NONE;
        contents[Component::Water] = 0.89;
        contents[Component::Sugars] = 0.11;
        let mut batch = Batch::raw(contents, Temperature::from_celsius(20.0));
        batch.monosaccharides = 1.0;
        batch
    }

    fn press(pressure: f64, target: f64) -> Result<Run, ProcessError> {
        let given = [
            ("pressure_difference", pressure),
            ("working_temperature", 298.15),
            ("membrane_area", 1.0),
            ("membrane_resistance", 4e14),
            ("polarisation", 1.1),
            ("solutes_held", 1.0),
            ("aroma_held", 0.9),
            ("least_flow", 0.02),
            ("hold_up", 0.0),
            ("handling_time", 0.0),
            ("target_soluble_solids", target),
        ];
        let names: Vec<String> = given.iter().map(|(name, _)| (*name).to_owned()).collect();
        let values: Vec<f64> = given.iter().map(|(_, value)| *value).collect();
        let settings = Settings {
            process: NAME,
            names: &names,
            values: &values,
            modes: &BTreeMap::new(),
            place: &Place::default(),
            trace: true,
        };
        run(&juice(), &settings)
    }

    #[test]
    fn osmotic_pressure_of_a_hexose_juice_lies_where_handbooks_put_it() {
        // Cheryan, Ultrafiltration and Microfiltration Handbook: 10 °Brix about 1.5-1.7 MPa, 20 °Brix
        // 3-4 MPa; from memory.
        assert!(press(1.6e6, 0.15).is_err());
        assert!(press(2.4e6, 0.12).is_ok());
    }

    #[test]
    fn seven_megapascals_reach_22_brix_at_a_good_flow() {
        // S. Álvarez et al., Ind. Eng. Chem. Res. 41:6156, 2002: above 22 °Brix and 25 L/(m² h).
        let done = press(7.0e6, 0.22).unwrap();
        let out = done.streams[0].batch;
        assert!((out.contents.soluble_solids() - 0.22).abs() < 1e-3);
        let litres_per_hour = done.streams[1].batch.mass().kilograms() / done.time.hours();
        assert!(litres_per_hour > 25.0, "{litres_per_hour}");
        let gap = juice().contents.difference(&done.all_out());
        assert!(gap < 1e-12, "{gap}");
    }

    #[test]
    fn osmotic_pressure_ends_it_short_of_a_syrup() {
        let done = press(7.0e6, 0.60).unwrap();
        let reached = done.streams[0].batch.contents.soluble_solids();
        assert!((0.25..0.40).contains(&reached), "{reached}");
    }
}
