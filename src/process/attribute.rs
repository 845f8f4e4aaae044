//! What can be measured on a batch, by the ids of the knowledge base.

use super::{Batch, Component, Germ};
use crate::knowledge::NoteClass;
use crate::quantity::Temperature;

/// Measures one attribute of a product made from a feed, in SI; `None` where it has no meaning.
pub type Measure = fn(&Batch, &Batch) -> Option<f64>;

/// The temperature at which water activity is told: that of published tables.
const ACTIVITY_AT: Temperature = Temperature::from_celsius(25.0);

/// Every attribute by id, in alphabetical order: feed and product to the result.
pub const ATTRIBUTES: &[(&str, Measure)] = &[
    ("acidity", |_, product| Some(product.ph)),
    ("alcohol", |_, product| Some(product.alcohol_by_volume())),
    ("aroma-base", |_, product| product.aroma.left(NoteClass::Base)),
    ("aroma-middle", |_, product| product.aroma.left(NoteClass::Middle)),
    ("aroma-top", |_, product| product.aroma.left(NoteClass::Top)),
    ("botulinum-killed", |feed, product| killed(feed, product, Germ::Botulinum)),
    ("browning", |feed, product| {
        Some((product.heat.browning - feed.heat.browning).seconds().max(0.0))
    }),
    ("bubbles-left", |_, product| Some(product.air)),
    ("cloud", |feed, product| feed.pulp.map(|_| product.suspended_share())),
    ("colour-kept", |feed, product| Some(product.heat.colour / feed.heat.colour)),
    ("cooked-flavour", |feed, product| {
        Some((product.heat.cooked - feed.heat.cooked).seconds().max(0.0))
    }),
    ("creams-after", |_, product| product.time_to_cream().map(|time| time.seconds())),
    ("dilution", |feed, product| {
        let mass = product.mass();
        (mass.si() > 0.0).then(|| (product.added - feed.added).si().max(0.0) / mass.si())
    }),
    ("droplet-size", |_, product| product.droplets.map(|sizes| sizes.median().metres())),
    ("e-coli-killed", |feed, product| killed(feed, product, Germ::EscherichiaColi)),
    ("end-temperature", |_, product| Some(product.temperature.kelvin())),
    ("fat-left", |feed, product| {
        (feed.contents[Component::Fat] > 0.0).then(|| product.contents.share(Component::Fat))
    }),
    ("fat-recovered", |feed, product| {
        let before = feed.contents[Component::Fat];
        (before > 0.0).then(|| product.contents[Component::Fat] / before)
    }),
    ("firmness-kept", |feed, product| Some(product.heat.firmness / feed.heat.firmness)),
    ("frozen-share", |_, product| Some(product.ice.map_or(0.0, |ice| ice.frozen))),
    ("gas-dissolved", |_, product| {
        let volume = product.volume().ok()?.cubic_metres();
        (volume > 0.0).then(|| product.gas.kilograms() / volume)
    }),
    ("hottest", |_, product| Some(product.heat.hottest.kelvin())),
    ("ice-crystal", |_, product| product.ice.map(|ice| ice.crystal.metres())),
    ("infused", |_, product| Some(product.infused)),
    ("largest-grain", |_, product| product.grain.map(|sizes| sizes.d90().metres())),
    ("largest-particle", |feed, product| {
        // Nothing that floats: finer than anything that can be seen.
        feed.pulp.map(|_| product.largest_particle().map_or(0.0, |size| size.metres()))
    }),
    ("listeria-killed", |feed, product| killed(feed, product, Germ::Listeria)),
    ("moisture", |_, product| Some(product.contents.share(Component::Water))),
    ("overrun", |_, product| Some(product.air)),
    ("pasteurised", |feed, product| {
        Some((product.heat.pasteurised - feed.heat.pasteurised).seconds().max(0.0))
    }),
    ("perfringens-killed", |feed, product| killed(feed, product, Germ::Perfringens)),
    ("pores-left", |_, product| Some(product.pores)),
    ("product-yield", |feed, product| {
        (feed.mass().si() > 0.0).then(|| product.mass() / feed.mass())
    }),
    ("salmonella-killed", |feed, product| killed(feed, product, Germ::Salmonella)),
    ("saltiness", |_, product| {
        let mass = product.mass().kilograms();
        (mass > 0.0).then(|| product.contents[Component::Salt] / mass)
    }),
    ("solids-kept", |feed, product| {
        let before = feed.contents.solutes().si();
        (before > 0.0).then(|| product.contents.solutes().si() / before)
    }),
    ("soluble-solids", |_, product| Some(product.contents.soluble_solids())),
    ("sterilised", |feed, product| {
        Some((product.heat.sterilised - feed.heat.sterilised).seconds().max(0.0))
    }),
    ("time-taken", |feed, product| Some((product.elapsed - feed.elapsed).seconds().max(0.0))),
    ("vitamin-c-kept", |feed, product| Some(product.heat.vitamin_c / feed.heat.vitamin_c)),
    ("volume-kept", |_, product| Some(product.volume_left)),
    ("warm-time", |feed, product| Some((product.heat.warm - feed.heat.warm).seconds().max(0.0))),
    ("water-activity", |_, product| product.water_activity(ACTIVITY_AT).ok()),
    ("water-removed", |feed, product| {
        let gone = feed.contents[Component::Water] - product.contents[Component::Water];
        (feed.mass().si() > 0.0).then(|| gone / feed.mass().si())
    }),
];

/// Decimal reductions of a germ between feed and product.
#[expect(clippy::unnecessary_wraps, reason = "the shape of a measure")]
fn killed(feed: &Batch, product: &Batch, germ: Germ) -> Option<f64> {
    Some((product.heat.kills - feed.heat.kills)[germ])
}

/// Measures an attribute by id; `None` for an unknown id or where it has no meaning.
pub fn measure(id: &str, feed: &Batch, product: &Batch) -> Option<f64> {
    let (_, of) = ATTRIBUTES.iter().find(|(known, _)| *known == id)?;
    of(feed, product).filter(|result| result.is_finite())
}
