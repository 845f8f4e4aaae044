//! Freeze drying: sublimation under vacuum.
