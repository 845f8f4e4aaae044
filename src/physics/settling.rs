//! Settling, creaming and centrifuging of particles.
