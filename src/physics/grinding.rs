//! Grinding: energy, limit size, and what the mouth can feel.
