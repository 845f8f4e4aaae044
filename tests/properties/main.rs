//! Physics over its whole stated range: no accident, right signs, right limits, exact inverses.
//!
//! Everything goes through [`standin::calc`], so that what is tested is what is printed.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first fault")]

mod asking;
mod asks;
mod inverses;
mod limits;
mod ranges;
mod trends;
