//! Holding hot: circulator, pot with a thermometer, insulated box, low oven.
//!
//! Answers when the core is warm, what the hold kills and cooks, and how far the bath falls.
//!
//! Food in a bag or a covered dish takes no water up and loses none. It follows its surroundings by
//! conduction (`super::body`); an insulated box falls with one time constant after its water and
//! the food have met. Temperature swings count as half of the time above and half below. Mode
//! `medium`: bath, pot, box, oven.
//!
//! The hold lasts until every wish is met: `target_core_temperature`, then `hold_time` from there on,
//! `target_pasteurised` (equivalent time at 70 °C, z = 7.5 K), and `target_reductions` (decimal
//! reductions of the germ that mode `germ` names: salmonella, listeria, e-coli, perfringens or
//! botulinum, by what carries it; or of each by its own target). A culture that sours it meanwhile
//! is stated by the pH at which the cook stops, `culture_ph`.
//!
//! Sources: [`crate::physics::conduction`]; lethality by [`super::heat`]; softening first order.

use super::body::Body;
use super::course::Course;
use super::heat::expose;
use super::soften::Softening;
use super::{
    Batch, Carrier, CorePoint, EnergyBalance, Germ, HeatHistory, Point, ProcessError, Run,
    Settings, Trace,
};
use crate::knowledge::NoteClass;
use crate::physics::conduction::InsulatedBox;
use crate::quantity::{HeatTransfer, Mass, SpecificHeat, Temperature, Time};

/// The name of the process.
pub const NAME: &str = "hold";
/// A culture that sours the food to this pH is itself what keeps germs down meanwhile, so its warm hours
/// do not count. Yoghurt: 21 CFR 131.200, pH 4.6 or lower.
const CULTURED_PH: f64 = 4.6;
const MEDIA: &[&str] = &["bath", "pot", "box", "oven"];
/// Heat capacity of water near 60 °C [J/(kg K)]: IAPWS-IF97.
const WATER_HEAT: SpecificHeat = SpecificHeat::from_joules_per_kilogram_kelvin(4185.0);
/// What a recipe or a cook asks for, germ by germ in the order of [`Germ::ALL`].
const TARGETS: [&str; 5] = [
    "target_salmonella_killed",
    "target_listeria_killed",
    "target_e_coli_killed",
    "target_perfringens_killed",
    "target_botulinum_killed",
];
/// Pieces into which the hold is cut.
const PIECES: u32 = 20;
/// A hold that is longer than this has gone wrong. Estimate: three days.
const LONGEST: Time = Time::from_days(4.0);
/// Pasteurisation: z \[K\] and reference [°C], as in [`super::heat`]; the sum to be met.
const PASTEURISED: (f64, f64) = (7.5, 70.0);
/// Below this lethality is not counted [°C], as in [`super::heat`].
const PASTEURISED_FROM: f64 = 52.0;
/// A sine of amplitude one has this deviation.
const SINE_DEVIATION: f64 = std::f64::consts::FRAC_1_SQRT_2;

/// The surroundings over time: `room + (start - room) exp(-t / fall)`.
#[derive(Debug, Clone, Copy)]
struct Bath {
    start: Temperature,
    room: Temperature,
    /// Decay towards the room [1/s]; zero when it is held.
    fall: f64,
    /// Amplitude of the swings \[K\].
    swing: f64,
}

impl Bath {
    fn at(&self, time: Time) -> Temperature {
        self.room + (self.start - self.room) * (-self.fall * time.seconds()).exp()
    }
}

/// The decimal reductions that are wished for, by germ.
fn wished(settings: &Settings<'_>) -> Result<Vec<(Germ, f64)>, ProcessError> {
    let mut wishes = Vec::new();
    for (germ, name) in Germ::ALL.into_iter().zip(TARGETS) {
        wishes.extend(settings.optional(name).map(|wanted| (germ, wanted)));
    }
    if let Some(wanted) = settings.optional("target_reductions") {
        let word = settings.mode("germ", Germ::WORDS)?;
        wishes.extend(Germ::of(word).map(|germ| (germ, wanted)));
    }
    Ok(wishes)
}

