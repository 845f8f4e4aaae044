//! Air pressure with altitude, and moist air.
