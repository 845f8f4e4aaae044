//! Gas released into a room: concentration and oxygen left.
