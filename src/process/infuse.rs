//! Infusing a liquid with flavour from solids: soaking, a gas siphon, ultrasound, vacuum pulses.
//!
//! Answers how near the liquid comes to all that the solids can give, and what heat does meanwhile.
//!
//! Flavour diffuses out of pieces of a thickness ([`crate::physics::infusion`]), faster when warm.
//! Pressure presses liquid into the pores of the solids and vacuum draws their air out; either way
//! the share `x = 1 - 1/r` of the open pores is wetted at once and exchanges on the spot. Ultrasound
//! multiplies the diffusivity by a stated factor. Liquid stays in the spent solids.
//!
//! Symbols: x share of pores wetted, r ratio of the two pressures.

use super::warming::hold;
use super::{Batch, Contents, Point, ProcessError, Run, Settings, Trace};
use crate::knowledge::NoteClass;
use crate::physics::infusion::{diffusivity_at, share_of_equilibrium};
use crate::quantity::{Pressure, Temperature, Time};

/// The name of the process.
pub const NAME: &str = "infuse";
const WAYS: &[&str] = &["soak", "pressure", "vacuum", "ultrasound"];
/// Diffusivities are stated at this temperature. Common practice.
const REFERENCE: Temperature = Temperature::from_celsius(20.0);
/// Points of the drawn course.
const POINTS: u32 = 16;

/// Runs the model.
///
/// # Errors
/// [`ProcessError::CannotWork`] for a siphon below or a vacuum above the pressure of the room, or more
/// solids than liquid to wet them; missing settings; laws asked outside their range.
pub fn run(feed: &Batch, settings: &Settings<'_>) -> Result<Run, ProcessError> {
    let way = settings.mode("way", WAYS)?;
    let at = settings.temperature("infusion_temperature")?;
    let infusion = Infusion::read(way, at, settings)?;
    let time = infusion.time_to(settings)?;
    let uptake = infusion.share(time)?;
    let held = settings.share("solids_share")? * settings.number("held_by_solids")?;
    if held >= 1.0 {
        let because = format!("the solids hold {held:.1} times the liquid that there is");
        return Err(ProcessError::CannotWork { process: NAME, because });
    }
    let mut batch = *feed;
    let energy = hold(&mut batch, at, time)?;
    batch.infused = feed.infused + (1.0 - feed.infused) * uptake;
    batch.aroma.scale(1.0 - settings.share("aroma_lost")?);
    let left_behind: Contents = batch.contents * held;
    let mut run = Run::of("infusion", batch.part(1.0 - held));
    run.left_behind = left_behind;
    run.energy = energy;
    run.attended = settings.time("handling_time")?;
    run.time = time + run.attended;
    run.told = vec![
        ("infused", batch.infused),
        ("wetted_pores", infusion.wetted),
        ("infusion_time", time.seconds()),
    ];
    if settings.trace {
        run.trace = Some(infusion.course(&batch, time)?);
    }
    Ok(run.clocked())
}

struct Infusion {
    diffusivity: crate::quantity::Diffusivity,
    half: crate::quantity::Length,
    /// Share of the flavour that exchanges at once, in the wetted pores.
    wetted: f64,
}

impl Infusion {
    fn read(way: &str, at: Temperature, settings: &Settings<'_>) -> Result<Self, ProcessError> {
        let cold = settings.diffusivity("flavour_diffusivity")?;
        let mut diffusivity = diffusivity_at(cold, REFERENCE, at)?;
        let half = settings.length("piece_thickness")? * 0.5;
        let room = settings.place.pressure;
        let wetted = match way {
            "pressure" => wetted((room, settings.pressure("siphon_pressure")?), settings)?,
            "vacuum" => {
                let once = wetted((settings.pressure("pressure")?, room), settings)?;
                let open = settings.share("open_pores")?;
                let pulses = settings.number("pulses")?.round().max(1.0);
                open * (1.0 - (1.0 - once / open.max(f64::EPSILON)).powf(pulses))
            }
            "ultrasound" => {
                diffusivity = diffusivity * settings.number("sound_factor")?.max(1.0);
                0.0
            }
            _ => 0.0,
        };
        Ok(Self { diffusivity, half, wetted })
    }

