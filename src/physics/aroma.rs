//! Aroma compounds between air, water and fat.