/// Seconds at 70 °C that a second at a temperature is worth.
fn pasteurising(core: Temperature) -> f64 {
    let celsius = core.celsius();
    if celsius < PASTEURISED_FROM {
        return 0.0;
    }
    ((celsius - PASTEURISED.1) * std::f64::consts::LN_10 / PASTEURISED.0).exp()
}

/// A body on its way, stepped exactly while the surroundings stand.
#[derive(Debug, Clone, Copy)]
struct Way {
    bath: Bath,
    course: Course,
    /// The core does not move before this.
    lag: Time,
    /// What carries its germs.
    carrier: Carrier,
}

/// What a hold comes to.
struct Held {
    /// Temperature of the core at the end.
    core: Temperature,
    /// Average temperature at the end.
    mean: Temperature,
    /// Time that softened it, as at the reference of its softening.
    softened: Time,
    /// The core as it was put on record.
    course: Vec<CorePoint>,
}

/// Runs the model.
///
/// # Errors
/// [`ProcessError`] for a missing setting; [`ProcessError::CannotWork`] when the core never gets
/// there, when nothing says when to end, or when the hold would last for days.
pub fn run(feed: &Batch, settings: &Settings<'_>) -> Result<Run, ProcessError> {
    let way = Way::read(feed, settings)?;
    let reached = match settings.optional("target_core_temperature").map(Temperature::from_si) {
        Some(target) => Some(way.reaches(target)?),
        None => None,
    };
    let is_wished =
        settings.optional("target_pasteurised").is_some() || !wished(settings)?.is_empty();
    let held = settings.optional("hold_time").map(Time::from_si);
    if reached.is_none() && !is_wished && held.is_none() {
        return Err(ProcessError::MissingSetting { process: NAME, setting: "hold_time" });
    }
    let asked = reached.unwrap_or(Time::ZERO) + held.unwrap_or(Time::ZERO);
    let time = asked.max(way.safe_after(settings)?);
    if time > LONGEST {
        let because = format!("it would take {:.0} h", time.hours());
        return Err(ProcessError::CannotWork { process: NAME, because });
    }
    finish(feed, &way, time, reached, settings)
}

fn finish(
    feed: &Batch,
    way: &Way,
    time: Time,
    reached: Option<Time>,
    settings: &Settings<'_>,
) -> Result<Run, ProcessError> {
    let mut batch = *feed;
    let softening = Softening::read(settings)?;
    let dissolved = feed.contents.soluble_solids();
    let Held { core, mean, softened, course } =
        way.record(&mut batch.heat, time, dissolved, &softening);
    batch.heat.firmness *= softening.kept(softened);
    batch.temperature = mean;
    if let Some(soured) = settings.optional("culture_ph") {
        batch.ph = batch.ph.min(soured);
        if batch.ph <= CULTURED_PH {
            batch.heat.warm = feed.heat.warm;
        }
    }
    let heat = feed.mass() * (feed.heat_capacity()? * (mean - feed.temperature));
    let mut run = Run::of("held", batch);
    run.time = time;
    let share = settings.share("attended_share")?;
    run.attended = (settings.time("handling_time")? + time * share).min(time);
    run.energy = EnergyBalance { supplied: heat, into_food: heat, ..EnergyBalance::default() };
    run.told = vec![
        ("core_temperature", core.kelvin()),
        ("bath_start", way.bath.start.kelvin()),
        ("bath_end", way.bath.at(time).kelvin()),
        (
            "pasteurised_time",
            (run.streams[0].batch.heat.pasteurised - feed.heat.pasteurised).seconds(),
        ),
    ];
    run.told.extend(reached.map(|reached| ("core_reached", reached.seconds())));
    run.trace = settings.trace.then(|| Trace { core: course, ..way.trace(feed, time) });
    Ok(run.clocked())
}

