//! Break-up of droplets and the energy of mixing.
