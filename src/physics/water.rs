//! Water and steam on the saturation line and as a liquid at kitchen pressures.
