//! The samples that a verdict may draw.

use crate::advisor::Sampler;

/// How many samples are tried before all of them, in rising order.
const FEWER: [usize; 2] = [16, 256];

/// The samplers of a verdict: typical values, then a few samples, then all of them.
///
/// One set serves a recipe in many kitchens, which then share their draws.
#[derive(Debug)]
pub struct Draws {
    /// Every unknown at its median.
    pub(super) typical: Sampler,
    /// Fewer samples, in rising numbers; each set has strata of its own.
    pub(super) fewer: Vec<Sampler>,
    /// All samples; none when typical values are enough.
    pub(super) full: Option<Sampler>,
}

impl Draws {
    /// Makes samplers that go up to a full number of samples where a verdict asks for it.
    pub fn up_to(full: usize, seed: u64) -> Self {
        let all = Sampler::new(full, seed);
        let fewer = FEWER.into_iter().filter(|count| *count < all.count());
        let fewer = fewer.map(|count| all.fewer(count)).collect();
        Self { fewer, ..Self::of(all) }
    }

    /// Makes samplers that always draw the full number.
    pub fn always(full: usize, seed: u64) -> Self {
        Self::of(Sampler::new(full, seed))
    }

    /// Makes samplers of typical values alone.
    pub fn typical() -> Self {
        Self { full: None, ..Self::of(Sampler::new(1, 0)) }
    }

    fn of(all: Sampler) -> Self {
        Self { typical: all.fewer(1), fewer: Vec::new(), full: Some(all) }
    }
}
