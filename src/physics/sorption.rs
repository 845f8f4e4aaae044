//! Water activity and moisture of food.
