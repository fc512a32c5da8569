//! All tests of `units` in one program: one link instead of one a file.

mod angle_and_money;
mod apportion;
mod length;
mod sheet_weight;
