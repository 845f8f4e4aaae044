//! The commands through the binary.
