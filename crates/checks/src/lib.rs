//! Rules that a part must pass before it is cut, one file each.
