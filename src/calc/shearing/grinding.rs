//! Questions about grinding and what the mouth feels of it.

use crate::calc::{Answer, CalcError, Family, Given, Input, Output, Question};
use crate::physics::grinding::mouthfeel::{
    CHOCOLATE_GRIT, Carrier, HARD_GRAIN, JUST_NOTICED_RATIO, SOFT_GRAIN, gritty_share,
};
use crate::physics::grinding::{
    Grinder, energy_bond, energy_kick, energy_rittinger, product_size_bond,
};
use crate::quantity::{Dimension, SpecificEnergy};

/// Joules per kilogram in a kilowatt-hour per tonne.
const KILOWATT_HOUR_PER_TONNE: f64 = 3600.0;
const DUST: &str = "Fine dry powder makes an explosive and irritating dust: small lots, lid on, no \
                    flame near.";

pub(super) const GRIND: Question = Question {
    name: "grind",
    other_names: &["bond", "grinding-energy"],
    family: Family::Shearing,
    summary: "How much energy does grinding take, or how fine does an energy grind",
    example: "grind --feed \"2 mm\" --product \"100 um\" --work-index \"36 kJ/kg\"",
    inputs: &[
        Input::required("feed", Dimension::Length, "size below which 80 % of the feed lies"),
        Input::optional("product", Dimension::Length, "size below which 80 % of the product lies"),
        Input::optional("energy", Dimension::SpecificEnergy, "or the energy put in per mass"),
        Input::with_default(
            "work-index",
            Dimension::SpecificEnergy,
            "36 kJ/kg",
            "Bond's work index, 10 kWh/t = 36 kJ/kg; also Kick's constant",
        ),
        Input::optional(
            "rittinger-constant",
            Dimension::Fraction,
            "Rittinger's constant as a plain number of J m/kg",
        ),
    ],
    outputs: &[
        Output { key: "bond_energy_j_kg", label: "energy by Bond", unit: "J/kg" },
        Output { key: "bond_energy_kwh_t", label: "energy by Bond", unit: "kWh/t" },
        Output { key: "kick_energy_j_kg", label: "energy by Kick", unit: "J/kg" },
        Output { key: "rittinger_energy_j_kg", label: "energy by Rittinger", unit: "J/kg" },
        Output { key: "product_size_m", label: "size below which 80 % lies", unit: "m" },
    ],
    answer: grind,
};

fn grind(given: &Given) -> Result<Answer, CalcError> {
    let (feed, index) = (given.length("feed"), given.specific_energy("work-index"));
    let answer = match (given.optional_length("product"), given.optional_specific_energy("energy"))
    {
        (Some(product), None) => {
            let bond: SpecificEnergy = energy_bond(index, feed, product)?;
            let rittinger = given
                .optional_number("rittinger-constant")
                .map(|constant| energy_rittinger(constant, feed, product))
                .transpose()?;
            Answer::new()
                .with("bond_energy_j_kg", bond.si())
                .with("bond_energy_kwh_t", bond.si() / KILOWATT_HOUR_PER_TONNE)
                .with("kick_energy_j_kg", energy_kick(index, feed, product)?.si())
                .with_optional("rittinger_energy_j_kg", rittinger.map(|energy| energy.si()))
        }
        (None, Some(energy)) => {
            let product = product_size_bond(index, feed, energy)?;
            Answer::new().with("product_size_m", product.metres())
        }
        _ => return Err(CalcError::combination("give either `product` or `energy`")),
    };
    Ok(answer
        .remark(
            "The energy at the grains; a kitchen machine draws 10 to 100 times more (estimate).",
        )
        .remark(DUST))
}

pub(super) const GRIND_TIME: Question = Question {
    name: "grind-time",
    other_names: &["grinding-time"],
    family: Family::Shearing,
    summary: "How fine is it after a time of grinding, or how long does it take",
    example: "grind-time --feed \"2 mm\" --limit \"70 um\" --time-constant \"1 min\" --time \"4 min\"",
    inputs: &[
        Input::required("feed", Dimension::Length, "size at the start"),
        Input::required("limit", Dimension::Length, "finest size of this machine with this food"),
        Input::required(
            "time-constant",
            Dimension::Time,
            "time in which the excess over the limit falls to 37 %",
        ),
        Input::optional("time", Dimension::Time, "time of grinding"),
        Input::optional("size", Dimension::Length, "or the size wanted"),
    ],
    outputs: &[
        Output { key: "size_m", label: "size after the time", unit: "m" },
        Output { key: "grinding_time_s", label: "time to the size", unit: "s" },
    ],
    answer: grind_time,
};

fn grind_time(given: &Given) -> Result<Answer, CalcError> {
    let grinder =
        Grinder { limit: given.length("limit"), time_constant: given.time("time-constant") };
    let feed = given.length("feed");
    match (given.optional_time("time"), given.optional_length("size")) {
        (Some(time), None) => {
            Ok(Answer::new().with("size_m", grinder.size_after(feed, time)?.metres()))
        }
        (None, Some(size)) => {
            Ok(Answer::new().with("grinding_time_s", grinder.time_to(feed, size)?.seconds()))
        }
        _ => Err(CalcError::combination("give either `time` or `size`")),
    }
}

pub(super) const MOUTHFEEL: Question = Question {
    name: "mouthfeel",
    other_names: &["grittiness", "smoothness"],
    family: Family::Shearing,
    summary: "Does the mouth feel grains of a size",
    example: "mouthfeel --size \"30 um\" --carrier thin-suspension",
    inputs: &[
        Input::required("size", Dimension::Length, "size of the grains"),
        Input::choice(
            "carrier",
            &["water", "thin-suspension", "soft-gel"],
            "what the grains are in",
        ),
    ],
    outputs: &[
        Output { key: "gritty_share_fraction", label: "share that half of tasters feel", unit: "" },
        Output { key: "chocolate_gritty_bool", label: "gritty in chocolate (1 yes)", unit: "" },
        Output { key: "hard_grain_felt_bool", label: "hard grains felt singly (1 yes)", unit: "" },
        Output { key: "soft_grain_felt_bool", label: "soft grains felt singly (1 yes)", unit: "" },
        Output { key: "next_noticed_size_m", label: "next size told apart", unit: "m" },
    ],
    answer: mouthfeel,
};

fn mouthfeel(given: &Given) -> Result<Answer, CalcError> {
    let size = given.length("size");
    crate::physics::positive("size", size.metres(), "m")?;
    let carrier = match given.word("carrier") {
        "soft-gel" => Carrier::SoftGel,
        "thin-suspension" => Carrier::ThinSuspension,
        _ => Carrier::Water,
    };
    let felt = |limit| f64::from(u8::from(size >= limit));
    let answer = Answer::new()
        .with("chocolate_gritty_bool", felt(CHOCOLATE_GRIT))
        .with("hard_grain_felt_bool", felt(HARD_GRAIN))
        .with("soft_grain_felt_bool", felt(SOFT_GRAIN))
        .with("next_noticed_size_m", size.metres() * JUST_NOTICED_RATIO);
    Ok(match gritty_share(size, carrier) {
        Ok(share) => answer.with("gritty_share_fraction", share),
        Err(error) => answer.remark(format!("No share: {error}.")),
    })
}
