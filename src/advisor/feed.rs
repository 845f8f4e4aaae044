//! Sampled batches of an ingredient.

use super::sample::{Column, Sampler};
use crate::estimate::Estimate;
use crate::knowledge::{AromaCompound, Food, Knowledge};
use crate::physics::PhysicsError;
use crate::physics::settling::SizeDistribution;
use crate::process::{Batch, Carrier, Component, Contents, Marker, Pulp};
use crate::quantity::{Length, Mass, Temperature};
use crate::recipe::Ingredient;

/// Temperature of an ingredient for which the recipe states none: out of the refrigerator or off the
/// shelf. Common practice.
const USUAL_TEMPERATURE: Estimate = match Estimate::exact_range(277.15, 283.15, 293.15) {
    Some(range) => range,
    None => Estimate::exact(283.15),
};

/// Why an ingredient makes no batch.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum FeedError {
    /// The knowledge base has no such food.
    #[error("no food goes by `{food}`")]
    UnknownFood {
        /// The food.
        food: String,
    },
    /// Its particles have no sizes that can be.
    #[error(transparent)]
    Physics(#[from] PhysicsError),
}

/// Returns one batch a sample of an ingredient in the amount of the recipe.
///
/// # Errors
/// [`FeedError`] for an unknown food or impossible particle sizes.
pub fn feeds(
    ingredient: &Ingredient,
    knowledge: &Knowledge,
    sampler: &Sampler,
) -> Result<Vec<Batch>, FeedError> {
    let food = knowledge
        .foods
        .get(&ingredient.food)
        .ok_or_else(|| FeedError::UnknownFood { food: ingredient.food.clone() })?;
    let contents = Contents::of(ingredient.mass, &ingredient.shares);
    let temperature =
        ingredient.temperature.map_or(USUAL_TEMPERATURE, |stated| Estimate::exact(stated.kelvin()));
    let aromas: Vec<&AromaCompound> =
        food.aromas.iter().filter_map(|id| knowledge.aromas.get(id)).collect();
    let mut batches = Vec::with_capacity(sampler.count());
    let warm = sampler.column(&format!("ingredient/{}/temperature", ingredient.id));
    let values = Values::of(food, sampler);
    for (sample, warm) in warm.iter().enumerate() {
        let kelvin = temperature.quantile(*warm);
        let mut batch = Batch::raw(contents, Temperature::from_kelvin(kelvin));
        batch.monosaccharides = values.monosaccharides.at(sample).unwrap_or(0.0);
        batch.ph = ingredient.ph.or_else(|| values.ph.at(sample)).unwrap_or(batch.ph);
        batch.heat.carrier = Carrier::of(&food.group, food.poultry, batch.ph);
        batch.pores = values.pores.at(sample).unwrap_or(0.0);
        batch.pulp = values.pulp(&contents, sample)?;
        batch.droplets = sizes(&values.droplets, sample)?;
        batches.push(batch);
    }
    for compound in aromas {
        add_marker(&mut batches, compound, sampler);
    }
    Ok(batches)
}

/// A value of a food with its draws; none where the food does not state it.
struct Drawn<'a>(Option<(&'a Estimate, Option<Column>)>);

impl<'a> Drawn<'a> {
    fn of(name: &str, food: &'a Food, sampler: &Sampler) -> Self {
        Self(food.values.get(name).map(|value| {
            let unknown = !value.estimate.is_exact();
            let column = unknown.then(|| sampler.column(&format!("food/{}/{name}", food.id)));
            (&value.estimate, column)
        }))
    }

    fn at(&self, sample: usize) -> Option<f64> {
        let (estimate, column) = self.0.as_ref()?;
        Some(column.as_ref().map_or(estimate.typical(), |draws| estimate.quantile(draws[sample])))
    }
}

/// The values of a food that a batch takes over.
struct Values<'a> {
    monosaccharides: Drawn<'a>,
    ph: Drawn<'a>,
    pores: Drawn<'a>,
    /// Median and spread.
    droplets: [Drawn<'a>; 2],
    /// Median and spread.
    pulp: [Drawn<'a>; 2],
    insoluble: Drawn<'a>,
    density_difference: Drawn<'a>,
    water_holding: Drawn<'a>,
}

impl<'a> Values<'a> {
    fn of(food: &'a Food, sampler: &Sampler) -> Self {
        let drawn = |name| Drawn::of(name, food, sampler);
        Self {
            monosaccharides: drawn("monosaccharide_share"),
            ph: drawn("ph"),
            pores: drawn("pore_share"),
            droplets: [drawn("droplet_size"), drawn("droplet_spread")],
            pulp: [drawn("pulp_size"), drawn("pulp_spread")],
            insoluble: drawn("insoluble_solids"),
            density_difference: drawn("pulp_density_difference"),
            water_holding: drawn("pulp_water_holding"),
        }
    }

    fn pulp(&self, contents: &Contents, sample: usize) -> Result<Option<Pulp>, FeedError> {
        let Some(sizes) = sizes(&self.pulp, sample)? else { return Ok(None) };
        let (Some(share), Some(difference), Some(holding)) = (
            self.insoluble.at(sample),
            self.density_difference.at(sample),
            self.water_holding.at(sample),
        ) else {
            return Ok(None);
        };
        let matter = contents[Component::Fibre]
            + contents[Component::Starch]
            + contents[Component::Protein]
            + contents[Component::Other];
        let dry = (contents.dry_matter().kilograms() * share).min(matter);
        Ok(Some(Pulp {
            dry: Mass::from_kilograms(dry),
            sizes,
            density_difference: difference,
            water_holding: holding,
        }))
    }
}

fn sizes(
    [median, spread]: &[Drawn<'_>; 2],
    sample: usize,
) -> Result<Option<SizeDistribution>, FeedError> {
    let Some(median) = median.at(sample) else { return Ok(None) };
    let spread = spread.at(sample).unwrap_or(1.0).max(1.0);
    Ok(Some(SizeDistribution::new(Length::from_metres(median), spread)?))
}

fn add_marker(batches: &mut [Batch], compound: &AromaCompound, sampler: &Sampler) {
    let Some(partition) = compound.values.get("air_water_partition") else { return };
    let median = |name: &str| compound.values.get(name).map(crate::knowledge::Value::typical);
    let column = sampler.column(&format!("aroma/{}/air_water_partition", compound.id));
    for (batch, draw) in batches.iter_mut().zip(column.iter()) {
        batch.aroma.push(Marker {
            class: compound.note,
            partition: partition.estimate.quantile(*draw),
            slope_kelvin: median("partition_slope").unwrap_or(USUAL_SLOPE),
            log_p: median("log_p").unwrap_or(0.0),
            left: 1.0,
        });
    }
}

/// Temperature slope of the Henry solubility of a compound that states none \[K\]. Estimate: esters,
/// aldehydes and terpenes of the list lie between 4,500 and 7,000 K.
const USUAL_SLOPE: f64 = 5500.0;
