//! Questions about sediment, cream, clarity and particle sizes.

use crate::calc::{Answer, CalcError, Family, Given, Input, Output, Question};
use crate::physics::settling::batch::Vessel;
use crate::physics::settling::clarity::clarity;
use crate::physics::settling::cream::{fat_left, globule_sizes};
use crate::physics::settling::packing::{Packing, cake_solids_share, clear_liquid_share};
use crate::physics::settling::{Liquid, SizeDistribution, Suspension, sediment_time};
use crate::quantity::{Acceleration, Dimension};

pub(super) const SEDIMENT: Question = Question {
    name: "sediment",
    other_names: &["clear-yield", "cake-yield", "compaction"],
    family: Family::Parting,
    summary: "How tightly does pulp pack, and how much clear liquid is left",
    example: "sediment --force \"1000 g\" --feed-solids \"6 %\"",
    inputs: &[
        Input::with_default(
            "force",
            Dimension::Acceleration,
            "1 g",
            "1 g standing, or the rotor's",
        ),
        Input::required("feed-solids", Dimension::Fraction, "volume share of pulp in the feed"),
        Input::with_default(
            "solids-at-1-g",
            Dimension::Fraction,
            "0.11",
            "solids share of the drained pulp at rest",
        ),
        Input::with_default(
            "packing-exponent",
            Dimension::Fraction,
            "0.125",
            "how the solids share grows with the force",
        ),
    ],
    outputs: &[
        Output { key: "cake_solids_fraction", label: "solids in the packed pulp", unit: "" },
        Output { key: "clear_yield_fraction", label: "clear liquid over feed", unit: "" },
    ],
    answer: sediment,
};

fn sediment(given: &Given) -> Result<Answer, CalcError> {
    let packing = Packing {
        share_at_one_g: given.number("solids-at-1-g"),
        exponent: given.number("packing-exponent"),
    };
    let cake = cake_solids_share(packing, given.acceleration("force"))?;
    Ok(Answer::new()
        .with("cake_solids_fraction", cake)
        .with("clear_yield_fraction", clear_liquid_share(given.number("feed-solids"), cake)?)
        .remark("How tightly pulp packs is an estimate from ranges of common practice."))
}

pub(super) const CREAM: Question = Question {
    name: "cream",
    other_names: &["creaming", "skim"],
    family: Family::Parting,
    summary: "How much fat has risen out of standing milk",
    example: "cream --depth \"10 cm\" --time \"12 h\"",
    inputs: &[
        Input::required("depth", Dimension::Length, "height of the milk"),
        Input::required("time", Dimension::Time, "how long it stands"),
        Input::choice(
            "milk",
            &["raw-cold", "raw-warm", "pasteurised-hot", "homogenised"],
            "raw-cold milk gathers its fat in clusters; the others do not",
        ),
        Input::with_default(
            "globule-diameter",
            Dimension::Length,
            "4 um",
            "median diameter of a globule; homogenised about 0.5 um",
        ),
        Input::with_default("fat-share", Dimension::Fraction, "4 %", "fat in the milk by mass"),
        Input::with_default("fat-density", Dimension::Density, "935 kg/m3", "density of the fat"),
        Input::with_default("serum-density", Dimension::Density, "1036 kg/m3", "of skimmed milk"),
        Input::with_default("serum-viscosity", Dimension::Viscosity, "2.9 mPa.s", "at 5 °C"),
    ],
    outputs: &[
        Output { key: "fat_left_fraction", label: "share of the fat still in the milk", unit: "" },
        Output { key: "fat_risen_fraction", label: "share of the fat in the cream", unit: "" },
        Output { key: "skim_fat_percent", label: "fat left in the skim", unit: "%" },
        Output { key: "single_globule_time_s", label: "time of one globule alone", unit: "s" },
    ],
    answer: cream,
};

fn cream(given: &Given) -> Result<Answer, CalcError> {
    const PER_CENT: f64 = 100.0;
    let gravity = Acceleration::from_standard_gravities(1.0);
    let (depth, globule) = (given.length("depth"), given.length("globule-diameter"));
    let serum = Liquid {
        density: given.density("serum-density"),
        viscosity: given.viscosity("serum-viscosity"),
    };
    let milk = Suspension::dilute(given.density("fat-density"), serum);
    let jar = Vessel::Jar { depth, acceleration: gravity };
    let clusters = given.word("milk") == "raw-cold";
    let left = fat_left(&globule_sizes(globule)?, &milk, jar, given.time("time"), clusters)?.share;
    let alone = sediment_time(globule, &milk, gravity, depth)?;
    let answer = Answer::new()
        .with("fat_left_fraction", left)
        .with("fat_risen_fraction", 1.0 - left)
        .with("skim_fat_percent", PER_CENT * left * given.number("fat-share"))
        .with("single_globule_time_s", alone.seconds());
    Ok(if clusters {
        answer.remark("Clusters of cold milk: an estimate within a factor of two. Keep it below 5 °C; raw milk can carry germs.")
    } else {
        answer.remark("Without clusters each globule rises alone.")
    })
}

