//! All tests of `paper` in one program: one link instead of one a file.

mod common;
mod isometric;
mod layout_sheet;
mod lists;
mod pdf;
mod plain_outline;
mod sheet_map;
