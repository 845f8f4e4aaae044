//! Trials: what a tester really did and measured, and what that changes.
//!
//! A trial is one small file ([`written`]), read with every doubt kept as a question and nothing
//! dropped ([`Trial`]), written so that no interruption leaves half a file ([`Store`]), and never
//! overwritten: a correction is appended ([`amend`]). Measured times and yields are compared with
//! what was predicted, and the comparison corrects later predictions ([`calibrate`]). Panels of
//! tasters are computed in [`panel`] and judged in [`judgement`].

pub mod amend;
pub mod calibrate;
pub mod cause;
pub mod conjugate;
pub mod judgement;
pub mod panel;
pub mod predict;
mod question;
mod reading;
mod record;
mod store;
pub mod student;
pub mod written;

pub use calibrate::{Calibration, Correction, Corrections, Observation};
pub use reading::Reading;
pub use record::{Actual, Conditions, MeasuredStep, ReadTrial, Trial};
pub use store::{Loaded, Store, StoreError, fingerprint};