impl Way {
    fn read(feed: &Batch, settings: &Settings<'_>) -> Result<Self, ProcessError> {
        let medium = settings.mode("medium", MEDIA)?;
        let set = settings.temperature("hold_temperature")?;
        let start = set + settings.difference("temperature_error")?;
        let room = settings.place.room_temperature;
        let swing = settings.difference("temperature_swing")?.kelvin().abs();
        let bath = match medium {
            "box" => insulated(feed, start, settings)?,
            _ => Bath { start, room, fall: 0.0, swing },
        };
        let body = Body::read(feed, settings)?;
        let transfer = match settings.optional("heat_transfer") {
            Some(stated) => HeatTransfer::from_si(stated),
            None => settings.heat_transfer(match medium {
                "bath" => "bath_transfer",
                "oven" => "oven_transfer",
                "pot" if body.is_stirred() => "pot_wall_transfer",
                _ => "still_water_transfer",
            })?,
        };
        let course = body.course(feed.temperature, bath.start, transfer)?;
        let lag = Time::from_seconds(course.core.ln().max(0.0) / course.rate);
        Ok(Self { bath, course, lag, carrier: feed.heat.carrier })
    }

    /// One step of a body towards surroundings that stand meanwhile.
    fn step(&self, from: Temperature, at: Time, step: Time) -> Temperature {
        let bath = self.bath.at(at + step * 0.5);
        bath + (from - bath) * (-self.course.rate * step.seconds()).exp()
    }

    /// When the core reaches a temperature.
    fn reaches(&self, target: Temperature) -> Result<Time, ProcessError> {
        if self.course.start >= target {
            return Ok(Time::ZERO);
        }
        if self.bath.fall <= 0.0 {
            return self.course.core_reaches(target).ok_or_else(|| never(self.bath.start, target));
        }
        let step = Time::from_seconds(0.1 / self.course.rate);
        let (mut core, mut time) = (self.course.start, self.lag);
        loop {
            let next = self.step(core, time, step);
            if next <= core {
                return Err(never(core, target));
            }
            if next >= target {
                return Ok(time + step * ((target - core) / (next - core)));
            }
            (core, time) = (next, time + step);
        }
    }

    /// When the core has gathered a sum of what runs at a rate.
    fn gathered(
        &self,
        wanted: f64,
        (unit, of_what): (&str, &str),
        rate: impl Fn(Temperature) -> f64,
    ) -> Result<Time, ProcessError> {
        let step = Time::from_seconds(0.1 / self.course.rate);
        let mut core = self.course.start;
        // Until the core moves, it gathers at the temperature that it came with.
        if let at_start @ f64::MIN_POSITIVE.. = rate(core)
            && wanted <= at_start * self.lag.seconds()
        {
            return Ok(Time::from_seconds(wanted / at_start));
        }
        let (mut time, mut sum) = (self.lag, rate(core) * self.lag.seconds());
        while time < LONGEST {
            let next = self.step(core, time, step);
            let gained = rate(core + (next - core) * 0.5) * step.seconds();
            if sum + gained >= wanted {
                return Ok(time + step * ((wanted - sum) / gained));
            }
            let settled = (next - core).kelvin().abs() < 1e-4;
            (core, time, sum) = (next, time + step, sum + gained);
            if settled && self.bath.fall <= 0.0 {
                break;
            }
            if self.bath.fall > 0.0 && next < core && rate(next) <= 0.0 {
                break;
            }
        }
        let pace = if self.bath.fall > 0.0 { 0.0 } else { rate(core) };
        if pace > 0.0 {
            return Ok(time + Time::from_seconds((wanted - sum) / pace));
        }
        let because = format!(
            "the core has {:.1} °C and gathers {sum:.1} {unit}{of_what} of the {wanted:.1} {unit} wanted",
            core.celsius()
        );
        Err(ProcessError::CannotWork { process: NAME, because })
    }

