//! Sampled batches of an ingredient.

use super::Sampler;
use crate::estimate::Estimate;
use crate::knowledge::{AromaCompound, Food, Knowledge};
use crate::physics::PhysicsError;
use crate::physics::settling::SizeDistribution;
use crate::process::{Batch, Component, Contents, Marker, Pulp};
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

/// Returns one batch a sample of an ingredient, `factor` times its mass in the recipe.
///
/// # Errors
/// [`FeedError`] for an unknown food or impossible particle sizes.
pub fn feeds(
    ingredient: &Ingredient,
    factor: f64,
    knowledge: &Knowledge,
    sampler: &Sampler,
) -> Result<Vec<Batch>, FeedError> {
    let food = knowledge
        .foods
        .get(&ingredient.food)
        .ok_or_else(|| FeedError::UnknownFood { food: ingredient.food.clone() })?;
    let contents = Contents::of(ingredient.mass * factor, &ingredient.shares);
    let temperature =
        ingredient.temperature.map_or(USUAL_TEMPERATURE, |stated| Estimate::exact(stated.kelvin()));
    let aromas: Vec<&AromaCompound> =
        food.aromas.iter().filter_map(|id| knowledge.aromas.get(id)).collect();
    let mut batches = Vec::with_capacity(sampler.count());
    let warm = sampler.column(&format!("ingredient/{}/temperature", ingredient.id));
    let draw = Draw { food, sampler };
    for sample in 0..sampler.count() {
        let kelvin = temperature.quantile(warm[sample]);
        let mut batch = Batch::raw(contents, Temperature::from_kelvin(kelvin));
        batch.monosaccharides = draw.value("monosaccharide_share", sample).unwrap_or(0.0);
        batch.ph = ingredient.ph.or_else(|| draw.value("ph", sample)).unwrap_or(batch.ph);
        batch.pores = draw.value("pore_share", sample).unwrap_or(0.0);
        batch.pulp = draw.pulp(&contents, sample)?;
        batch.droplets = draw.sizes("droplet_size", "droplet_spread", sample)?;
        batches.push(batch);
    }
    for compound in aromas {
        add_marker(&mut batches, compound, sampler);
    }
    Ok(batches)
}

/// Draws the values of one food.
struct Draw<'a> {
    food: &'a Food,
    sampler: &'a Sampler,
}

impl Draw<'_> {
    fn value(&self, name: &str, sample: usize) -> Option<f64> {
        let value = self.food.values.get(name)?;
        if value.estimate.is_exact() {
            return Some(value.typical());
        }
        let column = self.sampler.column(&format!("food/{}/{name}", self.food.id));
        Some(value.estimate.quantile(column[sample]))
    }

    fn sizes(
        &self,
        median: &str,
        spread: &str,
        sample: usize,
    ) -> Result<Option<SizeDistribution>, FeedError> {
        let Some(median) = self.value(median, sample) else { return Ok(None) };
        let spread = self.value(spread, sample).unwrap_or(1.0).max(1.0);
        Ok(Some(SizeDistribution::new(Length::from_metres(median), spread)?))
    }

    fn pulp(&self, contents: &Contents, sample: usize) -> Result<Option<Pulp>, FeedError> {
        let Some(sizes) = self.sizes("pulp_size", "pulp_spread", sample)? else { return Ok(None) };
        let (Some(share), Some(difference), Some(holding)) = (
            self.value("insoluble_solids", sample),
            self.value("pulp_density_difference", sample),
            self.value("pulp_water_holding", sample),
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
