//! Dissolving carbon dioxide: gas cylinder, soda machine, dry ice, fermentation in the bottle.
//!
//! Answers how much gas the drink holds, at what pressure, and how long that takes.
//!
//! At rest the gas follows its solubility at pressure and temperature
//! ([`crate::physics::gas_solubility`]); shaking brings it there as `1 - exp(-t/t_c)`. Dry ice acts in
//! an open vessel under the pressure of the room and cools the drink; in a closed bottle it is
//! refused. Yeast turns sugar into alcohol and gas by Gay-Lussac's equation.

use super::warming::rise;
use super::{Batch, Component, Contents, EnergyBalance, Point, ProcessError, Run, Settings, Trace};
use crate::physics::cryogen::{Gas, dry_ice_cooling_capacity, specific_volume};
use crate::physics::gas_solubility::{
    Drink, SolubleGas, dissolved, gas_volumes, pressure_for_concentration,
};
use crate::quantity::{Density, Energy, Mass, Pressure, Temperature, Time};

/// The name of the process.
pub const NAME: &str = "carbonate";
const WAYS: &[&str] = &["cylinder", "machine", "dry-ice", "fermentation"];
const BOTTLES: &[&str] = &["vented", "closed"];
const CO2: SolubleGas = SolubleGas::CarbonDioxide;
/// Carbon dioxide and ethanol from a mass of hexose, 2 × 44.01 / 180.16 and 2 × 46.07 / 180.16:
/// Gay-Lussac's equation, molar masses of IUPAC 2021.
const FROM_HEXOSE: (f64, f64) = (0.488_6, 0.511_4);
/// Dry ice that leaves as gas at this temperature has given off its cold. It bubbles up through the
/// drink.
const LEAVES_AT: Temperature = Temperature::from_celsius(0.0);
/// The coldest that dry ice is followed to [°C]; below it the drink freezes around the pieces.
const COLDEST: f64 = -1.0;
/// Points of the drawn course.
const POINTS: u32 = 12;

/// Runs the model.
///
/// # Errors
/// [`ProcessError::CannotWork`] for dry ice in a closed bottle, too little sugar to ferment, or dry ice
/// that would freeze the drink; missing settings; laws asked outside their range.
pub fn run(feed: &Batch, settings: &Settings<'_>) -> Result<Run, ProcessError> {
    let way = settings.mode("way", WAYS)?;
    match way {
        "dry-ice" => dry_ice(feed, settings),
        "fermentation" => fermented(feed, settings),
        _ => pressed(feed, settings),
    }
}

/// The drink as the law of solubility sees it.
fn drink(batch: &Batch) -> Result<(Drink, f64), ProcessError> {
    let volume = (batch.mass() / batch.density()?).cubic_metres();
    let sugar = Density::from_si(batch.contents[Component::Sugars] / volume);
    Ok((Drink { sugar, alcohol: batch.alcohol_by_volume() }, volume))
}

/// Gas from a cylinder or a cartridge.
fn pressed(feed: &Batch, settings: &Settings<'_>) -> Result<Run, ProcessError> {
    let mut batch = *feed;
    let cold = settings.temperature("drink_temperature")?;
    let energy = super::warming::hold(&mut batch, cold, settings.time("time")?)?;
    let (drink, volume) = drink(&batch)?;
    let pressure = match settings.optional("target_gas_dissolved") {
        Some(target) => {
            let wanted = Density::from_si(target / settings.share("approach")?.max(0.01));
            pressure_for_concentration(CO2, wanted, cold, drink)?
        }
        None => settings.pressure("gas_pressure")?,
    };
    let at_rest = dissolved(CO2, cold, pressure, drink)?;
    let time = settings.time("time")?;
    let constant = settings.time("shaking_time")?;
    let done = if settings.optional("target_gas_dissolved").is_some() {
        settings.share("approach")?.max(0.01)
    } else {
        1.0 - (-(time / constant)).exp()
    };
    let start = feed.gas.kilograms();
    let held = start + (at_rest.si() * volume - start) * done;
    batch.gas = Mass::from_kilograms(held * (1.0 - settings.share("lost_on_opening")?));
    let mut run = Run::of("drink", batch);
    run.energy = energy;
    if settings.trace {
        let course =
            |t: Time| start + (at_rest.si() * volume - start) * (1.0 - (-(t / constant)).exp());
        run.trace = Some(trace(&batch, time, volume, course));
    }
    finish(run, pressure, volume, time, settings)
}

