//! Salt brines and ice-salt cold baths.