pub(super) const CLARITY: Question = Question {
    name: "clarity",
    other_names: &["turbidity", "haze"],
    family: Family::Parting,
    summary: "How clear does a liquid look that still holds some particles",
    example: "clarity --solids-share \"0.01 %\" --particle-diameter \"2 um\"",
    inputs: &[
        Input::required("solids-share", Dimension::Fraction, "volume share of particles left"),
        Input::required("particle-diameter", Dimension::Length, "their Sauter mean diameter"),
        Input::with_default(
            "relative-index",
            Dimension::Fraction,
            "1.05",
            "refractive index over that of the liquid: cells 1.03-1.05, fat 1.08, starch 1.14",
        ),
    ],
    outputs: &[
        Output { key: "turbidity_ntu", label: "turbidity, an estimate", unit: "NTU" },
        Output { key: "sight_m", label: "depth through which a dark mark is seen", unit: "m" },
        Output { key: "attenuation_per_m", label: "beam attenuation", unit: "1/m" },
    ],
    answer: haze,
};

fn haze(given: &Given) -> Result<Answer, CalcError> {
    let (share, index) = (given.number("solids-share"), given.number("relative-index"));
    let seen = clarity(share, given.length("particle-diameter"), index)?;
    Ok(Answer::new()
        .with("turbidity_ntu", seen.turbidity_ntu)
        .with_optional("sight_m", Some(seen.sight.metres()).filter(|sight| sight.is_finite()))
        .with("attenuation_per_m", seen.attenuation_per_m)
        .remark("Turbidity and sight are estimates within a factor of two; colour is left out."))
}

pub(super) const SIZES: Question = Question {
    name: "sizes",
    other_names: &["size-distribution", "log-normal"],
    family: Family::Parting,
    summary: "What share of a powder, pulp or emulsion lies below a size",
    example: "sizes --median \"20 um\" --spread 2 --limit \"30 um\"",
    inputs: &[
        Input::required("median", Dimension::Length, "diameter below which half of the mass lies"),
        Input::optional("spread", Dimension::Fraction, "geometric standard deviation"),
        Input::optional("d90", Dimension::Length, "or the diameter below which 90 % lies"),
        Input::optional("limit", Dimension::Length, "a size to ask about, such as a sieve"),
    ],
    outputs: &[
        Output { key: "geometric_deviation", label: "geometric standard deviation", unit: "" },
        Output { key: "d10_m", label: "diameter below which 10 % lies", unit: "m" },
        Output { key: "d90_m", label: "diameter below which 90 % lies", unit: "m" },
        Output { key: "d32_m", label: "Sauter mean diameter", unit: "m" },
        Output { key: "d43_m", label: "mass mean diameter", unit: "m" },
        Output { key: "share_below_fraction", label: "share below the size", unit: "" },
        Output { key: "median_below_m", label: "median of what lies below", unit: "m" },
    ],
    answer: sizes,
};

fn sizes(given: &Given) -> Result<Answer, CalcError> {
    let median = given.length("median");
    let sizes = match (given.optional_number("spread"), given.optional_length("d90")) {
        (Some(spread), None) => SizeDistribution::new(median, spread)?,
        (None, Some(d90)) => SizeDistribution::from_median_and_d90(median, d90)?,
        _ => return Err(CalcError::combination("give either `spread` or `d90`")),
    };
    let answer = Answer::new()
        .with("geometric_deviation", sizes.geometric_deviation())
        .with("d10_m", sizes.diameter_at(0.1).metres())
        .with("d90_m", sizes.d90().metres())
        .with("d32_m", sizes.sauter_mean().metres())
        .with("d43_m", sizes.mass_mean().metres());
    let Some(limit) = given.optional_length("limit") else { return Ok(answer) };
    let below = sizes.part_below(limit).map(|(_, part)| part.median().metres());
    Ok(answer
        .with("share_below_fraction", sizes.share_below(limit))
        .with_optional("median_below_m", below))
}
