//! All tests of `nest` in one program: one link instead of one a file.

mod angles;
mod bar_checks;
mod bar_cutting;
mod bar_least_cost;
mod bar_open_sets;
mod bounds;
mod cells;
mod covering;
mod cutting;
mod damage;
mod damage_wide;
mod drops;
mod judging;
mod mirror;
mod mixes;
mod offcuts;
mod open_instances;
mod rectangles;
mod roll;
mod second_solver;
mod shared_cuts;
mod slanted_cuts;
mod together;
mod trays;
mod wild;
