//! The rack as a file that the shop owns.

use std::path::Path;

use job::{Rack, rack_text, read_rack};

use super::super::shop_file::Kind;
use crate::speech::Refusal;

/// What the rack is called where nobody names another.
pub(super) const NAME: &str = "rack.json";

const RACK: Kind<Rack> = Kind {
    name: "the rack",
    missing: "name the rack with --rack, or begin one with: plateloft rack add",
    read: read_rack,
    text: rack_text,
};

/// The rack as it stands.
pub(crate) fn read(path: &Path) -> Result<Rack, Refusal> {
    RACK.read(path)
}

/// Changes the rack while nobody else can. A rack that is not there is begun where `begin` says so. What `change`
/// refuses leaves everything as it was.
pub(super) fn change<T>(
    path: &Path,
    begin: bool,
    change: impl FnOnce(&mut Rack) -> Result<T, Refusal>,
) -> Result<T, Refusal> {
    RACK.change(path, begin, change)
}
