//! Liquid nitrogen and dry ice: cold, boil-off and gas.
