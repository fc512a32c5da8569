//! All tests of `estimate` in one program: one link instead of one a file.

mod scrap;
mod weights;
