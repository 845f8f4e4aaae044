//! Why a process model gave no result.

use crate::physics::PhysicsError;

/// Why a process could not be run.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ProcessError {
    /// A setting that the model needs is given by no appliance, move, recipe or default.
    #[error("`{process}` needs the setting `{setting}`")]
    MissingSetting {
        /// The process.
        process: &'static str,
        /// The setting.
        setting: &'static str,
    },
    /// A word of a mode is not one that the model knows.
    #[error("`{process}` has no {mode} `{word}`; it has {}", known.join(", "))]
    UnknownMode {
        /// The process.
        process: &'static str,
        /// The mode.
        mode: &'static str,
        /// The word as given.
        word: String,
        /// The words that it has.
        known: &'static [&'static str],
    },
    /// No process goes by the name.
    #[error("no process model goes by `{name}`")]
    UnknownProcess {
        /// The name.
        name: String,
    },
    /// The conditions cannot bring the change about at all.
    #[error("{process}: {because}")]
    CannotWork {
        /// The process.
        process: &'static str,
        /// Why, with the number that shows it.
        because: String,
    },
    /// A law was asked outside its range.
    #[error(transparent)]
    Physics(#[from] PhysicsError),
}
