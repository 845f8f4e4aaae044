//! Ice and its vapour.
