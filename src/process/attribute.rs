//! What can be measured on a batch, by the ids of the knowledge base.

use super::{Batch, Component};
use crate::knowledge::NoteClass;

/// Measures one attribute of a product made from a feed, in SI; `None` where it has no meaning.
pub type Measure = fn(&Batch, &Batch) -> Option<f64>;

/// Every attribute by id, in alphabetical order: feed and product to the result.
pub const ATTRIBUTES: &[(&str, Measure)] = &[
    ("alcohol", |_, product| Some(product.alcohol_by_volume())),
    ("aroma-base", |_, product| product.aroma.left(NoteClass::Base)),
    ("aroma-middle", |_, product| product.aroma.left(NoteClass::Middle)),
    ("aroma-top", |_, product| product.aroma.left(NoteClass::Top)),
    ("browning", |feed, product| {
        Some((product.heat.browning - feed.heat.browning).seconds().max(0.0))
    }),
    ("cloud", |feed, product| feed.pulp.map(|_| product.suspended_share())),
    ("colour-kept", |feed, product| Some(product.heat.colour / feed.heat.colour)),
    ("cooked-flavour", |feed, product| {
        Some((product.heat.cooked - feed.heat.cooked).seconds().max(0.0))
    }),
    ("dilution", |feed, product| {
        let mass = product.mass();
        (mass.si() > 0.0).then(|| (product.added - feed.added).si().max(0.0) / mass.si())
    }),
    ("hottest", |_, product| Some(product.heat.hottest.kelvin())),
    ("largest-particle", |feed, product| {
        // Nothing that floats: finer than anything that can be seen.
        feed.pulp.map(|_| product.largest_particle().map_or(0.0, |size| size.metres()))
    }),
    ("product-yield", |feed, product| {
        (feed.mass().si() > 0.0).then(|| product.mass() / feed.mass())
    }),
    ("solids-kept", |feed, product| {
        let before = feed.contents.solutes().si();
        (before > 0.0).then(|| product.contents.solutes().si() / before)
    }),
    ("soluble-solids", |_, product| Some(product.contents.soluble_solids())),
    ("vitamin-c-kept", |feed, product| Some(product.heat.vitamin_c / feed.heat.vitamin_c)),
    ("water-removed", |feed, product| {
        let gone = feed.contents[Component::Water] - product.contents[Component::Water];
        (feed.mass().si() > 0.0).then(|| gone / feed.mass().si())
    }),
];

/// Measures an attribute by id; `None` for an unknown id or where it has no meaning.
pub fn measure(id: &str, feed: &Batch, product: &Batch) -> Option<f64> {
    let (_, of) = ATTRIBUTES.iter().find(|(known, _)| *known == id)?;
    of(feed, product).filter(|result| result.is_finite())
}