/// Dry ice dropped into an open vessel.
fn dry_ice(feed: &Batch, settings: &Settings<'_>) -> Result<Run, ProcessError> {
    let ice = settings.share("dry_ice_share")? * feed.mass().kilograms();
    let (plain, volume) = drink(feed)?;
    if settings.mode("bottle", BOTTLES)? == "closed" {
        // A bottle holds about a twentieth of its volume as headspace: all of the gas goes there.
        let head = volume * HEADSPACE;
        let one = Pressure::from_bars(1.0);
        let bars = ice * specific_volume(Gas::CarbonDioxide, feed.temperature, one)? / head;
        let because = format!(
            "{:.0} g of dry ice in a closed bottle would reach {bars:.0} bar, and it bursts",
            1000.0 * ice
        );
        return Err(ProcessError::CannotWork { process: NAME, because });
    }
    let cold = Mass::from_kilograms(ice) * dry_ice_cooling_capacity(LEAVES_AT)?;
    let mut batch = *feed;
    batch.temperature = feed.temperature + rise(feed, -cold)?;
    if batch.temperature.celsius() < COLDEST {
        let because = format!(
            "{:.0} g of dry ice would take it to {:.0} °C and freeze it",
            1000.0 * ice,
            batch.temperature.celsius()
        );
        return Err(ProcessError::CannotWork { process: NAME, because });
    }
    let pressure = settings.place.pressure;
    let at_rest = dissolved(CO2, batch.temperature, pressure, plain)?;
    let stays = at_rest.si() * volume * settings.share("approach")?;
    batch.gas =
        Mass::from_kilograms(stays.min(feed.gas.kilograms() + ice).max(feed.gas.kilograms()));
    let mut run = Run::of("drink", batch);
    run.energy = EnergyBalance {
        supplied: -cold,
        into_food: -cold,
        into_vapour: Energy::ZERO,
        lost: Energy::ZERO,
    };
    let time = settings.time("time")?;
    if settings.trace {
        let end = batch.gas.kilograms();
        run.trace = Some(trace(&batch, time, volume, |t| end * (t / time)));
    }
    run.told.push(("dry_ice", ice));
    finish(run, pressure, volume, time, settings)
}

/// Headspace of a filled bottle over its content. Common practice.
const HEADSPACE: f64 = 0.05;

/// Yeast in the bottle: sugar to alcohol and gas.
fn fermented(feed: &Batch, settings: &Settings<'_>) -> Result<Run, ProcessError> {
    let mut batch = *feed;
    let warm = settings.temperature("fermentation_temperature")?;
    let time = settings.time("fermentation_time")?;
    let energy = super::warming::hold(&mut batch, warm, time)?;
    let (drink_before, volume) = drink(&batch)?;
    let wanted = settings.number("target_gas_dissolved")?;
    let gas = (wanted * volume - feed.gas.kilograms()).max(0.0);
    let sugar = gas / FROM_HEXOSE.0;
    if sugar > batch.contents[Component::Sugars] {
        let because = format!(
            "{wanted:.1} g/L of gas take {:.1} g of sugar, and it holds {:.1} g",
            1000.0 * sugar,
            1000.0 * batch.contents[Component::Sugars]
        );
        return Err(ProcessError::CannotWork { process: NAME, because });
    }
    let ethanol = sugar * FROM_HEXOSE.1;
    batch.contents[Component::Sugars] -= sugar;
    batch.contents[Component::Ethanol] += ethanol;
    batch.gas = feed.gas + Mass::from_kilograms(sugar - ethanol);
    let cold = settings.temperature("drink_temperature")?;
    let pressure = pressure_for_concentration(CO2, Density::from_si(wanted), cold, drink_before)?;
    let warm_pressure =
        pressure_for_concentration(CO2, Density::from_si(wanted), warm, drink_before)?;
    let mut run = Run::of("drink", batch);
    run.vapour = Contents::only(Component::Other, Mass::from_kilograms(sugar - ethanol));
    run.energy = energy;
    run.told = vec![
        ("sugar_used", sugar),
        ("alcohol_strength", batch.alcohol_by_volume()),
        ("bottle_pressure", warm_pressure.pascals()),
    ];
    if settings.trace {
        let end = batch.gas.kilograms();
        run.trace = Some(trace(&batch, time, volume, |t| end * (t / time)));
    }
    finish(run, pressure, volume, time, settings)
}

