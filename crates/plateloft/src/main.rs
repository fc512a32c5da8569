//! From a job file to flat patterns, nested sheets and shop paper.
fn main() {}
