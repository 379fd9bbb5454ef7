//! weldbow
fn main() {}
