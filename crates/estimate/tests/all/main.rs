//! All tests of `estimate` in one program: one link instead of one a file.

mod balance;
mod crating;
mod prices;
mod scrap;
mod weights;