    /// When the wishes for pasteurisation and for named germs are met; zero without a wish.
    fn safe_after(&self, settings: &Settings<'_>) -> Result<Time, ProcessError> {
        let mut after = Time::ZERO;
        if let Some(minutes) = settings.optional("target_pasteurised").map(|s| s / 60.0) {
            let rate = |core| pasteurising(core) / 60.0;
            after = after.max(self.gathered(minutes, ("min", " at 70 °C"), rate)?);
        }
        for (germ, wanted) in wished(settings)? {
            let rate = |core| self.carrier.rate(germ, core);
            let of_what = format!(" of {}", Germ::WORDS[germ as usize]);
            after = after.max(self.gathered(wanted, ("decimal reductions", &of_what), rate)?);
        }
        Ok(after)
    }

    /// Puts the hold on the record.
    fn record(
        &self,
        heat: &mut HeatHistory,
        until: Time,
        dissolved: f64,
        softening: &Softening,
    ) -> Held {
        let start = self.course.start;
        let mut course = vec![CorePoint::of(Time::ZERO, start, heat)];
        let (mut core, mut mean) = (start, start);
        let (mut at_core, mut softened, mut time) = (*heat, Time::ZERO, Time::ZERO);
        for piece in 1..=PIECES {
            // Short pieces first: the food warms at the start.
            let end = until * (f64::from(piece * piece) / f64::from(PIECES * PIECES));
            let step = end - time;
            let next_mean = self.step(mean, time, step);
            let moving = (end - self.lag.max(time)).max(Time::ZERO);
            let next_core = self.step(core, end - moving, moving);
            let middle = |a: Temperature, b: Temperature| a + (b - a) * 0.5;
            let (m, c) = (middle(mean, next_mean), middle(core, next_core));
            expose(heat, m, step, dissolved);
            self.swung(&mut at_core, c, step, dissolved);
            softened += step * softening.relative(m);
            (mean, core, time) = (next_mean, next_core, end);
            course.push(CorePoint::of(end, core, &at_core));
        }
        heat.pasteurised = at_core.pasteurised;
        heat.sterilised = at_core.sterilised;
        heat.kills = at_core.kills;
        heat.warm = at_core.warm;
        heat.hottest = heat.hottest.max(core);
        Held { core, mean, softened, course }
    }

    /// Exposes the core, half of the time above and half below when the surroundings swing.
    fn swung(&self, heat: &mut HeatHistory, core: Temperature, time: Time, dissolved: f64) {
        let deviation = self.bath.swing * SINE_DEVIATION;
        if deviation <= 0.0 {
            return expose(heat, core, time, dissolved);
        }
        for sign in [-1.0, 1.0] {
            let off = Temperature::from_kelvin(core.kelvin() + sign * deviation);
            expose(heat, off, time * 0.5, dissolved);
        }
    }

    fn trace(&self, feed: &Batch, until: Time) -> Trace {
        let aroma = feed.aroma.left(NoteClass::Middle).unwrap_or(1.0);
        let step = until / f64::from(PIECES);
        let (mut core, mut mean) = (self.course.start, self.course.start);
        let mut points = Vec::new();
        for piece in 0..=PIECES {
            let time = step * f64::from(piece);
            points.push(Point {
                time,
                mass: feed.mass(),
                temperature: mean,
                measure: core.kelvin(),
                aroma,
            });
            mean = self.step(mean, time, step);
            let moving = (time + step - self.lag.max(time)).max(Time::ZERO);
            core = self.step(core, time + step - moving, moving);
        }
        Trace::of("core temperature (K)", points)
    }
}

