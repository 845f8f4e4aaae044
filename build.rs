//! Rebuilds the binary when a knowledge file is added or changed.

fn main() {
    println!("cargo::rerun-if-changed=knowledge");
}
