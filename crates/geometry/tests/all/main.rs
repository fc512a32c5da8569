//! All tests of `geometry` in one program: one link instead of one a file.

mod nofit;
mod outlines;
mod outward;
mod second_library;