/// An insulated box with hot water, once water and food have met.
fn insulated(
    feed: &Batch,
    start: Temperature,
    settings: &Settings<'_>,
) -> Result<Bath, ProcessError> {
    let room = settings.place.room_temperature;
    let filled = InsulatedBox {
        water: feed.mass() * settings.number("water_per_food")?,
        water_heat_capacity: WATER_HEAT,
        food: feed.mass(),
        food_heat_capacity: feed.heat_capacity()?,
        loss_w_per_k: 1.0,
        room,
    };
    if filled.water <= Mass::ZERO {
        let because = "a box without hot water holds nothing hot".to_owned();
        return Err(ProcessError::CannotWork { process: NAME, because });
    }
    let met = filled.mixing_temperature(start, feed.temperature)?;
    let constant = settings.time("box_time_constant")?;
    let fall = if constant > Time::ZERO { 1.0 / constant.seconds() } else { 0.0 };
    Ok(Bath { start: met, room, fall, swing: 0.0 })
}

fn never(highest: Temperature, target: Temperature) -> ProcessError {
    let because = format!(
        "the core gets no warmer than {:.1} °C, and {:.1} °C are wanted",
        highest.celsius(),
        target.celsius()
    );
    ProcessError::CannotWork { process: NAME, because }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::process::Component;
    use crate::process::testing::{Bench, food};

    fn meat(celsius: f64) -> Batch {
        let mut meat = food(&[(Component::Water, 720.0), (Component::Protein, 220.0)]);
        meat.heat.carrier = Carrier::Meat;
        meat.temperature = Temperature::from_celsius(celsius);
        meat
    }

    fn bath(celsius: f64) -> Bench {
        Bench::of(NAME).with("hold_temperature", Temperature::from_celsius(celsius).kelvin())
    }

    #[test]
    fn two_minutes_at_70_are_ten_at_65() {
        // UK Food Standards Agency: 70 °C for 2 min, 65 °C for 10 min.
        let run = bath(65.0).with("target_pasteurised", 120.0).run(&meat(65.0)).unwrap();
        assert!((run.time.minutes() / 10.0 - 1.0).abs() < 0.1, "{}", run.time.minutes());
    }

    #[test]
    fn a_wish_is_met_from_the_cold_too_and_a_hardier_germ_takes_longer() {
        let minutes = |germ: &str| {
            let bench = bath(64.0).mode("germ", germ).with("target_reductions", 6.0).traced();
            bench.run(&meat(5.0)).unwrap().time.minutes()
        };
        assert!(minutes("listeria") > minutes("salmonella"));
        assert!(minutes("salmonella") > 20.0, "the core has to get warm first");
    }

    #[test]
    fn a_target_of_its_own_asks_the_same_as_a_named_germ() {
        let named = bath(60.0).mode("germ", "e-coli").with("target_reductions", 5.0);
        let own = bath(60.0).with("target_e_coli_killed", 5.0);
        let time = |bench: Bench| bench.run(&meat(60.0)).unwrap().time;
        assert_eq!(time(named), time(own));
    }

    #[test]
    fn a_bath_that_kills_nothing_is_refused() {
        let cool = bath(50.0).with("target_reductions", 6.5);
        assert!(matches!(cool.run(&meat(5.0)), Err(ProcessError::CannotWork { .. })));
        let endless = bath(60.0).run(&meat(5.0));
        assert!(matches!(endless, Err(ProcessError::MissingSetting { .. })));
    }

    #[test]
    fn the_core_on_record_ends_as_the_product_does() {
        let run = bath(62.0).with("hold_time", 3600.0).traced().run(&meat(5.0)).unwrap();
        let (core, heat) =
            (run.trace.as_ref().unwrap().core.last().unwrap(), &run.streams[0].batch.heat);
        assert_eq!((core.time, core.kills), (run.time, heat.kills));
        assert_eq!((core.pasteurised, core.sterilised), (heat.pasteurised, heat.sterilised));
        assert!(run.trace.unwrap().core.windows(2).all(|two| two[0].time <= two[1].time));
    }
}