fn finish(
    mut run: Run,
    pressure: Pressure,
    volume: f64,
    time: Time,
    settings: &Settings<'_>,
) -> Result<Run, ProcessError> {
    let held = Density::from_si(run.streams[0].batch.gas.kilograms() / volume);
    run.told.push(("gas_dissolved", held.si()));
    run.told.push(("gas_volumes", gas_volumes(CO2, held)?));
    run.told.push(("gas_pressure", pressure.pascals()));
    run.attended = settings.time("handling_time")?;
    run.time = time + run.attended;
    Ok(run.clocked())
}

fn trace(batch: &Batch, end: Time, volume: f64, gas: impl Fn(Time) -> f64) -> Trace {
    let point = |index: u32| {
        let time = end * (f64::from(index) / f64::from(POINTS));
        Point {
            time,
            mass: batch.mass(),
            temperature: batch.temperature,
            measure: gas(time) / volume,
            aroma: 1.0,
        }
    };
    Trace::of("gas dissolved (kg/m³)", (1..=POINTS).map(point).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::process::testing::{Bench, food};

    fn lemonade() -> Batch {
        food(&[(Component::Water, 950.0), (Component::Sugars, 50.0)])
    }

    fn cylinder() -> Bench {
        Bench::of(NAME).with("gas_pressure", 3e5).with("time", 600.0)
    }

    fn held(bench: &Bench) -> f64 {
        bench.run(&lemonade()).unwrap().told("gas_dissolved").unwrap()
    }

    #[test]
    fn three_bar_cold_hold_seven_to_nine_grams_a_litre() {
        // Water at 4 °C holds 2.8 g/(L bar), about 4 volumes at 3 bar: Weiss 1974.
        let grams = held(&cylinder().with("lost_on_opening", 0.0).with("time", 3600.0));
        assert!((7.0..9.0).contains(&grams), "{grams}");
    }

    #[test]
    fn pressure_cold_and_shaking_help() {
        assert!(held(&cylinder().with("gas_pressure", 2e5)) < held(&cylinder()));
        assert!(held(&cylinder().with("drink_temperature", 293.15)) < held(&cylinder()));
        assert!(held(&cylinder().with("time", 20.0)) < held(&cylinder()));
        let target = cylinder().with("target_gas_dissolved", 6.0).with("lost_on_opening", 0.0);
        assert!((held(&target) - 6.0).abs() < 1e-3);
    }

    #[test]
    fn yeast_needs_two_grams_of_sugar_for_one_of_gas() {
        let brew = Bench::of(NAME).mode("way", "fermentation").with("target_gas_dissolved", 6.0);
        let run = brew.run(&lemonade()).unwrap();
        let ratio = run.told("sugar_used").unwrap() / run.vapour.total().kilograms();
        assert!((ratio - 180.16 / 88.02).abs() < 0.01);
    }

    #[test]
    fn dry_ice_works_open_and_is_refused_closed() {
        let dry = Bench::of(NAME).mode("way", "dry-ice").with("time", 600.0);
        let run = dry.clone().with("dry_ice_share", 0.04).run(&lemonade()).unwrap();
        assert!(run.streams[0].batch.temperature < lemonade().temperature);
        assert!(run.told("gas_dissolved").unwrap() < 3.0);
        let closed = dry.clone().mode("bottle", "closed").with("dry_ice_share", 0.01);
        assert!(matches!(closed.run(&lemonade()), Err(ProcessError::CannotWork { .. })));
        let frozen = dry.with("dry_ice_share", 0.3).run(&lemonade());
        assert!(matches!(frozen, Err(ProcessError::CannotWork { .. })));
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let water = food(&[(Component::Water, 1000.0)]);
        let brew = Bench::of(NAME).mode("way", "fermentation").with("target_gas_dissolved", 6.0);
        assert!(matches!(brew.run(&water), Err(ProcessError::CannotWork { .. })));
        let spirit = food(&[(Component::Water, 600.0), (Component::Ethanol, 400.0)]);
        assert!(matches!(cylinder().run(&spirit), Err(ProcessError::Physics(_))));
        let unset = Bench::of(NAME).with("time", 60.0).run(&lemonade());
        assert!(matches!(unset, Err(ProcessError::MissingSetting { .. })));
    }
}
