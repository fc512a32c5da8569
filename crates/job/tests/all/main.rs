//! All tests of `job` in one program: one link instead of one a file.

mod call_out_truck;
mod common;
mod gig_lockers;
mod hands;
mod mutations;
mod openings;
mod read;
mod refusals;
mod rescue_skiff;
mod sane_sizes;
mod schema;
mod walkways;
