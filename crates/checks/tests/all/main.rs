//! All tests of `checks` in one program: one link instead of one a file.

mod bends;
mod common;
mod cuts;
mod fits;
mod holes;
mod machine;
mod openings;
mod rolled;
mod rules;
mod tilted;
mod tilted_sideways;
