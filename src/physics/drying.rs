//! Drying of thin layers and slabs in air.