    fn share(&self, time: Time) -> Result<f64, ProcessError> {
        let diffused = share_of_equilibrium(self.diffusivity, self.half, time)?;
        Ok(self.wetted + (1.0 - self.wetted) * diffused)
    }

    /// The time that is set, or the time to the wanted share, found by halving.
    fn time_to(&self, settings: &Settings<'_>) -> Result<Time, ProcessError> {
        const HALVINGS: u32 = 40;
        const LONGEST: Time = Time::from_days(60.0);
        let Some(target) = settings.optional("target_infused") else {
            return settings.time("time");
        };
        if self.share(LONGEST)? < target {
            let because = format!("it does not reach {:.0} % in 60 days", 100.0 * target);
            return Err(ProcessError::CannotWork { process: NAME, because });
        }
        let (mut low, mut high) = (0.0, LONGEST.seconds());
        for _ in 0..HALVINGS {
            let middle = 0.5 * (low + high);
            if self.share(Time::from_seconds(middle))? < target {
                low = middle;
            } else {
                high = middle;
            }
        }
        Ok(Time::from_seconds(high))
    }

    fn course(&self, batch: &Batch, end: Time) -> Result<Trace, ProcessError> {
        let mut points = Vec::new();
        for point in 1..=POINTS {
            let time = end * (f64::from(point) / f64::from(POINTS));
            points.push(Point {
                time,
                mass: batch.mass(),
                temperature: batch.temperature,
                measure: self.share(time)?,
                aroma: batch.aroma.left(NoteClass::Middle).unwrap_or(1.0),
            });
        }
        Ok(Trace::of("flavour taken up (share of equilibrium)", points))
    }
}

/// The share of the flavour that lies in pores which a rise of pressure wets.
fn wetted((low, high): (Pressure, Pressure), settings: &Settings<'_>) -> Result<f64, ProcessError> {
    if high <= low {
        let because = format!(
            "the pressure goes from {:.1} to {:.1} kPa and presses nothing in",
            low.kilopascals(),
            high.kilopascals()
        );
        return Err(ProcessError::CannotWork { process: NAME, because });
    }
    Ok((1.0 - low / high) * settings.share("open_pores")?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::process::Component;
    use crate::process::testing::{Bench, food};

    fn vodka() -> Batch {
        food(&[(Component::Water, 660.0), (Component::Ethanol, 340.0)])
    }

    fn soak() -> Bench {
        Bench::of(NAME)
            .with("infusion_temperature", 293.15)
            .with("piece_thickness", 2e-3)
            .with("time", 600.0)
    }

    fn told(bench: &Bench) -> f64 {
        bench.run(&vodka()).unwrap().told("infused").unwrap()
    }

    #[test]
    fn time_warmth_thin_pieces_pressure_and_sound_speed_it_up() {
        let plain = told(&soak());
        assert!(told(&soak().with("time", 6000.0)) > plain);
        assert!(told(&soak().with("infusion_temperature", 333.15)) > plain);
        assert!(told(&soak().with("piece_thickness", 1e-3)) > plain);
        assert!(told(&soak().mode("way", "pressure").with("siphon_pressure", 7e5)) > plain);
        assert!(told(&soak().mode("way", "vacuum").with("pressure", 1e4)) > plain);
        assert!(told(&soak().mode("way", "ultrasound")) > plain);
    }

    #[test]
    fn a_target_sets_the_time() {
        assert!((told(&soak().with("target_infused", 0.8)) - 0.8).abs() < 1e-6);
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let flat = soak().mode("way", "pressure").with("siphon_pressure", 1e5).run(&vodka());
        assert!(matches!(flat, Err(ProcessError::CannotWork { .. })));
        let dry = soak().with("solids_share", 0.9).with("held_by_solids", 2.0).run(&vodka());
        assert!(matches!(dry, Err(ProcessError::CannotWork { .. })));
        let never = soak().with("piece_thickness", 0.5).with("target_infused", 0.99).run(&vodka());
        assert!(matches!(never, Err(ProcessError::CannotWork { .. })));
        let unset = soak().without("time").run(&vodka());
        assert!(matches!(unset, Err(ProcessError::MissingSetting { .. })));
    }
}
