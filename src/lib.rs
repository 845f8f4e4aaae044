//! standin turns the laboratory steps of a professional recipe into home routes.
//!
//! The laboratory method and each home route are run through the same process models on the same
//! food; the quality that is lost is the difference between the two results. Knowledge is data in
//! `knowledge/`, physics is pure functions in [`physics`], and every number carries a range and a
//! source.

pub mod advisor;
pub mod book;
pub mod calc;
pub mod cli;
pub mod estimate;
pub mod finding;
pub mod kitchen;
pub mod knowledge;
pub mod notes;
pub mod physics;
pub mod process;
pub mod quantity;
pub mod reader;
pub mod recipe;
pub mod report;
pub mod trial;
