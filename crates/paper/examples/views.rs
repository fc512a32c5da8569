//! Times the views of folded parts: facets, choice of the view, hidden lines.
//!
//! `cargo run --release -p paper --example views`
#![expect(clippy::print_stdout, clippy::disallowed_methods, reason = "a benchmark tells how long it took")]

#[path = "../tests/all/common/mod.rs"]
mod common;

use std::time::Instant;

use fold::facets;
use paper::isometric::{Standing, choose, visible};

const TIMES: u32 = 20;

fn main() {
    for (mark, flat) in common::all() {
        let begun = Instant::now();
        let mut lines = 0;
        for _ in 0..TIMES {
            let facets = facets::of(&flat);
            lines = visible(&facets, choose(&facets, Standing::FaceUp)).len();
        }
        let each = begun.elapsed() / TIMES;
        println!("{mark}: {lines} lines in {:.2} ms", each.as_secs_f64() * 1000.0);
    }
}
