//! Batch distillation of ethanol and water.
