//! All tests of `stock` in one program: one link instead of one a file.

mod metals;
mod tables;
