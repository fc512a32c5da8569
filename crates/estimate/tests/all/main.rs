//! All tests of `estimate` in one program: one link instead of one a file.

mod prices;
mod scrap;
mod weights;
