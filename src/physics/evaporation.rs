//! Evaporation: rolling boil, warm surface, vacuum.
