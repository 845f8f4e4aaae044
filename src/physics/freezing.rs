//! Freezing and thawing times, and the size of ice crystals.
